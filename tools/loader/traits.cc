// What a type states of its trees, and a cultivar may state better.
#include <algorithm>
#include <cmath>

#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr double kColdest = -30, kWarmest = 5;  // degrees C: beyond these no citrus tissue is hurt or lives

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
    cold[i].hardened = read_fact(reading, file, hardened, "C", kColdest, kWarmest);
    cold[i].unhardened = read_fact(reading, file, unhardened, "C", kColdest, kWarmest);
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

template <class Visit>
void each_evidence(Traits& t, const Visit& visit) {
  for (TissueCold& tissue : t.cold) {
    visit(tissue.hardened.evidence);
    visit(tissue.unhardened.evidence);
  }
  visit(t.bloom.evidence);
  for (Ripening& r : t.ripening) visit(r.window.evidence);
  for (Fact* fact : {&t.holds_weeks, &t.heat_units_c, &t.seeds_alone, &t.seeds_with_pollen, &t.height_m, &t.spread_m,
                     &t.bearing_age_years, &t.fruit_cm}) {
    visit(fact->evidence);
  }
  for (Evidence* evidence : {&t.heat_need.evidence, &t.sets_fruit.evidence, &t.pollen.evidence, &t.habit.evidence,
                             &t.thorns.evidence, &t.alternation.evidence, &t.rebloom.evidence, &t.container.evidence,
                             &t.taste.evidence, &t.peel.evidence, &t.uses.evidence, &t.ornamental.evidence,
                             &t.greening.evidence, &t.canker.evidence, &t.scab.evidence, &t.hazards.evidence}) {
    visit(*evidence);
  }
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
  each_evidence(traits, [](Evidence& evidence) { evidence.from_type = true; });
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
  const auto fact = [&](std::string_view key, Fact& out, std::string_view unit, double least, double most) {
    if (const Node* value = get(key)) out = read_fact(reading, file, value, unit, least, most);
  };
  const auto choice = [&]<class E>(std::string_view key, Choice<E>& out) {
    if (const Node* value = get(key)) out = read_choice<E>(reading, file, value);
  };
  const auto choices = [&]<class E>(std::string_view key, Choices<E>& out, bool may_be_empty) {
    if (const Node* value = get(key)) out = read_choices<E>(reading, file, value, may_be_empty);
  };
  if (const Node* cold = get("cold")) read_cold(reading, file, cold, t.cold, all);
  if (const Node* bloom = get("bloom")) t.bloom = read_window(reading, file, bloom);
  if (const Node* ripening = get("ripening")) read_ripening(reading, file, ripening, t.ripening);
  fact("holds_weeks", t.holds_weeks, "weeks", 0, 52);
  choice("heat_need", t.heat_need);
  fact("heat_units_c", t.heat_units_c, "C_days", 200, 6000);
  choice("sets_fruit", t.sets_fruit);
  choice("pollen", t.pollen);
  fact("seeds_alone", t.seeds_alone, "seeds", 0, 200);
  fact("seeds_with_pollen", t.seeds_with_pollen, "seeds", 0, 200);
  fact("height_m", t.height_m, "m", 0.3, 20);
  fact("spread_m", t.spread_m, "m", 0.3, 20);
  choice("habit", t.habit);
  choice("thorns", t.thorns);
  fact("bearing_age_years", t.bearing_age_years, "years", 1, 15);
  choice("alternation", t.alternation);
  choice("rebloom", t.rebloom);
  choice("container", t.container);
  choice("taste", t.taste);
  choice("peel", t.peel);
  choices("uses", t.uses, false);
  fact("fruit_cm", t.fruit_cm, "cm", 0.5, 30);
  choice("ornamental", t.ornamental);
  choice("greening", t.greening);
  choice("canker", t.canker);
  choice("scab", t.scab);
  choices("hazards", t.hazards, true);
  map.finish();
}

}  // namespace tenwinters
