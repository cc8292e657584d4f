// Requests of the pages that plan, compare, warn and keep the calendar, and the words and seasons they bring along.
#include <cstddef>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <set>

#include "fuzz/base.h"
#include "screens/screens.h"

namespace {

using namespace tenwinters;
using namespace tenwinters::screens;

Screens& desk() {
  static Screens& desk = *[] {
    cli::Loaded loaded = testing::read_real(cli::Records::read);
    // Few trees, stocks and winters: what is asked is tried, not how cold it was.
    const std::set<std::string> kept = {"owari", "meyer", "minneola", "orlando"};
    std::erase_if(loaded.catalog.cultivars, [&](const Cultivar& cultivar) { return !kept.contains(cultivar.id); });
    std::erase_if(loaded.catalog.rootstocks, [](const Rootstock& stock) { return stock.id != "carrizo" && stock.id != "swingle"; });
    loaded.office.on_sale.clear();
    loaded.office.rootstocks_on_sale.clear();
    for (Place& place : loaded.office.places) place.winters.winters.resize(2);
    Language language = loaded.languages.front();
    return new Screens(std::move(loaded.catalog), std::move(loaded.office), std::move(loaded.seasons), std::move(language));
  }();
  return desk;
}

}  // namespace

extern "C" int LLVMFuzzerInitialize(int*, char***) {
  testing::write_seed("seasons", seasons_to_json(desk().seasons()));
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  if (const auto words = words_from_json(text); words && !words_from_json(words_to_json(*words))) std::abort();
  if (const auto seasons = seasons_from_json(text); seasons && !seasons_from_json(seasons_to_json(*seasons))) std::abort();
  // Whatever is asked, the answer is JSON.
  if (!nlohmann::json::accept(desk().answer(text))) std::abort();
  return 0;
}
