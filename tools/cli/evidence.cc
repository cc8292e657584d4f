#include "cli/evidence.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <map>
#include <nlohmann/json.hpp>

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

// A weak figure as a reader would look it up: a type's stands once for all cultivars that take it.
struct Weak {
  std::string owner, trait;
  Basis basis = Basis::estimate;
  double places = 0;  // added up over its cultivars
  int cultivars = 0;
};

std::vector<Weak> reading_list(const Catalog& catalog, const std::vector<FigureEffect>& effects) {
  std::map<std::pair<std::string, std::string>, Weak> by_figure;
  for (const FigureEffect& effect : effects) {
    if (effect.yards == 0 || (effect.basis != Basis::memory && effect.basis != Basis::estimate)) continue;
    const Cultivar* cultivar = find_cultivar(catalog, effect.cultivar);
    const std::string& owner = effect.from_type && cultivar != nullptr ? cultivar->type : effect.cultivar;
    Weak& weak = by_figure[{owner, effect.trait}];
    weak.owner = owner;
    weak.trait = effect.trait;
    weak.basis = effect.basis;
    weak.places += effect.places;
    ++weak.cultivars;
  }
  std::vector<Weak> list;
  for (auto& [key, weak] : by_figure) list.push_back(std::move(weak));
  std::stable_sort(list.begin(), list.end(), [](const Weak& a, const Weak& b) { return a.places > b.places; });
  return list;
}

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
  Counts moving{};
  for (const FigureEffect& effect : effects)
    if (effect.yards > 0) ++moving[static_cast<std::size_t>(effect.basis)];
  const std::vector<Weak> weak = reading_list(loaded.catalog, effects);

  if (json) {
    nlohmann::ordered_json out;
    for (const auto& [kind, counts] : count_by_kind(figures)) out["figures"][kind] = to_json(counts);
    out["yards"] = sample.size();
    out["cultivar_figures"] = effects.size();
    out["moving"] = to_json(moving);
    out["moving_well_founded_percent"] = percent(well_founded(moving), total(moving));
    out["weakest"] = nlohmann::ordered_json::array();
    for (const Weak& one : weak)
      out["weakest"].push_back({{"of", one.owner}, {"trait", one.trait}, {"basis", name_of(one.basis)},
                                {"cultivars", one.cultivars}, {"places", one.places}});
    fmt::print("{}\n", out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
    return kDone;
  }
  fmt::print("{}\n", basis_table(figures));
  fmt::print("Figures of cultivars, their types' included, that move a ranking when moved within their evidence,\n"
             "in {} sample yards: {} of {}.\n", sample.size(), total(moving), effects.size());
  for (std::size_t i = 0; i < kBases; ++i)
    fmt::print("  {:<16}{:>6} {:>5.1f} %\n", names_of<Basis>()[i], moving[i], percent(moving[i], total(moving)));
  fmt::print("Published or common practice: {:.1f} %.\n\n", percent(well_founded(moving), total(moving)));
  fmt::print("The weakest that move rankings most, to be read up first ({} of {}):\n", std::min(kListed, weak.size()), weak.size());
  fmt::print("{:>8} {:>10}  {:<10} {}\n", "places", "cultivars", "basis", "figure");
  for (std::size_t i = 0; i < std::min(kListed, weak.size()); ++i)
    fmt::print("{:>8.1f} {:>10}  {:<10} {} {}\n", weak[i].places, weak[i].cultivars, name_of(weak[i].basis), weak[i].owner, weak[i].trait);
  fmt::print("\nplaces: mean over the yards, added up over the cultivars that the figure serves.\n");
  return kDone;
}

}  // namespace tenwinters::cli
