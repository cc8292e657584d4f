#include "render/guide_view.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <initializer_list>

#include "draw/draw.h"
#include "render/advice_view.h"
#include "render/local.h"
#include "tenwinters/calendar.h"
#include "tenwinters/units.h"

namespace tenwinters {
namespace {

constexpr double kKilogramsAPound = 0.45359237, kCmAnInch = 2.54;
constexpr double kFar = 100;        // metres or feet from which tens are enough
constexpr double kKillingFrost = -2.2;  // C; from here fruit, flowers and twigs are hurt
constexpr int kYear = 365;
constexpr int kLatestCut = 7;  // months after December (south: June): what grows again must be firm before winter

double to_tens(double value) { return std::round(value / 10) * 10; }

// 100000 -> "100,000", by the language's own mark.
std::string grouped(const Voice& voice, double value) {
  if (value < 1000) return voice.number(value, std::abs(value - std::round(value)) < 0.05 ? 0 : 1);
  std::string text = voice.number(value, 0);
  const std::string mark = voice.language.has("language.group") ? voice.say("language.group") : "";
  for (std::size_t at = text.size(); at > 3;) text.insert(at -= 3, mark);
  return text;
}

// The number alone, and the unit it is in.
struct Shape { std::string number, unit; };
Shape shape(const Voice& voice, GuideUnit unit, double v) {
  const bool us = voice.units == Units::us;
  const auto plain = [&](double value) { return voice.number(value, std::abs(value - std::round(value)) < 0.05 ? 0 : 1); };
  const auto length = [&](double value) { return value >= kFar ? grouped(voice, to_tens(value)) : voice.number(value, !us && value < 10 ? 1 : 0); };
  switch (unit) {
    case GuideUnit::percent: return {plain(v), "percent"};
    case GuideUnit::count: return {grouped(voice, v), ""};
    case GuideUnit::hours: return {plain(v), "hours"};
    case GuideUnit::days: return {plain(v), "days"};
    case GuideUnit::weeks: return {plain(v), "weeks"};
    case GuideUnit::months: return {plain(v), "months"};
    case GuideUnit::years: return {plain(v), "years"};
    case GuideUnit::millimetres: {
      if (!us) return {voice.number(v, 0), "millimetres"};
      const double quarters = std::round(v / 10 / kCmAnInch * 4) / 4;
      return {voice.number(quarters, std::fmod(quarters, 1) == 0 ? 0 : std::fmod(quarters, 0.5) == 0 ? 1 : 2), "inches"};
    }
    case GuideUnit::centimetres: return us ? Shape{voice.number(v / kCmAnInch, 0), "inches"} : Shape{voice.number(v, 0), "centimetres"};
    case GuideUnit::metres: return us ? Shape{length(to_feet(Metres{v}).feet), "feet"} : Shape{length(v), "metres"};
    case GuideUnit::litres: return us ? Shape{voice.number(to_gallons(Litres{v}).gallons, 0), "gallons"} : Shape{voice.number(v, 0), "litres"};
    case GuideUnit::kilograms: return us ? Shape{plain(v / kKilogramsAPound), "pounds"} : Shape{plain(v), "kilograms"};
    case GuideUnit::celsius: return us ? Shape{voice.number(to_fahrenheit(Celsius{v}).degrees, 0), "fahrenheit"} : Shape{voice.number(v, 0), "celsius"};
    case GuideUnit::degree_days: return {grouped(voice, to_tens(us ? v * 9 / 5 : v)), "degree_days"};
  }
  return {};
}

std::string with_unit(const Voice& voice, const Shape& shape) {
  return shape.unit.empty() ? shape.number : say_measure(voice.language, shape.unit, shape.number);
}

std::string say(const Voice& voice, const std::string& key, Voice::Fills fills = {}) { return voice.say("reading." + key, fills); }

// ---- Blocks ----------------------------------------------------------------------------------------------------

struct Cell { std::string text, href; };
constexpr std::size_t kStacks = 4;  // columns from which a telephone shows a row as lines

class Block {
 public:
  Block(const Voice& voice, const std::string& id, Shown shown) : voice_(voice) {
    const std::string key = "shown." + std::string(name_of(shown));
    model_["id"] = id;
    model_["title"] = say(voice, key + ".title");
    model_["note"] = say(voice, key + ".note");
    model_["form"] = false;
    model_["drawings"] = Model::list();
    model_["tables"] = Model::list();
    model_["lists"] = Model::list();
    model_["missing"] = Model::list();
  }

  void begin_table(const std::string& caption, std::initializer_list<std::string> head) {
    table_ = &model_["tables"].add();
    (*table_)["caption"] = caption;
    (*table_)["has_caption"] = !caption.empty();
    (*table_)["label"] = model_["title"].text() + (caption.empty() ? "" : ": " + caption);
    (*table_)["head"] = Model::list();
    for (const std::string& one : head) (*table_)["head"].add(one);
    head_.assign(head.begin(), head.end());
    (*table_)["stacks"] = head.size() >= kStacks;
    (*table_)["rows"] = Model::list();
  }
  void row(const Cell& label, const std::vector<std::string>& cells) {
    Model& row = (*table_)["rows"].add();
    link(row, label);
    row["cells"] = Model::list();
    for (std::size_t i = 0; i < cells.size(); ++i) {
      Model& cell = row["cells"].add();
      cell["text"] = cells[i];
      cell["head"] = head_.at(i + 1);
    }
  }
  void list(const std::string& title, const std::vector<Cell>& entries) {
    if (entries.empty()) return;
    Model& list = model_["lists"].add();
    list["title"] = title;
    list["entries"] = Model::list();
    for (const Cell& entry : entries) link(list["entries"].add(), entry);
  }
  // The places whose winters are on record; of the others it is said that they have none.
  std::vector<std::reference_wrapper<const Place>> places_on_record() {
    std::vector<std::reference_wrapper<const Place>> places;
    for (const Place& place : voice_.office.places) {
      if (!place.winters.winters.empty()) places.emplace_back(place);
      else model_["missing"].add(record_line(voice_, place));
    }
    return places;
  }
  void drawing(Model figure) { model_["drawings"].add(std::move(figure)); }
  Model& model() { return model_; }
  [[nodiscard]] const Voice& voice() const { return voice_; }

 private:
  static void link(Model& model, const Cell& cell) {
    model["label"] = cell.text;
    model["linked"] = !cell.href.empty();
    model["href"] = cell.href;
  }

  const Voice& voice_;
  Model model_;
  Model* table_ = nullptr;
  std::vector<std::string> head_;
};

struct Context {
  const Advised& advised;
  std::string id, up;
  [[nodiscard]] const Fact& fact(std::string_view name) const {
    static const Fact kNone;
    const GuideFact* found = find_fact(advised, name);
    return found == nullptr ? kNone : found->fact;
  }
};

Cell type_cell(const Voice& voice, const CitrusType& type, const std::string& up) {
  return {voice.say("types." + type.id + ".plural"), up + "types/" + type.id + ".html"};
}
Cell cultivar_cell(const Voice& voice, const std::string& id, const std::string& up) { return {voice.cultivar_name(id), up + "cultivars/" + id + ".html"}; }

std::string of_winters(const Voice& voice, int n, std::size_t all) {
  return say(voice, "of_winters", {{"n", std::to_string(n)}, {"all", std::to_string(all)}});
}

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : ", ") + part;
  return text;
}

void show_fruit_set(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  const Fact& share = context.fact("set_share");
  block.model()["form"] = true;
  block.model()["low"] = std::to_string(share.low / 100);
  block.model()["best"] = std::to_string(share.best / 100);
  block.model()["high"] = std::to_string(share.high / 100);
  // The script puts its figures where the signs stand.
  block.model()["says"] = say(voice, "reckon_says", {{"best", "%1"}, {"low", "%2"}, {"high", "%3"}});
  block.begin_table("", {say(voice, "col_flowers"), say(voice, "col_expected"), say(voice, "col_between")});
  for (const double flowers : {100.0, 1000.0, 10000.0, 100000.0})
    block.row({grouped(voice, flowers), ""}, {grouped(voice, std::round(flowers * share.best / 100)),
                                              voice.say("ui.range", {{"low", grouped(voice, std::round(flowers * share.low / 100))},
                                                                     {"high", grouped(voice, std::round(flowers * share.high / 100))}})});
}

// Spring-blooming kinds by their months of bloom; those that bloom for half the year or more come last, as one.
void show_fruit_drop(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  std::vector<std::pair<std::pair<int, int>, std::vector<std::string>>> groups;
  std::vector<std::string> always;
  for (const CitrusType* type : in_trade_order(voice.catalog)) {
    const Window& bloom = type->traits.bloom;
    const std::string name = voice.say("types." + type->id + ".plural");
    if ((bloom.to_month - bloom.from_month + 12) % 12 + 1 >= 6) {
      always.push_back(name);
      continue;
    }
    const std::pair<int, int> months{bloom.from_month, bloom.to_month};
    const auto known = std::find_if(groups.begin(), groups.end(), [&](const auto& group) { return group.first == months; });
    if (known == groups.end()) groups.push_back({months, {name}});
    else known->second.push_back(name);
  }
  std::sort(groups.begin(), groups.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const Place& place : block.places_on_record()) {
    block.begin_table(voice.of(place.name), {say(voice, "col_bloom"), say(voice, "col_drop"), say(voice, "col_kinds")});
    draw::YearStrip strip;
    strip.months = month_initials(voice);
    for (const auto& [months, names] : groups) {
      const Window bloom = months_at(place, {months.first, months.second, {}});
      const double middle = middle_of(bloom);
      const auto from = day_with_heat(place.winters, middle, context.fact("drop_from").best);
      const auto to = day_with_heat(place.winters, middle, context.fact("drop_to").best);
      const std::string span = from && to ? voice.say("ui.range", {{"low", calendar_text(voice, *from)}, {"high", calendar_text(voice, *to)}}) : say(voice, "too_cool");
      block.row({voice.months(bloom), ""}, {span, joined(names)});
      draw::YearStrip::Row row{say(voice, "bloom_row", {{"months", voice.months(bloom)}}), say(voice, "drop_row"), {}};
      row.spans.push_back({(bloom.from_month - 1) / 12.0, bloom.to_month / 12.0, draw::Fill::leaf});
      if (from && to) row.spans.push_back({std::fmod(*from, kYear) / kYear, std::fmod(*to, kYear) / kYear, draw::Fill::drop});
      strip.rows.push_back(std::move(row));
    }
    const std::string title = say(voice, "drop_title", {{"place", voice.of(place.name)}});
    strip.caption = {context.id + "-" + place.id, title, say(voice, "drop_says", {{"place", voice.of(place.name)}})};
    block.drawing(plain_figure(title, say(voice, "drop_note"), draw::year_strip(strip, draw::Form::wide), draw::year_strip(strip, draw::Form::slim)));
  }
  if (!always.empty()) block.list(say(voice, "drop_always"), [&] {
    std::vector<Cell> cells;
    for (const std::string& name : always) cells.push_back({name, ""});
    return cells;
  }());
}

void show_partners(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  block.begin_table("", {say(voice, "col_needs"), say(voice, "col_kind"), say(voice, "col_partners")});
  for (const Cultivar& cultivar : voice.catalog.cultivars) {
    if (cultivar.traits.sets_fruit.is != SetsFruit::partner_needed) continue;
    std::vector<std::string> names;
    for (const std::string& id : cultivar.partners) names.push_back(voice.cultivar_name(id));
    block.row(cultivar_cell(voice, cultivar.id, context.up), {voice.type_name(cultivar.type), names.empty() ? say(voice, "partner_any") : joined(names)});
  }
}

std::string winter_day_text(const Voice& voice, const Winters& winters, int day) {
  return calendar_text(voice, winters.latitude_deg < 0 ? day : day + 181);
}

void show_freezes(Block& block, const Context&) {
  const Voice& voice = block.voice();
  for (const Place& place : block.places_on_record()) {
    const std::vector<WinterLow> lows = lows_of(place.winters);
    block.begin_table(voice.of(place.name), {say(voice, "col_freeze"), say(voice, "col_winters"), say(voice, "col_first"), say(voice, "col_last"), say(voice, "col_last_late")});
    for (std::size_t i = 0; i < kFreezeCount; ++i) {
      // Dates in the middle are those of the winters that had such a freeze; the late one counts all winters.
      std::vector<WinterLow> froze;
      for (const WinterLow& low : lows)
        if (low.first_freeze[i] >= 0) froze.push_back(low);
      const FreezeDates all = freeze_dates(lows, i), dates = freeze_dates(froze, i);
      // kChances: 10, 20, 50, 80, 90 in a hundred.
      const auto text = [&](const std::optional<int>& day) { return day ? winter_day_text(voice, place.winters, *day) : say(voice, "too_rare"); };
      // Where few winters freeze so hard, the tenth of all winters lies before the middle of those few, and says little.
      const bool rare = all.last[0] && dates.last[2] && *all.last[0] < *dates.last[2];
      block.row({voice.figure(ArgKind::celsius, to_celsius(Fahrenheit{kFreezeThresholdsF[i]}).degrees), ""},
                {of_winters(voice, dates.winters_with_freeze, lows.size()), text(dates.first[2]), text(dates.last[2]), rare ? text(std::nullopt) : text(all.last[0])});
    }
  }
}

void show_pruning(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  const Fact& wait = context.fact("prune_wait");
  for (const Place& place : block.places_on_record()) {
    block.begin_table(voice.of(place.name), {say(voice, "col_frozen_in"), say(voice, "col_winters"), say(voice, "col_wait_until")});
    const int turn = place.winters.latitude_deg < 0 ? 6 : 0;
    const auto month = [&](int since_december) { return (11 + since_december + turn) % 12 + 1; };
    for (int since = 0; since <= 3; ++since) {
      const int winters = winters_cold_in(place.winters, kKillingFrost, month(since));
      const auto later = [&](double months) { return month(std::min(since + static_cast<int>(std::lround(months)), kLatestCut)); };
      block.row({voice.months(month(since), month(since)), ""},
                {of_winters(voice, winters, place.winters.winters.size()), voice.months(later(wait.low), later(wait.best))});
    }
  }
}

void show_ripening(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  for (const Place& place : block.places_on_record()) {
    block.begin_table(voice.of(place.name), {say(voice, "col_kind"), say(voice, "col_ripe"), say(voice, "col_warm"), say(voice, "col_warm_winters")});
    for (const CitrusType* type : in_trade_order(voice.catalog)) {
      const Traits& traits = type->traits;
      const Window bloom = months_at(place, traits.bloom), ripe = ripe_months_at(place, traits);
      const double need = traits.heat_units_c.best * voice.catalog.cold_model.heat_share.best;
      const auto day = day_with_heat(place.winters, middle_of(bloom), need);
      const bool always = (traits.bloom.to_month - traits.bloom.from_month + 12) % 12 + 1 >= 10;
      block.row(type_cell(voice, *type, context.up),
                {voice.months(ripe),
                 always ? say(voice, "blooms_always") : day ? calendar_text(voice, *day) : say(voice, "too_cool"),
                 of_winters(voice, winters_with_heat(place.winters, bloom, ripe, need), place.winters.winters.size())});
    }
  }
}

void show_seedy(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  constexpr double kMoreSeeds = 2, kSeedless = 1;
  block.begin_table("", {say(voice, "col_name"), say(voice, "col_kind"), say(voice, "col_alone"), say(voice, "col_near")});
  std::vector<Cell> seedless;
  for (const Cultivar& cultivar : voice.catalog.cultivars) {
    const double alone = cultivar.traits.seeds_alone.best, near = cultivar.traits.seeds_with_pollen.best;
    if (near - alone >= kMoreSeeds)
      block.row(cultivar_cell(voice, cultivar.id, context.up), {voice.type_name(cultivar.type), guide_value(voice, GuideUnit::count, alone), guide_value(voice, GuideUnit::count, near)});
    if (near <= kSeedless && alone <= kSeedless) seedless.push_back(cultivar_cell(voice, cultivar.id, context.up));
  }
  block.list(say(voice, "stay_seedless"), seedless);
}

void show_fruit_cold(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  for (const Place& place : block.places_on_record()) {
    block.begin_table(voice.of(place.name), {say(voice, "col_kind"), say(voice, "col_fruit_at"), say(voice, "col_winters"), say(voice, "col_earliest")});
    for (const CitrusType* type : in_trade_order(voice.catalog)) {
      const double limit = type->traits.cold[static_cast<std::size_t>(Tissue::fruit)].hardened.best;
      const ColdCount count = cold_count(place.winters, limit);
      block.row(type_cell(voice, *type, context.up),
                {voice.figure(ArgKind::celsius, limit), of_winters(voice, count.winters, place.winters.winters.size()),
                 count.earliest_day < 0 ? say(voice, "never_yet") : winter_day_text(voice, place.winters, count.earliest_day)});
    }
  }
}

void show_ground(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  block.begin_table("", {say(voice, "col_stock"), voice.say("ui.fact.lime"), voice.say("ui.fact.wet"), voice.say("ui.fact.salt"), voice.say("ui.fact.drought")});
  const std::vector<std::string>& on_sale = voice.office.rootstocks_on_sale;
  for (const Rootstock& stock : voice.catalog.rootstocks) {
    if (!on_sale.empty() && std::find(on_sale.begin(), on_sale.end(), stock.id) == on_sale.end()) continue;
    const auto word = [&](const Choice<Fitness>& choice) { return voice.word("fitness", name_of(choice.is)); };
    block.row({stock.name, context.up + "rootstocks.html#" + stock.id}, {word(stock.lime), word(stock.wet), word(stock.salt), word(stock.drought)});
  }
}

void show_room(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  const double extra = context.fact("wall_extra").best;
  block.begin_table("", {say(voice, "col_kind"), say(voice, "col_height"), say(voice, "col_spread"), say(voice, "col_wall")});
  for (const CitrusType* type : in_trade_order(voice.catalog)) {
    const Traits& traits = type->traits;
    block.row(type_cell(voice, *type, context.up), {voice.figure(ArgKind::metres, traits.height_m.best), voice.figure(ArgKind::metres, traits.spread_m.best),
                                                    voice.figure(ArgKind::metres, traits.spread_m.best / 2 + extra)});
  }
}

void show_pots(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  const Fact& weight = context.fact("mix_weight");
  block.begin_table(say(voice, "pots_caption"), {say(voice, "col_pot"), say(voice, "col_weight"), say(voice, "col_between")});
  for (const double litres : {19.0, 38.0, 57.0, 76.0, 95.0}) {
    const auto kilograms = [&](double each) { return guide_value(voice, GuideUnit::kilograms, std::round(each * litres / 5) * 5); };
    block.row({voice.figure(ArgKind::litres, litres), ""}, {kilograms(weight.best), voice.say("ui.range", {{"low", kilograms(weight.low)}, {"high", kilograms(weight.high)}})});
  }
  for (const Fitness fitness : {Fitness::good, Fitness::fair, Fitness::poor}) {
    std::vector<Cell> kinds;
    for (const CitrusType* type : in_trade_order(voice.catalog))
      if (type->traits.container.is == fitness) kinds.push_back(type_cell(voice, *type, context.up));
    block.list(say(voice, "in_pot." + std::string(name_of(fitness))), kinds);
  }
}

void show_rules(Block& block, const Context&) {
  const Voice& voice = block.voice();
  if (!voice.office.rules.empty()) {
    block.begin_table(say(voice, "rules_here"), {say(voice, "col_rule"), say(voice, "col_ask"), say(voice, "col_citation")});
    for (const LocalRule& rule : voice.office.rules) block.row({voice.of(rule.says), ""}, {voice.of(rule.ask), rule.citation});
  }
  block.begin_table(say(voice, "rules_federal"), {say(voice, "col_rule"), say(voice, "col_ask"), say(voice, "col_citation")});
  for (const MovementRule& rule : voice.catalog.rules) {
    const bool concerns = std::find(rule.actors.begin(), rule.actors.end(), Actor::everyone) != rule.actors.end();
    if (rule.jurisdiction != Jurisdiction::federal || !concerns) continue;
    block.row({voice.of(rule.says), ""}, {rule.body, rule.citation});
  }
}

void show_bearing(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  block.begin_table("", {say(voice, "col_kind"), say(voice, "col_bearing")});
  for (const CitrusType* type : in_trade_order(voice.catalog))
    block.row(type_cell(voice, *type, context.up), {fact_text(voice, type->traits.bearing_age_years, ArgKind::years)});
}

void show_feeds(Block& block, const Context& context) {
  const Voice& voice = block.voice();
  block.begin_table("", {say(voice, "col_year"), say(voice, "col_feeds")});
  for (const char* key : {"feeds_year_1", "feeds_year_2", "feeds_year_3", "feeds_later"})
    block.row({say(voice, key), ""}, {guide_range(voice, *find_fact(context.advised, key))});
}

void show_protections(Block& block, const Context&) {
  const Voice& voice = block.voice();
  block.begin_table("", {say(voice, "col_work"), say(voice, "col_still"), say(voice, "col_windy"), say(voice, "col_minutes")});
  for (const Protection& protection : voice.catalog.protections) {
    if (protection.id == "none") continue;
    block.row({voice.say("protections." + protection.id + ".name"), ""},
              {fact_text(voice, protection.gain_c, ArgKind::celsius_difference), fact_text(voice, protection.windy_gain_c, ArgKind::celsius_difference),
               say_measure(voice.language, "minutes", voice.number(protection.minutes_per_night.best, 0))});
  }
  std::vector<Cell> hows;
  for (const Protection& protection : voice.catalog.protections)
    if (protection.id != "none") hows.push_back({voice.say("protections." + protection.id + ".name") + ": " + voice.say("protections." + protection.id + ".how"), ""});
  block.list(say(voice, "how_done"), hows);
}

void show(Block& block, const Context& context, Shown shown) {
  switch (shown) {
    case Shown::fruit_set: return show_fruit_set(block, context);
    case Shown::fruit_drop: return show_fruit_drop(block, context);
    case Shown::partners: return show_partners(block, context);
    case Shown::freezes: return show_freezes(block, context);
    case Shown::pruning: return show_pruning(block, context);
    case Shown::ripening: return show_ripening(block, context);
    case Shown::seedy: return show_seedy(block, context);
    case Shown::fruit_cold: return show_fruit_cold(block, context);
    case Shown::ground: return show_ground(block, context);
    case Shown::room: return show_room(block, context);
    case Shown::pots: return show_pots(block, context);
    case Shown::rules: return show_rules(block, context);
    case Shown::bearing: return show_bearing(block, context);
    case Shown::feeds: return show_feeds(block, context);
    case Shown::protections: return show_protections(block, context);
  }
}

}  // namespace

std::string guide_value(const Voice& voice, GuideUnit unit, double value) { return with_unit(voice, shape(voice, unit, value)); }

std::string guide_range(const Voice& voice, const GuideFact& fact) {
  const Shape low = shape(voice, fact.unit, fact.fact.low), high = shape(voice, fact.unit, fact.fact.high);
  if (low.number == high.number) return with_unit(voice, high);
  return voice.say("ui.range", {{"low", low.number}, {"high", with_unit(voice, high)}});
}

std::string advice_text(const Voice& voice, const std::string& key, const Advised& advised) {
  Phrase phrase{key, {}};
  for (const GuideFact& fact : advised.facts) {
    phrase.fills.emplace_back(fact.id, guide_value(voice, fact.unit, fact.fact.best));
    phrase.fills.emplace_back(fact.id + "_low", guide_value(voice, fact.unit, fact.fact.low));
    phrase.fills.emplace_back(fact.id + "_high", guide_value(voice, fact.unit, fact.fact.high));
    phrase.fills.emplace_back(fact.id + "_range", guide_range(voice, fact));
  }
  return say_phrase(voice.language, phrase);
}

Model view_guide_facts(const Voice& voice, const Advised& advised, References& references) {
  Model rows = Model::list();
  for (const GuideFact& fact : advised.facts) {
    Model& row = rows.add();
    row["label"] = voice.say("guide_facts." + fact.id);
    const bool spread = guide_value(voice, fact.unit, fact.fact.low) != guide_value(voice, fact.unit, fact.fact.high);
    row["value"] = guide_value(voice, fact.unit, fact.fact.best) + (spread ? " (" + guide_range(voice, fact) + ")" : "");
    row["evidence"] = references.cite(voice, fact.fact.evidence);
  }
  return rows;
}

Model view_local(const Voice& voice, const Advised& advised, const std::string& id, const std::string& up, int level) {
  Model blocks = Model::list();
  for (const Shown shown : advised.shows) {
    const std::string own = id + std::string(name_of(shown));
    Block block(voice, own, shown);
    block.model()["level"] = std::to_string(level);
    show(block, {advised, own, up}, shown);
    blocks.add(std::move(block.model()));
  }
  return blocks;
}

}  // namespace tenwinters
