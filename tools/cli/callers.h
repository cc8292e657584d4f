// Households to print for: one from answers or from the site's address, or many from a table of callers.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/session.h"
#include "cli/yard_options.h"
#include "render/sheets.h"

namespace tenwinters::cli {

struct CallerOptions {
  std::string link;       // of the site, with the answers after '#'
  std::string batch;      // a CSV of callers
  std::string name;       // printed on the sheet of a single household
  bool together = false;  // all in one document
  bool strict = false;    // one bad row and nothing is made
};
void add_caller_options(const Command& command, CallerOptions& options);

// Faults are printed. kMisuse: nothing can be made of it; kFindings: some rows were left out.
[[nodiscard]] int read_households(const YardOptions& yard, const CallerOptions& options, const Loaded& loaded, std::vector<Household>& households);

}  // namespace tenwinters::cli
