// rules.yaml: the structure of plant-movement law. The file may be absent: then the answer to every question of
// law is to ask.
#include <algorithm>
#include <tuple>

#include "loader/reading.h"

namespace tenwinters {
namespace {

Words read_says(Reading& reading, YamlFile& file, const Node* node) {
  Words words;
  const Node* map = as_map(file, node);
  if (map == nullptr) return words;
  for (const Node& child : map->children) {
    if (!is_language_code(child.key)) {
      file.fault_at_key(child, "found " + quoted(child.key) + ", expected a language code, as en or es-MX");
      continue;
    }
    std::string text = read_text(file, &child);
    if (!text.empty()) words.emplace(child.key, std::move(text));
  }
  if (map->partial) return words;
  if (map->find("en") == nullptr) file.fault_at_key(*map, "no text in \"en\"");
  for (const Language& language : reading.languages)
    if (language.code != "en" && map->find(language.code) == nullptr)
      file.warning_at_key(*map, "no text in " + quoted(language.code));
  return words;
}

std::string read_state(YamlFile& file, const Node* node) {
  std::string state = read_text(file, node);
  const bool good = state.size() == 2 && std::all_of(state.begin(), state.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  if (!state.empty() && !good) file.fault(*node, "found " + quoted(state) + ", expected two capital letters, as TX");
  return state;
}

template <class E>
std::vector<E> read_some(YamlFile& file, const Node* node) {
  if (node != nullptr && node->kind == Node::Kind::list && node->children.empty())
    file.fault(*node, "an empty list, expected at least one of " + joined(names_of<E>()));
  return node == nullptr ? std::vector<E>{} : read_words<E>(file, node);
}

}  // namespace

void read_rules(Reading& reading) {
  if (!has_table(reading, "rules.yaml")) return;
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "rules.yaml", "rules", rows);
  Ids seen;
  for (const Node& row : rows) {
    MovementRule rule;
    MapReader map(*file, &row);
    const bool fresh = take_new_id(*file, map, seen, rule.id);
    const Node* jurisdiction = map.take("jurisdiction");
    rule.jurisdiction = read_word<Jurisdiction>(*file, jurisdiction);
    const bool of_state = rule.jurisdiction == Jurisdiction::state;
    if (const Node* state = of_state ? map.take("state") : map.take_if("state")) {
      rule.state = read_state(*file, state);
      if (!of_state && parse<Jurisdiction>(jurisdiction == nullptr ? std::string_view() : jurisdiction->text))
        file->fault_at_key(*state, "a federal rule has no state");
    }
    if (const Node* pests = map.take("pests")) rule.pests = read_ids(*file, pests);
    rule.actors = read_some<Actor>(*file, map.take("actors"));
    rule.actions = read_some<Action>(*file, map.take("actions"));
    rule.effect = read_word<Effect>(*file, map.take("effect"));
    rule.says = read_says(reading, *file, map.take("says"));
    rule.citation = read_text(*file, map.take("citation"));
    if (const Node* effective = map.take_if("effective")) rule.effective = read_date(*file, effective);
    const Node* review_by = map.take("review_by");
    rule.review_by = read_date(*file, review_by);
    if (review_by != nullptr && !rule.review_by.empty() && !reading.today.empty() && rule.review_by < reading.today) {
      file->warning(*review_by, "the rule was to be reviewed by " + rule.review_by +
                                    "; ask the body it names whether it still holds, then set a new date");
    }
    rule.body = read_text(*file, map.take("body"));
    const Node* defer_to = map.take("defer_to");
    rule.defer_to = read_id(*file, defer_to);
    reading.link(*file, defer_to, Kin::whom_to_ask);
    rule.evidence = read_evidence(reading, map);
    map.finish();
    if (fresh) reading.catalog.rules.push_back(std::move(rule));
  }
  std::sort(reading.catalog.rules.begin(), reading.catalog.rules.end(), [](const MovementRule& a, const MovementRule& b) {
    return std::tie(a.jurisdiction, a.state, a.id) < std::tie(b.jurisdiction, b.state, b.id);
  });
}

}  // namespace tenwinters
