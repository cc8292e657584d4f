// Every figure of the catalogue as it is written, and where: for whoever asks how we know.
//
//   for (const Figure& figure : figures_of(list_figures(disk, "catalog"), catalog, "owari")) print(figure);
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "lib/files.h"
#include "tenwinters/catalog.h"

namespace tenwinters {

struct Figure {
  std::string file;
  int line = 0;
  std::string kind;   // type, cultivar, rootstock; question, caution ...: the singular of the table's key
  std::string of;     // id of the file or of the row; the table's name for constants
  std::string path;   // within it, "traits.cold.leaf.hardened"; "" = the row itself
  std::string value;  // "-9.6 C (-10 to -7)", "few", "months 11 to 1"; "" where only the evidence is stated
  Evidence evidence;  // from_type only in the result of figures_of
};

// In the order of the files. Files that cannot be read are passed over: load_catalog tells of them.
[[nodiscard]] std::vector<Figure> list_figures(const FileReader& files, const std::string& root);

// Those of one thing. A cultivar's include what it takes from its type (from_type); empty if `id` names nothing.
[[nodiscard]] std::vector<Figure> figures_of(const std::vector<Figure>& all, const Catalog& catalog, std::string_view id);

}  // namespace tenwinters
