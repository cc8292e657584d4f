#include "tenwinters/sensitivity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include "tenwinters/prospect.h"
#include "tenwinters/traits.h"

namespace tenwinters {
namespace {

// --- sample -------------------------------------------------------------------------------------

// Roots of primes: multiples of their fractions fill a cube evenly, one axis a question.
double spread(std::size_t index, std::size_t axis) {
  static constexpr std::array<double, 24> kPrimes = {2,  3,  5,  7,  11, 13, 17, 19, 23, 29, 31, 37,
                                                     41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89};
  const double x = (static_cast<double>(index) + 0.5) * std::sqrt(kPrimes[axis % kPrimes.size()]);
  return x - std::floor(x);
}

// The item in whose share of 0..1 `x` lies.
template <class T>
std::size_t pick(const std::vector<T>& items, double T::*share, double x) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < items.size(); ++i) {
    sum += items[i].*share;
    if (x < sum) return i;
  }
  return items.size() - 1;
}

bool applies(const Question& question, const Answers& answers) {
  if (question.asked_if_question.empty()) return true;
  const auto given = answers.find(question.asked_if_question);
  return given != answers.end() && std::find(question.asked_if_answers.begin(), question.asked_if_answers.end(),
                                             given->second) != question.asked_if_answers.end();
}

// --- moving figures -----------------------------------------------------------------------------

void move(Fact& fact, bool up) { fact.best = up ? fact.high : fact.low; }

void move(Window& window, bool up) {
  const int step = up ? 1 : 11;
  window.from_month = (window.from_month + step - 1) % 12 + 1;
  window.to_month = (window.to_month + step - 1) % 12 + 1;
}

template <class E>
void move(Choice<E>& choice, bool up) {
  const std::size_t at = static_cast<std::size_t>(choice.is);
  if (up && at + 1 < names_of<E>().size()) choice.is = static_cast<E>(at + 1);
  if (!up && at > 0) choice.is = static_cast<E>(at - 1);
}

template <class E>
void toggle(Choices<E>& choices, E word) {
  const auto at = std::lower_bound(choices.are.begin(), choices.are.end(), word);
  if (at != choices.are.end() && *at == word) choices.are.erase(at);
  else choices.are.insert(at, word);
}

// Visits every single figure: visit(name, evidence, number of ways, move(way)).
template <class Visit>
void for_each_figure(Traits& traits, Visit&& visit) {
  for_each_trait(traits, Overloaded{
      [&](std::string_view key, std::array<TissueCold, kTissueCount>& cold) {
        for (std::size_t i = 0; i < kTissueCount; ++i) {
          const std::string tissue = std::string(key) + "." + std::string(names_of<Tissue>()[i]);
          visit(tissue + ".hardened", cold[i].hardened.evidence, 2, [&](int way) { move(cold[i].hardened, way == 1); });
          visit(tissue + ".unhardened", cold[i].unhardened.evidence, 2, [&](int way) { move(cold[i].unhardened, way == 1); });
        }
      },
      [&](std::string_view key, std::vector<Ripening>& regions) {
        for (Ripening& region : regions)
          visit(std::string(key) + "." + std::string(name_of(region.region)), region.window.evidence, 2,
                [&](int way) { move(region.window, way == 1); });
      },
      [&](std::string_view key, Window& window) {
        visit(std::string(key), window.evidence, 2, [&](int way) { move(window, way == 1); });
      },
      [&](std::string_view key, Fact& fact, std::string_view, double, double) {
        visit(std::string(key), fact.evidence, 2, [&](int way) { move(fact, way == 1); });
      },
      [&]<class E>(std::string_view key, Choice<E>& choice) {
        visit(std::string(key), choice.evidence, 2, [&](int way) { move(choice, way == 1); });
      },
      [&]<class E>(std::string_view key, Choices<E>& choices, bool) {
        visit(std::string(key), choices.evidence, static_cast<int>(names_of<E>().size()),
              [&](int way) { toggle(choices, static_cast<E>(way)); });
      },
  });
}

// --- ranks --------------------------------------------------------------------------------------

struct Standing {
  Shelf shelf = Shelf::not_here;
  int points = 0;
};
std::tuple<Shelf, int> order(const Standing& standing) { return {standing.shelf, -standing.points}; }

// By cultivar, in the order of Catalog::cultivars; nullopt: not on sale.
using Standings = std::vector<std::optional<Standing>>;

// How many of the others stand before it, those level with it counting half.
double rank(const Standing& one, std::size_t self, const Standings& all) {
  double before = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i == self || !all[i]) continue;
    if (order(*all[i]) < order(one)) before += 1;
    else if (order(*all[i]) == order(one)) before += 0.5;
  }
  return before;
}

// Winters are tabled once a place, and what they do to a planting is worked out once.
struct Ground {
  const Place* place = nullptr;
  Replay replay;
  ReplayMemo memo;
};

class Rankings {
 public:
  Rankings(const Catalog& catalog, const Office& office, std::span<const SampleYard> yards)
      : catalog_(catalog), office_(office), yards_(yards) {
    for (const SampleYard& yard : yards) {
      std::size_t at = 0;
      while (at < grounds_.size() && grounds_[at].place != yard.place) ++at;
      if (at == grounds_.size()) grounds_.push_back({yard.place, make_replay(yard.place->winters, catalog.cold_model), {}});
      ground_of_.push_back(at);
    }
    for (std::size_t yard = 0; yard < yards.size(); ++yard) base_.push_back(standings(catalog, yard));
  }

  // Places that each cultivar is moved in a yard when all cultivars are as in `moved`, one at a time.
  [[nodiscard]] std::vector<double> shifts(const Catalog& moved, std::size_t yard) {
    const Standings& base = base_[yard];
    const Standings now = standings(moved, yard);
    std::vector<double> places(base.size(), 0);
    for (std::size_t i = 0; i < base.size(); ++i)
      if (base[i] && order(*base[i]) != order(*now[i])) places[i] = std::abs(rank(*now[i], i, base) - rank(*base[i], i, base));
    return places;
  }

 private:
  Standings standings(const Catalog& catalog, std::size_t yard) {
    Ground& ground = grounds_[ground_of_[yard]];
    const Advice advice = advise(catalog, office_, *ground.place, yards_[yard].answers, ground.replay, ground.memo);
    Standings all(catalog_.cultivars.size());
    for (const Candidate& candidate : advice.candidates)
      if (const Cultivar* cultivar = find_cultivar(catalog, candidate.cultivar))
        all[static_cast<std::size_t>(cultivar - catalog.cultivars.data())] = Standing{candidate.shelf, candidate.points};
    return all;
  }

  const Catalog& catalog_;
  const Office& office_;
  std::span<const SampleYard> yards_;
  std::vector<Ground> grounds_;
  std::vector<std::size_t> ground_of_;  // by yard
  std::vector<Standings> base_;         // by yard
};

}  // namespace

std::vector<SampleYard> sample_yards(const Catalog& catalog, const Office& office, std::size_t count) {
  std::vector<SampleYard> yards;
  if (office.places.empty()) return yards;
  for (std::size_t i = 0; i < count; ++i) {
    SampleYard yard;
    std::size_t axis = 0;
    yard.place = &office.places[pick(office.places, &Place::share, spread(i, axis++))];
    for (const Question& question : catalog.questions) {
      const double x = spread(i, axis++);
      if (question.answers.empty() || !applies(question, yard.answers)) continue;
      yard.answers[question.id] = question.answers[pick(question.answers, &Answer::prior, x)].id;
    }
    yards.push_back(std::move(yard));
  }
  return yards;
}

std::vector<FigureEffect> sensitivity(const Catalog& catalog, const Office& office, std::span<const SampleYard> yards) {
  std::vector<FigureEffect> effects;
  struct Trait {
    int ways = 0;
    std::vector<std::pair<std::size_t, std::size_t>> of;  // cultivar and its effect
  };
  std::map<std::string, Trait> traits;
  Catalog moved = catalog;
  for (std::size_t i = 0; i < moved.cultivars.size(); ++i) {
    Cultivar& cultivar = moved.cultivars[i];
    if (!office.on_sale.empty() && std::find(office.on_sale.begin(), office.on_sale.end(), cultivar.id) == office.on_sale.end())
      continue;
    for_each_figure(cultivar.traits, [&](const std::string& name, const Evidence& evidence, int ways, auto&&) {
      Trait& trait = traits[name];
      trait.ways = ways;
      trait.of.emplace_back(i, effects.size());
      effects.push_back({cultivar.id, name, evidence.basis, evidence.from_type, 0, 0});
    });
  }

  // No cultivar's score depends on another's figures, so one figure of all of them is moved at once and
  // each is then put back alone among the unmoved.
  Rankings rankings(catalog, office, yards);
  for (const auto& [name, trait] : traits) {
    std::vector<std::vector<double>> furthest(yards.size(), std::vector<double>(catalog.cultivars.size(), 0));
    for (int way = 0; way < trait.ways; ++way) {
      for (const auto& [cultivar, effect] : trait.of)
        for_each_figure(moved.cultivars[cultivar].traits, [&, &wanted = name](const std::string& each, const Evidence&, int, auto&& move_it) {
          if (each == wanted) move_it(way);
        });
      for (std::size_t yard = 0; yard < yards.size(); ++yard) {
        const std::vector<double> shifts = rankings.shifts(moved, yard);
        for (std::size_t i = 0; i < shifts.size(); ++i) furthest[yard][i] = std::max(furthest[yard][i], shifts[i]);
      }
      for (const auto& [cultivar, effect] : trait.of) moved.cultivars[cultivar].traits = catalog.cultivars[cultivar].traits;
    }
    for (const auto& [cultivar, effect] : trait.of) {
      for (const std::vector<double>& places : furthest) {
        effects[effect].places += places[cultivar] / static_cast<double>(yards.size());
        if (places[cultivar] >= 1) ++effects[effect].yards;
      }
    }
  }
  std::sort(effects.begin(), effects.end(), [](const FigureEffect& a, const FigureEffect& b) {
    return std::tie(b.places, a.cultivar, a.trait) < std::tie(a.places, b.cultivar, b.trait);
  });
  return effects;
}

}  // namespace tenwinters
