// The catalogue of this tree and its demonstration office, loaded once for a test program.
#pragma once

#include <gtest/gtest.h>

#include "lib/files.h"
#include "loader/loader.h"
#include "records/records.h"

namespace tenwinters::testing {

struct RealCatalog {
  Catalog catalog;
  Office office;  // places with their winters
  std::vector<Language> languages;
};

inline const RealCatalog& real_catalog() {
  static const RealCatalog loaded = [] {
    const DiskReader disk;
    const std::string root = std::string(TENWINTERS_SOURCE_DIR) + "/catalog";
    LoadedCatalog catalog = load_catalog(disk, root);
    LoadedOffice office = load_office(disk, root + "/offices/demo/office.yaml", catalog.catalog);
    for (const std::vector<Diagnostic>* faults : {&catalog.faults, &office.faults})
      for (const Diagnostic& fault : *faults)
        if (!fault.warning) ADD_FAILURE() << to_text(fault);
    for (std::size_t i = 0; i < office.office.places.size(); ++i) {
      std::string why;
      const std::optional<std::string> text = disk.read(office.record_paths[i], 64u << 20u, why);
      if (!text) {
        ADD_FAILURE() << office.record_paths[i] << ": " << why;
        continue;
      }
      office.office.places[i].winters = pack_winters(read_record(*text, office.record_paths[i]), office.latitudes[i], office.office.invented);
    }
    return RealCatalog{std::move(catalog.catalog), std::move(office.office), std::move(catalog.languages)};
  }();
  return loaded;
}

}  // namespace tenwinters::testing
