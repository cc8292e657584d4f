#include "render/fact_view.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "draw/draw.h"
#include "tenwinters/calendar.h"

namespace tenwinters {
namespace {

constexpr double kNotOnRecord = -1;

// A length of fruit or anything small: inches to the quarter, or centimetres to the half.
std::string small_length(const Voice& voice, double cm) {
  const bool us = voice.units == Units::us;
  const double shown = us ? std::round(cm / 2.54 * 4) / 4 : std::round(cm * 2) / 2;
  const int digits = std::abs(shown - std::round(shown)) < 0.01 ? 0 : (std::abs(shown * 2 - std::round(shown * 2)) < 0.01 ? 1 : 2);
  return voice.say(us ? "units.inches" : "units.centimetres", {{"v", voice.number(shown, digits)}});
}

template <class Say>
std::string with_spread(const Voice& voice, const Fact& fact, Say say) {
  std::string best = say(fact.best);
  const std::string low = say(fact.low), high = say(fact.high);
  if (low == high) return best;
  return best + " (" + voice.say("ui.range", {{"low", low}, {"high", high}}) + ")";
}

class Rows {
 public:
  Rows(const Voice& voice, References& references) : voice_(voice), references_(references) {}

  void add(std::string_view label, std::string value, const Evidence& evidence) {
    Model& row = rows_.add();
    row["label"] = voice_.say("ui.fact." + std::string(label));
    row["value"] = std::move(value);
    row["evidence"] = references_.cite(voice_, evidence);
  }
  template <class E>
  void choice(std::string_view label, std::string_view enumeration, const Choice<E>& choice) {
    add(label, voice_.word(enumeration, name_of(choice.is)), choice.evidence);
  }
  template <class E>
  void choices(std::string_view label, std::string_view enumeration, const Choices<E>& choices) {
    std::string text;
    for (const E one : choices.are) text += (text.empty() ? "" : ", ") + voice_.word(enumeration, name_of(one));
    add(label, text.empty() ? voice_.say("ui.none") : text, choices.evidence);
  }
  void fact(std::string_view label, const Fact& value, ArgKind kind) { add(label, fact_text(voice_, value, kind), value.evidence); }
  template <class Say>
  void said(std::string_view label, const Fact& value, Say say) { add(label, with_spread(voice_, value, say), value.evidence); }

  Model take() { return std::move(rows_); }

 private:
  const Voice& voice_;
  References& references_;
  Model rows_ = Model::list();
};

std::string whole_days(const Voice& voice, double cx) {
  const double shown = voice.units == Units::us ? cx * 9 / 5 : cx;
  return voice.number(std::round(shown / 10) * 10, 0);
}

std::string trimmed_number(const Voice& voice, double value) {
  return voice.number(value, std::abs(value - std::round(value)) < 0.05 ? 0 : 1);
}

// Share of the calendar year at which a day of the winter year falls.
double share_of_year(double day, bool south) { return std::fmod((south ? day : day + 181) + 365, 365) / 365; }

struct FreezeSpan { double first = kNotOnRecord, last = kNotOnRecord; };
FreezeSpan freeze_span(const Winters& winters) {
  FreezeSpan span;
  for (const Winter& winter : winters.winters) {
    if (winter.first_freeze_day < 0) continue;
    span.first = span.first < 0 ? winter.first_freeze_day : std::min(span.first, static_cast<double>(winter.first_freeze_day));
    span.last = std::max(span.last, static_cast<double>(winter.last_freeze_day));
  }
  return span;
}

draw::YearStrip::Span span_of(const Window& window, draw::Fill fill) {
  return {(window.from_month - 1) / 12.0, window.to_month / 12.0, fill};
}

void view_figure(Model& out, std::string title, std::string note, std::string wide, std::string slim) {
  out["title"] = std::move(title);
  out["note"] = std::move(note);
  out["wide"] = std::move(wide);
  out["slim"] = std::move(slim);
  out["tabled"] = true;
  out["head"] = Model::list();
  out["rows"] = Model::list();
}

void view_row(Model& out, std::string_view label, std::initializer_list<std::string> cells) {
  Model& row = out["rows"].add();
  row["label"] = label;
  row["cells"] = Model::list();
  for (const std::string& cell : cells) row["cells"].add(cell);
}

}  // namespace

std::size_t References::number_of(const std::string& id) {
  const auto known = std::find(ids_.begin(), ids_.end(), id);
  if (known != ids_.end()) return static_cast<std::size_t>(known - ids_.begin()) + 1;
  ids_.push_back(id);
  return ids_.size();
}

Model References::cite(const Voice& voice, const Evidence& evidence) {
  Model out;
  out["basis"] = voice.say("ui.basis." + std::string(name_of(evidence.basis)));
  out["sources"] = Model::list();
  for (const std::string& id : evidence.sources) out["sources"].add()["number"] = std::to_string(number_of(id));
  out["inherited"] = evidence.from_type;
  out["has_note"] = !evidence.note.empty();
  out["note"] = evidence.note;
  out["seen"] = evidence.seen;
  return out;
}

Model References::list(const Voice& voice, const std::string& up) const {
  Model out = Model::list();
  for (std::size_t i = 0; i < ids_.size(); ++i) {
    const auto source = std::find_if(voice.catalog.sources.begin(), voice.catalog.sources.end(),
                                     [&](const Source& s) { return s.id == ids_[i]; });
    if (source == voice.catalog.sources.end()) continue;
    Model& row = out.add();
    row["number"] = std::to_string(i + 1);
    row["href"] = up + "sources.html#s-" + source->id;
    row["text"] = source->publisher + ", " + source->title + (source->year.empty() ? "" : " (" + source->year + ")");
  }
  return out;
}

std::string fact_text(const Voice& voice, const Fact& fact, ArgKind kind) {
  return with_spread(voice, fact, [&](double value) { return voice.figure(kind, value); });
}

Model view_traits(const Voice& voice, const Traits& t, References& references) {
  Rows rows(voice, references);
  rows.add("bloom", voice.months(months_at(first_place(voice.office), t.bloom)), t.bloom.evidence);
  for (const Ripening& r : t.ripening)
    rows.add("ripening." + std::string(name_of(r.region)), voice.months(r.window), r.window.evidence);
  rows.said("holds_weeks", t.holds_weeks, [&](double v) { return say_measure(voice.language, "weeks", trimmed_number(voice, v)); });
  rows.choice("heat_need", "heat", t.heat_need);
  rows.said("heat_units", t.heat_units_c, [&](double v) {
    return voice.say("ui.heat_units", {{"n", whole_days(voice, v)}, {"t", voice.figure(ArgKind::celsius, 12.8)}});
  });
  rows.choice("sets_fruit", "sets_fruit", t.sets_fruit);
  rows.choice("pollen", "pollen_worth", t.pollen);
  const auto plain = [&](double v) { return trimmed_number(voice, v); };
  rows.said("seeds_alone", t.seeds_alone, plain);
  rows.said("seeds_with_pollen", t.seeds_with_pollen, plain);
  rows.fact("height", t.height_m, ArgKind::metres);
  rows.fact("spread", t.spread_m, ArgKind::metres);
  rows.choice("habit", "habit", t.habit);
  rows.choice("thorns", "thorns", t.thorns);
  rows.fact("bearing_age", t.bearing_age_years, ArgKind::years);
  rows.choice("alternation", "alternation", t.alternation);
  rows.choice("rebloom", "rebloom", t.rebloom);
  rows.choice("container", "fitness", t.container);
  rows.choice("taste", "taste", t.taste);
  rows.choice("peel", "peel", t.peel);
  rows.choices("uses", "use", t.uses);
  rows.said("fruit_size", t.fruit_cm, [&](double v) { return small_length(voice, v); });
  rows.choice("ornamental", "ornament", t.ornamental);
  rows.choice("greening", "tolerance", t.greening);
  rows.choice("canker", "tolerance", t.canker);
  rows.choice("scab", "tolerance", t.scab);
  rows.choices("hazards", "hazard", t.hazards);
  return rows.take();
}

Model view_cold(const Voice& voice, const Traits& traits, References& references) {
  Model out = Model::list();
  for (std::size_t i = 0; i < kTissueCount; ++i) {
    const TissueCold& cold = traits.cold[i];
    Model& row = out.add();
    row["label"] = voice.word("tissue", name_of(static_cast<Tissue>(i)));
    row["hardened"] = fact_text(voice, cold.hardened, ArgKind::celsius);
    row["unhardened"] = fact_text(voice, cold.unhardened, ArgKind::celsius);
    row["evidence"] = references.cite(voice, cold.hardened.evidence);
  }
  return out;
}

Model view_rootstock(const Voice& voice, const Rootstock& r, References& references) {
  Rows rows(voice, references);
  rows.fact("cold_gain", r.cold_gain_c, ArgKind::celsius_difference);
  rows.said("size_share", r.size_share, [&](double v) { return voice.figure(ArgKind::percent, v * 100); });
  rows.choice("lime", "fitness", r.lime);
  rows.choice("salt", "fitness", r.salt);
  rows.choice("wet", "fitness", r.wet);
  rows.choice("drought", "fitness", r.drought);
  rows.choice("foot_rot", "fitness", r.foot_rot);
  rows.choice("tristeza", "fitness", r.tristeza);
  rows.choice("fruit_quality", "fitness", r.fruit_quality);
  if (!r.unfit_for.empty()) {
    std::string text;
    for (const std::string& id : r.unfit_for)
      text += (text.empty() ? "" : ", ") + (find_type(voice.catalog, id) ? voice.say("types." + id + ".plural") : voice.cultivar_name(id));
    rows.add("unfit_for", text, r.unfit_evidence);
  }
  return rows.take();
}

Model plain_figure(std::string title, std::string note, std::string wide, std::string slim) {
  Model out;
  view_figure(out, std::move(title), std::move(note), std::move(wide), std::move(slim));
  out["tabled"] = false;
  return out;
}

std::string calendar_text(const Voice& voice, double day) {
  constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int left = static_cast<int>(std::lround(day)) % 365, month = 0;
  while (left >= kDays[month]) left -= kDays[month++];
  return voice.say("ui.date", {{"day", std::to_string(left + 1)}, {"month", voice.say("language.months." + std::to_string(month + 1))}});
}

std::vector<std::string> month_initials(const Voice& voice) {
  std::vector<std::string> initials;
  for (int month = 1; month <= 12; ++month) {
    // One letter is enough over a column; as a whole character, for it may take two bytes.
    const std::string full = voice.say("language.months." + std::to_string(month));
    initials.push_back(full.substr(0, (static_cast<unsigned char>(full[0]) & 0x80u) != 0 ? 2 : 1));
  }
  return initials;
}

Model view_cold_ruler(const Voice& voice, const std::string& id, const std::string& name, const Traits& traits) {
  return view_cold_ruler(voice, id, name, traits, voice.office.places);
}

Model view_cold_ruler(const Voice& voice, const std::string& id, const std::string& name, const Traits& traits, std::span<const Place> places) {
  draw::ColdRuler ruler;
  for (const Place& place : places) {
    draw::ColdRuler::Dots dots{voice.of(place.name), voice.say("ui.ruler_below"), {}};
    for (const Winter& winter : place.winters.winters) dots.lows.push_back(voice.degrees(winter.lowest_tenths_c / 10.0));
    ruler.places.push_back(std::move(dots));
  }
  for (std::size_t i = 0; i < kTissueCount; ++i)
    ruler.rows.push_back({voice.word("tissue", name_of(static_cast<Tissue>(i))), voice.degrees(traits.cold[i].hardened.best),
                          voice.degrees(traits.cold[i].unhardened.best)});
  const TissueCold& leaf = traits.cold[0];
  const std::string title = voice.say("ui.ruler_title");
  ruler.caption = {id, title + ": " + name,
                   voice.say("ui.ruler_says", {{"name", name}, {"hard", voice.figure(ArgKind::celsius, leaf.hardened.best)},
                                               {"soft", voice.figure(ArgKind::celsius, leaf.unhardened.best)}})};
  Model out;
  view_figure(out, title, voice.say("ui.ruler_note"), draw::cold_ruler(ruler, draw::Form::wide), draw::cold_ruler(ruler, draw::Form::slim));
  for (const char* head : {"ui.ruler_head_below", "ui.ruler_head_share"}) out["head"].add(voice.say(head));
  for (std::size_t i = 0; i < ruler.rows.size(); ++i)
    for (const Place& place : places) {
      const double limit = traits.cold[i].hardened.best, soft = traits.cold[i].unhardened.best;
      long below = 0, below_soft = 0;
      for (const Winter& winter : place.winters.winters) {
        below += winter.lowest_tenths_c / 10.0 <= limit ? 1 : 0;
        below_soft += winter.lowest_tenths_c / 10.0 <= soft ? 1 : 0;
      }
      const auto all = std::to_string(place.winters.winters.size());
      view_row(out, voice.say("ui.ruler_row", {{"tissue", ruler.rows[i].label}, {"place", voice.of(place.name)}}),
               {voice.say("ui.of_winters", {{"n", std::to_string(below)}, {"all", all}, {"t", voice.figure(ArgKind::celsius, limit)}}),
                voice.say("ui.of_winters", {{"n", std::to_string(below_soft)}, {"all", all}, {"t", voice.figure(ArgKind::celsius, soft)}})});
    }
  return out;
}

Model view_year_strip(const Voice& voice, const std::string& id, const std::string& name, const Traits& traits) {
  draw::YearStrip strip;
  strip.months = month_initials(voice);
  const Place& here = first_place(voice.office);
  const Window bloom = months_at(here, traits.bloom), ripe = ripe_months_at(here, traits);
  strip.rows.push_back({voice.say("ui.year_bloom"), "", {span_of(bloom, draw::Fill::leaf)}});
  strip.rows.push_back({voice.say("ui.year_ripe"), "", {span_of(ripe, draw::Fill::rind)}});
  Model rows;
  view_row(rows, voice.say("ui.year_bloom"), {voice.months(bloom)});
  view_row(rows, voice.say("ui.year_ripe"), {voice.months(ripe)});
  for (const Place& place : voice.office.places) {
    const bool south = place.winters.latitude_deg < 0;
    const FreezeSpan span = freeze_span(place.winters);
    const std::string label = voice.say("ui.year_freeze", {{"place", voice.of(place.name)}});
    if (span.first < 0) {
      view_row(rows, label, {voice.say("ui.year_no_freeze")});
      continue;
    }
    strip.rows.push_back({voice.of(place.name), voice.say("ui.year_freezes"), {{share_of_year(span.first, south), share_of_year(span.last, south), draw::Fill::cold}}});
    view_row(rows, label, {voice.say("ui.range", {{"low", day_text(voice, span.first, south)}, {"high", day_text(voice, span.last, south)}})});
  }
  const std::string title = voice.say("ui.year_title");
  strip.caption = {id, title + ": " + name,
                   voice.say("ui.year_says", {{"name", name}, {"bloom", voice.months(bloom)}, {"ripe", voice.months(ripe)}})};
  Model out;
  view_figure(out, title, voice.say("ui.year_note"), draw::year_strip(strip, draw::Form::wide), draw::year_strip(strip, draw::Form::slim));
  out["head"].add(voice.say("ui.year_head"));
  out["rows"] = rows["rows"];
  return out;
}

Model view_ledger(const Voice& voice, const std::string& id, const std::string& name, const Prospect& prospect, double bearing_age_years) {
  const double young = std::clamp(bearing_age_years - 1, 0.0, 10.0);
  const double good = std::clamp(prospect.good_harvests.best, 0.0, 10 - young);
  const double lost = std::clamp(prospect.crops_lost.best, 0.0, 10 - young - good);
  draw::Ledger ledger;
  const auto part = [&](std::string_view key, double years, draw::Fill fill) {
    ledger.parts.push_back({voice.say(key, {{"n", voice.number(years, 1)}}), years, fill});
  };
  part("ui.ledger_young", young, draw::Fill::drop);
  part("ui.ledger_good", good, draw::Fill::rind);
  part("ui.ledger_lost", lost, draw::Fill::cold);
  part("ui.ledger_light", 10 - young - good - lost, draw::Fill::paper);
  const std::string title = voice.say("ui.ledger_title");
  std::string says;
  for (const draw::Ledger::Part& one : ledger.parts) says += (says.empty() ? "" : "; ") + one.label;
  ledger.caption = {id, title + ": " + name, says};
  Model out;
  view_figure(out, title + ": " + name, voice.say("ui.ledger_note"), draw::ten_year_ledger(ledger, draw::Form::wide),
              draw::ten_year_ledger(ledger, draw::Form::slim));
  out["head"].add(voice.say("ui.ledger_head"));
  const char* keys[] = {"ui.ledger_row_young", "ui.ledger_row_good", "ui.ledger_row_lost", "ui.ledger_row_light"};
  for (std::size_t i = 0; i < ledger.parts.size(); ++i) view_row(out, voice.say(keys[i]), {voice.number(ledger.parts[i].years, 1)});
  return out;
}

std::string day_text(const Voice& voice, double day, bool south) { return calendar_text(voice, share_of_year(day, south) * 365); }

}  // namespace tenwinters
