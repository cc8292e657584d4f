// The fast replay against the slow one, on the real catalogue and the demonstration places: equal to the
// last bit, whatever the cultivar, stock, spot, pot and protection.
#include <cmath>

#include "../real_catalog.h"
#include "slow_replay.h"
#include "tenwinters/advise.h"

namespace tenwinters {
namespace {

using testing::real_catalog;

slow::Figures figures_of(const Prospect& prospect) {
  return {prospect.alive_at_ten.best, prospect.good_harvests.best, prospect.work_nights.best, prospect.crops_lost.best};
}

// A planting for every number: all cultivars come round, and with them all stocks, spots and protections.
Planting numbered(const Catalog& catalog, const Place& place, std::size_t number) {
  Planting planting;
  const std::size_t cultivars = catalog.cultivars.size();
  const std::size_t round = number / cultivars;
  planting.cultivar = &catalog.cultivars[number % cultivars];
  planting.rootstock = &catalog.rootstocks[(number + round * 5) % catalog.rootstocks.size()];
  planting.protection = &catalog.protections[(number + round) % catalog.protections.size()];
  planting.warmer_c = catalog.microclimates[(number / 3) % catalog.microclimates.size()].warmer_c.best;
  constexpr double kPots[] = {0, 0, 12, 57, 95};
  planting.container_l = kPots[(number / 2 + round) % std::size(kPots)];
  planting.moves_indoors = planting.container_l > 0 && number % 2 == 0;
  constexpr double kNights[] = {0, 1, 3, 10};
  planting.work_nights = kNights[(number / 5) % std::size(kNights)];
  planting.region = number % 11 == 0 ? Region::other : place.region;
  return planting;
}

std::string told(const Planting& p) {
  return p.cultivar->id + " on " + p.rootstock->id + ", " + p.protection->id + ", " + std::to_string(p.warmer_c) + " C, " +
         std::to_string(p.container_l) + " l, " + std::to_string(p.work_nights) + " nights";
}

TEST(ColdTwin, FastReplayIsTheSlowOne) {
  const Catalog& catalog = real_catalog().catalog;
  ASSERT_FALSE(catalog.cultivars.empty());
  for (const Place& place : real_catalog().office.places) {
    ASSERT_GE(place.winters.winters.size(), 30u);
    const Replay replay = make_replay(place.winters, catalog.cold_model);
    ReplayMemo memo;
    const std::size_t count = catalog.cultivars.size() * 3;
    for (std::size_t number = 0; number < count; ++number) {
      const Planting planting = numbered(catalog, place, number);
      const slow::Figures slow = slow::ten_years(planting, place.winters, catalog.cold_model, Lean::best);
      ASSERT_EQ(figures_of(expected_prospect(planting, replay, memo)), slow) << place.id << ": " << told(planting);
    }
  }
}

// What advise shows of every candidate for a common yard came through the same replay.
TEST(ColdTwin, EveryDemoCandidate) {
  const Catalog& catalog = real_catalog().catalog;
  const Office& office = real_catalog().office;
  Answers answers;
  for (const Question& question : catalog.questions) answers[question.id] = question.answers.front().id;
  answers["winter_work"] = "few_nights";
  for (const Place& place : office.places) {
    const Advice advice = advise(catalog, office, place, answers);
    ASSERT_FALSE(advice.candidates.empty());
    for (const Candidate& candidate : advice.candidates) {
      Planting planting;
      planting.cultivar = find_cultivar(catalog, candidate.cultivar);
      planting.rootstock = find_rootstock(catalog, candidate.rootstock);
      planting.protection = find_protection(catalog, candidate.protection);
      ASSERT_TRUE(planting.cultivar != nullptr && planting.rootstock != nullptr && planting.protection != nullptr);
      planting.work_nights = planting.protection->id == "none" ? 0 : 3;
      planting.region = place.region;
      EXPECT_EQ(figures_of(candidate.prospect), slow::ten_years(planting, place.winters, catalog.cold_model, Lean::best))
          << place.id << ": " << told(planting);
    }
  }
}

// The intervals: winters left out in turn, and the figures leaning to one side, joined by their squares.
TEST(ColdTwin, Intervals) {
  const Catalog& catalog = real_catalog().catalog;
  const Place& place = real_catalog().office.places.front();
  const Replay replay = make_replay(place.winters, catalog.cold_model);
  ReplayMemo memo;
  for (std::size_t number = 0; number < catalog.cultivars.size(); number += 7) {
    const Planting planting = numbered(catalog, place, number);
    const Prospect prospect = tenwinters::prospect(planting, replay, memo);
    const slow::Figures best = slow::ten_years(planting, place.winters, catalog.cold_model, Lean::best);
    const slow::Figures worse = slow::ten_years(planting, place.winters, catalog.cold_model, Lean::worse);
    const slow::Figures kinder = slow::ten_years(planting, place.winters, catalog.cold_model, Lean::kinder);
    const slow::Span span = slow::left_out_once(planting, place.winters, catalog.cold_model);
    const std::array<Interval, 4> shown = {prospect.alive_at_ten, prospect.good_harvests, prospect.work_nights,
                                           prospect.crops_lost};
    const std::array<double, 4> most = {1, 10, 366, 10};
    for (std::size_t q = 0; q < shown.size(); ++q) {
      const double down = best[q] - std::min({best[q], worse[q], kinder[q]});
      const double up = std::max({best[q], worse[q], kinder[q]}) - best[q];
      const double low = std::max(0.0, best[q] - std::hypot(best[q] - span.low[q], down));
      const double high = std::min(most[q], best[q] + std::hypot(span.high[q] - best[q], up));
      EXPECT_EQ(shown[q].best, best[q]) << told(planting);
      EXPECT_NEAR(shown[q].low, low, 1e-9) << told(planting) << " figure " << q;
      EXPECT_NEAR(shown[q].high, high, 1e-9) << told(planting) << " figure " << q;
    }
  }
}

// A memo must not change an answer, only spare its cost.
TEST(ColdTwin, MemoRemembersAndChangesNothing) {
  const Catalog& catalog = real_catalog().catalog;
  const Place& place = real_catalog().office.places.back();
  const Replay replay = make_replay(place.winters, catalog.cold_model);
  ReplayMemo shared;
  for (std::size_t number = 0; number < 300; ++number) {
    const Planting planting = numbered(catalog, place, number);
    ReplayMemo fresh;
    const Prospect alone = prospect(planting, replay, fresh), together = prospect(planting, replay, shared);
    EXPECT_EQ(figures_of(alone), figures_of(together));
    EXPECT_EQ(alone.good_harvests.low, together.good_harvests.low);
    EXPECT_EQ(alone.ripe_from_month, together.ripe_from_month);
  }
  const std::size_t known = shared.expected.size();
  (void)prospect(numbered(catalog, place, 0), replay, shared);
  EXPECT_EQ(shared.expected.size(), known);
}

}  // namespace
}  // namespace tenwinters
