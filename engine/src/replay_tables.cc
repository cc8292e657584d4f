// A place's winters as tables: what every freeze would kill at every threshold.
#include <algorithm>
#include <functional>
#include <span>

#include "order.h"
#include "replay.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

constexpr int kNoonToMidnight = 12;
constexpr int kHoursInDay = 24;
constexpr std::int16_t kColdestAir = -1000;  // tenths; no station has read so low, a broken file might

using Hours = std::span<const std::int16_t>;

// Nights run from noon to noon; the low of each, coldest first.
void add_nights(Replay& replay, Replay::Cold& cold, Hours hours, int first_hour) {
  cold.first_night = static_cast<std::uint32_t>(replay.night_lows.size());
  int night = -1;
  for (std::size_t i = 0; i < hours.size(); ++i) {
    if (hours[i] == kWarm) continue;
    const int now = (first_hour + static_cast<int>(i) + kNoonToMidnight) / kHoursInDay;
    if (now != night) {
      replay.night_lows.push_back(hours[i]);
      night = now;
    } else {
      replay.night_lows.back() = std::min(replay.night_lows.back(), hours[i]);
    }
  }
  put_in_order(std::span(replay.night_lows).subspan(cold.first_night), std::less<>());
  cold.nights = static_cast<std::uint32_t>(replay.night_lows.size()) - cold.first_night;
}

// The share killed for every threshold from the lowest hour to kWarmestThreshold.
void add_injuries(Replay& replay, Replay::Cold& cold, Hours hours) {
  cold.injuries = static_cast<std::uint32_t>(replay.injuries.size());
  const ColdNumbers& numbers = replay.numbers[0];
  std::vector<int> count(static_cast<std::size_t>(kWarmestThreshold - cold.lowest + 1));  // by tenth of a degree
  for (const std::int16_t air : hours)
    if (air <= kWarmestThreshold) ++count[static_cast<std::size_t>(std::max(air, cold.lowest) - cold.lowest)];
  std::int64_t colder = 0, sum = 0;
  for (const int here : count) {
    replay.injuries.push_back(static_cast<float>(injury(sum, numbers)));
    colder += here;
    sum += colder;
  }
}

void add_freeze(Replay& replay, const Spell& spell, const Freeze& freeze) {
  const Hours hours = Hours(spell.tenths_c).subspan(freeze.first, freeze.count);
  const std::int16_t lowest = std::max(*std::min_element(hours.begin(), hours.end()), kColdestAir);
  if (lowest >= kWarmestThreshold) return;
  Replay::Cold cold;
  cold.lowest = lowest;
  cold.hardening = static_cast<std::uint8_t>((std::clamp(spell.hardening_permille, 0, 1000) + 5) / 10);
  const int first_hour = spell.start_hour + static_cast<int>(freeze.first);
  cold.day = static_cast<std::int16_t>(spell.day + first_hour / kHoursInDay);
  cold.month = static_cast<std::uint8_t>(season_month(cold.day));
  cold.windy = spell.windy;
  cold.long_freeze = long_freeze(hours);
  add_nights(replay, cold, hours, first_hour);
  add_injuries(replay, cold, hours);
  replay.colds.push_back(cold);
}

}  // namespace

Replay make_replay(const Winters& winters, const ColdModel& model) {
  Replay replay;
  replay.south = winters.latitude_deg < 0;
  for (const Lean lean : {Lean::best, Lean::worse, Lean::kinder})
    replay.numbers[static_cast<std::size_t>(lean)] = cold_numbers(model, lean);
  for (const Winter& winter : winters.winters) {
    const std::size_t first = replay.colds.size();
    for (const Spell& spell : winter.spells)
      for (const Freeze& freeze : freezes(spell.tenths_c)) add_freeze(replay, spell, freeze);
    put_in_order(std::span(replay.colds).subspan(first), [](const Replay::Cold& a, const Replay::Cold& b) { return a.lowest < b.lowest; });
    replay.winter_end.push_back(static_cast<std::uint32_t>(replay.colds.size()));
    Replay::HeatSums& sums = replay.heat.emplace_back();
    for (std::size_t i = 1; i < sums.size(); ++i) sums[i] = sums[i - 1] + winter.heat_units[(i - 1) % 12];
  }
  return replay;
}

}  // namespace tenwinters
