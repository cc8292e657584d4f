// What a page is made of, before it is text: a small tree of values for templates.
//
//   Model page;
//   page["title"] = "Satsuma";
//   Model& row = page["rows"].add();     // a list of objects
//   row["name"] = "Owari";
//   page["note"] = false;                // a template may ask, so every name is set, if only to false
//   page["prose"] = Model::prose("types/satsuma");   // the language's Markdown of that key, as HTML when it is printed
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace tenwinters {

class Model {
 public:
  enum class Kind { object, list, text, flag, prose };
  using Object = std::map<std::string, Model, std::less<>>;

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

  // The member of that name, made empty if new. Only for objects.
  Model& operator[](std::string_view key) { return object_.try_emplace(std::string(key)).first->second; }
  // A new last item. Turns a fresh value into a list.
  Model& add();
  Model& add(Model item);

  [[nodiscard]] Kind kind() const { return kind_; }
  [[nodiscard]] const Object& object() const { return object_; }
  [[nodiscard]] const std::vector<Model>& items() const { return list_; }
  [[nodiscard]] const std::string& text() const { return text_; }  // of prose: its key
  [[nodiscard]] bool flag() const { return flag_; }

 private:
  Kind kind_ = Kind::object;
  Object object_;
  std::vector<Model> list_;
  std::string text_;
  bool flag_ = false;
};

inline Model& Model::add() { return add(Model()); }
inline Model& Model::add(Model item) {
  kind_ = Kind::list;
  return list_.emplace_back(std::move(item));
}

}  // namespace tenwinters
