// Engine values as a JSON tree. The browser has no need of it.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "tenwinters/catalog.h"
#include "tenwinters/office.h"
#include "wire/fields.h"

namespace tenwinters::wire {

using Json = nlohmann::ordered_json;

// By the lists of fields.h.
class Writer {
 public:
  template <class T>
  static Json write(const T& value) {
    if constexpr (requires(Writer& w) { fields(w, value); }) {
      Writer writer;
      fields(writer, value);
      return std::move(writer.object_);
    } else {
      return plain(value);
    }
  }
  template <class T, class... Range>
  void operator()(std::string_view name, const T& value, Range...) { object_[std::string(name)] = write(value); }
  // The winters field by field, then their spells field by field: packed, four fifths of the size of row by row.
  void columns(std::string_view name, const std::vector<Winter>& winters) {
    Columns columns;
    for (const Winter& winter : winters) fields(columns, winter);
    object_[std::string(name)] = std::move(columns.by_name);
  }

 private:
  struct Columns {
    Json by_name = Json::object();
    template <class T, class... Range>
    void operator()(std::string_view name, const T& value, Range...) { by_name[std::string(name)].push_back(write(value)); }
    void operator()(std::string_view name, const std::vector<Spell>& spells) {
      (*this)(name, spells.size());
      before.clear();
      for (const Spell& spell : spells) fields(*this, spell);
    }
    // As what is added to the last spell of the same winter: these go little by little.
    template <class... Range>
    void step(std::string_view name, int value, Range...) {
      int& last = before[std::string(name)];
      (*this)(name, value - last);
      last = value;
    }
    std::map<std::string, int> before;
  };

  static Json plain(const Fact& fact) { return Json::array({fact.best, fact.low, fact.high}); }
  static Json plain(const Window& window) { return Json::array({window.from_month, window.to_month}); }
  static Json plain(const std::array<bool, kTissueCount>& covers) {
    Json list = Json::array();
    for (std::size_t i = 0; i < covers.size(); ++i)
      if (covers[i]) list.push_back(name_of(static_cast<Tissue>(i)));
    return list;
  }
  static Json plain(const std::pair<double, double>& point) { return Json::array({point.first, point.second}); }
  static Json plain(const std::pair<Variable, std::string>& sets) { return Json::array({name_of(sets.first), sets.second}); }
  template <class E>
  static Json plain(const Choice<E>& choice) { return name_of(choice.is); }
  template <class E>
  static Json plain(const Choices<E>& choices) { return write(choices.are); }
  template <class T, std::size_t N>
  static Json plain(const std::array<T, N>& all) { return list(all); }
  // Hour by hour the step from the hour before, null for a warm one: half the size of readings when packed.
  static Json plain(const std::vector<std::int16_t>& hours) {
    Json steps = Json::array();
    int before = 0;
    for (const std::int16_t hour : hours) {
      steps.push_back(hour == kWarm ? Json() : Json(hour - before));
      before = hour == kWarm ? 0 : hour;
    }
    return steps;
  }
  template <class T>
  static Json plain(const std::vector<T>& all) { return list(all); }
  template <class T>
  static Json plain(const T& value) {
    if constexpr (std::is_enum_v<T>) return name_of(value);
    else return value;
  }
  template <class All>
  static Json list(const All& all) {
    Json out = Json::array();
    for (const auto& one : all) out.push_back(write(one));
    return out;
  }

  Json object_ = Json::object();
};

}  // namespace tenwinters::wire
