#include <algorithm>
#include <iterator>
#include <utility>

#include "wire/read.h"
#include "wire/text.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

using wire::Value;

std::string error(std::string_view what, std::string_view found, std::string_view nearest = {}) {
  wire::Text text;
  text.open('{');
  text.key("error");
  text.string(what);
  text.key("found");
  text.string(beginning_of(found));
  text.key("nearest");
  text.string(nearest);
  text.close('}');
  return text.take();
}

// {"question": "answer", ...}, or nothing.
std::optional<Answers> read_answers(const Value& json) {
  if (!json.IsObject()) return std::nullopt;
  Answers answers;
  for (auto member = json.MemberBegin(); member != json.MemberEnd(); ++member) {
    if (!member->value.IsString()) return std::nullopt;
    answers[std::string(wire::text_of(member->name))] = wire::text_of(member->value);
  }
  return answers;
}

constexpr Tell kPickerTells[] = {
    {"advice", 0, [](const Asked& a) { return advice_to_json(advise(a.catalog, a.office, a.place, a.answers, a.replay, a.memo)); }},
    {"order", 0, [](const Asked& a) { return order_to_json(rank_trees(a.catalog, a.office, a.place, a.answers, a.replay, a.memo)); }},
    {"certainty", 0, [](const Asked& a) { return certainty_to_json(how_sure(a.catalog, a.office, a.place, a.answers, a.replay, a.memo)); }},
};

std::vector<std::string_view> trees_to_be_had(const Catalog& catalog, const Office& office) {
  std::vector<std::string_view> ids;
  for (const Cultivar& cultivar : catalog.cultivars)
    if (office.on_sale.empty() || std::find(office.on_sale.begin(), office.on_sale.end(), cultivar.id) != office.on_sale.end())
      ids.push_back(cultivar.id);
  return ids;
}

}  // namespace

std::span<const Tell> picker_tells() { return kPickerTells; }

std::string beginning_of(std::string_view found) {
  constexpr std::size_t kShown = 80;
  std::string shown(found.substr(0, kShown));
  for (char& c : shown)
    if (static_cast<unsigned char>(c) > 0x7e) c = '?';
  return shown;
}

void keep_small(ReplayMemo& memo) {
  constexpr std::size_t kPlantings = 80000, kTracks = 4000;  // some 30 MB each
  if (memo.expected.size() + memo.with_interval.size() > kPlantings) memo = {};
  if (memo.tracks.size() > kTracks) memo.tracks.clear();
}

std::optional<Answers> answers_from_json(std::string_view text) {
  const wire::Parsed parsed(text);
  return parsed.value() == nullptr ? std::nullopt : read_answers(*parsed.value());
}

Desk::Desk(Catalog catalog, Office office, std::span<const Tell> tells)
    : catalog_(std::move(catalog)), office_(std::move(office)), tells_(tells), places_(office_.places.size()) {}

std::string Desk::answer(std::string_view request) {
  if (request.size() > kLongestRequest) return error("request", "longer than 64 KiB");
  const wire::Parsed parsed(request);
  if (parsed.value() == nullptr || !parsed.value()->IsObject()) return error("request", request);
  constexpr std::string_view kKeys[] = {"place", "answers", "tell", "cultivar", "against"};
  const Value* given[std::size(kKeys)] = {};  // in that order
  for (auto member = parsed.value()->MemberBegin(); member != parsed.value()->MemberEnd(); ++member) {
    const auto key = std::find(std::begin(kKeys), std::end(kKeys), wire::text_of(member->name));
    if (key == std::end(kKeys)) return error("request", wire::text_of(member->name));
    given[key - std::begin(kKeys)] = &member->value;
  }
  const auto& [given_place, given_answers, given_tell, given_cultivar, given_against] = given;

  const Tell* tell = tells_.data();
  if (given_tell != nullptr) {
    if (!given_tell->IsString()) return error("tell", wire::kind_of(*given_tell));
    const std::string_view name = wire::text_of(*given_tell);
    std::vector<std::string_view> known;
    for (const Tell& one : tells_) known.push_back(one.name);
    const std::size_t found = static_cast<std::size_t>(std::find(known.begin(), known.end(), name) - known.begin());
    if (found == known.size()) return error("tell", name, nearest_name(name, known));
    tell = &tells_[found];
  }

  std::size_t at = 0;
  if (given_place != nullptr) {
    if (!given_place->IsString()) return error("place", wire::kind_of(*given_place));
    const std::string_view id = wire::text_of(*given_place);
    std::vector<std::string_view> ids;
    for (const Place& one : office_.places) ids.push_back(one.id);
    for (at = 0; at < ids.size() && ids[at] != id; ++at) {}
    if (at == ids.size()) return error("place", id, nearest_name(id, ids));
  }
  if (office_.places.empty()) return error("place", "");

  Answers answers;
  if (given_answers != nullptr) {
    const std::optional<Answers> read = read_answers(*given_answers);
    if (!read) return error("answer", wire::kind_of(*given_answers));
    answers = *read;
  }
  for (const AnswerFault& fault : check_answers(catalog_, answers))
    return fault.question_unknown ? error("question", fault.question, fault.nearest) : error("answer", fault.answer, fault.nearest);

  const Place& place = office_.places[at];
  Remembered& known = places_[at];
  if (!known.replay) known.replay = make_replay(place.winters, catalog_.cold_model);
  keep_small(known.memo);
  const Value* named[] = {given_cultivar, given_against};
  std::string_view trees[std::size(named)];
  for (int i = 0; i < tell->trees; ++i) {
    if (named[i] == nullptr || !named[i]->IsString()) return error("cultivar", named[i] == nullptr ? "" : wire::kind_of(*named[i]));
    trees[i] = wire::text_of(*named[i]);
    const std::vector<std::string_view> ids = trees_to_be_had(catalog_, office_);
    if (std::find(ids.begin(), ids.end(), trees[i]) == ids.end()) return error("cultivar", trees[i], nearest_name(trees[i], ids));
  }
  return tell->json({catalog_, office_, place, answers, trees[0], trees[1], *known.replay, known.memo});
}

}  // namespace tenwinters
