// The geometry of many signs on a sheet, by numbers. Sizes of paper: ISO 216 (A sizes); US Letter 8.5 x 11 in and
// tabloid 11 x 17 in (ANSI/ASME Y14.1). An inch is 25.4 mm exactly. A bleed of 3 mm: common practice, no source.
#include "render/impose.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "render/signs.h"

namespace tenwinters {
namespace {

constexpr double kHair = 1e-6;

struct Box { double left, top, right, bottom; };
Box box_at(const Imposition& grid, Corner corner, double beyond = 0) {
  return {corner.x - beyond, corner.y - beyond, corner.x + grid.sign.width + beyond, corner.y + grid.sign.height + beyond};
}
bool apart(const Box& a, const Box& b) { return a.right <= b.left + kHair || b.right <= a.left + kHair || a.bottom <= b.top + kHair || b.bottom <= a.top + kHair; }

TEST(Impose, SizesAreThoseOfTheTrade) {
  EXPECT_DOUBLE_EQ(size_of(SignSheet::letter).width, 215.9);
  EXPECT_DOUBLE_EQ(size_of(SignSheet::letter).height, 279.4);
  EXPECT_DOUBLE_EQ(size_of(SignSheet::tabloid).height, 431.8);
  EXPECT_DOUBLE_EQ(size_of(SignSheet::a4).width, 210);
  EXPECT_DOUBLE_EQ(size_of(SignSheet::a3).width, 297);
  EXPECT_DOUBLE_EQ(size_of(SignFormat::tag, SignSheet::letter).width, 50.8);
  EXPECT_DOUBLE_EQ(size_of(SignFormat::tag, SignSheet::letter).height, 101.6);
  EXPECT_DOUBLE_EQ(size_of(SignFormat::bench, SignSheet::letter).width, 139.7);
  EXPECT_DOUBLE_EQ(size_of(SignFormat::bench, SignSheet::letter).height, 215.9);
  EXPECT_DOUBLE_EQ(size_of(SignFormat::bench, SignSheet::a4).width, 148);
  EXPECT_DOUBLE_EQ(size_of(SignFormat::aisle, SignSheet::tabloid).width, 215.9);
}

// Counted on paper: three tags and their gutters are 3 x 50.8 + 2 x 6 = 164.4 mm, and 8 mm on each side make 180.4 of
// 215.9; a fourth would need 237.2. Two rows are 2 x 101.6 + 6 + 16 = 225.2 of 279.4.
TEST(Impose, SixTagsOnALetterTwoCardsOnASheetOneAisleSign) {
  const Size letter = size_of(SignSheet::letter);
  EXPECT_EQ(impose(size_of(SignFormat::tag, SignSheet::letter), letter, 3, Flip::long_edge)->fronts.size(), 6u);
  const auto cards = impose(size_of(SignFormat::bench, SignSheet::letter), letter, 0, Flip::long_edge);
  EXPECT_EQ(cards->fronts.size(), 2u);
  EXPECT_GT(cards->sheet.width, cards->sheet.height);  // the sheet lies on its side
  EXPECT_EQ(impose(size_of(SignFormat::bench, SignSheet::a4), size_of(SignSheet::a4), 0, Flip::long_edge)->fronts.size(), 2u);
  EXPECT_EQ(impose(size_of(SignFormat::bench, SignSheet::tabloid), size_of(SignSheet::tabloid), 3, Flip::long_edge)->fronts.size(), 2u);
  EXPECT_EQ(impose(size_of(SignFormat::aisle, SignSheet::letter), letter, 0, Flip::long_edge)->fronts.size(), 1u);
  EXPECT_FALSE(impose(size_of(SignFormat::aisle, SignSheet::letter), letter, 3, Flip::long_edge));
}

TEST(Impose, NothingOverlapsLeavesTheSheetOrCrossesAMark) {
  for (const SignSheet paper : {SignSheet::letter, SignSheet::tabloid, SignSheet::a4, SignSheet::a3})
    for (const SignFormat format : {SignFormat::tag, SignFormat::bench, SignFormat::aisle})
      for (const double bleed : {0.0, 1.5, 3.0, 3.175, kMostBleed})
        for (const Flip flip : {Flip::long_edge, Flip::short_edge}) {
          const auto grid = impose(size_of(format, paper), size_of(paper), bleed, flip);
          if (!grid) continue;
          ASSERT_EQ(grid->fronts.size(), grid->backs.size());
          for (const std::vector<Corner>* side : {&grid->fronts, &grid->backs})
            for (std::size_t i = 0; i < side->size(); ++i) {
              const Box bled = box_at(*grid, (*side)[i], bleed);
              EXPECT_GE(bled.left, -kHair);
              EXPECT_GE(bled.top, -kHair);
              EXPECT_LE(bled.right, grid->sheet.width + kHair);
              EXPECT_LE(bled.bottom, grid->sheet.height + kHair);
              for (std::size_t j = 0; j < i; ++j) EXPECT_TRUE(apart(bled, box_at(*grid, (*side)[j], bleed)));
              for (const Mark& mark : grid->marks) {
                const Box line{std::min(mark.x1, mark.x2), std::min(mark.y1, mark.y2), std::max(mark.x1, mark.x2), std::max(mark.y1, mark.y2)};
                EXPECT_TRUE(apart(bled, line)) << "a mark would print on a sign";
                EXPECT_GE(std::min(line.left, line.top), -kHair);
                EXPECT_LE(line.right, grid->sheet.width + kHair);
                EXPECT_LE(line.bottom, grid->sheet.height + kHair);
              }
            }
        }
}

TEST(Impose, EveryCutHasAMarkAtBothEndsAndTheyStandForBothSides) {
  const auto grid = impose(size_of(SignFormat::tag, SignSheet::letter), size_of(SignSheet::letter), 3, Flip::long_edge);
  const auto marked = [&](bool upright, double at) {
    return std::count_if(grid->marks.begin(), grid->marks.end(), [&](const Mark& m) {
      return upright ? m.x1 == m.x2 && std::abs(m.x1 - at) < kHair : m.y1 == m.y2 && std::abs(m.y1 - at) < kHair;
    });
  };
  for (const std::vector<Corner>* side : {&grid->fronts, &grid->backs})
    for (const Corner& corner : *side) {
      const Box trim = box_at(*grid, corner);
      EXPECT_EQ(marked(true, trim.left), 2);
      EXPECT_EQ(marked(true, trim.right), 2);
      EXPECT_EQ(marked(false, trim.top), 2);
      EXPECT_EQ(marked(false, trim.bottom), 2);
    }
  EXPECT_EQ(grid->marks.size(), 2u * (6 + 4));
  for (const Mark& mark : grid->marks) EXPECT_NEAR(std::hypot(mark.x2 - mark.x1, mark.y2 - mark.y1), kMarkLength, kHair);
}

// A hole pricked through the sheet at a place on the front comes out at its mirror image on the back: upright sheets
// turned over the long edge and level ones over the short edge change left and right, the others top and bottom.
TEST(Impose, ABackLiesBehindItsFront) {
  for (const SignSheet paper : {SignSheet::letter, SignSheet::a3})
    for (const SignFormat format : {SignFormat::tag, SignFormat::bench})
      for (const Flip flip : {Flip::long_edge, Flip::short_edge}) {
        const auto grid = impose(size_of(format, paper), size_of(paper), format == SignFormat::tag ? 3 : 0, flip);
        const bool upright = grid->sheet.height > grid->sheet.width;
        for (std::size_t i = 0; i < grid->fronts.size(); ++i) {
          const Box front = box_at(*grid, grid->fronts[i]), back = box_at(*grid, grid->backs[i]);
          if (upright == (flip == Flip::long_edge)) {
            EXPECT_NEAR(back.left, grid->sheet.width - front.right, kHair);
            EXPECT_NEAR(back.top, front.top, kHair);
          } else {
            EXPECT_NEAR(back.top, grid->sheet.height - front.bottom, kHair);
            EXPECT_NEAR(back.left, front.left, kHair);
          }
        }
      }
}

}  // namespace
}  // namespace tenwinters
