#include "lib/guidance.h"

#include <algorithm>

namespace tenwinters {

const GuideFact* find_fact(const Advised& advised, std::string_view id) {
  const auto found = std::find_if(advised.facts.begin(), advised.facts.end(), [&](const GuideFact& fact) { return fact.id == id; });
  return found == advised.facts.end() ? nullptr : &*found;
}

std::vector<std::string_view> facts_needed(Shown shown) {
  switch (shown) {
    case Shown::fruit_set: return {"set_share"};
    case Shown::fruit_drop: return {"drop_from", "drop_to"};
    case Shown::pruning: return {"prune_wait"};
    case Shown::pots: return {"mix_weight"};
    case Shown::room: return {"wall_extra"};
    case Shown::feeds: return {"feeds_year_1", "feeds_year_2", "feeds_year_3", "feeds_later"};
    case Shown::partners:
    case Shown::freezes:
    case Shown::ripening:
    case Shown::seedy:
    case Shown::fruit_cold:
    case Shown::ground:
    case Shown::rules:
    case Shown::bearing:
    case Shown::protections: break;
  }
  return {};
}

}  // namespace tenwinters
