// The trees that stand in the cold: from options, or from a table with one tree a line.
#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "cli/night_input.h"
#include "lib/csv.h"
#include "tenwinters/units.h"

namespace tenwinters::cli {
namespace {

constexpr std::size_t kFileLimit = 4u << 20u;
constexpr std::string_view kColumns[] = {"tree", "rootstock", "age", "health", "container", "crop", "spot", "protection"};

// One tree as it was written; empty = as the options say, or the default.
struct Written {
  std::string tree, rootstock, age, health, container, crop, spot, protection;
  std::string where;                     // "trees.csv:3: " or ""
};

std::vector<std::string_view> tree_ids(const Catalog& catalog) {
  std::vector<std::string_view> ids;
  for (const CitrusType& type : catalog.types) ids.push_back(type.id);
  for (const Cultivar& cultivar : catalog.cultivars) ids.push_back(cultivar.id);
  return ids;
}

template <class T>
std::vector<std::string_view> ids_of(const std::vector<T>& all) {
  std::vector<std::string_view> ids;
  for (const T& one : all) ids.push_back(one.id);
  return ids;
}

// Who wrote it: a line of a file, which is then at fault, or an option.
int blame(const Written& written) { return written.where.empty() ? kMisuse : kFindings; }

template <class Names>
int refuse(const Written& written, std::string_view what, const std::string& found, const Names& names, std::string_view expected) {
  complain(written.where + "no " + std::string(what) + " \"" + found + "\"" +
               (expected.empty() ? "" : "; expected " + std::string(expected)),
           std::string(nearest_name(found, names)));
  return blame(written);
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    if (c == ' ' || c == '+' || c == '|' || c == ';' || c == ',') {
      if (!word.empty()) words.push_back(std::move(word));
      word.clear();
    } else {
      word += c;
    }
  }
  return words;
}

int settle(const Written& written, const Loaded& loaded, const Place& place, NightTree& tree) {
  const Catalog& catalog = loaded.catalog;
  tree.id = written.tree;
  tree.region = place.region;
  if (const Cultivar* cultivar = find_cultivar(catalog, written.tree)) {
    tree.traits = &cultivar->traits;
  } else if (const CitrusType* type = find_type(catalog, written.tree)) {
    tree.traits = &type->traits;
  } else {
    return refuse(written, "cultivar or type", written.tree, tree_ids(catalog), "");
  }
  if (!written.rootstock.empty()) {
    tree.rootstock = find_rootstock(catalog, written.rootstock);
    if (tree.rootstock == nullptr) return refuse(written, "rootstock", written.rootstock, ids_of(catalog.rootstocks), "");
  }
  double age = 0;
  const std::string& text = written.age;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), age);
  if (error != std::errc() || end != text.data() + text.size() || !(age >= 0 && age <= 200)) {
    complain(written.where + "age \"" + text + "\" is not a number of years, 0 to 200");
    return blame(written);
  }
  tree.age = std::max(1, static_cast<int>(std::ceil(age)));
  const std::optional<Health> health = parse<Health>(written.health);
  if (!health) return refuse(written, "health", written.health, names_of<Health>(), "good, fair or poor");
  tree.health = *health;
  constexpr std::string_view kCrops[] = {"light", "heavy"};
  if (written.crop != "light" && written.crop != "heavy") return refuse(written, "crop", written.crop, kCrops, "light or heavy");
  tree.heavy_crop = written.crop == "heavy";
  const std::optional<double> litres = parse_container_l(written.container, loaded.units);
  if (!litres) {
    complain(written.where + "container \"" + written.container + "\" is neither \"ground\" nor a size such as 15gal or 57l");
    return blame(written);
  }
  tree.container_l = *litres;
  const std::optional<Spot> spot = parse<Spot>(written.spot);
  if (!spot) return refuse(written, "spot", written.spot, names_of<Spot>(), "");
  for (const Microclimate& climate : catalog.microclimates)
    if (climate.spot == *spot) tree.warmer_c = climate.warmer_c.best;
  for (const std::string& id : words_of(written.protection)) {
    const Protection* protection = find_protection(catalog, id);
    if (protection == nullptr) return refuse(written, "protection", id, ids_of(catalog.protections), "");
    if (protection->container_only && tree.container_l <= 0) {
      complain(written.where + "protection \"" + id + "\" is for trees in containers");
      return blame(written);
    }
    if (id != "none") tree.protections.push_back(protection);
  }
  return kDone;
}

std::string trimmed(const std::string& cell) {
  const std::size_t first = cell.find_first_not_of(" \t"), last = cell.find_last_not_of(" \t");
  return first == std::string::npos ? "" : cell.substr(first, last - first + 1);
}

// The field a column or key fills; nullptr after a complaint.
std::string Written::*field_of(const std::string& name, const std::string& where) {
  constexpr std::string Written::*kFields[] = {&Written::tree,      &Written::rootstock, &Written::age,  &Written::health,
                                               &Written::container, &Written::crop,      &Written::spot, &Written::protection};
  static_assert(std::size(kFields) == std::size(kColumns));
  std::string_view known = name;
  if (name == "id" || name == "cultivar" || name == "type") known = "tree";
  if (name == "age_years") known = "age";
  if (name == "protections") known = "protection";
  const auto at = std::find(std::begin(kColumns), std::end(kColumns), known);
  if (at != std::end(kColumns)) return kFields[at - std::begin(kColumns)];
  complain(where + "nothing is called \"" + name +
               "\"; expected tree, rootstock, age, health, container, crop, spot, protection",
           std::string(nearest_name(name, kColumns)));
  return nullptr;
}

int read_table(const std::string& path, std::string_view text, const Written& defaults, std::vector<Written>& all) {
  std::string_view head = text;  // the first line that is no comment tells the separator
  while (head.starts_with('#')) head.remove_prefix(std::min(head.find('\n'), head.size() - 1) + 1);
  const CsvTable table = read_csv(text, csv_separator(head));
  if (table.unclosed_line > 0) {
    complain(path + ":" + std::to_string(table.unclosed_line) + ": the quote that opens in this line is never closed");
    return kFindings;
  }
  std::vector<std::string Written::*> columns;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    std::vector<std::string> cells;
    for (const std::string& cell : table.rows[row]) cells.push_back(trimmed(cell));
    if ((cells.size() == 1 && cells[0].empty()) || cells[0].starts_with('#')) continue;
    const std::string where = path + ":" + std::to_string(table.spots[row].front().line) + ": ";
    if (columns.empty()) {
      for (const std::string& name : cells) {
        columns.push_back(field_of(name, where));
        if (columns.back() == nullptr) return kFindings;
      }
      if (std::find(columns.begin(), columns.end(), &Written::tree) == columns.end()) {
        complain(where + "the first line names the columns, and one of them must be \"tree\"");
        return kFindings;
      }
      continue;
    }
    if (cells.size() > columns.size()) {
      complain(where + fmt::format("{} cells under {} columns", cells.size(), columns.size()));
      return kFindings;
    }
    Written written = defaults;
    written.where = where;
    for (std::size_t i = 0; i < cells.size(); ++i)
      if (!cells[i].empty()) written.*columns[i] = cells[i];
    if (written.tree.empty()) {
      complain(where + "no tree is named");
      return kFindings;
    }
    all.push_back(std::move(written));
  }
  return kDone;
}

int read_yaml(const std::string& path, const Written& defaults, std::vector<Written>& all) {
  const LoadedTrees loaded = load_trees(DiskReader(), path);
  bool faulty = false;
  for (const Diagnostic& fault : loaded.faults) {
    fmt::print(stderr, "{}\n", to_text(fault));
    faulty = faulty || !fault.warning;
  }
  if (faulty) return kFindings;
  for (const TreeRow& row : loaded.rows) {
    Written written = defaults;
    written.where = path + ":" + std::to_string(row.line) + ": ";
    for (const auto& [name, text] : row.cells) {
      std::string Written::*const field = field_of(name, written.where);
      if (field == nullptr) return kFindings;
      if (!text.empty()) written.*field = text;
    }
    if (written.tree.empty()) {
      complain(written.where + "no tree is named; say tree: and a cultivar or a type");
      return kFindings;
    }
    all.push_back(std::move(written));
  }
  return kDone;
}

int read_list(const std::string& path, const Written& defaults, std::vector<Written>& all) {
  std::string why;
  const std::optional<std::string> text = DiskReader().read(path, kFileLimit, why);
  if (!text) {
    complain("cannot read " + path + ": " + why);
    return kMisuse;
  }
  if (path.ends_with(".yaml") || path.ends_with(".yml")) return read_yaml(path, defaults, all);
  return read_table(path, *text, defaults, all);
}

}  // namespace

std::optional<double> parse_container_l(std::string_view text, Units units) {
  if (text.empty() || text == "ground") return 0;
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || !(value >= 0 && value <= 2000)) return std::nullopt;
  std::string_view unit(end, static_cast<std::size_t>(text.data() + text.size() - end));
  while (unit.starts_with(' ')) unit.remove_prefix(1);
  if (unit == "gal" || (unit.empty() && units == Units::us)) return to_litres(Gallons{value}).litres;
  return unit == "l" || unit == "L" || unit.empty() ? std::optional(value) : std::nullopt;
}

int read_trees(const NightOptions& options, const Loaded& loaded, const Place& place, std::vector<NightTree>& trees) {
  Written defaults;
  defaults.rootstock = options.rootstock;
  defaults.age = options.age;
  defaults.health = options.health;
  defaults.container = options.container;
  defaults.crop = options.crop;
  defaults.spot = options.spot;
  for (const std::string& id : options.protections) defaults.protection += (defaults.protection.empty() ? "" : " ") + id;
  std::vector<Written> all;
  for (const std::string& id : options.trees) {
    all.push_back(defaults);
    all.back().tree = id;
  }
  if (!options.trees_file.empty())
    if (const int status = read_list(options.trees_file, defaults, all)) return status;
  if (all.empty()) {
    complain("name the trees: --tree owari, again and again, or --trees FILE");
    return kMisuse;
  }
  for (const Written& written : all) {
    NightTree tree;
    if (const int status = settle(written, loaded, place, tree)) return status;
    trees.push_back(std::move(tree));
  }
  return kDone;
}

}  // namespace tenwinters::cli
