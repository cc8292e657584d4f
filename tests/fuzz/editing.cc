// What writes into a catalogue: a file put in the house order, a table taken back.
#include <cstddef>
#include <cstdint>

#include "cli/catalog_csv.h"
#include "fuzz/base.h"
#include "lib/csv.h"
#include "loader/format.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tenwinters;
  static const MemoryReader base = testing::read_base();
  static const std::string kFile = "cultivars/early_bay.yaml";
  const std::string text(reinterpret_cast<const char*>(data), size);
  // Putting in order a second time changes nothing more.
  for (const char* path : {"catalog/cultivars/early_bay.yaml", "catalog/offices/demo/office.yaml", "catalog/words/en.yaml"}) {
    const Formatted once = format_file(path, text);
    if (!once.why.empty()) continue;
    const Formatted twice = format_file(path, once.text);
    if (!twice.why.empty() || twice.text != once.text) std::abort();
  }
  // What a table says of a figure goes into its file (which `import` reads again before it writes any); a cell comes
  // back as it went out.
  Document document;
  if (!read_document(kFile, base.files.at("catalog/" + kFile), document).empty()) std::abort();
  for (const CsvRow& row : read_csv(text).rows) {
    std::string why;
    cli::FigureRow figure;
    for (std::size_t i = 0; i < row.size() && i < figure.cells.size(); ++i) figure.cells[i] = row[i];
    figure[cli::Cell::file] = kFile;
    (void)cli::apply_row(figure, document, why);
    const std::vector<CsvRow> back = read_csv(csv_line({"x", row.front()})).rows;
    if (back.size() != 1 || back[0].size() != 2 || back[0][1] != row.front()) std::abort();
  }
  Document again;
  (void)read_document(kFile, write_document(document, kFile), again);
  return 0;
}
