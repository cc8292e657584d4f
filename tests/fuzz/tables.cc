// Tables that people make, and the site's address: stock lists, callers, the trees of a cold night.
#include <cstddef>
#include <cstdint>

#include "cli/callers.h"
#include "cli/night_input.h"
#include "cli/stock.h"
#include "fuzz/base.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tenwinters;
  using namespace tenwinters::cli;
  static const Loaded loaded = testing::read_real(Records::unread);
  const std::string text(reinterpret_cast<const char*>(data), size);
  const testing::HeldFile file(text);

  Stock stock;
  if (read_stock(file.path(), loaded, stock) == kDone) {
    for (const StockRow& row : stock.rows)
      if (find_cultivar(loaded.catalog, row.cultivar) == nullptr) std::abort();
    for (const Diagnostic& fault : stock.faults) testing::expect_plain(to_text(fault));
  }
  std::vector<Household> households;
  CallerOptions callers;
  callers.batch = file.path();
  (void)read_households({}, callers, loaded, households);
  callers.batch.clear();
  callers.link = text;
  (void)read_households({}, callers, loaded, households);
  for (const Household& household : households)
    if (household.place >= loaded.office.places.size() || !check_answers(loaded.catalog, household.answers).empty()) std::abort();

  NightOptions night;
  night.trees_file = file.path();
  std::vector<NightTree> trees;
  (void)read_trees(night, loaded, loaded.office.places.front(), trees);
  (void)parse_temperature_c(text, Units::us);
  (void)parse_container_l(text, Units::metric);
  return 0;
}
