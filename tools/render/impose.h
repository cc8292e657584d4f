// Many signs on one sheet: where each lies, where its back lies, and the crop marks. Numbers only.
//
//   std::optional<Imposition> six = impose({50.8, 101.6}, {215.9, 279.4}, 3, Flip::long_edge);
//   six->fronts[4]   // top left corner of the fifth sign as trimmed, mm from the sheet's top left corner
//   six->backs[4]    // of its back, on the other side of the same sheet
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "tenwinters/names.h"

namespace tenwinters {

struct Size { double width = 0, height = 0; };      // mm
struct Corner { double x = 0, y = 0; };              // mm, y downwards
struct Mark { double x1 = 0, y1 = 0, x2 = 0, y2 = 0; };

// Over which edge the printer turns the sheet.
enum class Flip { long_edge, short_edge };
template <> struct Names<Flip> {
  static constexpr std::string_view list[] = {"long", "short"};
};

inline constexpr double kMarkLength = 4, kMarkGap = 1;  // mm; a mark begins this far outside the bleed
inline constexpr double kMostBleed = 10;

struct Imposition {
  Size sheet;                    // turned if more fit that way
  Size sign;                     // as trimmed
  double bleed = 0;              // beyond the trim on every side
  std::vector<Corner> fronts;     // row by row
  std::vector<Corner> backs;      // in the same order
  std::vector<Mark> marks;       // the same on both sides
};

// As many as fit, in the middle of the sheet. With a bleed each sign has its own, two of them between neighbours, and
// its marks; without one neighbours touch, one cut parts them, and marks stand where the margin leaves room. Nothing if
// not even one fits. Sizes above 0; bleed 0 to kMostBleed.
[[nodiscard]] std::optional<Imposition> impose(Size sign, Size sheet, double bleed, Flip flip);

}  // namespace tenwinters
