// The fields of every value that travels as JSON, named once; Writer and Reader walk the same lists. Only what
// the engine decides by: names and texts for people travel with the page's words.
#pragma once

#include <concepts>

#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters::wire {

template <class T, class Plain>
concept Is = std::same_as<std::remove_const_t<T>, Plain>;

template <class V, Is<TissueCold> T>
void fields(V& v, T& cold) {
  v("hardened", cold.hardened);
  v("unhardened", cold.unhardened);
}

template <class V, Is<Ripening> T>
void fields(V& v, T& ripening) {
  v("region", ripening.region);
  v("window", ripening.window);
}

template <class V, Is<Traits> T>
void fields(V& v, T& t) {
  v("cold", t.cold);
  v("bloom", t.bloom);
  v("ripening", t.ripening);
  v("holds_weeks", t.holds_weeks);
  v("heat_need", t.heat_need);
  v("heat_units_c", t.heat_units_c);
  v("sets_fruit", t.sets_fruit);
  v("pollen", t.pollen);
  v("seeds_alone", t.seeds_alone);
  v("seeds_with_pollen", t.seeds_with_pollen);
  v("height_m", t.height_m);
  v("spread_m", t.spread_m);
  v("habit", t.habit);
  v("thorns", t.thorns);
  v("bearing_age_years", t.bearing_age_years);
  v("alternation", t.alternation);
  v("rebloom", t.rebloom);
  v("container", t.container);
  v("taste", t.taste);
  v("peel", t.peel);
  v("uses", t.uses);
  v("fruit_cm", t.fruit_cm);
  v("ornamental", t.ornamental);
  v("greening", t.greening);
  v("canker", t.canker);
  v("scab", t.scab);
  v("hazards", t.hazards);
}

template <class V, Is<CitrusType> T>
void fields(V& v, T& type) {
  v("id", type.id);
  v("traits", type.traits);
}

template <class V, Is<Cultivar> T>
void fields(V& v, T& cultivar) {
  v("id", cultivar.id);
  v("type", cultivar.type);
  v("name", cultivar.name);
  v("partners", cultivar.partners);
  v("not_partners", cultivar.not_partners);
  v("traits", cultivar.traits);
}

template <class V, Is<Rootstock> T>
void fields(V& v, T& stock) {
  v("id", stock.id);
  v("cold_gain_c", stock.cold_gain_c);
  v("size_share", stock.size_share);
  v("lime", stock.lime);
  v("salt", stock.salt);
  v("wet", stock.wet);
  v("drought", stock.drought);
  v("foot_rot", stock.foot_rot);
  v("tristeza", stock.tristeza);
  v("fruit_quality", stock.fruit_quality);
  v("unfit_for", stock.unfit_for);
}

template <class V, Is<Microclimate> T>
void fields(V& v, T& microclimate) {
  v("spot", microclimate.spot);
  v("warmer_c", microclimate.warmer_c);
}

template <class V, Is<Protection> T>
void fields(V& v, T& protection) {
  v("id", protection.id);
  v("gain_c", protection.gain_c);
  v("windy_gain_c", protection.windy_gain_c);
  v("covers", protection.covers);
  v("minutes_per_night", protection.minutes_per_night);
  v("ready_hours", protection.ready_hours, 0, 96);
  v("container_only", protection.container_only);
  v("fits_tall_trees", protection.fits_tall_trees);
  v("cautions", protection.cautions);
}

template <class V, Is<Caution> T>
void fields(V& v, T& caution) {
  v("id", caution.id);
  v("severity", caution.severity);
  v("when", caution.when);
}

template <class V, Is<Answer> T>
void fields(V& v, T& answer) {
  v("id", answer.id);
  v("prior", answer.prior, 0.0, 1.0);
  v("sets", answer.sets);
  v("within_reach", answer.within_reach);
}

template <class V, Is<Question> T>
void fields(V& v, T& question) {
  v("id", question.id);
  v("answers", question.answers);
  v("asked_if_question", question.asked_if_question);
  v("asked_if_answers", question.asked_if_answers);
}

template <class V, Is<Criterion> T>
void fields(V& v, T& criterion) {
  v("id", criterion.id);
  v("weight", criterion.weight, 0, 100);
}

template <class V, Is<ValueCurve> T>
void fields(V& v, T& curve) {
  v("points", curve.points);
}

template <class V, Is<ColdModel> T>
void fields(V& v, T& model) {
  for_each_constant(model, [&](std::string_view name, std::string_view, double low, double high, auto& fact) {
    v(name, fact, low, high);
  });
}

template <class V, Is<Catalog> T>
void fields(V& v, T& catalog) {
  v("types", catalog.types);
  v("cultivars", catalog.cultivars);
  v("rootstocks", catalog.rootstocks);
  v("microclimates", catalog.microclimates);
  v("protections", catalog.protections);
  v("cautions", catalog.cautions);
  v("questions", catalog.questions);
  v("criteria", catalog.criteria);
  v("curves", catalog.curves);
  v("cold_model", catalog.cold_model);
}

template <class V, Is<Spell> T>
void fields(V& v, T& spell) {
  v.step("day", spell.day, 0, 366);
  v("start_hour", spell.start_hour, 0, 23);
  v.step("hardening", spell.hardening_permille, 0, 1000);
  v("windy", spell.windy);
  v("tenths_c", spell.tenths_c);
}

template <class V, Is<Winter> T>
void fields(V& v, T& winter) {
  v("year", winter.year, 0, 9999);
  v("lowest_tenths_c", winter.lowest_tenths_c, -1000, 1000);
  v("first_freeze_day", winter.first_freeze_day, -1, 366);
  v("last_freeze_day", winter.last_freeze_day, -1, 366);
  v("heat_units", winter.heat_units);
  v("spells", winter.spells);
}

template <class V, Is<Winters> T>
void fields(V& v, T& winters) {
  v("latitude_deg", winters.latitude_deg, -90.0, 90.0);
  v.columns("winters", winters.winters);
}

template <class V, Is<Place> T>
void fields(V& v, T& place) {
  v("id", place.id);
  v("region", place.region);
  v("share", place.share, 0.0, 1.0);
  v("winters", place.winters);
}

template <class V, Is<LocalRule> T>
void fields(V& v, T& rule) {
  v("id", rule.id);
  v("forbids", rule.forbids);
  v("citation", rule.citation);
}

template <class V, Is<Office> T>
void fields(V& v, T& office) {
  v("id", office.id);
  v("places", office.places);
  v("rules", office.rules);
  v("on_sale", office.on_sale);
  v("rootstocks_on_sale", office.rootstocks_on_sale);
  v("diseases_present", office.diseases_present);
}

}  // namespace tenwinters::wire
