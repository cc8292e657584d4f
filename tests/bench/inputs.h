// What the benchmarks run on: the catalogue of this tree and its demonstration office, loaded once.
#pragma once

#include <cstdio>
#include <cstdlib>

#include "lib/files.h"
#include "loader/loader.h"
#include "records/records.h"

namespace tenwinters {

struct Inputs {
  Catalog catalog;
  Office office;
};

inline const Inputs& inputs() {
  static const Inputs loaded = [] {
    const DiskReader disk;
    const std::string root = std::string(TENWINTERS_SOURCE_DIR) + "/catalog";
    LoadedCatalog catalog = load_catalog(disk, root);
    LoadedOffice office = load_office(disk, root + "/offices/demo/office.yaml", catalog.catalog);
    for (std::size_t i = 0; i < office.office.places.size(); ++i) {
      std::string why;
      const std::optional<std::string> text = disk.read(office.record_paths[i], 64u << 20u, why);
      if (!text) {
        std::fprintf(stderr, "%s: %s\n", office.record_paths[i].c_str(), why.c_str());
        std::exit(1);
      }
      office.office.places[i].winters =
          pack_winters(read_record(*text, office.record_paths[i]), office.latitudes[i], office.office.invented);
    }
    return Inputs{std::move(catalog.catalog), std::move(office.office)};
  }();
  return loaded;
}

}  // namespace tenwinters
