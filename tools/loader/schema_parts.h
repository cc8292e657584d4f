// Pieces of JSON Schema that the files share. Internal to the loader.
#pragma once

#include <array>
#include <nlohmann/json.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/traits.h"

namespace tenwinters::schema {

using Json = nlohmann::ordered_json;

Json text();
Json id();
Json date();
Json whole(int least, int most);
Json number(double least, double most);
Json truth();
Json one_of(std::span<const std::string_view> words);
Json list_of(Json item, bool may_be_empty = true);  // without repeats

template <class E>
Json word() {
  return one_of(names_of<E>());
}
template <class E>
Json words(bool may_be_empty) {
  return list_of(word<E>(), may_be_empty);
}

// A map with fixed keys.
class Shape {
 public:
  Shape& need(std::string_view key, Json schema);
  Shape& may(std::string_view key, Json schema);
  // `sources`, `basis`, `seen`, `note`, and what a basis asks of the others.
  Shape& evidence();
  // Something the map must also satisfy.
  Shape& also(Json condition);
  [[nodiscard]] Json json() const;

 private:
  Json properties_ = Json::object(), required_ = Json::array(), conditions_ = Json::array();
};

Json figure(std::string_view unit, double least, double most);
Json window();

template <class E>
Json choice() {
  return Shape().need("is", word<E>()).evidence().json();
}
template <class E>
Json choices(bool may_be_empty) {
  return Shape().need("are", words<E>(may_be_empty)).evidence().json();
}

// `all`: a type's, which must all be there; else a cultivar's.
Json traits(bool all);

// A file that is one list (or map) under one key.
Json table(std::string_view key, Json rows);
// In a list of rows: one with `key: name` for each name.
Json has_rows(Json list, std::string_view key, std::span<const std::string_view> names);

}  // namespace tenwinters::schema
