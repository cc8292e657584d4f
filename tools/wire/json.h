// JSON without exceptions: text in, checked values out; values in, text out.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "tenwinters/catalog.h"
#include "tenwinters/office.h"
#include "wire/fields.h"

namespace tenwinters::wire {

using Json = nlohmann::ordered_json;

inline std::string to_text(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }
// Discarded (is_discarded()) when the text is not JSON.
inline Json from_text(std::string_view text) { return Json::parse(text, nullptr, false); }

// Value -> JSON, by the lists of fields.h.
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

 private:
  static Json plain(const Fact& fact) { return Json::array({fact.best, fact.low, fact.high}); }
  static Json plain(const Window& window) { return Json::array({window.from_month, window.to_month}); }
  static Json plain(const std::array<bool, kTissueCount>& covers) {
    Json list = Json::array();
    for (std::size_t i = 0; i < covers.size(); ++i)
      if (covers[i]) list.push_back(name_of(static_cast<Tissue>(i)));
    return list;
  }
  static Json plain(const Words& words) {
    Json object = Json::object();
    for (const auto& [code, text] : words) object[code] = text;
    return object;
  }
  static Json plain(const std::pair<double, double>& point) { return Json::array({point.first, point.second}); }
  static Json plain(const std::pair<Variable, std::string>& sets) { return Json::array({name_of(sets.first), sets.second}); }
  template <class E>
  static Json plain(const Choice<E>& choice) { return name_of(choice.is); }
  template <class E>
  static Json plain(const Choices<E>& choices) { return write(choices.are); }
  template <class T, std::size_t N>
  static Json plain(const std::array<T, N>& all) { return list(all); }
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

// JSON -> value, by the same lists. Anything missing, of another kind or out of range makes it fail;
// numbers are bounded so that later sums and conversions cannot overflow.
class Reader {
 public:
  template <class T>
  static bool read(const Json& json, T& value) {
    if constexpr (requires(Reader& r) { fields(r, value); }) {
      Reader reader(json);
      reader.ok_ = json.is_object();
      if (reader.ok_) fields(reader, value);
      return reader.ok_;
    } else {
      return plain(json, value);
    }
  }
  template <class T>
  void operator()(std::string_view name, T& value) {
    if (const Json* member = find(name)) ok_ = read(*member, value);
  }
  template <class T, class Bound>
  void operator()(std::string_view name, T& value, Bound low, Bound high) {
    const Json* member = find(name);
    if (member == nullptr) return;
    ok_ = read(*member, value);
    if (!ok_) return;
    if constexpr (std::same_as<T, Fact>) ok_ = value.low >= low && value.high <= high;
    else ok_ = value >= low && value <= high;
  }

 private:
  explicit Reader(const Json& json) : json_(json) {}
  const Json* find(std::string_view name) {
    if (!ok_) return nullptr;
    const auto at = json_.find(std::string(name));
    ok_ = at != json_.end();
    return ok_ ? &*at : nullptr;
  }

  static bool plain(const Json& json, bool& value) {
    if (!json.is_boolean()) return false;
    value = json.get<bool>();
    return true;
  }
  static bool plain(const Json& json, double& value) {
    constexpr double kMost = 1e5;
    if (!json.is_number()) return false;
    value = json.get<double>();
    return value >= -kMost && value <= kMost;
  }
  static bool plain(const Json& json, int& value) {
    constexpr std::int64_t kMost = 100000;
    if (!json.is_number_integer()) return false;
    const std::int64_t whole = json.get<std::int64_t>();
    if (whole < -kMost || whole > kMost) return false;
    value = static_cast<int>(whole);
    return true;
  }
  static bool plain(const Json& json, std::int16_t& value) {
    int whole = 0;
    if (!plain(json, whole) || (whole != kWarm && (whole < -1000 || whole > 1000))) return false;
    value = static_cast<std::int16_t>(whole);
    return true;
  }
  static bool plain(const Json& json, std::string& value) {
    if (!json.is_string()) return false;
    value = json.get_ref<const std::string&>();
    return true;
  }
  static bool plain(const Json& json, Fact& fact) {
    return json.is_array() && json.size() == 3 && plain(json[0], fact.best) && plain(json[1], fact.low) && plain(json[2], fact.high) &&
           fact.low <= fact.best && fact.best <= fact.high;
  }
  static bool plain(const Json& json, Window& window) {
    const auto month = [](int m) { return m >= 1 && m <= 12; };
    return json.is_array() && json.size() == 2 && plain(json[0], window.from_month) && plain(json[1], window.to_month) &&
           month(window.from_month) && month(window.to_month);
  }
  static bool plain(const Json& json, std::array<bool, kTissueCount>& covers) {
    std::vector<Tissue> tissues;
    if (!read(json, tissues)) return false;
    covers.fill(false);
    for (Tissue tissue : tissues) covers[static_cast<std::size_t>(tissue)] = true;
    return true;
  }
  static bool plain(const Json& json, Words& words) {
    if (!json.is_object()) return false;
    for (const auto& [code, text] : json.items()) {
      if (!text.is_string()) return false;
      words[code] = text.get_ref<const std::string&>();
    }
    return true;
  }
  static bool plain(const Json& json, std::pair<double, double>& point) {
    return json.is_array() && json.size() == 2 && plain(json[0], point.first) && plain(json[1], point.second);
  }
  static bool plain(const Json& json, std::pair<Variable, std::string>& sets) {
    Yard yard;
    return json.is_array() && json.size() == 2 && read(json[0], sets.first) && read(json[1], sets.second) &&
           set_variable(yard, sets.first, sets.second);
  }
  template <class E>
  static bool plain(const Json& json, Choice<E>& choice) { return read(json, choice.is); }
  template <class E>
  static bool plain(const Json& json, Choices<E>& choices) { return read(json, choices.are); }
  template <class T, std::size_t N>
  static bool plain(const Json& json, std::array<T, N>& all) {
    if (!json.is_array() || json.size() != N) return false;
    for (std::size_t i = 0; i < N; ++i)
      if (!read(json[i], all[i])) return false;
    return true;
  }
  template <class T>
  static bool plain(const Json& json, std::vector<T>& all) {
    if (!json.is_array()) return false;
    all.clear();
    all.reserve(json.size());
    for (const Json& one : json)
      if (!read(one, all.emplace_back())) return false;
    return true;
  }
  template <class E>
    requires std::is_enum_v<E>
  static bool plain(const Json& json, E& value) {
    if (!json.is_string()) return false;
    const std::optional<E> word = parse<E>(json.get_ref<const std::string&>());
    if (word) value = *word;
    return word.has_value();
  }

  const Json& json_;
  bool ok_ = true;
};

}  // namespace tenwinters::wire
