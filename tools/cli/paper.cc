#include "cli/paper.h"

#include <fmt/core.h>

#include <cstdio>
#include <utility>

#include "cli/browser.h"

namespace tenwinters::cli {

void add_paper_options(const Command& command, PaperOptions& options, const std::vector<std::string>& papers) {
  std::string names;
  for (const std::string& paper : papers) names += (names.empty() ? "" : ", ") + paper;
  command.add_option("--out", options.out, "Folder to write").required().type_name("DIR");
  command.add_flag("--pdf", options.pdf, "Also print each page to PDF, by a Chromium-family browser");
  command.add_option("--browser", options.browser, "That browser (default: TENWINTERS_BROWSER, else one found on PATH)").type_name("PATH");
  command.add_option("--paper", options.paper, names).one_of(papers).type_name("KIND");
  command.add_option("--templates", options.templates, "Folder of templates (default: site-templates beside the catalogue)").type_name("DIR");
}

std::vector<Paper> papers_of(const PaperOptions& options, std::vector<Paper> usual) {
  return options.paper.empty() ? std::move(usual) : std::vector<Paper>{*parse<Paper>(options.paper)};
}

int put_on_paper(const Rendered& rendered, const PaperOptions& options) {
  constexpr std::string_view kPage = ".html";
  std::vector<PrintJob> jobs;
  for (const OutputFile& file : rendered.files) {
    if (!file.path.ends_with(kPage)) continue;
    const std::string page = options.out + "/" + file.path;
    fmt::print("{}\n", page);
    jobs.push_back({page, page.substr(0, page.size() - kPage.size()) + ".pdf"});
  }
  if (!options.pdf) return kDone;
  std::string tried;
  const std::optional<std::string> browser = find_browser(options.browser, tried);
  if (!browser) {
    complain("no PDF was made, for no Chromium-family browser was found (looked for: " + tried +
             "). Install one, or name it with --browser; or open the HTML files above in any browser and print them to PDF.");
    return kFindings;
  }
  std::fflush(stdout);
  int status = kDone;
  const std::optional<std::string> failed = print_to_pdf(*browser, jobs, [&](const Printed& printed) {
    fmt::print("{}\n", printed.pdf);
    for (const std::string& misfit : printed.misfits) {
      complain(printed.pdf + ": does not fit: " + misfit);
      status = kFindings;
    }
  });
  if (failed) {
    complain(*failed + "; the HTML is written and can be printed by hand");
    return kFindings;
  }
  return status;
}

}  // namespace tenwinters::cli
