// What a screen is asked: JSON in, checked values out. Internal to screens.
#pragma once

#include <nlohmann/json.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "render/voice.h"
#include "screens/screens.h"
#include "screens/view.h"

namespace tenwinters::screens {

using Json = nlohmann::ordered_json;

// Discarded (is_discarded()) when the text is not JSON.
inline Json from_text(std::string_view text) { return Json::parse(text, nullptr, false); }
inline std::string to_text(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

// Reads members one by one. The first that does not fit is remembered; what is read is then of no use.
class Request {
 public:
  explicit Request(const Json& json) : json_(json) {}

  std::string text(std::string_view key, std::string_view otherwise);
  int whole(std::string_view key, int otherwise, int least, int most);
  double number(std::string_view key, double otherwise, double least, double most);
  bool truth(std::string_view key, bool otherwise);
  std::vector<std::string> texts(std::string_view key, std::size_t most);
  // The members of a list of objects.
  std::vector<const Json*> objects(std::string_view key, std::size_t most);
  template <class E>
  E word(std::string_view key, E otherwise) {
    const std::string found = text(key, name_of(otherwise));
    const std::optional<E> known = parse<E>(found);
    if (!known) refuse(key, found);
    return known.value_or(otherwise);
  }

  void refuse(std::string_view key, std::string_view found);
  // What was wrong in a part of this request is wrong in it.
  void pass_on(const Request& part) {
    if (error_.empty()) error_ = part.error_;
  }
  [[nodiscard]] bool refused() const { return !error_.empty(); }
  [[nodiscard]] const std::string& error() const { return error_; }

 private:
  const Json* find(std::string_view key);
  std::span<const Json> items(std::string_view key, std::size_t most);
  const Json& json_;
  std::string error_;
};

// What every screen is given.
struct Asked {
  Request& request;
  Screens& screens;
  Screens::Ground& ground;
  const Voice& voice;
  const Answers& answers;
};

struct Shown {
  std::string title, status, blocks;
  std::string file, ics;               // a calendar file and its name, or ""
};

[[nodiscard]] Shown calendar_screen(const Asked& asked);
[[nodiscard]] Shown compare_screen(const Asked& asked);
[[nodiscard]] Shown night_screen(const Asked& asked);
[[nodiscard]] Shown plan_screen(const Asked& asked);

// Cultivar ids of the catalogue; refuses others.
[[nodiscard]] std::vector<std::string> asked_trees(const Asked& asked, std::size_t most);

}  // namespace tenwinters::screens
