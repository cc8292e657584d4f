// tenwinters site: the whole site, ready for any static host or a USB stick.
#include <fmt/core.h>

#include <cstdio>
#include <memory>

#include "cli/commands.h"
#include "cli/publish.h"
#include "cli/yard_options.h"
#include "lib/texts.h"
#include "screens/screens.h"
#include "tenwinters/key.h"

namespace tenwinters::cli {
namespace {

struct SiteOptions { std::string out, engine, screens, templates, base; bool key = false; };

// One of the two browser engines: the file named, else the one that belongs to this program.
bool read_engine(const Session& session, const std::string& named, const char* usual, const char* option, std::string& bytes) {
  constexpr std::size_t kEngineLimit = 32u << 20u;
  const std::string path = named.empty() ? find_engine(usual, session) : named;
  std::string why;
  std::optional<std::string> read = DiskReader().read(path, kEngineLimit, why);
  if (!read) {
    complain("the browser engine cannot be read: " + path + ": " + why + "; build it, or name it with " + option);
    return false;
  }
  bytes = std::move(*read);
  return true;
}

int run_site(const Session& session, const SiteOptions& options) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  std::string engine, screens;
  if (!read_engine(session, options.engine, "picker.wasm.gz", "--engine", engine) ||
      !read_engine(session, options.screens, "screens.wasm.gz", "--screens-engine", screens))
    return kFindings;
  if (!options.base.empty()) {
    if (!is_site_address(options.base)) {
      complain("--base \"" + options.base + "\": expected an address that begins with https:// and ends with /");
      return kMisuse;
    }
    loaded.office.address = options.base;
  }
  SiteInput input{loaded.catalog, loaded.office, loaded.descent, loaded.languages, {}, find_templates(options.templates, loaded), std::move(engine), loaded.units,
                  std::move(loaded.guidance), {}, std::move(screens), tenwinters::screens::seasons_to_json(loaded.seasons)};
  if (!read_templates(input.folder, input.files)) return kFindings;
  if (options.key)
    for (const Place& place : loaded.office.places) {
      Ground ground{loaded, place};
      input.keys.push_back(paper_key(loaded.catalog, loaded.office, place, {}, ground.replay, ground.memo));
    }
  const Rendered site = render_site(input);
  if (const int status = publish(site, options.out)) return status;
  fmt::print("{} files in {}; start with {}/index.html\n", site.files.size(), options.out, options.out);
  return kDone;
}

}  // namespace

void add_site(CLI::App& app, Session& session) {
  CLI::App* command = app.add_subcommand("site", "Build the whole website");
  const auto options = std::make_shared<SiteOptions>();
  command->add_option("--out", options->out, "Folder to write; files of an earlier run are replaced, others left alone")->required()->type_name("DIR");
  command->add_option("--engine", options->engine, "The browser engine (default: picker.wasm.gz beside this program)")->type_name("FILE");
  command->add_option("--base", options->base, "Address that the site will have, for sitemap and canonical links (default: the office's)")->type_name("URL");
  command->add_flag("--key", options->key, "Also work out each place's paper key for the print room (several seconds a place)");
  command->add_option("--screens-engine", options->screens, "The engine of the pages that plan and compare (default: screens.wasm.gz beside this program)")->type_name("FILE");
  command->add_option("--templates", options->templates, "Folder of templates (default: site-templates beside the catalogue)")->type_name("DIR");
  command->footer("Example:\n  tenwinters site --out public");
  command->callback([&session, options] { session.run = [&session, options] { return run_site(session, *options); }; });
}

}  // namespace tenwinters::cli
