#include "cli/session.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "lib/parallel.h"
#include "lib/utf8.h"
#include "records/records.h"

namespace tenwinters::cli {
namespace fs = std::filesystem;

namespace {

// `catalog` in `folder` or in any folder above it.
std::string search_upwards(fs::path folder) {
  std::error_code error;
  for (; !folder.empty(); folder = folder.parent_path()) {
    if (fs::exists(folder / "catalog" / "model.yaml", error)) return (folder / "catalog").string();
    if (folder == folder.parent_path()) break;
  }
  return "";
}

std::optional<std::string> record_text(const FileReader& files, const LoadedOffice& office, std::size_t place, std::vector<Diagnostic>& faults) {
  constexpr std::size_t kRecordLimit = 64u << 20u;
  if (place >= office.record_paths.size()) return std::nullopt;
  std::string why;
  std::optional<std::string> text = files.read(office.record_paths[place], kRecordLimit, why);
  if (!text) faults.push_back({office.record_paths[place], 0, 0, "the record of place \"" + office.office.places[place].id + "\" cannot be read: " + why, "", false});
  return text;
}

}  // namespace

std::string find_catalog(const Session& session) {
  if (!session.catalog.empty()) return session.catalog;
  std::error_code error;
  if (fs::exists("catalog/model.yaml", error)) return "catalog";
  if (std::string found = search_upwards(fs::current_path(error)); !found.empty()) return found;
  fs::path program = fs::read_symlink("/proc/self/exe", error);
  if (error) program = session.program;
  if (std::string found = search_upwards(program.parent_path()); !found.empty()) return found;
  const fs::path installed = program.parent_path().parent_path() / "share" / "tenwinters" / "catalog";
  return fs::exists(installed / "model.yaml", error) ? installed.string() : "";
}

std::optional<Record> read_office_record(const FileReader& files, const LoadedOffice& office, std::size_t place,
                                         std::vector<Diagnostic>& faults) {
  const std::optional<std::string> text = record_text(files, office, place, faults);
  if (!text) return std::nullopt;
  Record record = read_record(*text, office.record_paths[place]);
  std::move(record.faults.begin(), record.faults.end(), std::back_inserter(faults));
  return record;
}

void load_records(const FileReader& files, LoadedOffice& office, std::vector<Diagnostic>& faults, PackedRecords* packed) {
  std::vector<std::optional<std::string>> texts;
  for (std::size_t i = 0; i < office.office.places.size(); ++i) texts.push_back(record_text(files, office, i, faults));
  std::vector<PackedRecords::One> fresh(texts.size());
  const auto known = [&](std::size_t i) -> PackedRecords::One* {
    if (!packed) return nullptr;
    const auto found = packed->by_path.find(office.record_paths[i]);
    const bool same = found != packed->by_path.end() && found->second.text == *texts[i] && found->second.latitude == office.latitudes[i] &&
                      found->second.invented == office.office.invented;
    return same ? &found->second : nullptr;
  };
  each_in_parallel(texts.size(), [&](std::size_t i) {
    if (!texts[i] || known(i)) return;
    Record record = read_record(*texts[i], office.record_paths[i]);
    Winters winters = pack_winters(record, office.latitudes[i], office.office.invented);
    fresh[i] = {"", office.latitudes[i], office.office.invented, std::move(winters), std::move(record.faults)};
  });
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (!texts[i]) continue;
    const PackedRecords::One* old = known(i);
    const PackedRecords::One& one = old ? *old : fresh[i];
    office.office.places[i].winters = one.winters;
    faults.insert(faults.end(), one.faults.begin(), one.faults.end());
    if (!packed || old) continue;
    fresh[i].text = std::move(*texts[i]);
    packed->by_path[office.record_paths[i]] = std::move(fresh[i]);
  }
}

const Language& Loaded::language(const std::string& code) const {
  const std::string& wanted = code.empty() && !office.languages.empty() ? office.languages.front() : code;
  for (const Language& language : languages)
    if (language.code == wanted) return language;
  return languages.front();
}

int load(const Session& session, Loaded& loaded, Records records) {
  std::string told;
  const int status = load(DiskReader(), session, loaded, records, nullptr, told);
  fmt::print(stderr, "{}", told);
  return status;
}

int load(const FileReader& disk, const Session& session, Loaded& loaded, Records records, PackedRecords* packed, std::string& told) {
  loaded.root = find_catalog(session);
  if (loaded.root.empty()) {
    told += complaint("no catalogue found: run this inside the project, or name its folder with --catalog");
    return kMisuse;
  }
  LoadedCatalog catalog = load_catalog(disk, loaded.root, session.today);
  const std::string office_path =
      session.office.empty() ? (fs::path(loaded.root) / "offices" / "demo" / "office.yaml").string() : session.office;
  LoadedOffice office = load_office(disk, office_path, catalog.catalog, session.today);
  std::vector<Diagnostic> faults = std::move(catalog.faults);
  std::move(office.faults.begin(), office.faults.end(), std::back_inserter(faults));
  if (records == Records::read) load_records(disk, office, faults, packed);
  sort_diagnostics(faults);
  std::size_t failing = 0;
  for (Diagnostic& fault : faults) {
    if (fault.warning) {
      loaded.warnings.push_back(std::move(fault));
      continue;
    }
    ++failing;
    told += to_text(fault) + "\n";
  }
  if (failing > 0) {
    told += fmt::format("tenwinters: {} fault{} in the catalogue or the office; nothing was done\n", failing, failing == 1 ? "" : "s");
    return kFindings;
  }
  loaded.catalog = std::move(catalog.catalog);
  loaded.descent = std::move(catalog.descent);
  loaded.guidance = std::move(catalog.guidance);
  loaded.seasons = std::move(catalog.seasons);
  loaded.languages = std::move(catalog.languages);
  loaded.office = std::move(office.office);
  loaded.units = session.units.empty() ? loaded.office.units : *parse<Units>(session.units);
  if (!session.language.empty() && loaded.language(session.language).code != session.language) {
    std::vector<std::string_view> codes;
    for (const Language& language : loaded.languages) codes.push_back(language.code);
    told += complaint("no language \"" + session.language + "\"", std::string(nearest_name(session.language, codes)));
    return kMisuse;
  }
  return kDone;
}

const Place* find_place(const Office& office, const std::string& id) {
  if (office.places.empty()) return nullptr;
  if (id.empty()) return &office.places.front();
  const auto found = std::find_if(office.places.begin(), office.places.end(), [&](const Place& p) { return p.id == id; });
  return found == office.places.end() ? nullptr : &*found;
}

std::string complaint(const std::string& what, const std::string& nearest) {
  return fmt::format("tenwinters: {}{}\n", shown(what), nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?");
}

void complain(const std::string& what, const std::string& nearest) { fmt::print(stderr, "{}", complaint(what, nearest)); }

std::string wrap(const std::string& text, std::size_t indent) {
  constexpr std::size_t kWidth = 80;
  std::string out;
  std::size_t column = 0, start = 0;
  while (start < text.size()) {
    std::size_t end = text.find(' ', start);
    if (end == std::string::npos) end = text.size();
    const std::string word = text.substr(start, end - start);
    // A UTF-8 continuation byte takes no column.
    const auto width = static_cast<std::size_t>(
        std::count_if(word.begin(), word.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
    if (column > 0 && column + 1 + width + indent > kWidth) {
      out += '\n';
      column = 0;
    }
    if (column == 0) {
      out.append(indent, ' ');
    } else {
      out += ' ';
      ++column;
    }
    out += word;
    column += width;
    start = end + 1;
  }
  return out;
}

}  // namespace tenwinters::cli
