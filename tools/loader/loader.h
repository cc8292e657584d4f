// YAML files -> checked values. The only part that knows YAML; its exceptions stop here.
//
//   DiskReader disk;
//   LoadedCatalog loaded = load_catalog(disk, "catalog");
//   if (loaded.faults.empty()) use(loaded.catalog, loaded.languages);
//   else for (const Diagnostic& d : loaded.faults) print(to_text(d));   // all faults of all files
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "lib/descent.h"
#include "lib/diagnostic.h"
#include "lib/files.h"
#include "lib/guidance.h"
#include "lib/texts.h"
#include "tenwinters/calendar.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"
#include "tenwinters/yard.h"

namespace tenwinters {

struct LoadedCatalog {
  Catalog catalog;
  Descent descent;
  Guidance guidance;
  Seasons seasons;
  std::vector<Language> languages;       // sorted by code
  std::vector<Diagnostic> faults;        // any that is not a warning: do not use the catalogue
};
// `today` is an ISO date for review_by warnings; "" = none.
[[nodiscard]] LoadedCatalog load_catalog(const FileReader& files, const std::string& root, const std::string& today = "");

// An office file; its places name record files (relative to it), which are returned unread.
struct LoadedOffice {
  Office office;                         // Place::winters still empty
  std::vector<std::string> record_paths; // one a place
  std::vector<double> latitudes;         // one a place, degrees north
  std::vector<Diagnostic> faults;
};
[[nodiscard]] LoadedOffice load_office(const FileReader& files, const std::string& path, const Catalog& catalog,
                                       const std::string& today = "");

// An answers file: a YAML map of question id to answer id, and optionally `place: <id>`.
struct LoadedAnswers {
  Answers answers;
  std::string place;                     // "" = not said
  std::vector<Diagnostic> faults;
};
[[nodiscard]] LoadedAnswers load_answers(const FileReader& files, const std::string& path, const Catalog& catalog,
                                         const Office& office);

// A list of trees as their owner wrote it: a YAML list of maps such as {tree: owari, age: 3, protection: [cover]},
// or that list under the one key `trees`. What the words mean is for the reader of the rows to say.
struct TreeRow {
  int line = 0;
  std::vector<std::pair<std::string, std::string>> cells;  // key and text; the items of a list with blanks between
};
struct LoadedTrees {
  std::vector<TreeRow> rows;
  std::vector<Diagnostic> faults;
};
[[nodiscard]] LoadedTrees load_trees(const FileReader& files, const std::string& path);

}  // namespace tenwinters
