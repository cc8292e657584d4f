// words/CODE.yaml: every text a reader sees, one file a language, flattened to dotted keys.
#include <algorithm>
#include <map>
#include <set>

#include "lib/parallel.h"
#include "loader/reading.h"
#include "tenwinters/advise.h"

namespace tenwinters {
namespace {

constexpr std::string_view kBase = "en";  // the language that must be complete
constexpr std::string_view kLimits[] = {"sun",      "drainage", "room", "rule", "thorns",
                                        "medicine", "use",      "seeds", "cold", "soil", "stock"};
constexpr std::string_view kUnits[] = {"celsius",
                                       "fahrenheit",
                                       "celsius_difference",
                                       "fahrenheit_difference",
                                       "metres",
                                       "feet",
                                       "litres",
                                       "gallons",
                                       "hours",
                                       "percent",
                                       "years",
                                       "month_range"};
constexpr std::string_view kDiseases[] = {"greening", "canker", "scab"};

using Keys = std::set<std::string, std::less<>>;

// The keys that a complete language has, and the sections in which there may be no others.
struct Wanted {
  Keys keys;
  Keys optional;                    // keys that a language may have
  Keys branches;                    // every beginning of a key
  std::vector<std::string> closed;  // sections

  void add(const std::string& key) {
    keys.insert(key);
    add_branches(key);
  }
  void allow(const std::string& key) {
    optional.insert(key);
    add_branches(key);
  }
  void add_branches(const std::string& key) {
    for (std::size_t dot = key.find('.'); dot != std::string::npos; dot = key.find('.', dot + 1))
      branches.insert(key.substr(0, dot));
    branches.insert(key);
  }
  void close(const std::string& section) { closed.push_back(section + "."); }
  [[nodiscard]] bool is_closed(std::string_view key) const {
    return std::any_of(closed.begin(), closed.end(),
                       [&](const std::string& section) { return key.starts_with(section); });
  }
};

template <class E>
void want_enum(Wanted& wanted, const std::string& kind) {
  for (std::string_view word : names_of<E>()) wanted.add("enums." + kind + "." + std::string(word));
  wanted.close("enums." + kind);
}

void want_enums(Wanted& wanted) {
  want_enum<SetsFruit>(wanted, "sets_fruit");
  want_enum<PollenWorth>(wanted, "pollen_worth");
  want_enum<Thorns>(wanted, "thorns");
  want_enum<Habit>(wanted, "habit");
  want_enum<Fitness>(wanted, "fitness");
  want_enum<Taste>(wanted, "taste");
  want_enum<Peel>(wanted, "peel");
  want_enum<Heat>(wanted, "heat");
  want_enum<Alternation>(wanted, "alternation");
  want_enum<Rebloom>(wanted, "rebloom");
  want_enum<Ornament>(wanted, "ornament");
  want_enum<Tolerance>(wanted, "tolerance");
  want_enum<Region>(wanted, "region");
  want_enum<Hazard>(wanted, "hazard");
  want_enum<Tissue>(wanted, "tissue");
  want_enum<Severity>(wanted, "severity");
  want_enum<Situation>(wanted, "situation");
  want_enum<Spot>(wanted, "spot");
  want_enum<Drainage>(wanted, "drainage");
  want_enum<Soil>(wanted, "soil");
  want_enum<Company>(wanted, "company");
  want_enum<TasteWish>(wanted, "taste_wish");
  want_enum<Use>(wanted, "use");
  want_enum<SeedWish>(wanted, "seed_wish");
  want_enum<SeasonWish>(wanted, "season_wish");
  want_enum<Priority>(wanted, "priority");
  want_enum<Variable>(wanted, "variable");
  want_enum<Basis>(wanted, "basis");
  want_enum<Verdict>(wanted, "verdict");
  want_enum<Shelf>(wanted, "shelf");
}

Wanted wanted_keys(const Reading& reading) {
  Wanted wanted;
  const auto each = [&](const std::string& section, const auto& ids, std::initializer_list<const char*> endings,
                        bool known = true) {
    for (const auto& id : ids) {
      for (const char* ending : endings) wanted.add(section + "." + std::string(id) + ending);
    }
    if (known) wanted.close(section);
  };
  for (const char* key : {"code", "name", "decimal"}) wanted.add("language." + std::string(key));
  for (int month = 1; month <= 12; ++month) {
    wanted.add("language.months." + std::to_string(month));
    wanted.add("language.months_short." + std::to_string(month));
  }
  for (std::string_view unit : kUnits) wanted.add("units." + std::string(unit));
  for (std::string_view disease : kDiseases) wanted.add("enums.disease." + std::string(disease));
  want_enums(wanted);
  each("types", reading.type_ids, {".name", ".plural", ".line"});
  for (const std::string& id : reading.type_ids) wanted.allow("types." + id + ".also");
  each("rootstocks", reading.rootstock_ids, {".line"});
  each("criteria", kCriteria, {""});
  each("spots", names_of<Spot>(), {""});
  each("limits", kLimits, {""});
  each("shelves", names_of<Shelf>(), {""});
  each("protections", reading.protection_ids, {".name", ".how"}, reading.whole("protections"));
  each("cautions", reading.caution_ids, {".sign", ".text"}, reading.whole("cautions"));
  for (const Question& question : reading.catalog.questions) {
    if (question.id.empty()) continue;
    for (const char* key : {"ask", "why"}) wanted.add("questions." + question.id + "." + key);
    for (const Answer& answer : question.answers) {
      if (!answer.id.empty()) wanted.add("questions." + question.id + ".answers." + answer.id);
    }
  }
  if (reading.whole("questions")) wanted.close("questions");
  for (const Call& call : reading.guidance.calls)
    for (const char* key : {"ask", "short", "why", "do", "ring"}) wanted.add("calls." + call.id + "." + key);
  if (reading.whole("calls")) wanted.close("calls");
  for (const Guide& guide : reading.guidance.guides) {
    for (const char* key : {"title", "lede"}) wanted.add("guides." + guide.id + "." + key);
    for (const Advised& section : guide.sections)
      for (const char* key : {"title", "text"}) wanted.add("guides." + guide.id + ".sections." + section.id + "." + key);
  }
  if (reading.whole("guides")) wanted.close("guides");
  const auto want_facts = [&](const Advised& advised) {
    for (const GuideFact& fact : advised.facts) wanted.add("guide_facts." + fact.id);
  };
  for (const Call& call : reading.guidance.calls) want_facts(call);
  for (const Guide& guide : reading.guidance.guides) std::for_each(guide.sections.begin(), guide.sections.end(), want_facts);
  if (reading.whole("calls") && reading.whole("guides")) wanted.close("guide_facts");
  return wanted;
}

// One language while it is read.
struct Draft {
  YamlFile* file = nullptr;
  Language language;
  std::map<std::string, const Node*, std::less<>> nodes;  // by dotted key, branches too
  bool whole = true;
};

// Names of arguments: "{n} nights" -> n. A brace without its partner is a fault.
Keys arguments(YamlFile* file, const Node& node) {
  Keys names;
  const std::string_view text = node.text;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] != '{' && text[at] != '}') continue;
    const std::size_t end =
        text[at] == '{' ? text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_", at + 1) : std::string::npos;
    if (end == std::string::npos || text[end] != '}' || end == at + 1) {
      if (file != nullptr) file->fault(node, "found a { or } that is no {argument} in " + quoted(text));
      return names;
    }
    names.emplace(text.substr(at + 1, end - at - 1));
    at = end;
  }
  return names;
}

void flatten(Draft& draft, const Node& map, const std::string& prefix) {
  if (map.partial) draft.whole = false;
  for (const Node& child : map.children) {
    const std::string key = (prefix.empty() ? "" : prefix + ".") + std::string(child.key);
    draft.nodes.emplace(key, &child);
    const bool allowed = std::all_of(child.key.begin(), child.key.end(), [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
    });
    if (!allowed) {
      draft.file->fault_at_key(child, "expected a key of lower-case letters, digits, _ and -");
    } else if (!child.key_quoted && looks_like_boolean(child.key)) {
      draft.file->fault_at_key(child,
                               "a key without quotes that YAML readers take for a truth value; put it in quotes");
    }
    if (child.kind == Node::Kind::map) {
      flatten(draft, child, key);
    } else if (child.kind != Node::Kind::broken) {
      std::string text = read_text(*draft.file, &child);
      if (child.kind == Node::Kind::scalar) (void)arguments(draft.file, child);
      if (!text.empty()) draft.language.words.emplace(key, std::move(text));
    }
  }
}

void tell_unknown(const Draft& draft, const Wanted& wanted) {
  const std::string* told = nullptr;
  for (const auto& [key, node] : draft.nodes) {
    if (told != nullptr && key.size() > told->size() && key.starts_with(*told) && key[told->size()] == '.') continue;
    if (draft.file->full()) return;
    if (!wanted.is_closed(key)) continue;
    const bool branch = wanted.branches.contains(key);
    const bool leaf = wanted.keys.contains(key) || wanted.optional.contains(key);
    const bool is_text = node->kind == Node::Kind::scalar;
    if (branch && (leaf == is_text || node->kind == Node::Kind::broken)) continue;
    told = &key;
    if (branch) {
      draft.file->fault(*node, is_text ? "found text, expected a map" : "found a map or list, expected text");
      continue;
    }
    const std::string parent = key.substr(0, key.rfind('.') + 1);
    std::vector<std::string_view> siblings;
    for (auto it = wanted.branches.lower_bound(parent); it != wanted.branches.end() && it->starts_with(parent); ++it) {
      const std::string_view rest = std::string_view(*it).substr(parent.size());
      if (rest.find('.') == std::string_view::npos) siblings.push_back(rest);
    }
    draft.file->fault_at_key(
        *node, "nothing in the catalogue or the program has this name" + did_you_mean(node->key, siblings));
  }
}

// Missing keys are told together at the nearest map that is there.
void tell_missing(const Draft& draft, const Keys& wanted, bool warn) {
  if (!draft.whole) return;
  std::vector<std::pair<const Node*, std::vector<std::string>>> missing;
  for (const std::string& key : wanted) {
    if (draft.nodes.contains(key)) continue;
    const Node* at = &draft.file->root();
    std::size_t length = 0;
    for (std::size_t dot = key.find('.'); dot != std::string::npos; dot = key.find('.', dot + 1)) {
      const auto found = draft.nodes.find(std::string_view(key).substr(0, dot));
      if (found == draft.nodes.end()) break;
      at = found->second;
      length = dot + 1;
    }
    if (at->kind != Node::Kind::map) continue;
    // Wanted keys are sorted, so those of one map follow each other but for deeper maps between them.
    auto entry = std::find_if(missing.rbegin(), missing.rend(), [&](const auto& each) { return each.first == at; });
    if (entry == missing.rend()) {
      missing.emplace_back(at, std::vector<std::string>{});
      entry = missing.rbegin();
    }
    entry->second.push_back(key.substr(length));
  }
  constexpr std::size_t kMost = 8;
  for (const auto& [node, keys] : missing) {
    std::string message = "missing";
    for (std::size_t i = 0; i < keys.size() && i < kMost; ++i) message += (i == 0 ? " " : ", ") + keys[i];
    if (keys.size() > kMost) message += " and " + std::to_string(keys.size() - kMost) + " more";
    if (warn) {
      draft.file->warning_at_key(*node, message);
    } else {
      draft.file->fault_at_key(*node, message);
    }
  }
}

void read_language(Draft& draft) {
  const std::string& code = draft.language.code;
  const Node* root = as_map(*draft.file, &draft.file->root());
  draft.whole = root != nullptr;
  if (root == nullptr) return;
  flatten(draft, *root, "");
  const auto said = draft.nodes.find("language.code");
  if (said != draft.nodes.end() && said->second->kind == Node::Kind::scalar && said->second->text != code) {
    draft.file->fault(*said->second,
                      "found " + quoted(said->second->text) + ", expected " + quoted(code) + ", the name of the file");
  }
}

// Another language may leave out an argument, but not invent one.
void compare(const Draft& base, const Draft& other, const Keys& optional) {
  for (const auto& [key, node] : other.nodes) {
    if (node->kind != Node::Kind::scalar) continue;
    const auto original = base.nodes.find(key);
    if (original == base.nodes.end()) {
      if (optional.contains(key)) continue;
      const bool form =
          key.ends_with(".one") || key.ends_with(".other");  // a language may count where English need not
      if (!form && base.whole) other.file->warning_at_key(*node, "English does not have this key; nothing will use it");
      continue;
    }
    if (original->second->kind != Node::Kind::scalar) continue;
    const Keys known = arguments(nullptr, *original->second);
    for (const std::string& name : arguments(nullptr, *node)) {
      if (known.contains(name)) continue;
      const std::vector<std::string_view> names(known.begin(), known.end());
      other.file->fault(*node, "the English text has no argument {" + name + "}" + did_you_mean(name, names));
    }
  }
}

// A call or a section says its own facts and no others.
void tell_strange_facts(const Draft& draft, const std::string& key, const Advised& advised) {
  const auto node = draft.nodes.find(key);
  if (node == draft.nodes.end() || node->second->kind != Node::Kind::scalar) return;
  std::vector<std::string> known;
  for (const GuideFact& fact : advised.facts)
    for (const char* end : {"", "_low", "_high", "_range"}) known.push_back(fact.id + end);
  for (const std::string& name : arguments(nullptr, *node->second)) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    const std::vector<std::string_view> names(known.begin(), known.end());
    draft.file->fault(*node->second, "no fact here is called {" + name + "}" + did_you_mean(name, names));
  }
}

void tell_strange_facts(const Reading& reading, const Draft& draft) {
  for (const Call& call : reading.guidance.calls)
    for (const char* key : {"ask", "short", "why", "do", "ring"}) tell_strange_facts(draft, "calls." + call.id + "." + key, call);
  for (const Guide& guide : reading.guidance.guides)
    for (const Advised& section : guide.sections)
      for (const char* key : {"title", "text"})
        tell_strange_facts(draft, "guides." + guide.id + ".sections." + section.id + "." + key, section);
}

}  // namespace

void read_words(Reading& reading) {
  std::vector<std::string> codes;
  for (const std::string& name : reading.disk.list(reading.root + "/words")) {
    if (name.starts_with('.') || name.ends_with('~')) continue;
    const std::string code = name.ends_with(".yaml") ? name.substr(0, name.size() - 5) : "";
    if (is_language_code(code)) {
      codes.push_back(code);
    } else {
      reading.fault_of_path(reading.root + "/words/" + name,
                            "not read; expected a file name of the form CODE.yaml, as en.yaml");
    }
  }
  std::vector<std::string> paths;
  for (const std::string& code : codes) paths.push_back(reading.root + "/words/" + code + ".yaml");
  const std::vector<YamlFile*> opened = reading.open_all(paths);
  std::vector<Draft> drafts(codes.size());
  each_in_parallel(codes.size(), [&](std::size_t i) {
    drafts[i].language.code = codes[i];
    drafts[i].file = opened[i];
    if (opened[i] != nullptr) read_language(drafts[i]);
  });
  const auto base = std::find_if(drafts.begin(), drafts.end(), [](const Draft& d) { return d.language.code == kBase; });
  if (base == drafts.end()) {
    reading.fault_of_path(reading.root + "/words/en.yaml", "there is no such file; English must be there and complete");
    reading.not_whole.emplace_back("ask");
  } else {
    for (const auto& [key, node] : base->nodes) {
      if (key.starts_with("ask.")) reading.ask_keys.insert(key.substr(4));
    }
    if (!base->whole) reading.not_whole.emplace_back("ask");
  }
  const Wanted wanted = wanted_keys(reading);
  each_in_parallel(drafts.size(), [&](std::size_t i) {
    Draft& draft = drafts[i];
    if (draft.file == nullptr) return;
    tell_unknown(draft, wanted);
    tell_strange_facts(reading, draft);
    const bool is_base = draft.language.code == kBase;
    Keys keys = wanted.keys;
    if (!is_base && base != drafts.end()) {
      compare(*base, draft, wanted.optional);
      for (const auto& [key, text] : base->language.words) {
        const std::string stem = key.substr(0, key.rfind('.'));
        const bool form = key.ends_with(".one") || key.ends_with(".other");
        if (!form || !draft.nodes.contains(stem)) keys.insert(key);
      }
    }
    tell_missing(draft, keys, !is_base);
  });
  for (Draft& draft : drafts) reading.languages.push_back(std::move(draft.language));
}

}  // namespace tenwinters
