// The seam between the choice and the cold: what a place's winters do to one tree in ten years.
//
//   Replay replay = make_replay(place.winters, catalog.cold_model);   // once a place
//   ReplayMemo memo;                                                  // as long as the replay
//   Prospect e = expected_prospect(planting, replay, memo);  // cheap: to choose among stocks and habits
//   Prospect p = prospect(planting, replay, memo);           // with intervals: for what is shown
//
// Every recorded winter is played at every tree age 1..10. Each winter counts as equally likely to be
// the next, and winters as independent of each other, so the expected ten years follow exactly from
// averages over the record: nothing is drawn at random.
//
// In one winter a share of leaf, wood, trunk, fruit and bloom is killed (cold.h); killed trunk is the
// chance of losing the tree, killed wood the share of the crown that gives nothing for some seasons.
// Fruit is lost if it is still on the tree on that date; bloom lost in late winter and lost leaves take
// from the next crop. A household works at its worst nights first, on spells that come close to a
// killing point, until its nights are spent.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <unordered_map>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/cold.h"
#include "tenwinters/winters.h"

namespace tenwinters {

// The figures of a prospect that have an interval, and the most that each can be.
inline constexpr Interval Prospect::*kTenYearFigures[] = {&Prospect::alive_at_ten, &Prospect::good_harvests, &Prospect::work_nights,
                                                          &Prospect::crops_lost};
inline constexpr double kMostOfFigure[] = {1, 10, 366, 10};

// One tree in one spot, cared for in one way.
struct Planting {
  const Cultivar* cultivar = nullptr;       // never null
  const Rootstock* rootstock = nullptr;     // never null
  const Protection* protection = nullptr;   // never null; used on at most `work_nights` a winter
  double warmer_c = 0;                      // microclimate, still night
  double container_l = 0;                   // 0 = in the ground
  bool moves_indoors = false;               // a pot that container_only protections may carry in
  double work_nights = 0;
  Region region = Region::other;
};

// A place's winters as tables. Value type; make_replay is the only way to fill one.
struct Replay {
  struct Cold {                    // one freeze: see freezes() in cold.h
    std::int16_t lowest = 0;       // tenths
    std::int16_t day = 0;          // as Spell::day
    std::uint8_t hardening = 0;    // hundredths, 0..100
    std::uint8_t month = 0;        // of the season, 0 = July
    bool windy = false;
    bool long_freeze = false;
    std::uint32_t first_night = 0, nights = 0;  // in night_lows, coldest first
    std::uint32_t injuries = 0;    // where its row starts; entry i is for a threshold of lowest + i
  };
  // Heat of a winter's growing season: entry i is the sum of the first i months from January, three years
  // on end, so that any run of months is a difference.
  using HeatSums = std::array<int, 37>;
  std::vector<Cold> colds;               // by winter; in a winter coldest first, then by day and hour
  std::vector<std::uint32_t> winter_end; // one past the last freeze of each winter
  std::vector<std::int16_t> night_lows;
  std::vector<float> injuries;           // share killed, by threshold; in single precision, to fit the cache
  std::vector<HeatSums> heat;            // one a winter
  std::array<ColdNumbers, 3> numbers;    // by Lean
  bool south = false;
};
inline constexpr int kWarmestThreshold = 50;  // tenths, the warmest hour a record keeps; a warmer threshold counts as this

[[nodiscard]] Replay make_replay(const Winters& winters, const ColdModel& model);

// Plantings that cannot differ in outcome are played once, and so are tissues that trees have in common.
// Holds only results of one replay.
struct ReplayMemo {
  template <std::size_t N>
  struct Words {
    std::array<std::int32_t, N> words{};
    bool operator==(const Words&) const = default;
  };
  using Key = Words<32>;
  using TrackKey = Words<10>;
  struct Hash {
    template <std::size_t N>
    std::size_t operator()(const Words<N>& key) const {
      return of(key.words.data(), N);
    }
    static std::size_t of(const std::int32_t* words, std::size_t count);
  };
  // What the winters leave of one tissue if nobody works against the cold.
  struct Track {
    std::size_t ages = 1;                // that matter to it
    std::vector<std::uint32_t> start{};  // where a winter's freezes that hurt begin, and the end of all
    std::vector<std::uint32_t> place{};  // of each among all freezes of its winter, 0 = coldest
    std::vector<double> left{};          // by it and all milder ones, by age
  };
  std::unordered_map<Key, Prospect, Hash> expected, with_interval;
  std::unordered_map<TrackKey, Track, Hash> tracks;
  // at_hardening() of so many tenths, at every hundredth of hardening.
  using Scaled = std::array<std::int16_t, 101>;
  std::unordered_map<int, Scaled> scaled;
};

// The best figures only: low and high of each interval are the best. Zeros where the record holds no winter.
[[nodiscard]] Prospect expected_prospect(const Planting& planting, const Replay& replay, ReplayMemo& memo);

// The plantings of one tree: as expected_prospect, with what is common to them worked out once. Replay and memo
// must outlive it; what it returns lives as long as the memo is not cleared.
class TreeProspects {
 public:
  // Cultivar, stock and region are those of `tree`; its spot and care do not matter.
  TreeProspects(const Planting& tree, const Replay& replay, ReplayMemo& memo);
  [[nodiscard]] const Prospect& expected(const Planting& planting) const;

 private:
  const Replay& replay_;
  ReplayMemo& memo_;
  ReplayMemo::Key tree_;
};

// What the figures hang on. `record`: each interval says how far another record of as many winters might have
// led, nine times in ten, by leaving each winter out in turn. `worse`, `kinder`: the best figures if the evidence
// behind them lies all to one side.
struct ProspectParts {
  Prospect record, worse, kinder;
};
[[nodiscard]] ProspectParts prospect_parts(const Planting& planting, const Replay& replay, ReplayMemo& memo);

// Both at once: the record's intervals, widened by the spread of the evidence (roots of the sums of squares).
[[nodiscard]] Prospect prospect(const Planting& planting, const Replay& replay, ReplayMemo& memo);

}  // namespace tenwinters
