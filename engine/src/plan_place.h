// Where trees may stand: crowns as circles whose centres lie on a square grid over the plot.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "tenwinters/plan.h"

namespace tenwinters {

// A crown to be placed, or one whose place is given.
struct Crown {
  int radius_cm = 0;
  int height_cm = 0;
  bool fixed = false;
  int x_cm = 0, y_cm = 0;  // of a fixed one, from the west and south edges of the plot
};

// How trees of different height may stand to each other. Heights count in half metres.
enum class Sun {
  ignored,
  not_in_shade,  // none in the strip that a taller one shades at midwinter noon
  by_height,     // and of two trees that can still be moved, the taller one never stands further south
};

enum class Placing { found, impossible, undecided };

// A grid over the part of the plot that setbacks leave free.
class Grid {
 public:
  static constexpr int kSide = 64;  // a row of the grid is one machine word

  explicit Grid(const Plot& plot);
  [[nodiscard]] int step_cm() const { return step_; }

  // Crowns touch at most, movable ones stay off the setbacks. Every arrangement on the grid is tried
  // before the answer is `impossible`; `steps` counts down and at 0 the answer is `undecided`. With
  // `gap_cm` more than 0, that much is left free between any two crowns that are not both fixed.
  // Places come in the order of `crowns`. Crown i may stand in shade where bit i of `shade_borne` is set.
  [[nodiscard]] Placing place(const std::vector<Crown>& crowns, Sun sun, int gap_cm, std::int64_t& steps,
                              std::vector<std::pair<int, int>>* places, std::uint64_t shade_borne = 0) const;

  // The best of all arrangements: as few trees in another's shade as the plot and its old trees allow, then
  // as much space between crowns as can be had (by quarter metres, up to three metres). Empty when none was
  // found. At most 63 crowns.
  [[nodiscard]] std::vector<std::pair<int, int>> arrange(const std::vector<Crown>& crowns) const;

 private:
  friend class GridSearch;
  int step_ = 25;
  int columns_ = 0, rows_ = 0;
  int west_ = 0, south_ = 0;  // of the free part
  int wide_ = 0, deep_ = 0;   // of the free part; below 0 when setbacks meet
  bool sun_from_north_ = false;
};

// Whether a tree of `radius_cm` at (x, y) stands in the midwinter noon shade of a taller one. At 33
// degrees from the equator the sun then stands 33.6 degrees high, so a shadow is 1.5 heights long.
[[nodiscard]] bool shaded_by(const Crown& taller, int taller_x, int taller_y, const Crown& other, int x, int y,
                             bool sun_from_north);

}  // namespace tenwinters
