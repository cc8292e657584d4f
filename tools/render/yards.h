// Common yards, answered ahead of time: site-templates/yards.json names them and their answers.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "lib/diagnostic.h"
#include "tenwinters/advise.h"
#include "tenwinters/prospect.h"

namespace tenwinters {

struct CommonYard {
  std::string id;       // words at ui.yards.<id>
  Answers answers;
};

// [{"id": "open_ground", "answers": {"sun": "full"}}]; answers the catalogue does not know are faults.
[[nodiscard]] std::vector<CommonYard> read_yards(std::string_view json, const std::string& file, const Catalog& catalog,
                                                 std::vector<Diagnostic>& faults);

// The engine's advice for each place of the office and each yard.
struct YardAdvice {
  std::vector<CommonYard> yards;
  std::vector<std::vector<Advice>> advice;  // [place][yard]
};

// What the winters of each place do to trees that were asked about before. Belongs to one set of winters and one cold
// model, and is to be emptied when either changes.
struct PlaceMemory { Replay replay; ReplayMemo memo; };
using YardsMemory = std::vector<PlaceMemory>;

// `memory`: nullptr = none. `meanwhile` is done at the same time.
[[nodiscard]] YardAdvice advise_yards(const Catalog& catalog, const Office& office, std::vector<CommonYard> yards, YardsMemory* memory = nullptr,
                                      const std::function<void()>& meanwhile = [] {});

// The candidate of a cultivar in an advice, or nullptr.
[[nodiscard]] const Candidate* find_candidate(const Advice& advice, std::string_view cultivar);

}  // namespace tenwinters
