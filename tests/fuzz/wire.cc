// JSON from the picker's page, or from whoever sends it.
#include <cstddef>
#include <cstdint>
#include <nlohmann/json.hpp>

#include "fuzz/base.h"
#include "loader/loader.h"
#include "wire/wire.h"

namespace {

tenwinters::Desk& desk() {
  using namespace tenwinters;
  static Desk& desk = *[] {
    const MemoryReader files = testing::read_base();
    LoadedCatalog catalog = load_catalog(files, "catalog", "2026-12-01");
    LoadedOffice office = load_office(files, "catalog/offices/demo/office.yaml", catalog.catalog, "2026-12-01");
    return new Desk(std::move(catalog.catalog), std::move(office.office), all_tells());
  }();
  return desk;
}

}  // namespace

// What a page of this desk would be given is where to begin.
extern "C" int LLVMFuzzerInitialize(int*, char***) {
  tenwinters::testing::write_seed("catalog", tenwinters::catalog_to_json(desk().catalog()));
  tenwinters::testing::write_seed("office", tenwinters::office_to_json(desk().office()));
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tenwinters;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  (void)answers_from_json(text);
  // What is read is written so that it is read again.
  if (const auto catalog = catalog_from_json(text); catalog && !catalog_from_json(catalog_to_json(*catalog))) std::abort();
  if (const auto office = office_from_json(text); office && !office_from_json(office_to_json(*office))) std::abort();
  // Whatever is asked, the answer is JSON.
  if (!nlohmann::json::accept(desk().answer(text))) std::abort();
  return 0;
}
