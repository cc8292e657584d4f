// A station's winters, packed for replay: exact small integers, so that native and browser builds
// replay the very same numbers.
//
// The native side (climate) makes the pack from a daily record; the core only reads it.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace tenwinters {

// One run of cold hours. Hours warmer than +5 C are left out; a spell ends after eight hours without any.
struct Spell {
  int day = 0;                             // days since 1 July (1 January south of the equator)
  int start_hour = 0;                      // 0..23, local time, of the first entry
  int hardening_permille = 0;              // hardening index at the start of the spell, 0..1000
  bool windy = false;                      // advective: little or no inversion, protection works poorly
  std::vector<std::int16_t> tenths_c;      // one entry an hour, tenths of a degree; kWarm where above +5 C
};
inline constexpr std::int16_t kWarm = 32767;

struct Winter {
  int year = 0;                            // the year in which the winter ends (north) or lies (south)
  int lowest_tenths_c = 0;                 // lowest reading of the winter
  int first_freeze_day = -1;               // day (as Spell::day) of the first reading at or below 0 C, or -1
  int last_freeze_day = -1;
  std::array<int, 12> heat_units{};        // degree-days above 12.8 C, whole, by calendar month of the
                                           // growing season that ends in this winter
  std::vector<Spell> spells;
};

struct Winters {
  std::string station;                     // name shown beside every figure
  bool invented = false;                   // shown wherever a figure from it is shown
  double latitude_deg = 0;
  std::vector<Winter> winters;             // complete winters only, oldest first
  std::vector<int> left_out;               // incomplete winters, by year
};

}  // namespace tenwinters
