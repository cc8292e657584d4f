#include "render/verdict.h"

namespace tenwinters {
namespace {

template <class Wanted>
Finding first_found(const YardAdvice& yards, std::size_t place, Wanted wanted) {
  for (const VerdictYard& reading : kVerdictYards) {
    const Advice* advice = find_advice(yards, place, reading.yard);
    if (!advice) continue;
    for (const Candidate& candidate : advice->candidates)
      if (candidate.shelf != Shelf::not_here && wanted(candidate)) return {&candidate, advice, reading.pot};
  }
  return {};
}

}  // namespace

const Advice* find_advice(const YardAdvice& yards, std::size_t place, std::string_view yard) {
  for (std::size_t y = 0; y < yards.yards.size(); ++y)
    if (yards.yards[y].id == yard) return &yards.advice[place][y];
  return nullptr;
}

Finding find_kind(const Catalog& catalog, const YardAdvice& yards, std::size_t place, std::string_view type) {
  return first_found(yards, place, [&](const Candidate& candidate) {
    const Cultivar* cultivar = find_cultivar(catalog, candidate.cultivar);
    return cultivar && cultivar->type == type;
  });
}

Finding find_tree(const YardAdvice& yards, std::size_t place, std::string_view cultivar) {
  return first_found(yards, place, [&](const Candidate& candidate) { return candidate.cultivar == cultivar; });
}

std::string verdict_text(const Voice& voice, const Finding& finding) {
  if (!finding.candidate) return voice.say("ui.handout.says_no");
  if (finding.pot) return voice.say("ui.handout.says_pot");
  const long nights = voice.whole(finding.candidate->prospect.work_nights.best);
  return finding.candidate->shelf == Shelf::will_do || nights == 0 ? voice.say("ui.handout.says_yes") : voice.count("ui.handout.nights", nights);
}

std::string short_months(const Voice& voice, int from, int to) {
  if (from < 1) return "";
  const std::string first = voice.say("language.months_short." + std::to_string(from));
  return from == to ? first : first + "\u2013" + voice.say("language.months_short." + std::to_string(to));
}

}  // namespace tenwinters
