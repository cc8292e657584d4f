// Depth first over sets of trees, with an upper bound that ends hopeless branches.
//
// Write S for the trees taken, k for how many more may be taken, R for those that will be.
//
// What R can add at most. For each limit take a price (Lagrange multiplier) of 0 or more:
//   p_m, at most weights.month, for a month m;  q for room;  w for work;  c for pots carried;
//   v_d for a width d: trees at least so wide, of which the plot holds at most so many (see find_widths).
//   (1) A month m that S has no fruit in is worth weights.month if R has fruit in it. That is at most
//       (weights.month - p_m) + p_m x (trees of R with fruit in m): with none it is 0 <= weights.month - p_m,
//       with one or more it is at least weights.month. Summed over the months open to S.
//   (2) R must keep to what room S leaves: q x (room left - room of R) >= 0 may be added. Likewise w, c, v_d.
//   (3) So R adds at most  sum over open months of (weights.month - p_m) + q x room left + ...
//       + sum over R of priced(tree), where priced(tree) = own value + prices of its open months - cost(tree),
//       cost(tree) = q x its room + w x its work + c if it is carried + the v_d of all d up to its width.
//       R has at most k trees, at most one of each group, so the sum is at most that of the k dearest
//       priced values above 0 of different groups among the trees not decided yet.
// Losses only make a set worth less, so leaving them out keeps this a bound. Those that are certain sharpen it:
//   (4) S's own: a tree that got unwelcome pollen keeps its seeds whatever comes; a tree without a
//       partner stays without if no partner is left undecided.
//   (5) A tree of R that gets unwelcome pollen from S loses its seed_loss: taken off its priced value.
//   (6) A tree of R that spoils a tree t of S costs t's seed_loss, once, however many spoil it. At most k
//       trees come, so taking floor(seed_loss / k) off each spoiler takes off no more than is lost.
// Any prices give a valid bound; good ones are found once, at the start, by a few steps of subgradient
// descent in whole numbers. Trees are then tried in falling order of priced value, so when the bound of one
// fails, it fails for all that follow.
//
// Room is settled twice: crowns must not add up to more than the plot, nor be too many of a width (cheap
// tests, and priced), and must really find places on the grid. What holds no set of crowns holds no larger or wider set, so known
// answers settle most questions, and a partial set without room ends its branch.
#include "plan_search.h"

#include <algorithm>
#include <array>
#include <bit>
#include <functional>
#include <tuple>
#include <unordered_map>

#include "plan_place.h"

namespace tenwinters {
namespace {

constexpr std::int64_t kOne = 1 << 16;  // prices are counted in this fraction of a point
constexpr int kMonths = 12;
constexpr std::size_t kPlans = 3;

// A set of trees, as one bit each.
class Bits {
 public:
  explicit Bits(std::size_t size = 0) : words_((size + 63) / 64) {}
  void set(std::size_t i) { words_[i / 64] |= std::uint64_t{1} << (i % 64); }
  [[nodiscard]] bool test(std::size_t i) const { return (words_[i / 64] >> (i % 64) & 1) != 0; }
  [[nodiscard]] std::size_t last() const {  // one past the last member; 0 when empty
    for (std::size_t w = words_.size(); w-- > 0;)
      if (words_[w] != 0) return w * 64 + 64 - static_cast<std::size_t>(std::countl_zero(words_[w]));
    return 0;
  }

 private:
  std::vector<std::uint64_t> words_;
};

struct Item {
  std::size_t tree = 0;            // in PlanProblem::trees
  std::size_t group = 0;
  std::size_t type = 0;
  std::int64_t own = 0, room = 0, work = 0, carried = 0;  // own in kOne
  std::int64_t alone = 0, seed = 0;                       // in kOne
  bool needs_partner = false;
  Months ripe = 0;
  std::uint8_t width = 0;          // its counted crown, in half metres less one, up to 255
  std::uint64_t fixed = 0;         // a bit of its own, for a fixed tree
  std::int64_t cost = 0, priced = 0;  // as (3), at the final prices
  Bits partners, spoilers;         // items that set its fruit; that make it seedy (empty when it minds neither)
  std::size_t partners_end = 0;    // one past its last partner
};

// Trees at least so wide: a plot holds `most` of them.
struct Width {
  std::uint8_t width = 0;
  int most = 0;
  std::int64_t price = 0;
};

struct Prices {
  std::array<std::int64_t, kMonths> month{};
  std::int64_t room = 0, work = 0, carried = 0;
  std::vector<Width> widths;
};

// What a set asks of the plot: the widths of its movable crowns, widest first, and its fixed trees.
struct Crowns {
  std::array<std::uint8_t, kPlanTreesMost> widths{};
  std::uint8_t count = 0;
  std::uint64_t fixed = 0;
  bool operator==(const Crowns&) const = default;

  void add(std::uint8_t width) {
    std::uint8_t at = count++;
    for (; at > 0 && widths[at - 1U] < width; --at) widths[at] = widths[at - 1U];
    widths[at] = width;
  }
};
int diameter_cm(std::uint8_t width) { return (width + 1) * 50; }

// Answers to "is there room for these crowns", remembered.
class Rooms {
 public:
  enum class Answer { yes, no, undecided };

  explicit Rooms(const PlanProblem& problem) : problem_(problem), grid_(problem.plot) {
    for (std::size_t i = 0; i < problem.trees.size(); ++i)
      if (problem.trees[i].fixed && fixed_.size() < 64) fixed_.push_back(i);
  }

  // The bit of a fixed tree.
  [[nodiscard]] std::uint64_t bit_of(std::size_t tree) const {
    return std::uint64_t{1} << (std::lower_bound(fixed_.begin(), fixed_.end(), tree) - fixed_.begin());
  }

  Answer hold(const Crowns& crowns, std::int64_t& steps) {
    const auto [at, fresh] = known_.try_emplace(crowns, Answer::undecided);
    if (fresh) at->second = settle(crowns, steps);
    return at->second;
  }

  [[nodiscard]] std::vector<Misfit> misfits() const {
    std::vector<Misfit> out;
    for (const Crowns& crowns : refused_) {
      // One that asks for no more says it all.
      if (std::any_of(refused_.begin(), refused_.end(), [&](const Crowns& less) { return !(less == crowns) && within(less, crowns); }))
        continue;
      Misfit misfit;
      for (unsigned i = 0; i < crowns.count; ++i)
        if (i + 1U == crowns.count || crowns.widths[i + 1] != crowns.widths[i])
          misfit.wider.emplace_back(diameter_cm(crowns.widths[i]), static_cast<int>(i) + 1);
      for (std::size_t f = 0; f < fixed_.size(); ++f)
        if ((crowns.fixed >> f & 1) != 0) misfit.fixed.push_back(static_cast<int>(fixed_[f]));
      out.push_back(std::move(misfit));
    }
    return out;
  }

 private:
  struct Hash {
    std::size_t operator()(const Crowns& crowns) const {
      std::uint64_t hash = crowns.fixed + 0x9E3779B97F4A7C15u;
      for (unsigned i = 0; i < crowns.count; ++i) hash = (hash ^ crowns.widths[i]) * 0x100000001B3u;
      return static_cast<std::size_t>(hash ^ hash >> 29);
    }
  };

  // Whether room for `more` implies room for `less`: each crown has one at least as wide to take the
  // place of, and every fixed tree stands in both.
  static bool within(const Crowns& less, const Crowns& more) {
    if (less.count > more.count || (less.fixed & ~more.fixed) != 0) return false;
    for (unsigned i = 0; i < less.count; ++i)
      if (less.widths[i] > more.widths[i]) return false;
    return true;
  }

  Answer settle(const Crowns& crowns, std::int64_t& steps) {
    for (const Crowns& known : held_)
      if (within(crowns, known)) return Answer::yes;
    for (const Crowns& known : refused_)
      if (within(known, crowns)) return Answer::no;
    std::vector<Crown> circles;
    for (unsigned i = 0; i < crowns.count; ++i) circles.push_back({diameter_cm(crowns.widths[i]) / 2, 0, false, 0, 0});
    for (std::size_t f = 0; f < fixed_.size(); ++f) {
      if ((crowns.fixed >> f & 1) == 0) continue;
      const PlanTree& tree = problem_.trees[fixed_[f]];
      circles.push_back({counted_crown_cm(tree.crown_cm) / 2, 0, true, tree.x_cm, tree.y_cm});
    }
    constexpr std::int64_t kStepsEach = 400'000;
    std::int64_t left = kStepsEach;
    const Placing placing = grid_.place(circles, Sun::ignored, 0, left, nullptr);
    steps += kStepsEach - left;
    if (placing == Placing::undecided) return Answer::undecided;
    (placing == Placing::found ? held_ : refused_).push_back(crowns);
    return placing == Placing::found ? Answer::yes : Answer::no;
  }

  const PlanProblem& problem_;
  Grid grid_;
  std::vector<std::size_t> fixed_;
  std::unordered_map<Crowns, Answer, Hash> known_;
  std::vector<Crowns> held_, refused_;
};

class Search {
 public:
  explicit Search(const PlanProblem& problem)
      : problem_(problem), rooms_(problem), most_(std::clamp(problem.trees_at_most, 0, kPlanTreesMost)),
        room_(plot_room(problem.plot)) {
    read_items();
    if (problem_.place) find_widths();
    find_prices();
    sort_items();
  }

  Choosing run() {
    take_.reserve(static_cast<std::size_t>(most_));
    visit(0);
    Choosing out;
    for (const Found& found : found_) {
      Chosen chosen{static_cast<int>(found.value / kOne), {}};
      for (std::size_t i : found.items) chosen.trees.push_back(items_[i].tree);
      std::sort(chosen.trees.begin(), chosen.trees.end());
      out.best.push_back(std::move(chosen));
    }
    out.proven = open_ < 0;
    const std::int64_t best = found_.empty() ? 0 : found_.front().value;
    out.gap = static_cast<int>(std::max<std::int64_t>(0, open_ / kOne - best / kOne));
    out.nodes = nodes_;
    out.misfits = rooms_.misfits();
    return out;
  }

 private:
  struct Found {
    std::int64_t value = 0;
    std::vector<std::size_t> types;  // sorted
    std::vector<std::size_t> items;
  };
  // What is known of a set of trees taken, before others join.
  struct State {
    std::int64_t value = 0;      // exact, if it is left at that
    std::int64_t hopeful = 0;    // as (4): at least the value, whatever R does to S
    Months months = 0;           // that S has fruit in, or may have once a partner comes
    std::int64_t room = 0, work = 0, carried = 0, cost = 0;
  };

  void read_items();
  void find_widths();
  void find_prices();
  void sort_items();
  [[nodiscard]] static std::int64_t cost_of(const Item& item, const Prices& prices) {
    std::int64_t cost = prices.room * item.room + prices.work * item.work + prices.carried * item.carried;
    if (item.fixed == 0)
      for (const Width& width : prices.widths)
        if (item.width >= width.width) cost += width.price;
    return cost;
  }
  [[nodiscard]] static std::int64_t priced(const Item& item, const Prices& prices) {
    std::int64_t value = item.own - cost_of(item, prices);
    for (unsigned m = 0; m < kMonths; ++m)
      if ((item.ripe >> m & 1) != 0) value += prices.month[m];
    return value;
  }
  // All limits, at their prices.
  [[nodiscard]] std::int64_t budget(const Prices& prices) const {
    std::int64_t sum = prices.room * room_;
    if (problem_.work_tenths_at_most >= 0) sum += prices.work * problem_.work_tenths_at_most;
    if (problem_.carried_at_most >= 0) sum += prices.carried * problem_.carried_at_most;
    for (const Width& width : prices.widths) sum += width.price * width.most;
    return sum;
  }
  [[nodiscard]] State state_of(std::size_t next) const;
  [[nodiscard]] std::int64_t spare(const State& state) const;
  [[nodiscard]] std::int64_t most_added(const State& state, std::size_t next) const;
  [[nodiscard]] bool fits(const State& state, const Item& item) const;
  Rooms::Answer has_room();
  void visit(std::size_t next);
  void keep(std::int64_t value);
  // What a plan must be worth more than to be kept.
  [[nodiscard]] std::int64_t floor() const { return found_.size() < kPlans ? 0 : found_.back().value; }
  [[nodiscard]] bool hopeless(std::int64_t bound) const { return bound / kOne * kOne <= floor() || bound <= 0; }

  const PlanProblem& problem_;
  Rooms rooms_;
  int most_;
  std::int64_t room_;
  std::vector<Item> items_;
  std::size_t groups_ = 0;
  Months possible_ = 0;                       // months in which anything on offer has fruit
  Prices prices_;
  std::int64_t budget_ = 0;
  std::vector<std::vector<std::int64_t>> top_;  // [next][k]: as (3), without (5) and (6)
  std::vector<std::size_t> take_;
  bool always_room_ = false;
  std::vector<Found> found_;
  std::int64_t nodes_ = 0;
  std::int64_t open_ = -1;                    // the best bound of a branch given up
};

void Search::read_items() {
  const std::vector<PlanTree>& trees = problem_.trees;
  // The order of ids decides ties, whatever the order of the offer.
  std::vector<std::size_t> order(trees.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const PlanTree &x = trees[a], &y = trees[b];
    return std::tie(y.existing, x.slot, x.id, x.container, x.crown_cm, x.rootstock, x.protection, x.x_cm, x.y_cm) <
           std::tie(x.existing, y.slot, y.id, y.container, y.crown_cm, y.rootstock, y.protection, y.x_cm, y.y_cm);
  });
  std::vector<std::string> types;
  for (const PlanTree& tree : trees) types.push_back(tree.type);
  std::sort(types.begin(), types.end());
  for (std::size_t at : order) {
    const PlanTree& tree = trees[at];
    Item item;
    item.tree = at;
    const PlanTree* before = items_.empty() ? nullptr : &trees[items_.back().tree];
    const bool same = before != nullptr && before->existing == tree.existing &&
                      (tree.existing ? before->slot == tree.slot : before->id == tree.id);
    item.group = same ? items_.back().group : groups_++;
    item.type = static_cast<std::size_t>(std::lower_bound(types.begin(), types.end(), tree.type) - types.begin());
    item.own = kOne * own_value(tree, problem_.weights);
    // A fixed tree may lean over the edge or into a setback, so it takes no share of the free area.
    item.room = tree.fixed ? 0 : crown_room(tree.crown_cm);
    item.work = tree.work_tenths;
    item.carried = tree.carried ? 1 : 0;
    item.alone = kOne * tree.alone_loss;
    item.seed = kOne * tree.seed_loss;
    item.needs_partner = tree.needs_partner;
    item.ripe = tree.ripe;
    item.width = static_cast<std::uint8_t>(std::min(counted_crown_cm(tree.crown_cm) / 50 - 1, 255));
    if (tree.fixed) item.fixed = rooms_.bit_of(at);
    possible_ = static_cast<Months>(possible_ | tree.ripe);
    items_.push_back(std::move(item));
  }
}

// How many trees of a width, and wider, find room side by side. Nothing else need stand in the plot, so
// it can only be fewer; and a width for which all trees find room says nothing.
void Search::find_widths() {
  std::vector<std::uint8_t> widths;
  for (const Item& item : items_)
    if (item.fixed == 0) widths.push_back(item.width);
  std::sort(widths.begin(), widths.end());
  widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
  int most = most_;
  for (std::uint8_t width : widths) {
    // Never more than of the width before, so count down from there.
    for (; most > 0; --most) {
      Crowns crowns;
      for (int i = 0; i < most; ++i) crowns.add(width);
      if (rooms_.hold(crowns, nodes_) != Rooms::Answer::no) break;
    }
    if (most < most_) prices_.widths.push_back({width, most, 0});
  }
}

void Search::find_prices() {
  const int kRounds = prices_.widths.empty() ? 80 : 160;
  Prices prices = prices_;
  std::int64_t best = INT64_MAX;
  std::vector<std::int64_t> value(groups_);
  std::vector<std::size_t> member(groups_), order(groups_);
  std::int64_t dearest = kOne;
  for (const Item& item : items_) dearest = std::max(dearest, item.own);
  const std::int64_t month = kOne * problem_.weights.month;
  // Step lengths fall by one part in sixteen a round; a price of a limit starts in the size at which the
  // dearest trees would use it up.
  std::int64_t length = 1 << 10;
  const auto move = [&](std::int64_t& price, std::int64_t used, std::int64_t limit) {
    const std::int64_t room = std::max<std::int64_t>(limit, 1);
    price += dearest * most_ / room * (std::clamp(used, std::int64_t{0}, 4 * room) - room) / room * length / (1 << 11);
    price = std::max<std::int64_t>(price, 0);
  };
  for (int round = 0; round < kRounds; ++round, length -= kRounds > 80 && round % 2 == 1 ? 0 : length / 16) {
    std::fill(value.begin(), value.end(), 0);
    for (std::size_t i = 0; i < items_.size(); ++i) {
      const std::int64_t v = priced(items_[i], prices);
      if (v > value[items_[i].group]) {
        value[items_[i].group] = v;
        member[items_[i].group] = i;
      }
    }
    order.clear();
    for (std::size_t g = 0; g < groups_; ++g)
      if (value[g] > 0) order.push_back(g);
    const std::size_t taken = std::min(order.size(), static_cast<std::size_t>(most_));
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(taken), order.end(),
                      [&](std::size_t a, std::size_t b) { return value[a] != value[b] ? value[a] > value[b] : a < b; });
    std::int64_t bound = budget(prices);
    std::array<std::int64_t, kMonths> count{};
    std::int64_t room = 0, work = 0, carried = 0;
    std::vector<int> wide(prices.widths.size(), 0);
    for (std::size_t i = 0; i < taken; ++i) {
      const Item& item = items_[member[order[i]]];
      bound += value[order[i]];
      room += item.room;
      work += item.work;
      carried += item.carried;
      for (unsigned m = 0; m < kMonths; ++m) count[m] += item.ripe >> m & 1;
      for (std::size_t w = 0; w < wide.size(); ++w) wide[w] += item.fixed == 0 && item.width >= prices.widths[w].width ? 1 : 0;
    }
    for (unsigned m = 0; m < kMonths; ++m)
      if ((possible_ >> m & 1) != 0) bound += month - prices.month[m];
    if (bound < best) {
      best = bound;
      prices_ = prices;
    }
    for (unsigned m = 0; m < kMonths; ++m)
      prices.month[m] = std::clamp<std::int64_t>(prices.month[m] + (1 - count[m]) * month * length / (1 << 12), 0, month);
    move(prices.room, room, room_);
    if (problem_.work_tenths_at_most >= 0) move(prices.work, work, problem_.work_tenths_at_most);
    if (problem_.carried_at_most >= 0) move(prices.carried, carried, problem_.carried_at_most);
    for (std::size_t w = 0; w < wide.size(); ++w) {
      Width& width = prices.widths[w];
      width.price = std::max<std::int64_t>(0, width.price + (wide[w] - width.most) * dearest * length / (1 << 13));
    }
  }
}

void Search::sort_items() {
  budget_ = budget(prices_);
  for (Item& item : items_) {
    item.cost = cost_of(item, prices_);
    item.priced = priced(item, prices_);
  }
  std::stable_sort(items_.begin(), items_.end(), [](const Item& a, const Item& b) { return a.priced > b.priced; });
  const std::size_t n = items_.size();
  for (std::size_t i = 0; i < n; ++i) {
    Item& item = items_[i];
    const PlanTree& tree = problem_.trees[item.tree];
    item.partners = Bits(n);
    item.spoilers = Bits(n);
    for (std::size_t j = 0; j < n; ++j) {
      const PlanTree& giver = problem_.trees[items_[j].tree];
      if ((item.alone > 0 || item.needs_partner) && sets_fruit_of(giver, tree)) item.partners.set(j);
      if (item.seed > 0 && makes_seeds_in(giver, tree)) item.spoilers.set(j);
    }
    item.partners_end = item.partners.last();
  }
  // The k dearest of different groups from each place on.
  top_.assign(n + 1, std::vector<std::int64_t>(static_cast<std::size_t>(most_) + 1, 0));
  std::vector<std::size_t> seen(groups_, n);
  for (std::size_t next = 0; next < n; ++next) {
    std::size_t k = 0;
    for (std::size_t i = next; i < n && k < static_cast<std::size_t>(most_); ++i) {
      if (seen[items_[i].group] == next) continue;
      seen[items_[i].group] = next;
      top_[next][k + 1] = top_[next][k] + std::max<std::int64_t>(items_[i].priced, 0);
      ++k;
    }
    for (; k < static_cast<std::size_t>(most_); ++k) top_[next][k + 1] = top_[next][k];
  }
  if (!problem_.place) {
    always_room_ = true;
    return;
  }
  // If even the widest crowns find room together, there is no more to ask.
  std::vector<std::uint8_t> widths;
  Crowns widest;
  for (const Item& item : items_) {
    widest.fixed |= item.fixed;
    if (item.fixed == 0) widths.push_back(item.width);
  }
  std::sort(widths.begin(), widths.end(), std::greater<>());
  widths.resize(std::min(widths.size(), static_cast<std::size_t>(most_)));
  std::int64_t sum = 0;
  for (std::uint8_t width : widths) {
    widest.add(width);
    sum += crown_room(diameter_cm(width));
  }
  always_room_ = sum <= room_ / 2 && rooms_.hold(widest, nodes_) == Rooms::Answer::yes;
}

Search::State Search::state_of(std::size_t next) const {
  State state;
  for (std::size_t i : take_) {
    const Item& item = items_[i];
    state.value += item.own;
    state.hopeful += item.own;
    state.room += item.room;
    state.work += item.work;
    state.carried += item.carried;
    state.cost += item.cost;
  }
  Months certain = 0;
  for (std::size_t i : take_) {
    const Item& item = items_[i];
    const auto among = [&](const Bits& others) {
      return std::any_of(take_.begin(), take_.end(), [&](std::size_t j) { return others.test(j); });
    };
    if (item.seed > 0 && among(item.spoilers)) {
      state.value -= item.seed;
      state.hopeful -= item.seed;
    }
    bool bears = true, may_bear = true;
    if ((item.alone > 0 || item.needs_partner) && !among(item.partners)) {
      const bool hope = item.partners_end > next;
      state.value -= item.alone;
      if (!hope) state.hopeful -= item.alone;
      bears = !item.needs_partner;
      may_bear = bears || hope;
    }
    if (bears) certain = static_cast<Months>(certain | item.ripe);
    if (may_bear) state.months = static_cast<Months>(state.months | item.ripe);
  }
  const std::int64_t month = kOne * problem_.weights.month;
  state.value += month * std::popcount(certain);
  state.hopeful += month * std::popcount(state.months);
  return state;
}

// Of the bound, what does not depend on R.
std::int64_t Search::spare(const State& state) const {
  std::int64_t sum = state.hopeful + budget_ - state.cost;
  const auto open = static_cast<Months>(possible_ & ~state.months);
  for (unsigned m = 0; m < kMonths; ++m)
    if ((open >> m & 1) != 0) sum += kOne * problem_.weights.month - prices_.month[m];
  return sum;
}

// The sum over R in (3), sharpened by (5), (6) and by leaving out the prices of months that S has.
std::int64_t Search::most_added(const State& state, std::size_t next) const {
  const std::size_t k = static_cast<std::size_t>(most_) - take_.size();
  if (k == 0) return 0;
  std::array<std::pair<std::int64_t, std::size_t>, kPlanTreesMost> top{};  // value, group; falling
  std::size_t have = 0;
  for (std::size_t i = next; i < items_.size(); ++i) {
    const Item& item = items_[i];
    if (item.priced <= 0 || (have == k && item.priced <= top[k - 1].first)) break;  // none further on is dearer
    std::int64_t value = item.priced;
    for (unsigned m = 0; m < kMonths; ++m)
      if ((item.ripe & state.months) >> m & 1) value -= prices_.month[m];
    bool taken = false, spoiled = false;
    for (std::size_t s : take_) {
      const Item& old = items_[s];
      taken = taken || old.group == item.group;
      if (old.seed > 0 && old.spoilers.test(i)) {
        const bool already = std::any_of(take_.begin(), take_.end(), [&](std::size_t j) { return old.spoilers.test(j); });
        if (!already) value -= old.seed / static_cast<std::int64_t>(k);
      }
      spoiled = spoiled || (item.seed > 0 && item.spoilers.test(s));
    }
    if (taken || !fits(state, item)) continue;
    if (spoiled) value -= item.seed;
    if (value <= 0) continue;
    // Insert, one entry a group.
    std::size_t at = 0;
    while (at < have && top[at].second != item.group) ++at;
    if (at < have) {
      if (top[at].first >= value) continue;
    } else if (have < k) {
      ++have;
    } else if (top[k - 1].first >= value) {
      continue;
    } else {
      at = k - 1;
    }
    for (; at > 0 && top[at - 1].first < value; --at) top[at] = top[at - 1];
    top[at] = {value, item.group};
  }
  std::int64_t sum = 0;
  for (std::size_t at = 0; at < have; ++at) sum += top[at].first;
  return sum;
}

bool Search::fits(const State& state, const Item& item) const {
  return state.room + item.room <= room_ &&
         (problem_.work_tenths_at_most < 0 || state.work + item.work <= problem_.work_tenths_at_most) &&
         (problem_.carried_at_most < 0 || state.carried + item.carried <= problem_.carried_at_most);
}

Rooms::Answer Search::has_room() {
  if (always_room_) return Rooms::Answer::yes;
  Crowns crowns;
  for (std::size_t i : take_) {
    crowns.fixed |= items_[i].fixed;
    if (items_[i].fixed == 0) crowns.add(items_[i].width);
  }
  return rooms_.hold(crowns, nodes_);
}

void Search::visit(std::size_t next) {
  const State state = state_of(next);
  if (!take_.empty()) keep(state.value);
  const std::size_t left = static_cast<std::size_t>(most_) - take_.size();
  if (left == 0) return;
  const std::int64_t base = spare(state);
  if (hopeless(base + most_added(state, next))) return;
  for (std::size_t i = next; i < items_.size(); ++i) {
    const Item& item = items_[i];
    const std::int64_t bound = base + item.priced + top_[i + 1][left - 1];
    if (hopeless(bound)) return;
    if (++nodes_ > problem_.node_limit) {
      open_ = std::max(open_, bound);
      return;
    }
    if (!fits(state, item)) continue;
    if (std::any_of(take_.begin(), take_.end(), [&](std::size_t s) { return items_[s].group == item.group; })) continue;
    take_.push_back(i);
    switch (has_room()) {
      case Rooms::Answer::yes: visit(i + 1); break;
      case Rooms::Answer::no: break;
      case Rooms::Answer::undecided: open_ = std::max(open_, bound); break;
    }
    take_.pop_back();
  }
}

void Search::keep(std::int64_t value) {
  if (value <= floor()) return;
  Found found{value, {}, take_};
  for (std::size_t i : take_) found.types.push_back(items_[i].type);
  std::sort(found.types.begin(), found.types.end());
  const auto same = std::find_if(found_.begin(), found_.end(), [&](const Found& f) { return f.types == found.types; });
  if (same != found_.end()) {
    if (same->value >= value) return;
    found_.erase(same);
  }
  const auto at = std::find_if(found_.begin(), found_.end(), [&](const Found& f) { return f.value < value; });
  found_.insert(at, std::move(found));
  if (found_.size() > kPlans) found_.pop_back();
}

}  // namespace

int counted_crown_cm(int crown_cm) { return (std::max(crown_cm, 1) + 49) / 50 * 50; }

Choosing choose_trees(const PlanProblem& problem) { return Search(problem).run(); }

}  // namespace tenwinters
