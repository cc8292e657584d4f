// tenwinters fmt: files in the house order, comments and all.
#include <fmt/core.h>

#include <algorithm>
#include <fstream>
#include <memory>

#include "cli/commands.h"
#include "cli/edit.h"
#include "lib/utf8.h"
#include "loader/format.h"

namespace tenwinters::cli {
namespace {

constexpr std::size_t kLargest = 1U << 20U;

int format(const Session& session, std::vector<std::string> paths, bool check) {
  if (paths.empty()) {
    const std::string root = find_catalog(session);
    if (root.empty()) {
      complain("no catalogue found: name the files, or the catalogue's folder with --catalog");
      return kMisuse;
    }
    for (const std::string& path : catalog_files(root)) paths.push_back(root + "/" + path);
  }
  const DiskReader disk;
  int status = kDone;
  std::size_t changed = 0;
  for (const std::string& path : paths) {
    std::string why;
    const std::optional<std::string> raw = disk.read(path, kLargest, why);
    if (raw && schema_of(path).empty()) why = "not a file of a catalogue; its order is not known";
    Formatted formatted;
    if (raw && why.empty()) {
      formatted = format_file(path, *raw);
      why = formatted.why;
    }
    if (!why.empty()) {
      fmt::print(stderr, "{}: left as it is, {}\n", shown(path), shown(why));
      status = kFindings;
      continue;
    }
    if (formatted.text == *raw) continue;
    ++changed;
    if (check) {
      fmt::print("{}: not in the house order\n", shown(path));
      status = kFindings;
    } else if (const std::string failed = write_file(path, formatted.text); !failed.empty()) {
      complain(failed);
      status = kFindings;
    } else {
      fmt::print("{}: put in order\n", shown(path));
    }
  }
  fmt::print("{} file{}, {} {}\n", paths.size(), paths.size() == 1 ? "" : "s", changed, check ? "out of order" : "changed");
  return status;
}

}  // namespace

void add_fmt(const Command& app, Session& session) {
  const Command command = app.add_command("fmt", "Put catalogue files in the house order, keeping every comment");
  const auto files = std::make_shared<std::vector<std::string>>();
  const auto check = std::make_shared<bool>(false);
  command.add_option("FILES", *files, "YAML files of a catalogue (default: all of it)");
  command.add_flag("--check", *check, "Change nothing; exit status 1 if a file is not in order");
  command.footer("A file that could not be rewritten without losing something is left as it is, and said so.\n"
                  "Example:\n  tenwinters fmt catalog/cultivars/owari.yaml\n  tenwinters fmt --check");
  command.does(session, [&session, files, check] { return format(session, *files, *check); });
}

}  // namespace tenwinters::cli
