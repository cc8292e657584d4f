// What a screen shows, block by block, as JSON: the page lays it out, every word is said already.
//
//   View view(voice);
//   view.heading(2, "when", voice.say("calendar.by_month"));
//   view.text("...");
//   std::string json = view.take();   // [{"is":"heading","level":2,"id":"when","text":"..."},{"is":"text",...}]
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "render/voice.h"
#include "wire/text.h"

namespace tenwinters::screens {

struct Row {
  std::string label;
  std::vector<std::string> cells;
};

// A drawing in both forms, and the table behind it.
struct Drawn {
  std::string title, note, wide, slim;
  std::vector<std::string> head;   // over the cells
  std::vector<Row> rows;
};

class View {
 public:
  explicit View(const Voice& voice) : voice_(voice) { json_.open('['); }

  void heading(int level, std::string_view id, std::string_view text);
  // `css` is a class of the style sheet, or "".
  void text(std::string_view text, std::string_view css = "");
  // A limit: what is against it, or what to find out.
  void limit(const Limit& limit);
  void list(const std::vector<std::string>& items, bool ordered = false, std::string_view css = "");
  // Headline figures: label, value, and a small word beside it ("" = none).
  struct Figure { std::string label, value, beside; };
  void figures(const std::vector<Figure>& figures);
  void figures_of(const Prospect& prospect);
  void drawing(const Drawn& drawn);
  void table(std::string_view caption, const std::vector<std::string>& head, const std::vector<Row>& rows);
  // The why bar, a row for each contribution.
  void why(const Candidate& candidate);
  // What follows belongs to an element of that class until close(). `label` is an id of a heading, or "".
  void open(std::string_view element, std::string_view css, std::string_view label = "");
  void close();
  // The cautions with these ids, gravest first, each once; nothing for none.
  void cautions(std::vector<std::string> ids);
  // Short signs above them.
  void signs(const std::vector<std::string>& ids);

  [[nodiscard]] std::string take();

 private:
  void begin(std::string_view what);
  void put(std::string_view key, std::string_view value);
  void put(std::string_view key, const std::vector<std::string>& values);
  void put(std::string_view key, const std::vector<Row>& rows);

  const Voice& voice_;
  wire::Text json_;
};

// "Owari, Satsuma"; a type by its own name.
// Cautions that all of several trees, or plans, bring: to be said once.
template <class Told>
[[nodiscard]] std::vector<std::string> common_cautions(const std::vector<Told>& all) {
  std::vector<std::string> common = all.front().cautions;
  std::erase_if(common, [&](const std::string& id) {
    return std::any_of(all.begin(), all.end(), [&](const Told& one) { return std::find(one.cautions.begin(), one.cautions.end(), id) == one.cautions.end(); });
  });
  return common;
}
[[nodiscard]] std::string tree_name(const Voice& voice, std::string_view id);
// "March 1"
[[nodiscard]] std::string day_text(const Voice& voice, int month, int day);
// One letter over each month of a drawing.
[[nodiscard]] std::vector<std::string> month_letters(const Voice& voice);

}  // namespace tenwinters::screens
