// tenwinters check: is everything in the catalogue and the offices sound?
#include <fmt/core.h>

#include <filesystem>
#include <future>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "cli/evidence.h"
#include "lib/utf8.h"
#include "records/records.h"

namespace tenwinters::cli {
namespace {

namespace fs = std::filesystem;

constexpr int kSampleYards = 12;

std::vector<std::string> office_files(const std::string& root) {
  std::vector<std::string> paths;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(fs::path(root) / "offices", error)) {
    const fs::path file = entry.path() / "office.yaml";
    if (fs::exists(file, error)) paths.push_back(file.string());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

// What is wrong with the records of an office. Sound records are enough here; nobody asks yet what their winters do to
// a tree. Which records there are does not depend on the catalogue, so they are read beside it.
std::vector<Diagnostic> check_records(const DiskReader& disk, const std::string& path) {
  std::vector<Diagnostic> faults;
  const LoadedOffice office = load_office(disk, path, Catalog{});
  for (std::size_t place = 0; place < office.office.places.size(); ++place) (void)read_office_record(disk, office, place, faults);
  return faults;
}

nlohmann::ordered_json counts(const Catalog& catalog, std::size_t offices) {
  return {{"types", catalog.types.size()},         {"cultivars", catalog.cultivars.size()},
          {"rootstocks", catalog.rootstocks.size()}, {"sources", catalog.sources.size()},
          {"questions", catalog.questions.size()},   {"cautions", catalog.cautions.size()},
          {"offices", offices}};
}

int check(const Session& session, bool json) {
  const std::string root = find_catalog(session);
  if (root.empty()) {
    complain("no catalogue found: run this inside the project, or name its folder with --catalog");
    return kMisuse;
  }
  const DiskReader disk;
  const std::vector<std::string> offices =
      session.office.empty() ? office_files(root) : std::vector<std::string>{session.office};
  auto records = std::async(std::launch::async, [&] {
    std::vector<Diagnostic> told;
    for (const std::string& path : offices)
      for (Diagnostic& fault : check_records(disk, path)) told.push_back(std::move(fault));
    return told;
  });
  LoadedCatalog loaded = load_catalog(disk, root, session.today);
  std::vector<Diagnostic> faults = std::move(loaded.faults);
  for (const std::string& path : offices) {
    LoadedOffice office = load_office(disk, path, loaded.catalog, session.today);
    std::move(office.faults.begin(), office.faults.end(), std::back_inserter(faults));
  }
  for (Diagnostic& fault : records.get()) faults.push_back(std::move(fault));
  sort_diagnostics(faults);
  const auto failing = static_cast<std::size_t>(
      std::count_if(faults.begin(), faults.end(), [](const Diagnostic& d) { return !d.warning; }));
  if (json) {
    nlohmann::ordered_json out{{"faults", nlohmann::ordered_json::array()}};
    for (const Diagnostic& d : faults)
      out["faults"].push_back({{"file", d.file},
                               {"line", d.line},
                               {"column", d.column},
                               {"severity", d.warning ? "warning" : "error"},
                               {"message", d.message}});
    out["counts"] = counts(loaded.catalog, offices.size());
    fmt::print("{}\n", out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
  } else {
    for (const Diagnostic& d : faults) fmt::print("{}\n", to_text(d));
    const auto& c = loaded.catalog;
    fmt::print("{}: {} types, {} cultivars, {} rootstocks, {} sources, {} questions, {} office{}: {}\n", shown(root),
               c.types.size(), c.cultivars.size(), c.rootstocks.size(), c.sources.size(), c.questions.size(),
               offices.size(), offices.size() == 1 ? "" : "s",
               failing == 0 ? "no faults" : std::to_string(failing) + (failing == 1 ? " fault" : " faults"));
  }
  return failing == 0 ? kDone : kFindings;
}

}  // namespace

void add_check(const Command& app, Session& session) {
  const Command command = app.add_command("check", "Read the whole catalogue and the offices strictly; report every fault");
  const auto json = std::make_shared<bool>(false);
  const auto evidence = std::make_shared<bool>(false);
  const auto yards = std::make_shared<int>(kSampleYards);
  command.add_flag("--json", *json, "Faults and counts as JSON");
  command.add_flag("--evidence", *evidence, "How well the figures are founded, and which weak ones move rankings most");
  command.add_option("--yards", *yards, "Sample yards for --evidence").between(1, 1000).default_in_help().type_name("N");
  command.footer("Example:\n  tenwinters check\n  tenwinters check --json | less\n  tenwinters check --evidence\nExit status: 0 sound, 1 faults, 2 misuse.");
  command.does(session, [&session, json, evidence, yards] {
    const int status = *evidence && *json ? kDone : check(session, *json);
    return *evidence && status == kDone ? report_evidence(session, static_cast<std::size_t>(*yards), *json) : status;
  });
}

}  // namespace tenwinters::cli
