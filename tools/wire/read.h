// JSON text in, checked values out, without exceptions. A page downloads this: RapidJSON's parser is a quarter
// of the size of the one the terminal writes with.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Plain pointers to members: its own class of them does not compare as C++20 does.
#define RAPIDJSON_NOMEMBERITERATORCLASS
#include <rapidjson/document.h>

#include "tenwinters/catalog.h"
#include "tenwinters/office.h"
#include "wire/fields.h"

namespace tenwinters::wire {

using Value = rapidjson::Value;
using Document = rapidjson::Document;

inline std::string_view text_of(const Value& json) { return {json.GetString(), json.GetStringLength()}; }
std::string_view kind_of(const Value& json);  // "null", "boolean", "number", "string", "array", "object"

// A parsed text; values point into it.
class Parsed {
 public:
  explicit Parsed(std::string_view text);
  // Null when the text is not JSON in UTF-8.
  [[nodiscard]] const Value* value() const { return broken_ ? nullptr : &document_; }
  [[nodiscard]] Document& document() { return document_; }

 private:
  std::string text_;
  Document document_;
  bool broken_;
};

// JSON -> value, by the same lists. Anything missing, of another kind or out of range makes it fail;
// numbers are bounded so that later sums and conversions cannot overflow.
class Reader {
 public:
  template <class T>
  static bool read(const Value& json, T& value) {
    if constexpr (requires(Reader& r) { fields(r, value); }) {
      Reader reader(json);
      fields(reader, value);
      return reader.ok_;
    } else {
      return plain(json, value);
    }
  }
  template <class T>
  void operator()(std::string_view name, T& value) {
    if (const Value* member = find(name)) ok_ = read(*member, value);
  }
  template <class T, class Bound>
  void operator()(std::string_view name, T& value, Bound low, Bound high) {
    if (const Value* member = find(name)) ok_ = within(*member, value, low, high);
  }
  void columns(std::string_view name, std::vector<Winter>& winters);

 private:
  // What Writer::columns writes: each column is read from its beginning to its end.
  struct Column {
    std::string_view name;
    const Value* list;
    rapidjson::SizeType next = 0;
    int sum = 0;  // of the steps of one winter
  };
  class Columns {
   public:
    explicit Columns(const Value& by_name);
    template <class T, class... Bounds>
    void operator()(std::string_view name, T& value, Bounds... bounds) {
      const Value* one = next(name);
      if (one == nullptr) return;
      if constexpr (sizeof...(Bounds) == 0) ok = read(*one, value);
      else ok = within(*one, value, bounds...);
    }
    void operator()(std::string_view name, std::vector<Spell>& spells);
    void step(std::string_view name, int& value, int low, int high);
    [[nodiscard]] bool all_read() const;
    bool ok = true;

   private:
    const Value* next(std::string_view name);
    std::vector<Column> columns_;
  };

  explicit Reader(const Value& json) : json_(json), ok_(json.IsObject()) {}
  const Value* find(std::string_view name);

  template <class T, class Bound>
  static bool within(const Value& json, T& value, Bound low, Bound high) {
    if (!read(json, value)) return false;
    if constexpr (std::same_as<T, Fact>) return value.low >= low && value.high <= high;
    else return value >= low && value <= high;
  }

  static bool plain(const Value& json, bool& value);
  static bool plain(const Value& json, double& value);
  static bool plain(const Value& json, int& value);
  static bool plain(const Value& json, std::string& value);
  static bool plain(const Value& json, Fact& fact);
  static bool plain(const Value& json, Window& window);
  static bool plain(const Value& json, std::array<bool, kTissueCount>& covers);
  static bool plain(const Value& json, std::pair<double, double>& point);
  static bool plain(const Value& json, std::pair<Variable, std::string>& sets);
  static bool plain(const Value& json, std::vector<std::int16_t>& hours);
  template <class E>
  static bool plain(const Value& json, Choice<E>& choice) { return read(json, choice.is); }
  template <class E>
  static bool plain(const Value& json, Choices<E>& choices) { return read(json, choices.are); }
  template <class T, std::size_t N>
  static bool plain(const Value& json, std::array<T, N>& all) {
    if (!json.IsArray() || json.Size() != N) return false;
    for (rapidjson::SizeType i = 0; i < N; ++i)
      if (!read(json[i], all[i])) return false;
    return true;
  }
  template <class T>
  static bool plain(const Value& json, std::vector<T>& all) {
    if (!json.IsArray()) return false;
    all.clear();
    all.reserve(json.Size());
    for (const Value& one : json.GetArray())
      if (!read(one, all.emplace_back())) return false;
    return true;
  }
  template <class E>
    requires std::is_enum_v<E>
  static bool plain(const Value& json, E& value) {
    if (!json.IsString()) return false;
    const std::optional<E> word = parse<E>(text_of(json));
    if (word) value = *word;
    return word.has_value();
  }

  const Value& json_;
  bool ok_;
};

}  // namespace tenwinters::wire
