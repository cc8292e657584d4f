// Daily record -> winters for replay, as whole numbers.
#include <algorithm>
#include <cmath>

#include "records/records.h"

namespace tenwinters {
namespace {

constexpr double kHeldC = 5.0;   // hours above are of no use to the replay
constexpr double kSpellC = 1.0;  // nor is a spell that never gets here
// So many hours on end above kHeldC end a spell: an afternoon that lets trees recover. Nights between
// mild days thus stand alone, each with the hardening of its own day; days that stay cold join theirs.
constexpr std::size_t kSpellEnd = 8;
// Judgement: cold that wind or cloud brought in. The day after the coldest dawn stays cold although the sun
// is up, or its readings lie so close together that no still layer of cold air can have formed.
constexpr double kWindyHighC = 7.0, kWindyRangeC = 8.0;

std::int16_t tenths(float air_c) {
  return static_cast<std::int16_t>(std::lround(air_c * 10));
}

// Calendar months of the growing season that ends in a winter: March of the year before to February in it
// (south: September before to August in it).
std::array<int, 12> heat_of(const std::vector<Day>& days, int winter, bool southern, const HeatUnits& usual) {
  std::array<int, 12> heat{};
  const int first = southern ? 9 : 3;
  for (int month = 1; month <= 12; ++month) {
    const int year = month >= first ? winter - 1 : winter;
    const auto i = static_cast<std::size_t>(month - 1);
    const double sum = month_heat(days, year, month).value_or(std::isnan(usual.month[i]) ? 0 : usual.month[i]);
    heat[i] = static_cast<int>(std::lround(sum));
  }
  return heat;
}

class Packer {
 public:
  Packer(const std::vector<Day>& days, double latitude_deg)
      : southern_(latitude_deg < 0),
        hours_(hourly_series(days, latitude_deg, true)),
        hardening_(hardening_by_day(hours_, southern_)) {
    windy_.assign(hours_.read.size(), 0);
    for (const Day& day : days)
      windy_[index(day_number(day.year, day.month, day.day))] =
          day.max_c <= kWindyHighC || day.max_c - day.min_c < kWindyRangeC;  // false where not read
  }

  std::vector<Spell> spells(int winter) const {
    std::vector<Spell> found;
    const int start = winter_start(winter, southern_), end = winter_start(winter + 1, southern_);
    Spell spell;
    std::size_t warm = 0;
    int last_day = start;
    for (int day = std::max(start, hours_.first_day); day < end && index(day) < hours_.read.size(); ++day) {
      for (int hour = 0; hour < 24; ++hour) {
        const float air = hours_.air_c[index(day) * 24 + static_cast<std::size_t>(hour)];
        const bool cold = hours_.read[index(day)] != 0 && air <= static_cast<float>(kHeldC);
        if (!cold) {
          if (!spell.tenths_c.empty() && ++warm >= kSpellEnd) close(spell, start, last_day, found);
          continue;
        }
        if (spell.tenths_c.empty()) {
          spell.day = day - start;
          spell.start_hour = hour;
        } else {
          spell.tenths_c.insert(spell.tenths_c.end(), warm, kWarm);
        }
        warm = 0;
        last_day = day;
        spell.tenths_c.push_back(tenths(air));
      }
    }
    close(spell, start, last_day, found);
    return found;
  }

 private:
  std::size_t index(int day) const { return static_cast<std::size_t>(day - hours_.first_day); }

  // Finishes a spell and begins the next.
  void close(Spell& spell, int start, int last_day, std::vector<Spell>& found) const {
    if (spell.tenths_c.empty()) return;
    if (*std::min_element(spell.tenths_c.begin(), spell.tenths_c.end()) <= std::lround(kSpellC * 10)) {
      const float h = hardening_[index(start + spell.day)];
      spell.hardening_permille = static_cast<int>(std::lround(h * 1000));
      std::size_t coldest = index(start + spell.day);
      for (std::size_t day = coldest; day <= index(last_day); ++day)
        if (dawn_c(day) < dawn_c(coldest)) coldest = day;
      spell.windy = windy_[coldest] != 0;
      found.push_back(std::move(spell));
    }
    spell = Spell{};
  }

  float dawn_c(std::size_t day) const {
    const auto from = hours_.air_c.begin() + static_cast<std::ptrdiff_t>(day * 24);
    return *std::min_element(from, from + 24);
  }

  bool southern_;
  HourlySeries hours_;
  std::vector<float> hardening_;
  std::vector<char> windy_;  // by day of the series
};

}  // namespace

Winters pack_winters(const Record& record, double latitude_deg, bool invented) {
  Winters pack;
  pack.station = record.station;
  pack.invented = invented;
  pack.latitude_deg = latitude_deg;
  if (record.days.empty()) return pack;
  const bool southern = latitude_deg < 0;
  const WinterList list = list_winters(record.days, southern);
  pack.left_out = list.left_out;
  const HeatUnits usual = heat_units(record.days);
  const Packer packer(record.days, latitude_deg);
  for (const WinterLow& low : list.complete) {
    Winter winter;
    winter.year = low.year;
    winter.lowest_tenths_c = static_cast<int>(std::lround(low.lowest_c * 10));
    winter.first_freeze_day = low.first_freeze[0];
    winter.last_freeze_day = low.last_freeze[0];
    winter.heat_units = heat_of(record.days, low.year, southern, usual);
    winter.spells = packer.spells(low.year);
    pack.winters.push_back(std::move(winter));
  }
  return pack;
}

}  // namespace tenwinters
