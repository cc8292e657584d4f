#include "screens/screens.h"

#include <algorithm>

#include "lib/things.h"
#include "screens/request.h"
#include "tenwinters/advise.h"
#include "wire/wire.h"

namespace tenwinters::screens {
namespace {

std::string fault(std::string_view what, std::string_view found) {
  wire::Text text;
  text.open('{');
  text.key("error");
  text.string(what);
  text.key("found");
  text.string(beginning_of(found));
  text.close('}');
  return text.take();
}

}  // namespace

const Json* Request::find(std::string_view key) {
  const auto at = json_.find(std::string(key));
  return at == json_.end() ? nullptr : &*at;
}

void Request::refuse(std::string_view key, std::string_view found) {
  if (error_.empty()) error_ = fault(key, found);
}

std::string Request::text(std::string_view key, std::string_view otherwise) {
  const Json* found = find(key);
  if (found == nullptr) return std::string(otherwise);
  if (found->is_string()) return found->get_ref<const std::string&>();
  refuse(key, found->type_name());
  return std::string(otherwise);
}

int Request::whole(std::string_view key, int otherwise, int least, int most) {
  const Json* found = find(key);
  if (found == nullptr) return otherwise;
  const bool fits = found->is_number_integer() && found->get<std::int64_t>() >= least && found->get<std::int64_t>() <= most;
  if (!fits) refuse(key, to_text(*found));
  return fits ? static_cast<int>(found->get<std::int64_t>()) : otherwise;
}

double Request::number(std::string_view key, double otherwise, double least, double most) {
  const Json* found = find(key);
  if (found == nullptr) return otherwise;
  const bool fits = found->is_number() && found->get<double>() >= least && found->get<double>() <= most;
  if (!fits) refuse(key, to_text(*found));
  return fits ? found->get<double>() : otherwise;
}

bool Request::truth(std::string_view key, bool otherwise) {
  const Json* found = find(key);
  if (found == nullptr) return otherwise;
  if (!found->is_boolean()) refuse(key, found->type_name());
  return found->is_boolean() ? found->get<bool>() : otherwise;
}

// The items of a list, or none.
std::span<const Json> Request::items(std::string_view key, std::size_t most) {
  const Json* found = find(key);
  if (found == nullptr) return {};
  if (found->is_array() && found->size() <= most) return found->get_ref<const Json::array_t&>();
  refuse(key, found->is_array() ? "too many" : found->type_name());
  return {};
}

std::vector<std::string> Request::texts(std::string_view key, std::size_t most) {
  std::vector<std::string> out;
  for (const Json& one : items(key, most)) {
    if (!one.is_string()) refuse(key, one.type_name());
    else out.push_back(one.get_ref<const std::string&>());
  }
  return out;
}

std::vector<const Json*> Request::objects(std::string_view key, std::size_t most) {
  std::vector<const Json*> out;
  for (const Json& one : items(key, most)) {
    if (!one.is_object()) refuse(key, one.type_name());
    else out.push_back(&one);
  }
  return out;
}

std::string words_to_json(const Language& language) {
  Json words = Json::object();
  for (const auto& [key, text] : language.words) words[key] = text;
  return to_text(words);
}

std::optional<Language> words_from_json(std::string_view text) {
  const Json json = from_text(text);
  if (!json.is_object()) return std::nullopt;
  Language language;
  for (const auto& [key, word] : json.items()) {
    if (!word.is_string()) return std::nullopt;
    language.words.emplace(key, word.get_ref<const std::string&>());
  }
  const auto code = language.words.find("language.code");
  if (code == language.words.end()) return std::nullopt;
  language.code = code->second;
  return language;
}

// A row: [kind, region, from, to, only, but, basis, seen], days as month * 100 + day.
std::string seasons_to_json(const Seasons& seasons) {
  Json rows = Json::array();
  const auto code = [](const MonthDay& day) { return day.month * 100 + day.day; };
  for (const Season& s : seasons.rows)
    rows.push_back(Json::array({name_of(s.kind), name_of(s.region), code(s.days.from), code(s.days.to), s.only, s.but, name_of(s.evidence.basis), s.evidence.seen}));
  return to_text(rows);
}

std::optional<Seasons> seasons_from_json(std::string_view text) {
  const Json json = from_text(text);
  if (!json.is_array()) return std::nullopt;
  const auto ids = [](const Json& list, std::vector<std::string>& out) {
    if (!list.is_array()) return false;
    for (const Json& one : list) {
      if (!one.is_string()) return false;
      out.push_back(one.get_ref<const std::string&>());
    }
    return true;
  };
  const auto day = [](const Json& number, MonthDay& out) {
    if (!number.is_number_integer()) return false;
    const auto code = number.get<std::int64_t>();
    if (code < 101 || code > 1231) return false;
    out = {static_cast<int>(code / 100), static_cast<int>(code % 100)};
    return out.day >= 1 && month_day(year_day(out)) == out;
  };
  Seasons seasons;
  for (const Json& row : json) {
    if (!row.is_array() || row.size() != 8 || !row[0].is_string() || !row[1].is_string() || !row[6].is_string() || !row[7].is_string()) return std::nullopt;
    const auto kind = parse<CalendarKind>(row[0].get_ref<const std::string&>());
    const auto region = parse<Region>(row[1].get_ref<const std::string&>());
    const auto basis = parse<Basis>(row[6].get_ref<const std::string&>());
    Season season;
    if (!kind || !region || !basis || !day(row[2], season.days.from) || !day(row[3], season.days.to) || !ids(row[4], season.only) || !ids(row[5], season.but))
      return std::nullopt;
    season.kind = *kind;
    season.region = *region;
    season.evidence.basis = *basis;
    season.evidence.seen = row[7].get_ref<const std::string&>();
    seasons.rows.push_back(std::move(season));
  }
  return seasons;
}

std::vector<std::string> asked_trees(const Asked& asked, std::size_t most) {
  std::vector<std::string> trees;
  for (std::string& id : asked.request.texts("trees", most)) {
    if (find_cultivar(asked.screens.catalog(), id) == nullptr) asked.request.refuse("trees", id);
    else if (std::find(trees.begin(), trees.end(), id) == trees.end()) trees.push_back(std::move(id));
  }
  return trees;
}

Screens::Screens(Catalog catalog, Office office, Seasons seasons, Language language)
    : catalog_(std::move(catalog)), office_(std::move(office)), seasons_(std::move(seasons)), language_(std::move(language)) {
  take_names(language_, catalog_, office_);
}

std::string Screens::answer(std::string_view text) {
  if (text.size() > kLongestRequest) return fault("request", "longer than 64 KiB");
  const Json json = from_text(text);
  if (!json.is_object()) return fault("request", text);
  Request request(json);

  const std::string id = request.text("place", office_.places.empty() ? "" : office_.places.front().id);
  const auto place = std::find_if(office_.places.begin(), office_.places.end(), [&](const Place& one) { return one.id == id; });
  if (place == office_.places.end()) return fault("place", id);
  const Units units = request.word("units", office_.units);
  const auto given = json.find("answers");
  const std::optional<Answers> answers = given == json.end() ? Answers{} : answers_from_json(to_text(*given));
  if (!answers) return fault("answers", given->type_name());
  for (const AnswerFault& wrong : check_answers(catalog_, *answers)) return fault("answers", wrong.question_unknown ? wrong.question : wrong.answer);

  auto ground = grounds_.find(id);
  if (ground == grounds_.end()) ground = grounds_.emplace(id, Ground{*place, make_replay(place->winters, catalog_.cold_model), {}}).first;
  keep_small(ground->second.memo);

  const Voice voice{catalog_, office_, language_, units};
  const Asked asked{request, *this, ground->second, voice, *answers};
  const std::string screen = request.text("screen", "");
  Shown shown;
  if (screen == "calendar") shown = calendar_screen(asked);
  else if (screen == "compare") shown = compare_screen(asked);
  else if (screen == "night") shown = night_screen(asked);
  else if (screen == "plan") shown = plan_screen(asked);
  else request.refuse("screen", screen);
  if (request.refused()) return request.error();

  wire::Text out;
  out.open('{');
  const auto put = [&](std::string_view key, std::string_view value) {
    out.key(key);
    out.string(value);
  };
  put("title", shown.title);
  put("status", shown.status);
  out.key("blocks");
  out.raw(shown.blocks);
  if (!shown.ics.empty()) {
    put("file", shown.file);
    put("ics", shown.ics);
  }
  out.close('}');
  return out.take();
}

}  // namespace tenwinters::screens
