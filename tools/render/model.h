// What a page is made of, before it is text: a small tree of values for templates.
//
//   Model page;
//   page["title"] = "Satsuma";
//   Model& row = page["rows"].add();     // a list of objects
//   row["name"] = "Owari";
//   page["note"] = false;                // a template may ask, so every name is set, if only to false
//   page["prose"] = Model::prose("types/satsuma");   // the language's Markdown of that key, as HTML when it is printed
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace tenwinters {

// What a member is called, with a number to tell names apart by: most comparisons end there.
class Name {
 public:
  template <std::size_t N>
  consteval Name(const char (&literal)[N]) : Name(std::string_view(literal, N - 1)) {}
  // `text` must outlive it.
  explicit constexpr Name(std::string_view text) : text_(text) {
    for (const char c : text) number_ = (number_ ^ static_cast<unsigned char>(c)) * 1099511628211u;  // FNV-1a
  }

  [[nodiscard]] std::string_view text() const { return text_; }
  bool operator==(const Name& other) const { return number_ == other.number_ && text_ == other.text_; }

 private:
  std::string_view text_;
  std::uint64_t number_ = 14695981039346656037u;
};

class Model {
 public:
  enum class Kind { object, list, text, flag, prose };

  Model() = default;
  Model(std::string text) : kind_(Kind::text), text_(std::move(text)) {}
  Model(std::string_view text) : Model(std::string(text)) {}
  Model(const char* text) : Model(std::string(text)) {}
  Model(bool flag) : kind_(Kind::flag), flag_(flag) {}
  static Model list() {
    Model model;
    model.kind_ = Kind::list;
    return model;
  }

  static Model prose(std::string key) {
    Model model(std::move(key));
    model.kind_ = Kind::prose;
    return model;
  }

  // The member of that name, made empty if new; it stays where it is until another is made. Only for objects.
  Model& operator[](const Name& name);
  // A new last item, which stays where it is until another is added. Turns a fresh value into a list.
  Model& add() { return add(Model()); }
  Model& add(Model item);

  [[nodiscard]] Kind kind() const { return kind_; }
  // The member of that name, or null.
  [[nodiscard]] const Model* find(const Name& name) const;
  // The names of an object's members, in the order of items().
  [[nodiscard]] const std::vector<Name>& names() const { return names_; }
  // Of a list, or the members of an object.
  [[nodiscard]] const std::vector<Model>& items() const { return items_; }
  [[nodiscard]] const std::string& text() const { return text_; }  // of prose: its key
  [[nodiscard]] bool flag() const { return flag_; }

 private:
  Kind kind_ = Kind::object;
  bool flag_ = false;
  std::string text_;
  std::vector<Name> names_;
  std::vector<Model> items_;
};

inline const Model* Model::find(const Name& name) const {
  for (std::size_t i = 0; i < names_.size(); ++i)
    if (names_[i] == name) return &items_[i];
  return nullptr;
}

inline Model& Model::operator[](const Name& name) {
  constexpr std::size_t kUsual = 8;
  if (const Model* known = find(name)) return items_[static_cast<std::size_t>(known - items_.data())];
  if (names_.empty()) {
    names_.reserve(kUsual);
    items_.reserve(kUsual);
  }
  names_.push_back(name);
  return items_.emplace_back();
}

inline Model& Model::add(Model item) {
  kind_ = Kind::list;
  return items_.emplace_back(std::move(item));
}

}  // namespace tenwinters
