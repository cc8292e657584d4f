#include "cli/evidence.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>

#include "tenwinters/sensitivity.h"

namespace tenwinters::cli {
namespace {

constexpr std::size_t kBases = std::size(Names<Basis>::list);
constexpr std::size_t kListed = 25;  // weak figures shown

using Counts = std::array<int, kBases>;

int total(const Counts& counts) {
  int sum = 0;
  for (int count : counts) sum += count;
  return sum;
}

double percent(int part, int whole) { return whole == 0 ? 0 : 100.0 * part / whole; }

int well_founded(const Counts& counts) {
  return counts[static_cast<std::size_t>(Basis::published)] + counts[static_cast<std::size_t>(Basis::common_practice)];
}

std::map<std::string, Counts> count_by_kind(const std::vector<Figure>& figures) {
  std::map<std::string, Counts> by_kind;
  for (const Figure& figure : figures) ++by_kind[figure.kind][static_cast<std::size_t>(figure.evidence.basis)];
  return by_kind;
}

// A figure as it stands in a file: a type's once, for all the cultivars that take it.
struct Mover {
  std::string owner, trait;
  Basis basis = Basis::estimate;
  double places = 0;  // added up over its cultivars
  int cultivars = 0;
};

// Those that move a ranking, most places first.
std::vector<Mover> movers(const Catalog& catalog, const std::vector<FigureEffect>& effects) {
  std::map<std::tuple<std::string, std::string, Basis>, Mover> by_figure;  // an offset may weaken a type's figure
  for (const FigureEffect& effect : effects) {
    if (effect.yards == 0) continue;
    const Cultivar* cultivar = find_cultivar(catalog, effect.cultivar);
    const std::string& owner = effect.from_type && cultivar != nullptr ? cultivar->type : effect.cultivar;
    Mover& mover = by_figure[{owner, effect.trait, effect.basis}];
    mover.owner = owner;
    mover.trait = effect.trait;
    mover.basis = effect.basis;
    mover.places += effect.places;
    ++mover.cultivars;
  }
  std::vector<Mover> list;
  for (auto& [key, mover] : by_figure) list.push_back(std::move(mover));
  std::stable_sort(list.begin(), list.end(), [](const Mover& a, const Mover& b) { return a.places > b.places; });
  return list;
}

bool weak(const Mover& mover) { return mover.basis == Basis::memory || mover.basis == Basis::estimate; }

nlohmann::ordered_json to_json(const Counts& counts) {
  nlohmann::ordered_json out;
  for (std::size_t i = 0; i < kBases; ++i) out[std::string(names_of<Basis>()[i])] = counts[i];
  return out;
}

}  // namespace

std::string basis_table(const std::vector<Figure>& figures) {
  std::string out = fmt::format("{:<12}", "figures");
  for (std::string_view basis : names_of<Basis>()) out += fmt::format("{:>17}", basis);
  out += fmt::format("{:>9}\n", "all");
  const auto line = [&](const std::string& name, const Counts& counts) {
    out += fmt::format("{:<12}", name);
    for (int count : counts) out += fmt::format("{:>9} {:>5.1f} %", count, percent(count, total(counts)));
    out += fmt::format("{:>9}\n", total(counts));
  };
  Counts all{};
  for (const auto& [kind, counts] : count_by_kind(figures)) {
    line(kind, counts);
    for (std::size_t i = 0; i < kBases; ++i) all[i] += counts[i];
  }
  line("all", all);
  return out;
}

int report_evidence(const Session& session, std::size_t yards, bool json) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  const DiskReader disk;
  const std::vector<Figure> figures = list_figures(disk, loaded.root);
  const std::vector<SampleYard> sample = sample_yards(loaded.catalog, loaded.office, yards);
  const std::vector<FigureEffect> effects = sensitivity(loaded.catalog, loaded.office, sample);
  const std::vector<Mover> moving = movers(loaded.catalog, effects);
  Counts by_basis{}, in_use{};  // each figure once; as often as a cultivar uses it
  std::vector<Mover> weakest;
  for (const Mover& mover : moving) {
    ++by_basis[static_cast<std::size_t>(mover.basis)];
    in_use[static_cast<std::size_t>(mover.basis)] += mover.cultivars;
    if (weak(mover)) weakest.push_back(mover);
  }

  if (json) {
    nlohmann::ordered_json out;
    for (const auto& [kind, counts] : count_by_kind(figures)) out["figures"][kind] = to_json(counts);
    out["yards"] = sample.size();
    out["cultivar_figures"] = effects.size();
    out["moving"] = to_json(by_basis);
    out["moving_well_founded_percent"] = percent(well_founded(by_basis), total(by_basis));
    out["moving_in_use"] = to_json(in_use);
    out["weakest"] = nlohmann::ordered_json::array();
    for (const Mover& one : weakest)
      out["weakest"].push_back({{"of", one.owner}, {"trait", one.trait}, {"basis", name_of(one.basis)},
                                {"cultivars", one.cultivars}, {"places", one.places}});
    fmt::print("{}\n", out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
    return kDone;
  }
  fmt::print("{}\n", basis_table(figures));
  fmt::print("Figures of cultivars and their types that move a ranking when moved within their evidence, in {} sample\n"
             "yards: {}. A type's figure counts once, and in the last column as often as a cultivar uses it.\n",
             sample.size(), total(by_basis));
  for (std::size_t i = 0; i < kBases; ++i)
    fmt::print("  {:<16}{:>6} {:>5.1f} %{:>8}\n", names_of<Basis>()[i], by_basis[i], percent(by_basis[i], total(by_basis)), in_use[i]);
  fmt::print("Published or common practice: {:.1f} % ({:.1f} % as used).\n\n", percent(well_founded(by_basis), total(by_basis)),
             percent(well_founded(in_use), total(in_use)));
  const std::size_t listed = std::min(kListed, weakest.size());
  fmt::print("The weakest that move rankings most, to be read up first ({} of {}):\n", listed, weakest.size());
  fmt::print("{:>8} {:>10}  {:<10} {}\n", "places", "cultivars", "basis", "figure");
  for (std::size_t i = 0; i < listed; ++i)
    fmt::print("{:>8.1f} {:>10}  {:<10} {} {}\n", weakest[i].places, weakest[i].cultivars, name_of(weakest[i].basis),
               weakest[i].owner, weakest[i].trait);
  fmt::print("\nplaces: mean over the yards, added up over the cultivars that the figure serves.\n");
  return kDone;
}

}  // namespace tenwinters::cli
