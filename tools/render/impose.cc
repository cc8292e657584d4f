#include "render/impose.h"

#include <algorithm>
#include <cmath>

namespace tenwinters {
namespace {

constexpr double kHair = 1e-6;  // mm; two half sheets fill a sheet although their sum is rounded

double margin_for(double bleed) { return bleed > 0 ? bleed + kMarkGap + kMarkLength : 0; }

// How many of `length` fit side by side into `room`.
int count_in(double length, double room, double bleed) {
  const double gutter = 2 * bleed;
  return std::max(0, static_cast<int>(std::floor((room - 2 * margin_for(bleed) + gutter + kHair) / (length + gutter))));
}

// Where the first of `count` begins, so that all stand in the middle.
double first_at(int count, double length, double room, double bleed) {
  return (room - count * length - (count - 1) * 2 * bleed) / 2;
}

// The cuts along one axis: where each sign begins and ends, each place once.
std::vector<double> cuts(int count, double first, double length, double bleed) {
  std::vector<double> out;
  for (int i = 0; i < count; ++i)
    for (const double at : {first + i * (length + 2 * bleed), first + i * (length + 2 * bleed) + length})
      if (out.empty() || std::abs(out.back() - at) > kHair) out.push_back(at);
  return out;
}

}  // namespace

std::optional<Imposition> impose(Size sign, Size sheet, double bleed, Flip flip) {
  const auto fits = [&](Size on) { return count_in(sign.width, on.width, bleed) * count_in(sign.height, on.height, bleed); };
  const Size turned{sheet.height, sheet.width};
  if (fits(turned) > fits(sheet)) sheet = turned;
  const int columns = count_in(sign.width, sheet.width, bleed), rows = count_in(sign.height, sheet.height, bleed);
  if (columns * rows == 0) return std::nullopt;

  Imposition out{sheet, sign, bleed, {}, {}, {}};
  const double left = first_at(columns, sign.width, sheet.width, bleed), top = first_at(rows, sign.height, sheet.height, bleed);
  // Turned over an upright edge left and right change places, over a level one top and bottom.
  const bool sideways = (flip == Flip::long_edge) == (sheet.height >= sheet.width);
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column) {
      const Corner front{left + column * (sign.width + 2 * bleed), top + row * (sign.height + 2 * bleed)};
      out.fronts.push_back(front);
      out.backs.push_back(sideways ? Corner{sheet.width - front.x - sign.width, front.y} : Corner{front.x, sheet.height - front.y - sign.height});
    }

  // Outside everything printed: at both ends of each cut.
  const double bottom = sheet.height - top, right = sheet.width - left;
  const double gap = bleed > 0 ? bleed + kMarkGap : 0;
  const double up = std::min(kMarkLength, top - gap), side = std::min(kMarkLength, left - gap);
  for (const double x : cuts(columns, left, sign.width, bleed))
    if (up > kHair) {
      out.marks.push_back({x, top - gap - up, x, top - gap});
      out.marks.push_back({x, bottom + gap, x, bottom + gap + up});
    }
  for (const double y : cuts(rows, top, sign.height, bleed))
    if (side > kHair) {
      out.marks.push_back({left - gap - side, y, left - gap, y});
      out.marks.push_back({right + gap, y, right + gap + side, y});
    }
  return out;
}

}  // namespace tenwinters
