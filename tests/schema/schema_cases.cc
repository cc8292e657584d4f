// schema_cases DIR [COUNT]: changed catalogue files, and what the loader says of each. See README.md.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "loader/format.h"
#include "loader/loader.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kCases = 300;  // unless another number is asked for
constexpr const char* kToday = "2026-11-25";
constexpr const char* kOffice = "offices/demo/office.yaml";

using Random = std::mt19937;  // the same numbers everywhere, unlike the standard's distributions

std::size_t pick(Random& random, std::size_t count) { return random() % count; }

void lay_catalog(const fs::path& root, MemoryReader& files) {
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    if (!entry.is_regular_file()) continue;
    std::ifstream in(entry.path(), std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    files.files["catalog/" + entry.path().lexically_relative(root).generic_string()] = text.str();
  }
}

// A part with its place: only files of which a schema knows everything are changed, and only where it does.
struct Place {
  Part* part = nullptr;
  Part* above = nullptr;
  std::string path;
};

void collect(Part& part, Part* above, const std::string& path, std::vector<Place>& places) {
  places.push_back({&part, above, path});
  // Texts by language: which languages there must be is the office's choice.
  const bool by_language = part.kind == Part::Kind::map && part.find("en") != nullptr;
  for (std::size_t i = 0; i < part.children.size() && !by_language; ++i) {
    Part& child = part.children[i];
    collect(child, &part, path + "/" + (part.kind == Part::Kind::map ? child.key : std::to_string(i + 1)), places);
  }
}

bool is(const Place& place, std::initializer_list<const char*> keys) {
  return std::any_of(keys.begin(), keys.end(), [&](const char* key) { return place.part->key == key; });
}
bool in_map(const Place& place) { return place.above != nullptr && place.above->kind == Part::Kind::map; }
// Which facts a call or guide must have follows from its words.
bool said_in_words(const Place& place) { return is(place, {"facts"}) || (in_map(place) && place.above->key == "facts"); }
bool scalar(const Place& place) { return place.part->kind == Part::Kind::scalar; }

void set(Part& part, const std::string& raw) {
  part.kind = Part::Kind::scalar;
  part.children.clear();
  part.raw = part.text = raw;
}

// Changes the part in the way numbered `way`; "" where that way does not fit it.
std::string change(Random& random, std::size_t way, const Place& place) {
  Part& part = *place.part;
  const auto erase = [&] {
    std::erase_if(place.above->children, [&](const Part& child) { return &child == &part; });
  };
  switch (way) {
    case 0:
      if (!in_map(place) || said_in_words(place)) return "";
      erase();
      return "the key is gone";
    case 1:
      if (!in_map(place) || said_in_words(place)) return "";
      part.key_raw = part.key = part.key + "_x";
      return "another key";
    case 2: {
      if (part.kind != Part::Kind::map) return "";
      Part extra;
      extra.key = extra.key_raw = "colour";
      extra.raw = extra.text = "green";
      extra.flow = part.flow;
      part.children.push_back(extra);
      return "a key too many";
    }
    case 3: {
      if (!scalar(place) || !is(place, {"best", "low", "high", "from", "to", "weight", "trade_order", "share", "latitude", "prior"})) return "";
      constexpr const char* kNumbers[] = {"99999", "-99999", "abc", "\"5\"", "1e400"};
      set(part, kNumbers[pick(random, std::size(kNumbers))]);
      return "the number is " + part.raw;
    }
    case 4:
      if (!scalar(place) || !is(place, {"from", "to", "weight", "trade_order"})) return "";
      set(part, part.raw + ".5");
      return "the number is " + part.raw;
    case 5:
      if (!scalar(place) || is(place, {"record"})) return "";
      set(part, "No Such Word");
      return "the word is No Such Word";
    case 6: {
      if (!scalar(place)) return "";
      constexpr const char* kOthers[] = {"", "null", "{a: 1}", "[1]", "\"\""};
      set(part, kOthers[pick(random, std::size(kOthers))]);
      return "the value is " + (part.raw.empty() ? "nothing" : part.raw);
    }
    case 7:
      if (part.kind != Part::Kind::list || part.children.empty()) return "";
      part.children.push_back(part.children[pick(random, part.children.size())]);
      return "an item stands twice";
    case 8:
      if (part.kind != Part::Kind::list) return "";
      part.children.clear();
      part.flow = true;
      return "an empty list";
    case 9: {
      if (!scalar(place) || !is(place, {"basis"})) return "";
      const Part* sources = place.above->find("sources");
      // Whether a source was read stands in another file.
      const bool none = sources == nullptr || sources->children.empty();
      const std::vector<const char*> words = none ? std::vector<const char*>{"published", "memory", "common-practice", "estimate"}
                                                  : std::vector<const char*>{"memory", "common-practice", "estimate"};
      set(part, words[pick(random, words.size())]);
      return "the basis is " + part.raw;
    }
    case 10: {
      if (!scalar(place) || !is(place, {"seen", "review_by", "effective"})) return "";
      constexpr const char* kDates[] = {"2026-13-01", "2026-02-30", "26-1-1", "2026-04-31", "2026-1-05", "2025-06-30", "1912-02-28"};
      set(part, kDates[pick(random, std::size(kDates))]);
      return "the date is " + part.raw;
    }
    case 11:
      if (!scalar(place) || !is(place, {"unit"})) return "";
      set(part, part.raw == "F" ? "C" : "F");
      return "the unit is " + part.raw;
    default: {
      if (part.kind != Part::Kind::list || part.flow == false || part.children.empty() || is(place, {"sources", "alleles", "languages"}) ||
          part.children.front().kind != Part::Kind::scalar)
        return "";
      Part extra = part.children.front();
      set(extra, "\"One More\"");
      part.children.push_back(extra);
      return "an item more";
    }
  }
}
constexpr std::size_t kWays = 13;

// The first fault, or "".
std::string loader_says(const MemoryReader& files) {
  const LoadedCatalog catalog = load_catalog(files, "catalog", kToday);
  const LoadedOffice office = load_office(files, std::string("catalog/") + kOffice, catalog.catalog, kToday);
  for (const auto* faults : {&catalog.faults, &office.faults})
    for (const Diagnostic& fault : *faults)
      if (!fault.warning) return fault.file + ":" + std::to_string(fault.line) + ": " + fault.message;
  return "";
}

int write_cases(const fs::path& catalog, const fs::path& out, std::size_t count) {
  MemoryReader base;
  lay_catalog(catalog, base);
  if (const std::string fault = loader_says(base); !fault.empty()) {
    std::cerr << "the catalogue is not sound to begin with: " << fault << "\n";
    return 1;
  }
  nlohmann::ordered_json list{{"sound", nlohmann::ordered_json::array()}, {"cases", nlohmann::ordered_json::array()}};
  std::vector<std::string> paths;
  for (const auto& [path, text] : base.files) {
    const std::string inside = path.substr(8), schema = schema_of(inside);
    if (!inside.ends_with(".yaml") || schema.empty()) continue;
    list["sound"].push_back({{"file", inside}, {"schema", schema}});
    if (schema != "words.json") paths.push_back(inside);  // the keys of words follow from the rest of the catalogue
  }
  fs::create_directories(out);
  Random random(20261125);
  // Tables weigh as much as the many cultivars.
  const auto cultivars = static_cast<std::size_t>(std::count_if(paths.begin(), paths.end(), [](const std::string& path) { return path.starts_with("cultivars/"); }));
  while (list["cases"].size() < count) {
    std::string path = paths[pick(random, paths.size())];
    if (path.starts_with("cultivars/") && pick(random, cultivars) > 3 * (paths.size() - cultivars)) continue;
    Document document;
    if (const std::string why = read_document(path, base.files["catalog/" + path], document); !why.empty()) continue;
    std::vector<Place> places;
    collect(document.root, nullptr, "", places);
    const std::size_t way = pick(random, kWays);
    // A few places are tried, since few fit each way.
    std::string what, where;
    for (int attempt = 0; attempt < 40 && what.empty(); ++attempt) {
      const Place& place = places[pick(random, places.size())];
      where = place.path;
      what = change(random, way, place);
    }
    if (what.empty()) continue;
    const std::string text = write_document(document, path);
    MemoryReader changed = base;
    changed.files["catalog/" + path] = text;
    const std::string number = std::to_string(list["cases"].size() + 1);
    const std::string name = std::string(3 - std::min<std::size_t>(3, number.size()), '0') + number + ".yaml";
    std::ofstream(out / name, std::ios::binary) << text;
    list["cases"].push_back({{"text", name}, {"schema", schema_of(path)}, {"file", path}, {"change", where + ": " + what}, {"loader", loader_says(changed)}});
  }
  const auto sound = std::count_if(list["cases"].begin(), list["cases"].end(), [](const auto& each) { return each["loader"] == ""; });
  std::ofstream(out / "cases.json", std::ios::binary) << list.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) << "\n";
  std::cout << count << " cases, " << sound << " of them sound to the loader\n";
  return sound * 20 >= static_cast<long>(count) && sound * 2 <= static_cast<long>(count) ? 0 : 1;  // else the cases say little
}

}  // namespace
}  // namespace tenwinters

int main(int argc, char** argv) {
  if (argc != 2 && argc != 3) {
    std::cerr << "usage: schema_cases DIR [COUNT]\n";
    return 2;
  }
  return tenwinters::write_cases(std::filesystem::path(TENWINTERS_SOURCE_DIR) / "catalog", argv[1],
                                 argc == 3 ? std::stoul(argv[2]) : tenwinters::kCases);
}
