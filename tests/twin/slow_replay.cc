#include "slow_replay.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <vector>

namespace tenwinters::slow {
namespace {

double leaned(const Fact& fact, Lean lean, bool more_is_kinder) {
  if (lean == Lean::best) return fact.best;
  const double end = more_is_kinder == (lean == Lean::kinder) ? fact.high : fact.low;
  return fact.best + (end - fact.best) / 2;
}

int tenths(double celsius) {
  return celsius < 0 ? -static_cast<int>(-celsius * 10 + 0.5) : static_cast<int>(celsius * 10 + 0.5);
}

int scaled(int value, int permille) {
  const int sign = value < 0 ? -1 : 1;
  return sign * ((sign * value * permille + 500) / 1000);
}

constexpr int kMonthDays[] = {31, 31, 30, 31, 30, 31, 31, 28, 31, 30, 31, 30};  // from July

int month_of(int day) {  // 0 = July; days past the end are June
  for (int month = 0; month < 12; ++month) {
    if (day < kMonthDays[month]) return month;
    day -= kMonthDays[month];
  }
  return 11;
}

int first_day_of(int month) {
  int day = 0;
  for (int m = 0; m < month; ++m) day += kMonthDays[m % 12];
  return day;
}

int length(const Window& window) {
  int months = 1;
  for (int month = window.from_month; month != window.to_month; month = month % 12 + 1) ++months;
  return months;
}

struct Tree {
  Planting planting;
  const Winters* winters = nullptr;
  const ColdModel* model = nullptr;
  Lean lean = Lean::best;
  int ripe_month = 0, ripe_months = 0;         // 0 = July
  int heat_first = 0, heat_months = 0, need = 0;  // 0 = January

  [[nodiscard]] const Traits& traits() const { return planting.cultivar->traits; }
  [[nodiscard]] double bears(int age) const {
    const int bearing = static_cast<int>(leaned(traits().bearing_age_years, lean, false) * 100 + 0.5);
    const int full = age * 100 - bearing + 100;
    return full <= 0 ? 0 : full >= 100 ? 1 : full / 100.0;
  }
};

const Window* window_for(const std::vector<Ripening>& all, Region region) {
  for (const Ripening& one : all)
    if (one.region == region) return &one.window;
  return nullptr;
}

void find_season(Tree& tree) {
  static const std::map<Region, std::vector<Region>> nearest = {
      {Region::florida, {Region::gulf, Region::texas, Region::other, Region::california, Region::arizona}},
      {Region::gulf, {Region::florida, Region::texas, Region::other, Region::california, Region::arizona}},
      {Region::texas, {Region::gulf, Region::florida, Region::other, Region::arizona, Region::california}},
      {Region::arizona, {Region::california, Region::texas, Region::other, Region::florida, Region::gulf}},
      {Region::california, {Region::arizona, Region::other, Region::gulf, Region::texas, Region::florida}},
      {Region::other, {Region::gulf, Region::florida, Region::texas, Region::california, Region::arizona}}};
  const Traits& traits = tree.traits();
  const Window* window = window_for(traits.ripening, tree.planting.region);
  const bool local = window != nullptr;
  for (const Region region : nearest.at(tree.planting.region))
    if (window == nullptr) window = window_for(traits.ripening, region);
  if (window == nullptr) return;

  tree.need = static_cast<int>(
      leaned(traits.heat_units_c, tree.lean, false) * leaned(tree.model->heat_share, tree.lean, false) + 0.5);
  const int middle = traits.bloom.from_month - 1 + (length(traits.bloom) - 1) / 2;  // may pass December
  tree.heat_first = (middle + 1) % 12;
  tree.ripe_months = length(*window);
  int first = window->from_month - 1;
  if (tree.ripe_months >= 11) {
    tree.heat_months = 12;
  } else {
    if (!local) {
      std::array<int, 12> mean{};
      for (const Winter& winter : tree.winters->winters)
        for (std::size_t m = 0; m < 12; ++m) mean[m] += winter.heat_units[m];
      for (int& one : mean) one /= static_cast<int>(tree.winters->winters.size());
      int sum = 0;
      for (int i = 0; i < 24; ++i) {
        const int month = (tree.heat_first + i) % 12;
        sum += mean[static_cast<std::size_t>(month)];
        if (sum >= tree.need) {
          first = month;
          break;
        }
      }
    }
    int wait = 0;
    while ((middle + wait) % 12 != first) ++wait;
    if (wait < 3) wait += 12;
    tree.heat_months = wait + tree.ripe_months - 1;
  }
  tree.ripe_month = (first + 6) % 12;
}

bool ripens(const Tree& tree, const Winter& winter) {
  int sum = 0;
  for (int i = 0; i < tree.heat_months; ++i) sum += winter.heat_units[static_cast<std::size_t>((tree.heat_first + i) % 12)];
  return tree.ripe_months > 0 && sum >= tree.need;
}

double on_tree(const Tree& tree, int day) {
  if (tree.ripe_months == 0) return 0;
  if (tree.ripe_months >= 11) return 0.5;
  const int start = first_day_of(tree.ripe_month), end = first_day_of(tree.ripe_month + tree.ripe_months);
  if (day < start) return 1;
  if (day >= end) return 0;
  return static_cast<double>(end - day) / (end - start);
}

double in_bloom(const Tree& tree, int day) {
  const int month = (month_of(day) + 6) % 12 + 1;
  return tree.traits().bloom.contains(month) ? 1.0 / length(tree.traits().bloom) : 0.0;
}

double killed(const Spell& spell, int threshold, const ColdModel& model) {
  const int width = tenths(model.dose_width_c.best);
  std::int64_t dose = 0;
  for (const std::int16_t air : spell.tenths_c)
    if (air != kWarm && air < threshold) dose += threshold - air;
  if (dose == 0) return 0;
  const double ratio = static_cast<double>(dose) / static_cast<double>(4 * width);
  double power = ratio;
  for (int i = 1; i < static_cast<int>(model.dose_power.best + 0.5); ++i) power *= ratio;
  return static_cast<double>(static_cast<float>(power / (power + 1)));  // the tables are in single precision
}

int coldest(const Spell& spell) { return *std::min_element(spell.tenths_c.begin(), spell.tenths_c.end()); }

// The spell's pieces: a new one begins with each frost after a thaw.
std::vector<Spell> pieces(const Spell& spell) {
  std::vector<Spell> all;
  bool frost_before = false, any_frost = false;
  for (std::size_t hour = 0; hour < spell.tenths_c.size(); ++hour) {
    const bool frost = spell.tenths_c[hour] <= 0;
    if (all.empty() || (frost && !frost_before && any_frost)) {
      Spell piece = spell;
      piece.tenths_c.clear();
      piece.start_hour = (spell.start_hour + static_cast<int>(hour)) % 24;
      piece.day = spell.day + (spell.start_hour + static_cast<int>(hour)) / 24;
      all.push_back(piece);
    }
    all.back().tenths_c.push_back(spell.tenths_c[hour]);
    any_frost = any_frost || frost;
    frost_before = frost;
  }
  return all;
}

bool frozen_for_a_day(const Spell& spell) {
  int run = 0, longest = 0;
  for (const std::int16_t air : spell.tenths_c) {
    run = air <= 0 ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  return longest >= 24;
}

// Nights of the spell, noon to noon, that fall to the limit.
int nights_at(const Spell& spell, int limit) {
  std::map<int, int> low;
  for (std::size_t i = 0; i < spell.tenths_c.size(); ++i) {
    if (spell.tenths_c[i] == kWarm) continue;
    const int night = (spell.start_hour + 12 + static_cast<int>(i)) / 24;
    low[night] = low.contains(night) ? std::min<int>(low[night], spell.tenths_c[i]) : spell.tenths_c[i];
  }
  int count = 0;
  for (const auto& [night, air] : low) count += air <= limit ? 1 : 0;
  return count;
}

// One winter at one age.
struct Outcome {
  double trunk = 1, kept = 1, next = 1, crop = 0, frozen = 0, nights = 0;
};

Outcome one_winter(const Tree& tree, const Winter& winter, int age) {
  enum { leaf, wood, trunk, fruit, bloom, root };
  const ColdModel& model = *tree.model;
  const Planting& p = tree.planting;
  const Protection& protection = *p.protection;
  const Lean lean = tree.lean;
  const bool potted = p.container_l > 0;

  const int grown = static_cast<int>(model.grown_years.best + 0.5);
  const int young = tenths(leaned(model.young_c, lean, false));
  const int tender = age < grown ? (2 * young * (grown - age) + (grown - 1)) / (2 * (grown - 1)) : 0;

  bool protects = !(protection.container_only && !(potted && p.moves_indoors));
  if (!protection.fits_tall_trees && !potted &&
      tree.traits().height_m.best * p.rootstock->size_share.best * age > model.reach_m.best * model.full_height_years.best)
    protects = false;

  double budget = static_cast<int>(p.work_nights * 100 + 0.5) / 100.0;
  const auto covered = [&](std::size_t k) { return protection.covers[k == root ? std::size_t{leaf} : k]; };
  std::vector<std::array<double, 6>> factors;  // what each freeze leaves, coldest first
  std::size_t milder = 0;                      // the first freeze after the last one worked on
  Outcome out;
  std::vector<Spell> freezes;
  for (const Spell& spell : winter.spells)
    for (const Spell& piece : pieces(spell)) freezes.push_back(piece);
  std::stable_sort(freezes.begin(), freezes.end(), [](const Spell& a, const Spell& b) { return coldest(a) < coldest(b); });
  for (const Spell& freeze : freezes) {
    const Spell* spell = &freeze;
    const int air = spell->windy ? 0 : tenths(p.warmer_c);
    const int h = (spell->hardening_permille + 5) / 10 * 10;  // hundredths
    std::array<int, 6> point;
    for (int k = leaf; k <= bloom; ++k) {
      const TissueCold& cold = tree.traits().cold[static_cast<std::size_t>(k)];
      const int unhardened = tenths(leaned(cold.unhardened, lean, false));
      const int hardened = std::min(tenths(leaned(cold.hardened, lean, false)), unhardened);
      int at = unhardened + scaled(hardened - unhardened, h) - air;
      if (k <= trunk) at += tender - scaled(tenths(leaned(p.rootstock->cold_gain_c, lean, true)), h);
      point[static_cast<std::size_t>(k)] = at;
    }
    int pot = 0;
    if (potted && !frozen_for_a_day(*spell)) {
      const double small = leaned(model.small_pot_c, lean, true);
      const double large = std::max(small, leaned(model.large_pot_c, lean, true));
      const double litres = std::min(57.0, std::max(19.0, static_cast<double>(static_cast<int>(p.container_l + 0.5))));
      pot = tenths(small + (large - small) * ((litres - 19) / 38));
    }
    point[root] = tenths(leaned(model.root_c, lean, false)) - air - pot;
    const std::array<double, 6> stake = {1, 1, 1, tree.bears(age) > 0 ? on_tree(tree, spell->day) : 0,
                                         tree.bears(age + 1) > 0 ? in_bloom(tree, spell->day) : 0, potted ? 1.0 : 0.0};
    const int gain = protects ? std::max(0, tenths(leaned(spell->windy ? protection.windy_gain_c : protection.gain_c, lean, true))) : 0;
    double share = 0;
    if (gain > 0 && !(protection.minutes_per_night.best > 0)) share = 1;
    if (gain > 0 && protection.minutes_per_night.best > 0) {
      int called = 0;
      for (std::size_t k = 0; k < 6; ++k)
        if (stake[k] > 0 && covered(k)) called = std::max(called, nights_at(*spell, point[k] + tenths(model.call_margin_c.best)));
      if (called > 0) {
        const double done = std::min(budget, static_cast<double>(called));
        budget -= done;
        out.nights += done;
        share = done / called;
      }
    }
    factors.push_back({1, 1, 1, 1, 1, 1});
    for (std::size_t k = 0; k < 6; ++k) {
      if (!(stake[k] > 0)) continue;
      const auto at = [&](int threshold) { return killed(*spell, std::min(threshold, kWarmestThreshold), model); };
      const int threshold = point[k] + tenths(model.dose_width_c.best);
      double dead = at(threshold);
      if (share >= 1 && covered(k)) dead = at(threshold - gain);
      else if (share > 0 && covered(k)) dead += share * (at(threshold - gain) - dead);
      factors.back()[k] = 1 - stake[k] * dead;
    }
    if (share > 0 && protection.minutes_per_night.best > 0) milder = factors.size();
  }
  // Down to the last freeze worked on from the coldest, the others from the mildest.
  std::array<double, 6> left;
  for (std::size_t k = 0; k < 6; ++k) {
    const std::size_t worked = covered(k) ? milder : 0;
    double worst = 1, rest = 1;
    for (std::size_t i = 0; i < worked; ++i) worst *= factors[i][k];
    for (std::size_t i = factors.size(); i > worked; --i) rest *= factors[i - 1][k];
    left[k] = worst * rest;
  }
  out.trunk = left[trunk] * left[root];  // dead roots are a dead tree
  out.kept = out.trunk * left[wood];
  out.next = out.kept * (1 - leaned(model.leaf_crop_share, lean, false) * (1 - left[leaf])) * left[bloom];
  if (ripens(tree, winter)) {
    out.crop = left[fruit];
    out.frozen = 1 - left[fruit];
  }
  return out;
}

// Winter by winter, age by age.
using Table = std::vector<std::array<Outcome, 10>>;

Table table(const Tree& tree) {
  Table rows;
  for (const Winter& winter : tree.winters->winters) {
    rows.emplace_back();
    for (int age = 1; age <= 10; ++age) rows.back()[static_cast<std::size_t>(age - 1)] = one_winter(tree, winter, age);
  }
  return rows;
}

// Every tree is whole, or has 1..3 seasons of regrowth before it, or is dead.
Figures chain(const Tree& tree, const Table& rows, const std::vector<std::size_t>& draw) {
  const int regrowth = static_cast<int>(tree.model->regrowth_years.best + 0.5);
  double alive = 1, whole = 1, crop = 1, harvests = 0, lost = 0, worked = 0, lived = 0;
  double one = 0, two = 0, three = 0;
  for (int age = 1; age <= 10; ++age) {
    Outcome mean{0, 0, 0, 0, 0, 0};
    for (const std::size_t w : draw) {
      const Outcome& row = rows[w][static_cast<std::size_t>(age - 1)];
      mean.trunk += row.trunk;
      mean.kept += row.kept;
      mean.next += row.next;
      mean.crop += row.crop;
      mean.frozen += row.frozen;
      mean.nights += row.nights;
    }
    const auto n = static_cast<double>(draw.size());
    for (double* part : {&mean.trunk, &mean.kept, &mean.next, &mean.crop, &mean.frozen, &mean.nights}) *part /= n;
    const double bearing = tree.bears(age) * crop;
    harvests += bearing * mean.crop;
    lost += bearing * mean.frozen;
    worked += alive * mean.nights;
    lived += alive;
    const double cut = (whole + (one + two + three)) * (mean.trunk - mean.kept);
    const double standing = whole + one;
    one = two * mean.kept;
    two = three * mean.kept;
    three = 0;
    whole = standing * mean.kept;
    crop = standing * mean.next;
    if (regrowth == 0) whole += cut, crop += cut;
    if (regrowth == 1) one += cut;
    if (regrowth == 2) two += cut;
    if (regrowth == 3) three += cut;
    alive *= mean.trunk;
  }
  return {alive, harvests, lived > 0 ? worked / lived : 0, lost};
}

Tree make_tree(const Planting& planting, const Winters& winters, const ColdModel& model, Lean lean) {
  Tree tree;
  tree.planting = planting;
  tree.winters = &winters;
  tree.model = &model;
  tree.lean = lean;
  find_season(tree);
  return tree;
}

}  // namespace

Figures ten_years(const Planting& planting, const Winters& winters, const ColdModel& model, Lean lean) {
  const Tree tree = make_tree(planting, winters, model, lean);
  std::vector<std::size_t> all;
  for (std::size_t w = 0; w < winters.winters.size(); ++w) all.push_back(w);
  return chain(tree, table(tree), all);
}

Span left_out_once(const Planting& planting, const Winters& winters, const ColdModel& model) {
  const Tree tree = make_tree(planting, winters, model, Lean::best);
  const Table rows = table(tree);
  const std::size_t count = winters.winters.size();
  std::vector<std::size_t> all;
  for (std::size_t w = 0; w < count; ++w) all.push_back(w);
  const Figures best = chain(tree, rows, all);
  std::vector<Figures> without;
  for (std::size_t out = 0; out < count; ++out) {
    std::vector<std::size_t> rest;
    for (const std::size_t w : all)
      if (w != out) rest.push_back(w);
    without.push_back(chain(tree, rows, rest));
  }
  Span span;
  const std::array<double, 4> most = {1, 10, 366, 10};
  const auto n = static_cast<double>(count);
  for (std::size_t q = 0; q < 4; ++q) {
    double mean = 0, squares = 0;
    for (const Figures& one : without) mean += one[q] / n;
    for (const Figures& one : without) squares += (one[q] - mean) * (one[q] - mean);
    const double error = 1.645 * std::sqrt((n - 1) / n * squares);
    span.low[q] = std::max(0.0, best[q] - error);
    span.high[q] = std::min(most[q], best[q] + error);
  }
  return span;
}

}  // namespace tenwinters::slow
