#include "cli/stock.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include "cli/table_input.h"

namespace tenwinters::cli {
namespace {

// In English and Spanish, folded.
const std::vector<ColumnName> kColumns = {
    {"cultivar", {"variety", "variedad", "tree", "plant", "name", "item", "description", "arbol", "nombre", "planta"}, true},
    {"rootstock", {"stock", "root", "on", "patron", "portainjerto", "pie"}, false},
    {"pot size", {"pot", "size", "container", "container size", "maceta", "tamano", "tamano de maceta"}, false},
    {"price", {"retail", "retail price", "unit price", "each", "precio", "precio unitario"}, false},
    {"quantity", {"qty", "count", "number", "on hand", "in stock", "units", "cantidad", "existencias", "unidades"}, false},
    {"notes", {"note", "remarks", "remark", "comment", "comments", "notas", "nota", "observaciones"}, false},
};

// What a list adds to a name without changing whose it is.
const std::set<std::string, std::less<>> kNoise = {"tree", "trees", "plant", "dwarf", "semi", "standard", "grafted", "citrus", "arbol", "arboles", "planta", "enano", "enana", "injertado"};

std::string without_noise(const std::string& name) {
  std::string out;
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t end = std::min(name.find(' ', at), name.size());
    if (const std::string_view word = std::string_view(name).substr(at, end - at); !kNoise.contains(word)) out += (out.empty() ? "" : " ") + std::string(word);
    at = end + 1;
  }
  return out;
}

// Names, folded, and the ids they may mean.
class Names {
 public:
  void add(std::string_view name, const std::string& id) {
    if (const std::string key = folded(name); !key.empty()) ids_[key].insert(id);
  }
  [[nodiscard]] const std::set<std::string>* find(const std::string& name) const {
    const std::string key = folded(name);
    for (const std::string& tried : {key, without_noise(key)})
      if (const auto found = ids_.find(tried); found != ids_.end()) return &found->second;
    return nullptr;
  }
  [[nodiscard]] std::string nearest(const std::string& name) const {
    std::vector<std::string_view> keys;
    for (const auto& [key, ids] : ids_) keys.push_back(key);
    return std::string(nearest_name(folded(name), keys));
  }

 private:
  std::map<std::string, std::set<std::string>> ids_;
};

class Reader {
 public:
  explicit Reader(const Loaded& loaded) : loaded_(loaded) {
    for (const Cultivar& c : loaded.catalog.cultivars) {
      std::vector<std::string> names = {c.id, c.name};
      names.insert(names.end(), c.synonyms.begin(), c.synonyms.end());
      names.insert(names.end(), c.misspellings.begin(), c.misspellings.end());
      for (const std::string& name : names) {
        cultivars_.add(name, c.id);
        // "Owari satsuma" and "Satsuma Owari", in every language.
        for (const Language& language : loaded.languages) {
          const std::string kind = language.say("types." + c.type + ".name");
          cultivars_.add(name + " " + kind, c.id);
          cultivars_.add(kind + " " + name, c.id);
        }
      }
    }
    for (const CitrusType& type : loaded.catalog.types) {
      kinds_.add(type.id, type.id);
      for (const std::string& name : type.synonyms) kinds_.add(name, type.id);
      for (const Language& language : loaded.languages) {
        kinds_.add(language.say("types." + type.id + ".name"), type.id);
        kinds_.add(language.say("types." + type.id + ".plural"), type.id);
      }
    }
    for (const Rootstock& stock : loaded.catalog.rootstocks) {
      stocks_.add(stock.id, stock.id);
      stocks_.add(stock.name, stock.id);
      for (const std::string& name : stock.synonyms) stocks_.add(name, stock.id);
    }
  }

  void read_row(const InputTable& table, std::size_t row, Stock& out) const {
    StockRow made;
    const Diagnostic here = table.fault(row, "cultivar", "");
    made.line = here.line;
    std::string why;
    made.cultivar = cultivar_of(table.cell(row, "cultivar"), why);
    if (!why.empty()) {
      out.faults.push_back(table.fault(row, "cultivar", why));
      return;
    }
    if (const std::string name = table.cell(row, "rootstock"); !name.empty()) {
      const std::set<std::string>* ids = stocks_.find(name);
      if (!ids) {
        const std::string nearest = stocks_.nearest(name);
        out.faults.push_back(table.fault(row, "rootstock", "found rootstock \"" + name + "\", which the catalogue does not have" + (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?")));
        return;
      }
      made.rootstock = *ids->begin();
    }
    made.size = table.cell(row, "pot size");
    made.price = table.cell(row, "price");
    made.notes = table.cell(row, "notes");
    if (const std::string text = table.cell(row, "quantity"); !text.empty()) {
      int quantity = 0;
      const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), quantity);
      const bool whole = error == std::errc() && end == text.data() + text.size() && quantity >= 0 && quantity <= kMostOfARow;
      if (!whole) {
        Diagnostic odd = table.fault(row, "quantity", fmt::format("found quantity \"{}\", expected a whole number from 0 to {}; taken as 1", text, kMostOfARow));
        odd.warning = true;
        out.faults.push_back(odd);
      }
      made.quantity = whole ? quantity : 1;
    }
    out.rows.push_back(std::move(made));
  }

 private:
  std::string cultivar_of(const std::string& name, std::string& why) const {
    if (name.empty()) {
      why = "no cultivar is named";
      return "";
    }
    if (const std::set<std::string>* ids = cultivars_.find(name)) {
      if (ids->size() == 1) return *ids->begin();
      why = "\"" + name + "\" may be " + joined(*ids) + "; name one of them";
      return "";
    }
    if (const std::set<std::string>* kinds = kinds_.find(name)) {
      std::set<std::string> ids;
      for (const Cultivar& c : loaded_.catalog.cultivars)
        if (kinds->contains(c.type)) ids.insert(c.id);
      if (ids.size() == 1) return *ids.begin();
      why = "\"" + name + "\" is a kind; name its cultivar, one of " + joined(ids);
      return "";
    }
    const std::string nearest = cultivars_.nearest(name);
    why = "found \"" + name + "\", which the catalogue does not have" + (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?");
    return "";
  }

  std::string joined(const std::set<std::string>& ids) const {
    std::string out;
    for (const std::string& id : ids) out += (out.empty() ? "" : ", ") + find_cultivar(loaded_.catalog, id)->name;
    return out;
  }

  const Loaded& loaded_;
  Names cultivars_, kinds_, stocks_;
};

}  // namespace

int read_stock(const std::string& path, const Loaded& loaded, Stock& stock) {
  InputTable table;
  if (const int status = table.read(path, kColumns)) return status;
  stock.faults = table.warnings();
  stock.read = table.rows();
  const Reader reader(loaded);
  for (std::size_t row = 0; row < table.rows(); ++row) reader.read_row(table, row, stock);
  std::stable_sort(stock.faults.begin(), stock.faults.end(), [](const Diagnostic& a, const Diagnostic& b) { return a.line < b.line; });
  return kDone;
}

}  // namespace tenwinters::cli
