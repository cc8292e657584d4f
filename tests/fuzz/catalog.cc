// One file of a small catalogue replaced by what came from outside; the first byte says which. Whatever it is,
// every fault can be told.
#include <cstddef>
#include <cstdint>

#include "fuzz/base.h"
#include "loader/loader.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tenwinters;
  static const MemoryReader base = testing::read_base();
  if (size == 0) return 0;
  MemoryReader files = base;
  auto chosen = files.files.begin();
  std::advance(chosen, static_cast<std::ptrdiff_t>(data[0] % files.files.size()));
  chosen->second.assign(reinterpret_cast<const char*>(data + 1), size - 1);
  const LoadedCatalog catalog = load_catalog(files, "catalog", "2026-12-01");
  const LoadedOffice office = load_office(files, "catalog/offices/demo/office.yaml", catalog.catalog, "2026-12-01");
  const LoadedAnswers answers = load_answers(files, "yard.yaml", catalog.catalog, office.office);
  const LoadedTrees trees = load_trees(files, "yard.yaml");
  for (const auto* faults : {&catalog.faults, &office.faults, &answers.faults, &trees.faults})
    for (const Diagnostic& fault : *faults) testing::expect_plain(to_text(fault));
  return 0;
}
