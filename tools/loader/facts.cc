// Figures with their evidence.
#include "loader/reading.h"

namespace tenwinters {
namespace {

// The unit that the field wants; written out because a Fahrenheit figure looks much like a Celsius one.
bool is_unit(YamlFile& file, const Node* node, std::string_view unit) {
  if (node == nullptr) return true;
  if (node->kind == Node::Kind::scalar && node->text == unit) return true;
  const std::string text = node->kind == Node::Kind::scalar && !node->text.empty() ? std::string(node->text) : read_text(file, node);
  if (!text.empty())
    file.fault(*node,
               "found " + quoted(text) + ", expected " + quoted(unit) + "; convert the figure, do not rename its unit");
  return false;
}

}  // namespace

Evidence read_evidence(Reading& reading, MapReader& map) {
  YamlFile& file = map.file();
  Evidence evidence;
  const Node* sources = map.take("sources");
  const Node* basis = map.take("basis");
  const Node* seen = map.take("seen");
  const Node* note = map.take_if("note");
  evidence.sources = reading.link_all(file, sources, Kin::source);
  if (basis != nullptr) evidence.basis = read_word<Basis>(file, basis);
  evidence.seen = read_date(file, seen);
  if (note != nullptr) evidence.note = read_text(file, note);
  const bool named = evidence.basis == Basis::published || evidence.basis == Basis::memory;
  if (basis != nullptr && named && sources != nullptr && sources->kind == Node::Kind::list &&
      sources->children.empty()) {
    file.fault(*sources, "no source, but the basis is " + std::string(name_of(evidence.basis)) +
                             "; name the source, or use common-practice or estimate");
  }
  if (basis != nullptr && basis->text == name_of(Basis::estimate) && note == nullptr) {
    file.fault(*basis, "an estimate without a `note`; say in it what the judgement rests on");
  }
  if (basis != nullptr && evidence.basis == Basis::published && !evidence.sources.empty()) {
    reading.published.push_back({&file, basis, sources});
  }
  if (!reading.today.empty() && seen != nullptr && evidence.seen > reading.today) {
    file.warning(*seen, "the date lies in the future");
  }
  return evidence;
}

Fact read_fact(Reading& reading, YamlFile& file, const Node* node, std::string_view unit, double least, double most) {
  MapReader map(file, node);
  const Node* best = map.take("best");
  const Node* low = map.take("low");
  const Node* high = map.take("high");
  const Node* unit_node = map.take("unit");
  // A figure in the wrong unit is out of range as well; the unit says it all.
  if (!is_unit(file, unit_node, unit)) {
    least = -1e9;
    most = 1e9;
  }
  const std::size_t faults = file.faults().size();
  Fact fact{read_number(file, best, least, most, unit),
            read_number(file, low, least, most, unit),
            read_number(file, high, least, most, unit),
            {}};
  if (best != nullptr && faults == file.faults().size()) {
    if (low != nullptr && fact.low > fact.best) {
      file.fault(*low, "low is " + std::string(low->text) + ", more than best, " + std::string(best->text) + "; expected low <= best <= high");
    }
    if (high != nullptr && fact.high < fact.best) {
      file.fault(*high, "high is " + std::string(high->text) + ", less than best, " + std::string(best->text) + "; expected low <= best <= high");
    }
  }
  fact.evidence = read_evidence(reading, map);
  map.finish();
  return fact;
}

Window read_window(Reading& reading, YamlFile& file, const Node* node) {
  MapReader map(file, node);
  Window window;
  if (const Node* from = map.take("from")) window.from_month = read_whole(file, from, 1, 12);
  if (const Node* to = map.take("to")) window.to_month = read_whole(file, to, 1, 12);
  window.evidence = read_evidence(reading, map);
  map.finish();
  return window;
}

}  // namespace tenwinters
