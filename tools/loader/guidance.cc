// calls.yaml and guides.yaml: what an office is asked, and what it tells people to read first. Either file may be
// absent: then there are no such pages.
#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr double kMostOfGuide = 1e6;

void read_facts(Reading& reading, YamlFile& file, const Node* node, std::vector<GuideFact>& facts) {
  const Node* map = as_map(file, node);
  if (map == nullptr) return;
  for (const Node& child : map->children) {
    if (!is_id(child.key)) file.fault_at_key(child, "expected an id of lower-case letters, digits and _");
    GuideFact fact;
    fact.id = std::string(child.key);
    const Node* unit = child.kind == Node::Kind::map ? child.find("unit") : nullptr;
    const int index = read_word_index(file, unit, names_of<GuideUnit>());
    if (index >= 0) fact.unit = static_cast<GuideUnit>(index);
    // A unit that no page knows is told once, above.
    const std::string wanted = unit != nullptr && index < 0 ? std::string(unit->text) : std::string(name_of(fact.unit));
    const double least = fact.unit == GuideUnit::celsius ? -50 : 0;
    fact.fact = read_fact(reading, file, &child, wanted, least, kMostOfGuide);
    facts.push_back(std::move(fact));
  }
}

// What calls and sections of a guide have in common.
void read_advised(Reading& reading, YamlFile& file, MapReader& map, Advised& advised) {
  const Node* shows = map.take_if("shows");
  if (shows != nullptr) advised.shows = read_words<Shown>(file, shows);
  if (const Node* cautions = map.take_if("cautions")) advised.cautions = reading.link_all(file, cautions, Kin::caution);
  if (const Node* facts = map.take_if("facts")) read_facts(reading, file, facts, advised.facts);
  advised.evidence = read_evidence(reading, map);
  for (const Shown shown : advised.shows)
    for (const std::string_view id : facts_needed(shown))
      if (find_fact(advised, id) == nullptr)
        file.fault(*shows, quoted(name_of(shown)) + " is worked out from a fact " + quoted(id) + ", which is not among `facts`");
}

}  // namespace

void read_calls(Reading& reading) {
  if (!has_table(reading, "calls.yaml")) return;
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "calls.yaml", "calls", rows);
  Ids seen;
  for (const Node& row : rows) {
    Call call;
    MapReader map(*file, &row);
    const bool fresh = take_new_id(*file, map, seen, call.id);
    call.symptom = read_word<Symptom>(*file, map.take("symptom"));
    if (const Node* asked = map.take("asked")) call.asked = read_window(reading, *file, asked);
    read_advised(reading, *file, map, call);
    map.finish();
    if (fresh) reading.guidance.calls.push_back(std::move(call));
  }
}

void read_guides(Reading& reading) {
  if (!has_table(reading, "guides.yaml")) return;
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "guides.yaml", "guides", rows);
  Ids seen;
  for (const Node& row : rows) {
    Guide guide;
    MapReader map(*file, &row);
    const bool fresh = take_new_id(*file, map, seen, guide.id);
    const Node* sections = map.take("sections");
    Ids seen_sections;
    for (const Node& part : items(*file, sections)) {
      Advised section;
      MapReader inside(*file, &part);
      const bool fresh_section = take_new_id(*file, inside, seen_sections, section.id);
      read_advised(reading, *file, inside, section);
      inside.finish();
      if (fresh_section) guide.sections.push_back(std::move(section));
    }
    if (sections != nullptr && sections->kind == Node::Kind::list && sections->children.empty())
      file->fault(*sections, "an empty list, expected at least one section");
    map.finish();
    if (fresh) reading.guidance.guides.push_back(std::move(guide));
  }
}

}  // namespace tenwinters
