// tenwinters handout: the county's "which citrus for me" sheet, as print HTML and as PDF.
#include <fmt/core.h>

#include <cstdio>
#include <memory>

#include "cli/browser.h"
#include "cli/commands.h"
#include "cli/publish.h"
#include "render/handout.h"

namespace tenwinters::cli {
namespace {

struct HandoutOptions { std::string out, paper, browser, templates; bool pdf = false; };

int run_handout(const Session& session, const HandoutOptions& options) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  SiteInput input{loaded.catalog, loaded.office, loaded.descent, loaded.languages, {}, find_templates(options.templates, loaded), "", loaded.units, {}};
  if (!read_templates(input.folder, input.files)) return kFindings;
  std::vector<Paper> papers = {Paper::letter, Paper::a4};
  if (!options.paper.empty()) papers = {*parse<Paper>(options.paper)};
  const Rendered sheets = render_handouts(input, papers, session.today);
  if (const int status = publish(sheets, options.out)) return status;
  std::vector<std::string> pages;
  for (const OutputFile& file : sheets.files)
    if (file.path.size() > 5 && file.path.compare(file.path.size() - 5, 5, ".html") == 0) pages.push_back(options.out + "/" + file.path);
  for (const std::string& page : pages) fmt::print("{}\n", page);
  if (!options.pdf) return kDone;

  std::string tried;
  const std::optional<std::string> browser = find_browser(options.browser, tried);
  if (!browser) {
    complain("no PDF was made, for no Chromium-family browser was found (looked for: " + tried +
             "). Install one, or name it with --browser; or open the HTML files above in any browser and print them to PDF.");
    return kFindings;
  }
  for (const std::string& page : pages) {
    const std::string pdf = page.substr(0, page.size() - 5) + ".pdf";
    if (const std::optional<std::string> failed = print_to_pdf(*browser, page, pdf)) {
      complain(*failed + "; the HTML is written and can be printed by hand");
      return kFindings;
    }
    fmt::print("{}\n", pdf);
  }
  return kDone;
}

}  // namespace

void add_handout(CLI::App& app, Session& session) {
  CLI::App* command = app.add_subcommand("handout", "Make the county's \"which citrus for me\" sheet for print");
  const auto options = std::make_shared<HandoutOptions>();
  command->add_option("--out", options->out, "Folder to write")->required()->type_name("DIR");
  command->add_flag("--pdf", options->pdf, "Also print each sheet to PDF, by a Chromium-family browser");
  command->add_option("--browser", options->browser, "That browser (default: TENWINTERS_BROWSER, else one found on PATH)")->type_name("PATH");
  command->add_option("--paper", options->paper, "letter or a4 (default: both)")->check(CLI::IsMember({"letter", "a4"}))->type_name("KIND");
  command->add_option("--templates", options->templates, "Folder of templates (default: site-templates beside the catalogue)")->type_name("DIR");
  command->footer("Example:\n  tenwinters handout --pdf --paper letter --out handouts");
  command->callback([&session, options] { session.run = [&session, options] { return run_handout(session, *options); }; });
}

}  // namespace tenwinters::cli
