// The pages that run the engine: what each shows for a request, as JSON with every word said and every
// drawing drawn. The browser and the terminal get the same bytes.
//
//   Screens screens(catalog, office, seasons, language);
//   std::string shown = screens.answer(R"({"screen":"calendar","place":"gannet_quay","trees":["owari"],"year":2027})");
//   // {"title":"...","status":"...","blocks":[...],"file":"...","ics":"..."}
//
// Common to all: place (default: the office's first), units (us | metric; default: the office's), answers (as in wire.h).
//   calendar  trees: [cultivar, ...], year, yearly: bool, alarm_days, today: month * 100 + day, to be marked
//   night     low_c, hours, before: mild | gradual | sudden, windy, month, trees: [{id, rootstock, age, health, container_l, heavy_crop, spot, protections: []}]
//   compare   trees: [2 to 4 cultivars]
//   plan      width_cm, length_cm, trees_at_most, existing: [cultivar, ...], walls: [side, ...], lines: [side, ...], carry
// Whatever is wrong with a request: {"error": what, "found": text}, in ASCII.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "lib/texts.h"
#include "tenwinters/calendar.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"
#include "tenwinters/prospect.h"

namespace tenwinters::screens {

// The browser gets words and seasons as JSON; with the names of things among the words: see lib/things.h.
[[nodiscard]] std::string words_to_json(const Language& language);
[[nodiscard]] std::optional<Language> words_from_json(std::string_view text);
[[nodiscard]] std::string seasons_to_json(const Seasons& seasons);
[[nodiscard]] std::optional<Seasons> seasons_from_json(std::string_view text);

inline constexpr std::size_t kTreesMost = 12, kNightTreesMost = 8, kComparedMost = 4;

class Screens {
 public:
  Screens(Catalog catalog, Office office, Seasons seasons, Language language);
  Screens(const Screens&) = delete;
  Screens& operator=(const Screens&) = delete;
  [[nodiscard]] std::string answer(std::string_view request);

  [[nodiscard]] const Catalog& catalog() const { return catalog_; }
  [[nodiscard]] const Office& office() const { return office_; }
  [[nodiscard]] const Seasons& seasons() const { return seasons_; }
  [[nodiscard]] const Language& language() const { return language_; }

  // The place's winters, and what is remembered of them between answers.
  struct Ground {
    const Place& place;
    Replay replay;
    ReplayMemo memo;
  };

 private:
  Catalog catalog_;
  Office office_;
  Seasons seasons_;
  Language language_;
  std::map<std::string, Ground, std::less<>> grounds_;
};

}  // namespace tenwinters::screens
