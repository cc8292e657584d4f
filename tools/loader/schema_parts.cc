#include "loader/schema_parts.h"

namespace tenwinters::schema {
namespace {

constexpr std::string_view kIdPattern = "^[a-z][a-z0-9_]{0,59}$";
constexpr std::string_view kDatePattern =
    "^(1[5-9]|[2-9][0-9])[0-9]{2}-((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])|(0[469]|11)-(0[1-9]|[12][0-9]|30)|"
    "02-(0[1-9]|[12][0-9]))$";

// "if the key is one of the words, then ...".
Json when(std::string_view key, const std::vector<std::string_view>& words, Json then) {
  Json list = Json::array();
  for (std::string_view one : words) list.push_back(one);
  Json test{{"properties", {{std::string(key), {{"enum", std::move(list)}}}}}, {"required", Json::array({key})}};
  return {{"if", std::move(test)}, {"then", std::move(then)}};
}

}  // namespace

Json text() { return {{"type", "string"}, {"pattern", "\\S"}}; }
Json id() { return {{"type", "string"}, {"pattern", kIdPattern}}; }
Json date() { return {{"type", "string"}, {"pattern", kDatePattern}}; }
Json whole(int least, int most) { return {{"type", "integer"}, {"minimum", least}, {"maximum", most}}; }
Json number(double least, double most) { return {{"type", "number"}, {"minimum", least}, {"maximum", most}}; }
Json truth() { return {{"type", "boolean"}}; }

Json one_of(std::span<const std::string_view> words) {
  Json list = Json::array();
  for (std::string_view one : words) list.push_back(one);
  return {{"enum", std::move(list)}};
}

Json list_of(Json item, bool may_be_empty) {
  Json list{{"type", "array"}, {"items", std::move(item)}, {"uniqueItems", true}};
  if (!may_be_empty) list["minItems"] = 1;
  return list;
}

Shape& Shape::need(std::string_view key, Json schema) {
  required_.push_back(key);
  return may(key, std::move(schema));
}

Shape& Shape::may(std::string_view key, Json schema) {
  properties_[std::string(key)] = std::move(schema);
  return *this;
}

Shape& Shape::also(Json condition) {
  conditions_.push_back(std::move(condition));
  return *this;
}

Shape& Shape::evidence() {
  need("sources", list_of(id()));
  need("basis", word<Basis>());
  need("seen", date());
  may("note", text());
  also(when("basis", {name_of(Basis::published), name_of(Basis::memory)},
            {{"properties", {{"sources", {{"minItems", 1}}}}}}));
  return also(when("basis", {name_of(Basis::estimate)}, {{"required", Json::array({"note"})}}));
}

Json Shape::json() const {
  Json out{{"type", "object"}, {"properties", properties_}, {"required", required_}, {"additionalProperties", false}};
  if (!conditions_.empty()) out["allOf"] = conditions_;
  return out;
}

Json figure(std::string_view unit, double least, double most) {
  return Shape()
      .need("best", number(least, most))
      .need("low", number(least, most))
      .need("high", number(least, most))
      .need("unit", {{"const", unit}})
      .evidence()
      .json();
}

Json window() { return Shape().need("from", whole(1, 12)).need("to", whole(1, 12)).evidence().json(); }

Json traits(bool all) {
  Shape shape;
  const auto add = [&](std::string_view key, Json schema) {
    if (all) shape.need(key, std::move(schema));
    else shape.may(key, std::move(schema));
  };
  const Traits any;
  for_each_trait(any, Overloaded{
      [&](std::string_view key, const std::array<TissueCold, kTissueCount>&) {
        const Json point = figure("C", kColdestTissue, kWarmestTissue);
        Shape tissues;
        for (std::string_view tissue : names_of<Tissue>()) {
          Json pair = Shape().need("hardened", point).need("unhardened", point).json();
          if (all) tissues.need(tissue, std::move(pair));
          else tissues.may(tissue, std::move(pair));
        }
        add(key, tissues.json());
      },
      [&](std::string_view key, const Window&) { add(key, window()); },
      [&](std::string_view key, const std::vector<Ripening>&) {
        add(key, list_of(Shape().need("region", word<Region>()).need("from", whole(1, 12)).need("to", whole(1, 12)).evidence().json(), false));
      },
      [&](std::string_view key, const Fact&, std::string_view unit, double least, double most) { add(key, figure(unit, least, most)); },
      [&]<class E>(std::string_view key, const Choice<E>&) { add(key, choice<E>()); },
      [&]<class E>(std::string_view key, const Choices<E>&, bool may_be_empty) { add(key, choices<E>(may_be_empty)); },
  });
  return shape.json();
}

Json table(std::string_view key, Json rows) { return Shape().need(key, std::move(rows)).json(); }

Json has_rows(Json list, std::string_view key, std::span<const std::string_view> names) {
  Json conditions = Json::array();
  for (std::string_view name : names) {
    Json row{{"properties", {{std::string(key), {{"const", name}}}}}, {"required", Json::array({key})}};
    conditions.push_back({{"contains", std::move(row)}});
  }
  list["allOf"] = std::move(conditions);
  return list;
}

}  // namespace tenwinters::schema
