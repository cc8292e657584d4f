// What a type states of its trees, and a cultivar may state better.
#include <algorithm>
#include <cmath>

#include "loader/reading.h"
#include "tenwinters/traits.h"

namespace tenwinters {
namespace {

void read_cold(Reading& reading, YamlFile& file, const Node* node, std::array<TissueCold, kTissueCount>& cold,
               bool all) {
  MapReader tissues(file, node);
  for (std::size_t i = 0; i < kTissueCount; ++i) {
    const std::string_view name = names_of<Tissue>()[i];
    const Node* tissue = all ? tissues.take(name) : tissues.take_if(name);
    if (tissue == nullptr) continue;
    MapReader map(file, tissue);
    const Node* hardened = map.take("hardened");
    const Node* unhardened = map.take("unhardened");
    const std::size_t faults = file.faults().size();
    cold[i].hardened = read_fact(reading, file, hardened, "C", kColdestTissue, kWarmestTissue);
    cold[i].unhardened = read_fact(reading, file, unhardened, "C", kColdestTissue, kWarmestTissue);
    if (hardened != nullptr && unhardened != nullptr && faults == file.faults().size() &&
        cold[i].hardened.best > cold[i].unhardened.best) {
      file.fault_at_key(*hardened, "hardened is " + number_text(cold[i].hardened.best) +
                                       " C, warmer than unhardened, " + number_text(cold[i].unhardened.best) +
                                       " C; expected hardened <= unhardened");
    }
    map.finish();
  }
  tissues.finish();
}

void read_ripening(Reading& reading, YamlFile& file, const Node* node, std::vector<Ripening>& ripening) {
  const auto rows = items(file, node);
  ripening.clear();
  if (rows.empty() && node->kind == Node::Kind::list) file.fault(*node, "an empty list, expected at least one region");
  for (const Node& row : rows) {
    MapReader map(file, &row);
    Ripening entry;
    const Node* region = map.take("region");
    entry.region = read_word<Region>(file, region);
    if (const Node* from = map.take("from")) entry.window.from_month = read_whole(file, from, 1, 12);
    if (const Node* to = map.take("to")) entry.window.to_month = read_whole(file, to, 1, 12);
    entry.window.evidence = read_evidence(reading, map);
    map.finish();
    const bool twice =
        std::any_of(ripening.begin(), ripening.end(), [&](const Ripening& r) { return r.region == entry.region; });
    if (twice && region != nullptr && parse<Region>(region->text)) {
      file.fault(*region, "the region " + quoted(region->text) + " stands here a second time");
    } else if (!twice) {
      ripening.push_back(std::move(entry));
    }
  }
  std::sort(ripening.begin(), ripening.end(), [](const Ripening& a, const Ripening& b) { return a.region < b.region; });
}

void mark_as_inherited(Traits& traits) {
  for_each_trait(traits, Overloaded{
      [](std::string_view, std::array<TissueCold, kTissueCount>& cold) {
        for (TissueCold& tissue : cold) tissue.hardened.evidence.from_type = tissue.unhardened.evidence.from_type = true;
      },
      [](std::string_view, std::vector<Ripening>& ripening) {
        for (Ripening& region : ripening) region.window.evidence.from_type = true;
      },
      [](std::string_view, auto& trait, auto&&...) { trait.evidence.from_type = true; },
  });
}

double hundredths(double value) {
  return std::round(value * 100) / 100;
}

// How far a basis may be relied on, best first.
int weakness(Basis basis) {
  switch (basis) {
    case Basis::published:
      return 0;
    case Basis::common_practice:
      return 1;
    case Basis::memory:
      return 2;
    case Basis::estimate:
      return 3;
  }
  return 3;
}

// A figure of the type, moved by the cultivar's offset: it rests on the evidence of both.
void shift(Fact& fact, const Fact& offset) {
  fact.best = hundredths(fact.best + offset.best);
  fact.low = hundredths(fact.low + offset.low);
  fact.high = hundredths(fact.high + offset.high);
  Evidence& evidence = fact.evidence;
  for (const std::string& source : offset.evidence.sources) {
    if (std::find(evidence.sources.begin(), evidence.sources.end(), source) == evidence.sources.end()) {
      evidence.sources.push_back(source);
    }
  }
  if (weakness(offset.evidence.basis) > weakness(evidence.basis)) evidence.basis = offset.evidence.basis;
  evidence.seen = std::min(evidence.seen, offset.evidence.seen);
  if (!offset.evidence.note.empty()) evidence.note = offset.evidence.note;
}

}  // namespace

Traits inherited(const Traits& of_type, const Fact& cold_offset, bool has_offset) {
  Traits traits = of_type;
  mark_as_inherited(traits);
  // Fruit and bloom freeze at much the same point in all kinds: only leaf, wood and trunk are moved.
  if (has_offset) {
    for (std::size_t tissue = 0; tissue <= static_cast<std::size_t>(Tissue::trunk); ++tissue) {
      shift(traits.cold[tissue].hardened, cold_offset);
      shift(traits.cold[tissue].unhardened, cold_offset);
    }
  }
  return traits;
}

void read_traits(Reading& reading, YamlFile& file, const Node* node, Traits& t, bool all) {
  MapReader map(file, node);
  const auto get = [&](std::string_view key) { return all ? map.take(key) : map.take_if(key); };
  for_each_trait(t, Overloaded{
      [&](std::string_view key, std::array<TissueCold, kTissueCount>& cold) {
        if (const Node* value = get(key)) read_cold(reading, file, value, cold, all);
      },
      [&](std::string_view key, Window& window) {
        if (const Node* value = get(key)) window = read_window(reading, file, value);
      },
      [&](std::string_view key, std::vector<Ripening>& ripening) {
        if (const Node* value = get(key)) read_ripening(reading, file, value, ripening);
      },
      [&](std::string_view key, Fact& fact, std::string_view unit, double least, double most) {
        if (const Node* value = get(key)) fact = read_fact(reading, file, value, unit, least, most);
      },
      [&]<class E>(std::string_view key, Choice<E>& choice) {
        if (const Node* value = get(key)) choice = read_choice<E>(reading, file, value);
      },
      [&]<class E>(std::string_view key, Choices<E>& choices, bool may_be_empty) {
        if (const Node* value = get(key)) choices = read_choices<E>(reading, file, value, may_be_empty);
      },
  });
  map.finish();
}

}  // namespace tenwinters
