// What handout and signs share: where paper goes, which paper, and PDF by a browser.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/session.h"
#include "render/sheet.h"
#include "render/site.h"

namespace tenwinters::cli {

struct PaperOptions {
  std::string out, paper, browser, templates;
  bool pdf = false;
};
// `papers`: those that --paper may name.
void add_paper_options(const Command& command, PaperOptions& options, const std::vector<std::string>& papers);

// The paper asked for, else `usual`.
[[nodiscard]] std::vector<Paper> papers_of(const PaperOptions& options, std::vector<Paper> usual);

// Names the pages that were written and, if so asked, prints each to PDF with one start of the browser. What does not
// fit is named. 0 or the exit status.
[[nodiscard]] int put_on_paper(const Rendered& rendered, const PaperOptions& options);

}  // namespace tenwinters::cli
