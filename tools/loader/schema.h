// JSON Schemas (draft 7) of the catalogue's files, so that an editor knows the keys while somebody types.
//
// A schema sees one file by itself. What the loader checks beyond that: ids that lead to other files, an id
// that equals its file's name, low <= best <= high, hardened <= unhardened, sums, the days of February, and
// what a YAML library takes for a truth value or a number.
#pragma once

#include <string>
#include <vector>

namespace tenwinters {

struct SchemaFile {
  std::string name;     // "cultivar.json"
  std::string content;
};

// By name.
[[nodiscard]] std::vector<SchemaFile> catalog_schemas();

}  // namespace tenwinters
