#include <algorithm>
#include <cmath>
#include <optional>

#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/sheets.h"
#include "render/verdict.h"
#include "tenwinters/night.h"
#include "tenwinters/units.h"

namespace tenwinters {
namespace {

constexpr int kHours = 4;           // that the low is held, as the killing points are stated
constexpr int kYoung = 2, kGrown = 10;  // winters since planting

// Whole degrees as the reader's forecast gives them, from just above freezing down.
struct Degrees { int from, to; };
constexpr Degrees kFahrenheit = {34, 8}, kCelsius = {1, -14};

double celsius_of(const Voice& voice, int degree) {
  return voice.units == Units::us ? to_celsius(Fahrenheit{static_cast<double>(degree)}).degrees : degree;
}

class Scan {
 public:
  Scan(const Voice& voice, const Place& place) : voice_(voice), place_(place) {}

  // The warmest forecast, "26 °F", at which a tree of that age comes to `harm`; "" if none on the list does.
  template <class Harm>
  std::string first(const Traits& traits, int age, Before before, Harm harm) const {
    const Degrees degrees = voice_.units == Units::us ? kFahrenheit : kCelsius;
    NightTree tree;
    tree.traits = &traits;
    tree.age = age;
    tree.region = place_.region;
    NightAir air;
    air.hardening_permille = hardening_after(before);
    air.month = 0;  // any: a freeze may come while late fruit hangs
    for (int degree = degrees.from; degree >= degrees.to; --degree) {
      air.tenths_c.assign(kHours, static_cast<std::int16_t>(to_tenths(celsius_of(voice_, degree))));
      const NightReport report = night(air, {&tree, 1}, voice_.catalog);
      if (harm(report.trees.front())) return voice_.figure(ArgKind::celsius, celsius_of(voice_, degree));
    }
    return "";
  }

 private:
  const Voice& voice_;
  const Place& place_;
};

// Half of the fruit, a tenth of the leaves, half of the branches: what the words of the columns mean.
bool loses_fruit(const NightResult& r) { return r.fruit_on && r.injury[static_cast<std::size_t>(Tissue::fruit)].best >= 0.5; }
bool burns_leaves(const NightResult& r) { return r.outcome >= NightOutcome::leaf_burn; }
bool in_danger(const NightResult& r) { return r.outcome >= NightOutcome::cut_back; }

Model view_table(const Voice& voice, const YardAdvice& yards, std::size_t place) {
  const Scan scan(voice, voice.office.places[place]);
  Model rows = Model::list();
  for (const CitrusType* type : in_trade_order(voice.catalog)) {
    if (!find_kind(voice.catalog, yards, place, type->id).candidate) continue;
    Model& row = rows.add();
    row["kind"] = voice.say("types." + type->id + ".plural");
    row["cells"] = Model::list();
    const Traits& t = type->traits;
    for (const std::string& low : {scan.first(t, kGrown, Before::mild, loses_fruit), scan.first(t, kYoung, Before::mild, burns_leaves),
                                   scan.first(t, kYoung, Before::gradual, burns_leaves), scan.first(t, kYoung, Before::mild, in_danger),
                                   scan.first(t, kYoung, Before::gradual, in_danger), scan.first(t, kGrown, Before::gradual, in_danger)})
      row["cells"].add(low.empty() ? "\u2013" : low);
  }
  return rows;
}

// How many winters on record went down to so many degrees.
Model view_often(const Voice& voice, const Place& place) {
  const std::vector<int> steps = voice.units == Units::us ? std::vector<int>{32, 28, 24, 20, 16} : std::vector<int>{0, -2, -4, -6, -9};
  Model out = Model::list();
  const std::vector<Winter>& winters = place.winters.winters;
  for (const int degree : steps) {
    const double celsius = celsius_of(voice, degree);
    const auto n = std::count_if(winters.begin(), winters.end(), [&](const Winter& w) { return w.lowest_tenths_c <= to_tenths(celsius); });
    out.add(voice.say("ui.sheets.often_row", {{"t", voice.figure(ArgKind::celsius, celsius)}, {"n", std::to_string(n)}, {"all", std::to_string(winters.size())}}));
  }
  return out;
}

// Everything a household can do, longest ahead first.
Model view_steps(const Voice& voice) {
  std::vector<const Protection*> steps;
  for (const Protection& protection : voice.catalog.protections)
    if (protection.id != "none") steps.push_back(&protection);
  std::stable_sort(steps.begin(), steps.end(), [](const Protection* a, const Protection* b) { return a->ready_hours > b->ready_hours; });
  Model out = Model::list();
  const auto add = [&](const std::string& key, int hours) {
    Model& row = out.add();
    row["name"] = voice.say(key + ".name");
    row["when"] = voice.count("ui.sheets.hours_ahead", hours);
    row["how"] = voice.say(key + ".how");
  };
  constexpr int kPickHours = 6;  // by daylight before a freezing night
  bool picked = false;
  for (const Protection* step : steps) {
    if (!picked && step->ready_hours < kPickHours) add("night.pick_fruit", kPickHours), picked = true;
    add("protections." + step->id, step->ready_hours);
  }
  if (!picked) add("night.pick_fruit", kPickHours);
  return out;
}

}  // namespace

SheetHead night_head(const Voice& voice, std::size_t place) {
  const Place& at = voice.office.places[place];
  return {"cold-night-" + at.id, voice.say("ui.sheets.night_title", {{"place", voice.of(at.name)}}), voice.say("ui.sheets.night_says")};
}

Sheet night_sheet(const Voice& voice, const YardAdvice& yards, std::size_t place) {
  const Place& at = voice.office.places[place];
  std::vector<std::string> cautions;
  for (const Protection& protection : voice.catalog.protections) cautions.insert(cautions.end(), protection.cautions.begin(), protection.cautions.end());
  const SheetHead head = night_head(voice, place);
  Sheet sheet{head, "print_night.mustache", "print/" + head.stem + ".html", std::move(cautions), true, {place}, {}};
  Model& model = sheet.body;
  model["rows"] = view_table(voice, yards, place);
  model["often"] = view_often(voice, at);
  model["steps"] = view_steps(voice);
  model["hours"] = voice.say("ui.sheets.night_note", {{"hours", std::to_string(kHours)}, {"young", std::to_string(kYoung)}});
  return sheet;
}

}  // namespace tenwinters
