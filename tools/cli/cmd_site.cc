// tenwinters site: the whole site, ready for any static host or a USB stick.
#include <fmt/core.h>

#include <chrono>
#include <cstdio>
#include <memory>
#include <optional>

#include "cli/changes.h"
#include "cli/commands.h"
#include "cli/live_server.h"
#include "cli/publish.h"
#include "cli/yard_options.h"
#include "lib/texts.h"
#include "screens/screens.h"
#include "tenwinters/key.h"

namespace tenwinters::cli {
namespace {

struct SiteOptions {
  std::string out, engine, screens, templates, base;
  bool key = false, watch = false;
  int port = 0;
};

// What is taken over from one build to the next.
struct Workshop {
  Loaded loaded;                // catalogue and office, as of `stood`
  std::optional<Snapshot> stood;
  std::vector<std::string> read;
  Figures figures;
  PackedRecords records;
  SiteBuilder builder;
  Figures keyed;                // behind the keys
  std::vector<PaperKey> keys;
};

// One of the two browser engines: the file named, else the one that belongs to this program.
bool read_engine(const FileReader& disk, const Session& session, const std::string& named, const char* usual, const char* option, std::string& bytes,
                 std::string& told) {
  constexpr std::size_t kEngineLimit = 32u << 20u;
  const std::string path = named.empty() ? find_engine(usual, session) : named;
  std::string why;
  std::optional<std::string> read = disk.read(path, kEngineLimit, why);
  if (!read) {
    told += complaint("the browser engine cannot be read: " + path + ": " + why + "; build it, or name it with " + option);
    return false;
  }
  bytes = std::move(*read);
  return true;
}

std::vector<PaperKey> paper_keys(const Loaded& loaded) {
  std::vector<PaperKey> keys;
  for (const Place& place : loaded.office.places) {
    Ground ground{loaded, place};
    keys.push_back(paper_key(loaded.catalog, loaded.office, place, {}, ground.replay, ground.memo));
  }
  return keys;
}

// Loads what is not loaded already. 0 or the exit status.
int load_again(const Session& session, Workshop& workshop, std::string& told) {
  const std::string root = find_catalog(session);
  Snapshot stood({root}, workshop.read);
  if (workshop.stood && *workshop.stood == stood) return kDone;
  workshop.stood.reset();
  const NotingReader disk;
  workshop.loaded = {};
  const int status = load(disk, session, workshop.loaded, Records::read, &workshop.records, told);
  std::vector<std::string> read = disk.paths();
  if (read != workshop.read) stood.add_unknown(Snapshot({root}, read));
  workshop.read = std::move(read);
  if (status != kDone) return status;
  std::vector<std::string> without = {root + "/words/", root + "/prose/"};
  workshop.figures.all = disk.noted(without);
  without.insert(without.end(), {root + "/types/", root + "/cultivars/"});
  workshop.figures.rest = disk.noted(without);
  workshop.stood = std::move(stood);
  return kDone;
}

// Loads and renders. 0 or the exit status, with what is to be said in `told`; faults of the pages stand in `site`. With
// a workshop what has not changed is taken from there.
int build(const NotingReader& disk, const Session& session, const SiteOptions& options, Workshop* workshop, Rendered& site, std::string& told) {
  Loaded fresh;
  const int status = workshop ? load_again(session, *workshop, told) : load(disk, session, fresh, Records::read, nullptr, told);
  if (status != kDone) return status;
  Loaded& loaded = workshop ? workshop->loaded : fresh;
  std::string engine, screens;
  if (!read_engine(disk, session, options.engine, "picker.wasm.gz", "--engine", engine, told) ||
      !read_engine(disk, session, options.screens, "screens.wasm.gz", "--screens-engine", screens, told))
    return kFindings;
  if (!options.base.empty()) {
    if (!is_site_address(options.base)) {
      told += complaint("--base \"" + options.base + "\": expected an address that begins with https:// and ends with /");
      return kMisuse;
    }
    loaded.office.address = options.base;
  }
  SiteInput input{loaded.catalog, loaded.office, loaded.descent, loaded.languages, {}, find_templates(options.templates, loaded.root), std::move(engine), loaded.units,
                  loaded.guidance, {}, std::move(screens), tenwinters::screens::seasons_to_json(loaded.seasons)};
  if (!read_templates(disk, input.folder, input.files, told)) return kFindings;
  if (options.key && workshop) {
    if (workshop->keyed != workshop->figures) workshop->keys = paper_keys(loaded);
    workshop->keyed = workshop->figures;
    input.keys = workshop->keys;
  } else if (options.key) {
    input.keys = paper_keys(loaded);
  }
  site = workshop ? workshop->builder.build(input, workshop->figures) : render_site(input);
  return kDone;
}

int build_once(const Session& session, const SiteOptions& options) {
  Rendered site;
  std::string told;
  int status = build(NotingReader(), session, options, nullptr, site, told);
  if (status == kDone) status = publish(site, options.out, told);
  fmt::print(stderr, "{}", told);
  if (status == kDone) fmt::print("{} files in {}; start with {}/index.html\n", site.files.size(), options.out, options.out);
  return status;
}

std::size_t count_changed(const std::vector<OutputFile>* before, const std::vector<OutputFile>& now) {
  if (!before) return now.size();
  std::size_t changed = 0;
  auto old = before->begin();
  for (const OutputFile& file : now) {
    while (old != before->end() && old->path < file.path) ++old;
    if (old == before->end() || old->path != file.path || old->content != file.content) ++changed;
  }
  return changed;
}

int watch(const Session& session, const SiteOptions& options) {
  LiveServer server;
  if (!server.start(options.port)) {
    complain(server.why());
    return kMisuse;
  }
  const Interrupt interrupt;
  fmt::print("http://127.0.0.1:{}/ shows {} and follows every change; Ctrl-C ends\n", server.port(), options.out);
  std::fflush(stdout);
  Workshop workshop;
  std::shared_ptr<const std::vector<OutputFile>> shown;
  const std::string root = find_catalog(session), templates = find_templates(options.templates, root);
  std::vector<std::string> read;
  while (!interrupt.came()) {
    const auto began = std::chrono::steady_clock::now();
    const NotingReader disk;
    const std::vector<std::string> folders = {root, templates};
    Snapshot before(folders, read);  // a file that is saved while it is read is read again
    std::string told;
    auto site = std::make_shared<Rendered>();
    int status = build(disk, session, options, &workshop, *site, told);
    const auto took = [&] { return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - began).count(); };
    if (status == kDone) {
      std::string shown_after;
      if (site->faults.empty()) {
        // First to the eyes that wait for it, then to the disk, which may be slow.
        std::shared_ptr<const std::vector<OutputFile>> files(site, &site->files);
        server.show(files);
        shown_after = fmt::format("shown after {} ms, {} of {}", took(), count_changed(shown.get(), *files), files->size());
        shown = std::move(files);
      }
      status = publish(*site, options.out, told);
      if (status == kDone) fmt::print("{} files written after {} ms\n", shown_after, took());
    }
    if (status != kDone) {
      server.tell(told);
      fmt::print(stderr, "{}", told);
      if (!shown && status == kMisuse) return status;  // nothing that an edit could mend
    }
    std::fflush(stdout);
    read = disk.paths();
    read.insert(read.end(), workshop.read.begin(), workshop.read.end());
    before.add_unknown(Snapshot(folders, read));
    wait_for_change(before, folders, read, interrupt);
  }
  fmt::print("\nThe watch has ended; {} is as the last good build left it\n", options.out);
  return kDone;
}

int run_site(const Session& session, const SiteOptions& options) {
  if (options.watch) return watch(session, options);
  if (options.port != 0) {
    complain("--port belongs to --watch");
    return kMisuse;
  }
  return build_once(session, options);
}

}  // namespace

void add_site(const Command& app, Session& session) {
  const Command command = app.add_command("site", "Build the whole website");
  const auto options = std::make_shared<SiteOptions>();
  command.add_option("--out", options->out, "Folder to write; files of an earlier run are replaced, others left alone").required().type_name("DIR");
  command.add_option("--engine", options->engine, "The browser engine (default: picker.wasm.gz beside this program)").type_name("FILE");
  command.add_option("--base", options->base, "Address that the site will have, for sitemap and canonical links (default: the office's)").type_name("URL");
  command.add_flag("--key", options->key, "Also work out each place's paper key for the print room (several seconds a place)");
  command.add_option("--screens-engine", options->screens, "The engine of the pages that plan and compare (default: screens.wasm.gz beside this program)").type_name("FILE");
  command.add_option("--templates", options->templates, "Folder of templates (default: site-templates beside the catalogue)").type_name("DIR");
  command.add_flag("--watch", options->watch, "Stay, build again on every change, and show the site on 127.0.0.1 by pages that follow");
  command.add_option("--port", options->port, "Port of --watch (default: a free one)").between(1, 65535).type_name("NUMBER");
  command.footer("Examples:\n  tenwinters site --out public\n  tenwinters site --out public --watch");
  command.does(session, [&session, options] { return run_site(session, *options); });
}

}  // namespace tenwinters::cli
