// tenwinters export: the catalogue as a table, its files' schemas.
#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "cli/catalog_csv.h"
#include "cli/commands.h"
#include "lib/csv.h"
#include "cli/edit.h"
#include "loader/schema.h"

namespace tenwinters::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLargest = 1U << 20U;

int export_csv(const Session& session, const std::string& to) {
  const std::string root = find_catalog(session);
  if (root.empty()) {
    complain("no catalogue found: run this inside the project, or name its folder with --catalog");
    return kMisuse;
  }
  const DiskReader disk;
  std::string out = csv_line(CsvRow(kCsvColumns.begin(), kCsvColumns.end()));
  std::size_t rows = 0;
  for (const std::string& path : catalog_files(root)) {
    std::string why;
    Document document;
    const std::optional<std::string> raw = disk.read(root + "/" + path, kLargest, why);
    if (raw) why = read_document(path, *raw, document);
    if (!why.empty()) {
      complain(root + "/" + path + ": " + why);
      return kFindings;
    }
    for (const FigureRow& row : rows_of(path, document)) {
      out += csv_line(CsvRow(row.cells.begin(), row.cells.end()));
      ++rows;
    }
  }
  if (to == "-") {
    fmt::print("{}", out);
    return kDone;
  }
  if (const std::string failed = write_file(to, out); !failed.empty()) {
    complain(failed);
    return kFindings;
  }
  fmt::print("{}: {} rows\n", to, rows);
  return kDone;
}

int export_schemas(const std::string& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  for (const SchemaFile& file : catalog_schemas()) {
    const std::string failed = write_file(folder + "/" + file.name, file.content);
    if (failed.empty()) continue;
    complain(failed);
    return kFindings;
  }
  fmt::print("{}: {} schemas\n", folder, catalog_schemas().size());
  return kDone;
}

}  // namespace

void add_export(const Command& app, Session& session) {
  const Command command = app.add_command("export", "The catalogue as one table, or the schemas of its files");
  const auto csv = std::make_shared<std::string>();
  const auto schema = std::make_shared<std::string>();
  const Command group = command.one_of("what");
  group.add_option("--csv", *csv, "A row for each figure and text; - for standard output").type_name("FILE");
  group.add_option("--schema", *schema, "JSON Schemas for editors, as in catalog/schema").type_name("DIR");
  command.footer("Example:\n  tenwinters export --csv catalogue.csv\n  tenwinters export --schema catalog/schema\n"
                  "`tenwinters import` takes the table back.");
  command.does(session, [&session, csv, schema] { return schema->empty() ? export_csv(session, *csv) : export_schemas(*schema); });
}

}  // namespace tenwinters::cli
