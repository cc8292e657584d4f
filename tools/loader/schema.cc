#include "loader/schema.h"

#include <algorithm>

#include "lib/guidance.h"
#include "loader/schema_parts.h"
#include "tenwinters/advise.h"
#include "tenwinters/cold_model.h"
#include "tenwinters/yard.h"

namespace tenwinters {
namespace {

using namespace schema;

constexpr std::string_view kWebAddress = "^https?://[^ \"<>\\\\]*$";

Json texts() { return list_of(text()); }
Json ids() { return list_of(id()); }
// A map of language codes to text.
Json by_language() {
  return {{"type", "object"}, {"propertyNames", {{"pattern", "^[a-z]{2,3}(-[A-Z]{2})?$"}}}, {"additionalProperties", text()}};
}

Json descent() { return Shape().need("are", ids()).evidence().json(); }

Json ancestors_file() {
  Json of_wild{{"if", {{"properties", {{"wild", {{"const", true}}}}}, {"required", Json::array({"wild"})}}},
               {"then", {{"properties", {{"ancestors", false}}}}}};
  return table("ancestors", list_of(Shape()
                                        .need("id", id())
                                        .need("botanical", text())
                                        .need("name", by_language())
                                        .need("wild", truth())
                                        .may("ancestors", descent())
                                        .evidence()
                                        .also(std::move(of_wild))
                                        .json(),
                                    false));
}

Json type_file() {
  return Shape()
      .need("id", id())
      .need("trade_order", whole(1, 999))
      .need("botanical", text())
      .may("botanical_synonyms", texts())
      .may("synonyms", texts())
      .need("naming", Shape().evidence().json())
      .may("ancestors", descent())
      .need("traits", traits(true))
      .json();
}

Json cultivar_file() {
  Json allele{{"type", "string"}, {"pattern", "^S(f|[1-9][0-9]{0,2})$"}};
  Json alleles{{"type", "array"}, {"items", std::move(allele)}, {"uniqueItems", true}, {"minItems", 2}, {"maxItems", 2}};
  return Shape()
      .need("id", id())
      .need("type", id())
      .need("name", text())
      .may("botanical", text())
      .may("synonyms", texts())
      .may("misspellings", texts())
      .may("look_alikes", ids())
      .may("ancestors", ids())
      .may("partners", ids())
      .may("not_partners", ids())
      .may("s_genotype", Shape().need("scheme", id()).need("alleles", std::move(alleles)).evidence().json())
      .may("cold_offset", figure("C", -10, 10))
      .may("traits", traits(false))
      .json();
}

Json rootstock_file() {
  Shape shape;
  shape.need("id", id()).need("name", text()).need("botanical", text()).may("synonyms", texts());
  shape.need("cold_gain_c", figure("C", -5, 5)).need("size_share", figure("share", 0.2, 1.2));
  for (const char* key : {"lime", "salt", "wet", "drought", "foot_rot", "tristeza", "fruit_quality"}) shape.need(key, choice<Fitness>());
  return shape.may("unfit_for", Shape().need("are", ids()).evidence().json()).json();
}

Json sources_file() {
  constexpr std::string_view kSeen[] = {"read", "memory"};
  const Json text_or_whole{{"anyOf", {text(), {{"type", "integer"}}}}};
  return table("sources", list_of(Shape()
                                      .need("id", id())
                                      .need("publisher", text())
                                      .need("title", text())
                                      .may("number", text_or_whole)
                                      .need("year", text_or_whole)
                                      .may("url", {{"type", "string"}, {"pattern", kWebAddress}})
                                      .need("seen", one_of(kSeen))
                                      .json(),
                                  false));
}

// What an answer may set, by variable.
Json variables() {
  Shape shape;
  for (std::string_view name : names_of<Variable>()) {
    switch (*parse<Variable>(name)) {
      case Variable::spot: shape.may(name, word<Spot>()); break;
      case Variable::sun_hours: shape.may(name, number(0, 16)); break;
      case Variable::drainage: shape.may(name, word<Drainage>()); break;
      case Variable::soil: shape.may(name, word<Soil>()); break;
      case Variable::container_l: shape.may(name, number(0, 1000)); break;
      case Variable::room_m: shape.may(name, number(0.5, 30)); break;
      case Variable::work_nights: shape.may(name, number(0, 200)); break;
      case Variable::company: shape.may(name, word<Company>()); break;
      case Variable::taste: shape.may(name, word<TasteWish>()); break;
      case Variable::use: shape.may(name, word<Use>()); break;
      case Variable::seeds: shape.may(name, word<SeedWish>()); break;
      case Variable::season: shape.may(name, word<SeasonWish>()); break;
      case Variable::priority: shape.may(name, word<Priority>()); break;
      case Variable::moves_indoors:
      case Variable::avoid_thorns:
      case Variable::avoid_medicine_fruit:
      case Variable::has_pets: shape.may(name, truth()); break;
    }
  }
  return shape.json();
}

Json questions_file() {
  Json answer_id = id();
  answer_id["not"] = {{"const", kDontKnow}};
  Json answers = list_of(Shape().need("id", answer_id).need("prior", number(0, 1)).need("sets", variables()).may("within_reach", truth()).json());
  answers["minItems"] = 2;
  Json question_id = id();
  question_id["not"] = {{"const", "place"}};
  return table("questions", list_of(Shape()
                                        .need("id", std::move(question_id))
                                        .need("prior", Shape().evidence().json())
                                        .may("asked_if", Shape().need("question", id()).need("answers", list_of(id(), false)).json())
                                        .may("splits", list_of(list_of(id(), false), false))
                                        .need("answers", std::move(answers))
                                        .json(),
                                    false));
}

Json model_file() {
  Json rows = list_of(Shape().need("id", one_of(kCriteria)).need("weight", whole(0, 100)).evidence().json(), false);
  return table("criteria", has_rows(std::move(rows), "id", kCriteria));
}

Json curves_file() {
  const Json point{{"type", "array"}, {"items", Json::array({number(0, 1000), number(0, 1)})}, {"minItems", 2}, {"maxItems", 2}};
  Json rows = list_of(Shape().need("id", word<CurveId>()).need("points", list_of(point, false)).evidence().json(), false);
  return table("curves", has_rows(std::move(rows), "id", names_of<CurveId>()));
}

Json cold_model_file() {
  Shape shape;
  ColdModel model;
  for_each_constant(model, [&](std::string_view name, std::string_view unit, double least, double most, Fact&) {
    shape.need(name, figure(unit, least, most));
  });
  return table("constants", shape.json());
}

Json microclimates_file() {
  Json rows = list_of(Shape().need("spot", word<Spot>()).need("warmer_c", figure("C", -8, 8)).json(), false);
  return table("microclimates", has_rows(std::move(rows), "spot", names_of<Spot>()));
}

Json protections_file() {
  constexpr std::string_view kNone[] = {"none"};
  // Doing nothing warms nothing and takes no time.
  const Json zero{{"properties", {{"high", {{"const", 0}}}}}};
  Json of_none{{"if", {{"properties", {{"id", {{"const", "none"}}}}}, {"required", Json::array({"id"})}}},
               {"then", {{"properties", {{"gain_c", zero}, {"windy_gain_c", zero}, {"minutes_per_night", zero}}}}}};
  Json rows = list_of(Shape()
                          .need("id", id())
                          .need("gain_c", figure("C", 0, 40))
                          .need("windy_gain_c", figure("C", 0, 40))
                          .need("covers", words<Tissue>(true))
                          .need("minutes_per_night", figure("minutes", 0, 600))
                          .may("ready_hours", whole(0, 96))
                          .need("container_only", truth())
                          .need("fits_tall_trees", truth())
                          .need("cautions", ids())
                          .also(std::move(of_none))
                          .json(),
                      false);
  return table("protections", has_rows(std::move(rows), "id", kNone));
}

Json cautions_file() {
  return table("cautions", list_of(Shape()
                                       .need("id", id())
                                       .need("severity", word<Severity>())
                                       .need("when", words<Situation>(false))
                                       .need("defer_to", id())
                                       .evidence()
                                       .json(),
                                   false));
}

Json rules_file() {
  Json says = by_language();
  says["required"] = Json::array({"en"});
  Json of_state{{"if", {{"properties", {{"jurisdiction", {{"const", name_of(Jurisdiction::state)}}}}}, {"required", Json::array({"jurisdiction"})}}},
                {"then", {{"required", Json::array({"state"})}}},
                {"else", {{"properties", {{"state", false}}}}}};
  return table("rules", list_of(Shape()
                                    .need("id", id())
                                    .need("jurisdiction", word<Jurisdiction>())
                                    .may("state", {{"type", "string"}, {"pattern", "^[A-Z]{2}$"}})
                                    .need("pests", ids())
                                    .need("actors", words<Actor>(false))
                                    .need("actions", words<Action>(false))
                                    .need("effect", word<Effect>())
                                    .need("says", std::move(says))
                                    .need("citation", text())
                                    .may("effective", date())
                                    .need("review_by", date())
                                    .need("body", text())
                                    .need("defer_to", id())
                                    .evidence()
                                    .also(std::move(of_state))
                                    .json(),
                                false));
}

// Facts by id, each with a unit of its own.
Json guide_facts() {
  Json one = Shape()
                 .need("best", number(-50, 1e6))
                 .need("low", number(-50, 1e6))
                 .need("high", number(-50, 1e6))
                 .need("unit", word<GuideUnit>())
                 .evidence()
                 .json();
  // Only a temperature lies below nought.
  const Json not_below{{"minimum", 0}};
  one["allOf"].push_back({{"if", {{"not", {{"properties", {{"unit", {{"const", name_of(GuideUnit::celsius)}}}}}}}}},
                          {"then", {{"properties", {{"best", not_below}, {"low", not_below}, {"high", not_below}}}}}});
  return {{"type", "object"}, {"propertyNames", {{"pattern", id()["pattern"]}}}, {"additionalProperties", std::move(one)}};
}

void add_advised(Shape& shape) {
  shape.may("shows", words<Shown>(true)).may("cautions", ids()).may("facts", guide_facts()).evidence();
  // What is worked out needs its facts.
  for (std::string_view name : names_of<Shown>()) {
    Json needed = Json::array();
    for (std::string_view fact : facts_needed(*parse<Shown>(name))) needed.push_back(fact);
    if (needed.empty()) continue;
    Json has{{"properties", {{"shows", {{"contains", {{"const", name}}}}}}}, {"required", Json::array({"shows"})}};
    shape.also({{"if", std::move(has)},
                {"then", {{"properties", {{"facts", {{"required", std::move(needed)}}}}}, {"required", Json::array({"facts"})}}}});
  }
}

Json calls_file() {
  Shape call;
  call.need("id", id()).need("symptom", word<Symptom>()).need("asked", window());
  add_advised(call);
  return table("calls", list_of(call.json(), false));
}

Json guides_file() {
  Shape section;
  section.need("id", id());
  add_advised(section);
  return table("guides", list_of(Shape().need("id", id()).need("sections", list_of(section.json(), false)).json(), false));
}

Json seasons_file() {
  constexpr std::string_view kKinds[] = {"fruit_drop", "feed", "prune", "prune_frozen"};
  const Json day{{"type", "string"}, {"pattern", "^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"}};
  return table("seasons", list_of(Shape()
                                      .need("kind", one_of(kKinds))
                                      .need("region", word<Region>())
                                      .need("from", day)
                                      .need("to", day)
                                      .may("only", ids())
                                      .may("but", ids())
                                      .evidence()
                                      .json(),
                                  false));
}

Json office_file() {
  constexpr std::string_view kDiseases[] = {"greening", "canker", "scab"};
  Json place = Shape()
                   .need("id", id())
                   .need("name", by_language())
                   .need("region", word<Region>())
                   .need("share", number(0, 1))
                   .need("latitude", number(-60, 60))
                   .need("record", text())
                   .json();
  Json rule = Shape()
                  .need("id", id())
                  .need("forbids", ids())
                  .need("says", by_language())
                  .need("ask", by_language())
                  .need("citation", text())
                  .need("review_by", date())
                  .json();
  constexpr std::string_view kUnits[] = {"us", "metric"};
  return Shape()
      .need("id", id())
      .need("name", by_language())
      .need("invented", truth())
      .need("units", one_of(kUnits))
      .need("languages", list_of({{"type", "string"}, {"pattern", "^[a-z]{2,3}(-[A-Z]{2})?$"}}, false))
      .may("address", {{"type", "string"}, {"pattern", "^https?://[^ \"<>\\\\?#]*/$"}})
      .may("contact", {{"type", "array"}, {"items", by_language()}})
      .need("places", list_of(std::move(place), false))
      .may("rules", list_of(std::move(rule)))
      .may("on_sale", ids())
      .may("rootstocks_on_sale", ids())
      .may("diseases_present", list_of(one_of(kDiseases)))
      .json();
}

// Texts under keys under keys.
Json words_file() {
  Json language = Shape().need("code", {{"type", "string"}, {"pattern", "^[a-z]{2,3}(-[A-Z]{2})?$"}}).need("name", text()).json();
  language["additionalProperties"] = {{"$ref", "#/definitions/texts"}};
  return {{"type", "object"},
          {"properties", {{"language", std::move(language)}}},
          {"required", Json::array({"language"})},
          {"additionalProperties", {{"$ref", "#/definitions/texts"}}},
          {"definitions",
           {{"texts", {{"anyOf", {text(), {{"type", "object"}, {"additionalProperties", {{"$ref", "#/definitions/texts"}}}}}}}}}}};
}

SchemaFile file(std::string_view name, std::string_view title, Json body) {
  Json out{{"$schema", "http://json-schema.org/draft-07/schema#"}, {"title", title}};
  for (auto& [key, value] : body.items()) out[key] = std::move(value);
  return {std::string(name) + ".json", out.dump(1) + "\n"};
}

}  // namespace

std::vector<SchemaFile> catalog_schemas() {
  return {
      file("ancestors", "Wild species and old parents", ancestors_file()),
      file("calls", "Questions an office is asked", calls_file()),
      file("cautions", "Cautions for the household", cautions_file()),
      file("cold_model", "Constants of the cold model", cold_model_file()),
      file("cultivar", "A cultivar; what it does not state it takes from its type", cultivar_file()),
      file("curves", "What a figure is worth", curves_file()),
      file("guides", "Pages to read first", guides_file()),
      file("microclimates", "Spots in a yard", microclimates_file()),
      file("model", "Criteria and their weights", model_file()),
      file("office", "An office and its places", office_file()),
      file("protections", "Ways through a freezing night", protections_file()),
      file("questions", "What a household is asked", questions_file()),
      file("rootstock", "A rootstock", rootstock_file()),
      file("rules", "Plant-movement law, as structure", rules_file()),
      file("seasons", "Fruit drop, feeding and pruning by region", seasons_file()),
      file("sources", "Where figures come from", sources_file()),
      file("type", "A type of citrus, with every trait", type_file()),
      file("words", "Every word a reader sees, in one language", words_file()),
  };
}

}  // namespace tenwinters
