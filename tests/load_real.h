// Loads the catalogue of this tree and its demonstration office, for tests and benchmarks alike.
#pragma once

#include "lib/files.h"
#include "loader/loader.h"
#include "records/records.h"

namespace tenwinters::testing {

struct RealCatalog {
  Catalog catalog;
  Office office;  // places with their winters
  std::vector<Language> languages;
  Descent descent;
  Guidance guidance;
};

// `tell(text)` hears of everything that is wrong.
template <class Tell>
RealCatalog load_real(const Tell& tell) {
  const DiskReader disk;
  const std::string root = std::string(TENWINTERS_SOURCE_DIR) + "/catalog";
  LoadedCatalog catalog = load_catalog(disk, root);
  LoadedOffice office = load_office(disk, root + "/offices/demo/office.yaml", catalog.catalog);
  for (const std::vector<Diagnostic>* faults : {&catalog.faults, &office.faults})
    for (const Diagnostic& fault : *faults)
      if (!fault.warning) tell(to_text(fault));
  for (std::size_t i = 0; i < office.office.places.size(); ++i) {
    std::string why;
    const std::optional<std::string> text = disk.read(office.record_paths[i], 64u << 20u, why);
    if (!text) {
      tell(office.record_paths[i] + ": " + why);
      continue;
    }
    office.office.places[i].winters = pack_winters(read_record(*text, office.record_paths[i]), office.latitudes[i], office.office.invented);
  }
  return RealCatalog{std::move(catalog.catalog), std::move(office.office), std::move(catalog.languages), std::move(catalog.descent), std::move(catalog.guidance)};
}

}  // namespace tenwinters::testing
