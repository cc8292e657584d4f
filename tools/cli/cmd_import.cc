// tenwinters import: a changed table back into the catalogue; shows what would change, and writes only when told.
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <memory>

#include "cli/catalog_csv.h"
#include "cli/commands.h"
#include "lib/csv.h"
#include "cli/edit.h"
#include "lib/utf8.h"

namespace tenwinters::cli {
namespace {

constexpr std::size_t kLargest = 64U << 20U;

// The catalogue as it would be: files changed so far over those on disk.
class Overlay final : public FileReader {
 public:
  std::map<std::string, std::string> changed;  // by path from the working directory

  [[nodiscard]] std::optional<std::string> read(const std::string& path, std::size_t limit, std::string& why) const override {
    const auto found = changed.find(path);
    return found == changed.end() ? disk_.read(path, limit, why) : found->second;
  }
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const override {
    std::vector<std::string> names = disk_.list(folder);
    for (const auto& [path, content] : changed) {
      const std::string base = folder + "/";
      if (!path.starts_with(base) || path.find('/', base.size()) != std::string::npos) continue;
      if (std::find(names.begin(), names.end(), path.substr(base.size())) == names.end()) names.push_back(path.substr(base.size()));
    }
    std::sort(names.begin(), names.end());
    return names;
  }
  [[nodiscard]] std::vector<std::string> folders(const std::string& folder) const override { return disk_.folders(folder); }

 private:
  DiskReader disk_;
};

struct Work {
  std::map<std::string, Document> documents;  // by path in the catalogue
  std::vector<std::string> touched;           // of them
  std::size_t changes = 0;
};

std::vector<std::size_t> columns_of(const CsvRow& head, std::string& why) {
  std::vector<std::size_t> places;
  for (std::string_view column : kCsvColumns) {
    const auto found = std::find(head.begin(), head.end(), column);
    if (found == head.end()) why = "the first line has no column \"" + std::string(column) + "\"";
    places.push_back(static_cast<std::size_t>(found - head.begin()));
  }
  return places;
}

// The file's document, read when first asked for; a file that is not there yet begins empty.
Document* document_of(Work& work, const std::string& root, const std::string& file, std::string& why) {
  if (const auto found = work.documents.find(file); found != work.documents.end()) return &found->second;
  const bool outside = file.empty() || file.front() == '/' || file.find("..") != std::string::npos || file.find('\\') != std::string::npos;
  if (outside || schema_of(file).empty()) {
    why = "\"" + file + "\" is no file of a catalogue";
    return nullptr;
  }
  const DiskReader disk;
  std::string missing;
  Document document;
  document.root.kind = Part::Kind::map;
  if (const std::optional<std::string> raw = disk.read(root + "/" + file, kLargest, missing)) why = read_document(file, *raw, document);
  if (!why.empty()) return nullptr;
  return &work.documents.emplace(file, std::move(document)).first->second;
}

// False after a fault, which is told.
bool apply(const std::vector<CsvRow>& rows, const std::string& csv, const std::string& root, Work& work) {
  std::string why;
  const std::vector<std::size_t> places = rows.empty() ? std::vector<std::size_t>{} : columns_of(rows.front(), why);
  if (rows.empty()) why = "the table is empty";
  if (!why.empty()) {
    complain(csv + ": " + why);
    return false;
  }
  bool good = true;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    FigureRow row;
    for (std::size_t column = 0; column < places.size(); ++column)
      if (places[column] < rows[i].size()) row.cells[column] = rows[i][places[column]];
    why.clear();
    Document* document = document_of(work, root, row[Cell::file], why);
    const std::vector<std::string> changes = document == nullptr ? std::vector<std::string>{} : apply_row(row, *document, why);
    if (!why.empty()) {
      fmt::print(stderr, "{}: row {}, {} {}: {}\n", shown(csv), i + 1, shown(row[Cell::file]), shown(row[Cell::path]), shown(why));
      good = false;
    }
    if (changes.empty()) continue;
    fmt::print("{}  {}\n", shown(row[Cell::file]), shown(row[Cell::path]));
    for (const std::string& change : changes) fmt::print("    {}\n", shown(change));
    work.changes += changes.size();
    if (std::find(work.touched.begin(), work.touched.end(), row[Cell::file]) == work.touched.end()) work.touched.push_back(row[Cell::file]);
  }
  return good;
}

int import(const Session& session, const std::string& csv, bool write) {
  const std::string root = find_catalog(session);
  if (root.empty()) {
    complain("no catalogue found: run this inside the project, or name its folder with --catalog");
    return kMisuse;
  }
  Overlay overlay;
  std::string why;
  const std::optional<std::string> text = overlay.read(csv, kLargest, why);
  if (!text) {
    complain(csv + ": " + why);
    return kMisuse;
  }
  const CsvTable table = read_csv(*text);
  if (table.unclosed_line > 0) {
    complain(csv + ": the quote that opens in line " + std::to_string(table.unclosed_line) + " is never closed");
    return kFindings;
  }
  Work work;
  if (!apply(table.rows, csv, root, work)) {
    complain("nothing was written");
    return kFindings;
  }
  if (work.changes == 0) {
    fmt::print("The table and the catalogue say the same.\n");
    return kDone;
  }
  for (const std::string& file : work.touched) overlay.changed[root + "/" + file] = write_document(work.documents[file], file);
  bool sound = true;
  for (const Diagnostic& fault : load_catalog(overlay, root, session.today).faults) {
    if (fault.warning) continue;
    fmt::print(stderr, "{}\n", to_text(fault));
    sound = false;
  }
  const std::string summary = fmt::format("{} change{} in {} file{}", work.changes, work.changes == 1 ? "" : "s", work.touched.size(),
                                          work.touched.size() == 1 ? "" : "s");
  if (!sound) {
    complain(summary + " would leave the catalogue with faults; nothing was written");
    return kFindings;
  }
  if (!write) {
    fmt::print("{}; nothing was written. Say --write to write them.\n", summary);
    return kDone;
  }
  for (const auto& [path, content] : overlay.changed) {
    if (const std::string failed = write_file(path, content); !failed.empty()) {
      complain(failed);
      return kFindings;
    }
  }
  fmt::print("{}: written.\n", summary);
  return kDone;
}

}  // namespace

void add_import(const Command& app, Session& session) {
  const Command command = app.add_command("import", "Take a changed table back into the catalogue");
  const auto csv = std::make_shared<std::string>();
  const auto write = std::make_shared<bool>(false);
  command.add_option("CSV", *csv, "A table as `tenwinters export --csv` writes it; rows left out stay as they are").required();
  command.add_flag("--write", *write, "Write the changes; without it they are only shown");
  command.footer("Example:\n  tenwinters export --csv catalogue.csv\n  tenwinters import catalogue.csv            # shows what would change\n"
                  "  tenwinters import catalogue.csv --write");
  command.does(session, [&session, csv, write] { return import(session, *csv, *write); });
}

}  // namespace tenwinters::cli
