// A catalogue, from its folder to a Catalog.
#include <array>
#include <exception>

#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr std::array<std::string_view, 13> kTables = {"ancestors.yaml",  "calls.yaml",  "cautions.yaml",      "cold_model.yaml",
                                                     "curves.yaml",     "guides.yaml", "microclimates.yaml", "model.yaml",
                                                     "protections.yaml", "questions.yaml", "rules.yaml",     "seasons.yaml", "sources.yaml"};

// A file with a wrong name would be passed over in silence.
void tell_strangers(Reading& reading) {
  for (const std::string& name : reading.disk.list(reading.root)) {
    const bool yaml = name.ends_with(".yaml") || name.ends_with(".yml");
    if (!yaml || name.starts_with('.') || std::find(kTables.begin(), kTables.end(), name) != kTables.end()) continue;
    reading.faults.push_back(
        {reading.root + "/" + name, 0, 0, "nothing reads this file" + did_you_mean(name, kTables), "", true});
  }
}

bool is_catalog(const FileReader& disk, const std::string& root) {
  const std::vector<std::string> names = disk.list(root);
  const bool table = std::any_of(names.begin(), names.end(), [](const std::string& name) {
    return std::find(kTables.begin(), kTables.end(), name) != kTables.end();
  });
  return table || !disk.list(root + "/types").empty();
}

void read_all(Reading& reading) {
  tell_strangers(reading);
  read_sources(reading);
  read_cautions(reading);
  read_ancestors(reading);
  read_types(reading);
  read_cultivars(reading);
  read_rootstocks(reading);
  read_questions(reading);
  read_model(reading);
  read_curves(reading);
  read_microclimates(reading);
  read_protections(reading);
  read_cold_model(reading);
  read_calls(reading);
  read_guides(reading);
  read_seasons(reading);
  read_words(reading);
  read_rules(reading);
  read_prose(reading);
  follow_links(reading);
  check_published(reading);
  derive_pollen(reading.catalog);
  note_parents_of_cultivars(reading);
}

}  // namespace

LoadedCatalog load_catalog(const FileReader& files, const std::string& root, const std::string& today) {
  LoadedCatalog loaded;
  try {
    if (!is_catalog(files, root)) {
      loaded.faults.push_back(
          {root, 0, 0, "no catalogue here; expected a folder with types/, cultivars/, sources.yaml and the others", "",
           false});
      return loaded;
    }
    Reading reading(files, root, today);
    read_all(reading);
    for (const std::unique_ptr<YamlFile>& file : reading.files) {
      reading.faults.insert(reading.faults.end(), file->faults().begin(), file->faults().end());
    }
    sort_diagnostics(reading.faults);
    loaded.catalog = std::move(reading.catalog);
    loaded.descent = std::move(reading.descent);
    loaded.guidance = std::move(reading.guidance);
    loaded.seasons = std::move(reading.seasons);
    loaded.languages = std::move(reading.languages);
    loaded.faults = std::move(reading.faults);
  } catch (const std::exception& error) {
    loaded.faults.push_back({root, 0, 0, std::string("could not be read: ") + error.what(), "", false});
  }
  return loaded;
}

}  // namespace tenwinters
