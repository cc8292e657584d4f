#include <algorithm>
#include <iterator>
#include <utility>

#include "wire/json.h"
#include "wire/text.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

using wire::Json;

constexpr std::size_t kLongestRequest = 1 << 16;
// Beyond these a page would grow without end: some 30 MB each.
constexpr std::size_t kPlantings = 80000;
constexpr std::size_t kTracks = 4000;

// `found` may be anything: the answer shows its beginning, in ASCII.
std::string error(std::string_view what, std::string_view found, std::string_view nearest = {}) {
  constexpr std::size_t kShown = 80;
  std::string shown(found.substr(0, kShown));
  for (char& c : shown)
    if (static_cast<unsigned char>(c) > 0x7e) c = '?';
  wire::Text text;
  text.open('{');
  text.key("error");
  text.string(what);
  text.key("found");
  text.string(shown);
  text.key("nearest");
  text.string(nearest);
  text.close('}');
  return text.take();
}

// {"question": "answer", ...}, or nothing.
std::optional<Answers> read_answers(const Json& json) {
  if (!json.is_object()) return std::nullopt;
  Answers answers;
  for (const auto& [question, answer] : json.items()) {
    if (!answer.is_string()) return std::nullopt;
    answers[question] = answer.get_ref<const std::string&>();
  }
  return answers;
}

}  // namespace

std::optional<Answers> answers_from_json(std::string_view text) { return read_answers(wire::from_text(text)); }

Desk::Desk(Catalog catalog, Office office) : catalog_(std::move(catalog)), office_(std::move(office)), places_(office_.places.size()) {}

std::string Desk::answer(std::string_view request) {
  if (request.size() > kLongestRequest) return error("request", "longer than 64 KiB");
  const Json json = wire::from_text(request);
  if (!json.is_object()) return error("request", request);
  for (const auto& [key, value] : json.items())
    if (key != "place" && key != "answers" && key != "tell" && key != "cultivar" && key != "against") return error("request", key);

  constexpr std::string_view kTold[] = {"advice", "order", "certainty", "ranking", "change", "comparison"};
  std::string told = "advice";
  if (const auto tell = json.find("tell"); tell != json.end()) {
    if (!tell->is_string()) return error("tell", tell->type_name());
    told = tell->get_ref<const std::string&>();
    if (std::find(std::begin(kTold), std::end(kTold), told) == std::end(kTold)) return error("tell", told, nearest_name(told, kTold));
  }

  std::size_t at = 0;
  if (const auto place = json.find("place"); place != json.end()) {
    if (!place->is_string()) return error("place", place->type_name());
    const std::string& id = place->get_ref<const std::string&>();
    std::vector<std::string_view> ids;
    for (const Place& one : office_.places) ids.push_back(one.id);
    for (at = 0; at < ids.size() && ids[at] != id; ++at) {}
    if (at == ids.size()) return error("place", id, nearest_name(id, ids));
  }
  if (office_.places.empty()) return error("place", "");

  Answers answers;
  if (const auto given = json.find("answers"); given != json.end()) {
    const std::optional<Answers> read = read_answers(*given);
    if (!read) return error("answer", given->type_name());
    answers = *read;
  }
  for (const AnswerFault& fault : check_answers(catalog_, answers))
    return fault.question_unknown ? error("question", fault.question, fault.nearest) : error("answer", fault.answer, fault.nearest);

  const Place& place = office_.places[at];
  Remembered& known = places_[at];
  if (!known.replay) known.replay = make_replay(place.winters, catalog_.cold_model);
  if (known.memo.expected.size() + known.memo.with_interval.size() > kPlantings) known.memo = {};
  if (known.memo.tracks.size() > kTracks) known.memo.tracks.clear();
  if (told == "change" || told == "comparison") {
    std::string trees[2];
    const std::string_view keys[] = {"cultivar", "against"};
    for (std::size_t i = 0; i < (told == "change" ? 1 : 2); ++i) {
      const auto given = json.find(keys[i]);
      if (given == json.end() || !given->is_string()) return error("cultivar", given == json.end() ? "" : given->type_name());
      trees[i] = given->get_ref<const std::string&>();
      std::vector<std::string_view> ids;
      for (const Cultivar& cultivar : catalog_.cultivars)
        if (office_.on_sale.empty() || std::find(office_.on_sale.begin(), office_.on_sale.end(), cultivar.id) != office_.on_sale.end())
          ids.push_back(cultivar.id);
      if (std::find(ids.begin(), ids.end(), trees[i]) == ids.end()) return error("cultivar", trees[i], nearest_name(trees[i], ids));
    }
    if (told == "change") return least_change_to_json(*least_change(catalog_, office_, place, answers, trees[0], *known.replay, known.memo));
    return comparison_to_json(*compare(catalog_, office_, place, answers, trees[0], trees[1], *known.replay, known.memo));
  }
  const auto advice = [&] { return advise(catalog_, office_, place, answers, *known.replay, known.memo); };
  const auto sure = [&] { return how_sure(catalog_, office_, place, answers, *known.replay, known.memo); };
  if (told == "order") return order_to_json(rank_trees(catalog_, office_, place, answers, *known.replay, known.memo));
  if (told == "certainty") return certainty_to_json(sure());
  if (told == "ranking") return ranking_to_json(advice(), sure());
  return advice_to_json(advice());
}

}  // namespace tenwinters
