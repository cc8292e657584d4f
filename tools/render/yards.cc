#include "render/yards.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "lib/parallel.h"

namespace tenwinters {

std::vector<CommonYard> read_yards(std::string_view json, const std::string& file, const Catalog& catalog,
                                   std::vector<Diagnostic>& faults) {
  std::vector<CommonYard> yards;
  const auto fault = [&](std::string message) { faults.push_back({file, 0, 0, std::move(message), "", false}); };
  const nlohmann::json root = nlohmann::json::parse(json, nullptr, false);
  if (!root.is_array()) {
    fault("expected a JSON list of yards: [{\"id\": ..., \"answers\": {...}}]");
    return yards;
  }
  for (const nlohmann::json& item : root) {
    if (!item.is_object() || !item.contains("id") || !item["id"].is_string() || !item.contains("answers") || !item["answers"].is_object()) {
      fault("a yard needs an \"id\" and \"answers\"");
      continue;
    }
    CommonYard yard{item["id"].get<std::string>(), {}};
    for (const auto& [question, answer] : item["answers"].items()) {
      if (answer.is_string()) {
        yard.answers.emplace(question, answer.get<std::string>());
      } else {
        fault("yard \"" + yard.id + "\": the answer to \"" + question + "\" is not text");
      }
    }
    for (const AnswerFault& wrong : check_answers(catalog, yard.answers))
      fault("yard \"" + yard.id + "\": the catalogue has no " +
            (wrong.question_unknown ? "question \"" + wrong.question + "\"" : "answer \"" + wrong.answer + "\" to \"" + wrong.question + "\"") +
            (wrong.nearest.empty() ? "" : "; did you mean \"" + wrong.nearest + "\"?"));
    yards.push_back(std::move(yard));
  }
  return yards;
}

YardAdvice advise_yards(const Catalog& catalog, const Office& office, std::vector<CommonYard> yards, YardsMemory* memory,
                        const std::function<void()>& meanwhile) {
  constexpr std::size_t kMostPlaces = 16, kMostTracks = 20'000;  // a place takes 25 MB, and some 4,000 tracks at first
  const std::size_t places = office.places.size();
  YardAdvice out{std::move(yards), std::vector<std::vector<Advice>>(places)};
  if (memory && places > kMostPlaces) memory = nullptr;
  if (memory) memory->resize(places);
  each_in_parallel(places + 1, [&](std::size_t p) {
    if (p == places) return meanwhile();
    const Place& place = office.places[p];
    PlaceMemory own;
    auto& [replay, memo] = memory ? (*memory)[p] : own;
    if (memo.tracks.empty() || memo.tracks.size() > kMostTracks) {
      replay = make_replay(place.winters, catalog.cold_model);
      memo = {};
    }
    for (const CommonYard& yard : out.yards) out.advice[p].push_back(advise(catalog, office, place, yard.answers, replay, memo));
  });
  return out;
}

const Candidate* find_candidate(const Advice& advice, std::string_view cultivar) {
  const auto found = std::find_if(advice.candidates.begin(), advice.candidates.end(),
                                  [&](const Candidate& c) { return c.cultivar == cultivar; });
  return found == advice.candidates.end() ? nullptr : &*found;
}

}  // namespace tenwinters
