// Typed reading of one YAML file: every fault names the path of keys, what was found and what was expected.
#pragma once

#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "loader/source_text.h"
#include "loader/yaml_tree.h"
#include "tenwinters/names.h"

namespace tenwinters {

class YamlFile {
 public:
  YamlFile(std::string name, std::string raw) : source_(std::move(name), std::move(raw)), tree_(source_) {}
  YamlFile(const YamlFile&) = delete;
  YamlFile& operator=(const YamlFile&) = delete;

  [[nodiscard]] const std::string& name() const { return source_.name(); }
  [[nodiscard]] const Node& root() const { return tree_.root(); }
  [[nodiscard]] const std::vector<Diagnostic>& faults() const { return source_.faults(); }
  [[nodiscard]] int line_of(const Node& node) const { return source_.line_of(node.offset); }

  // At the value, at its key, or about the file. The path of keys ("traits.thorns.is: ") is put before.
  void fault(const Node& node, const std::string& message) { tell(node, node.offset, message, false); }
  void fault_at_key(const Node& node, const std::string& message) { tell(node, place_of_key(node), message, false); }
  void warning(const Node& node, const std::string& message) { tell(node, node.offset, message, true); }
  void warning_at_key(const Node& node, const std::string& message) { tell(node, place_of_key(node), message, true); }
  void fault_of_file(const std::string& message) { source_.fault_of_file(message); }
  [[nodiscard]] bool full() const { return source_.full(); }

 private:
  void tell(const Node& node, std::size_t offset, const std::string& message, bool warning);
  // "questions.sun.answers.full.prior: "; items of a list by their id, else [1], [2] ...
  [[nodiscard]] std::string path_to(const Node& node) const;
  [[nodiscard]] static std::size_t place_of_key(const Node& node) {
    return node.key.empty() ? node.offset : node.key_offset;
  }

  SourceText source_;
  YamlTree tree_;
};

// The keys of one map, each asked for once; what was not asked for is unknown.
class MapReader {
 public:
  // A node that is absent (nullptr) or broken reads as a map of which nothing is said.
  MapReader(YamlFile& file, const Node* node);

  // The value under a key; nullptr if it is absent (`take` tells that) or broken. Absent optional keys are fine.
  const Node* take(std::string_view key) { return find(key, true); }
  const Node* take_if(std::string_view key) { return find(key, false); }

  // Tells unknown and missing keys. Call once, when all keys were asked for.
  void finish();

  [[nodiscard]] YamlFile& file() const { return file_; }
  [[nodiscard]] const Node* node() const { return node_; }

 private:
  const Node* find(std::string_view key, bool required);

  YamlFile& file_;
  const Node* node_;  // a map, or nullptr
  std::vector<std::string_view> known_;
  std::vector<std::string_view> missing_;
  std::size_t taken_ = 0;  // keys that were there
};

// Each reader below takes a node that may be absent (nullptr): then it says nothing and returns the default.

// A map whose keys are free; nullptr (and a fault) if it is something else.
const Node* as_map(YamlFile& file, const Node* node);
// The items of a list.
std::span<const Node> items(YamlFile& file, const Node* node);

std::string read_text(YamlFile& file, const Node* node);
// Text, or a whole number ("year").
std::string read_text_or_number(YamlFile& file, const Node* node);
// Lower-case letters, digits and _, beginning with a letter.
std::string read_id(YamlFile& file, const Node* node);
// YYYY-MM-DD, a day that exists.
std::string read_date(YamlFile& file, const Node* node);
// `unit` is only for the message.
double read_number(YamlFile& file, const Node* node, double least, double most, std::string_view unit);
int read_whole(YamlFile& file, const Node* node, int least, int most);
bool read_bool(YamlFile& file, const Node* node);
std::vector<std::string> read_texts(YamlFile& file, const Node* node);
std::vector<std::string> read_ids(YamlFile& file, const Node* node);
// Index in `words`, or -1.
int read_word_index(YamlFile& file, const Node* node, std::span<const std::string_view> words);

template <class E>
E read_word(YamlFile& file, const Node* node) {
  const int index = read_word_index(file, node, names_of<E>());
  return index < 0 ? E{} : static_cast<E>(index);
}

// Words in the order of their list; repeats are faults.
template <class E>
std::vector<E> read_words(YamlFile& file, const Node* node) {
  std::vector<bool> seen(names_of<E>().size(), false);
  for (const Node& item : items(file, node)) {
    const int index = read_word_index(file, &item, names_of<E>());
    if (index < 0) continue;
    if (seen[static_cast<std::size_t>(index)]) file.fault(item, "stands here a second time");
    seen[static_cast<std::size_t>(index)] = true;
  }
  std::vector<E> words;
  for (std::size_t i = 0; i < seen.size(); ++i) {
    if (seen[i]) words.push_back(static_cast<E>(i));
  }
  return words;
}

// Wording shared by the readers.
[[nodiscard]] std::string quoted(std::string_view text);  // "text", cut if long
[[nodiscard]] std::string did_you_mean(std::string_view text, std::span<const std::string_view> names);  // or ""
[[nodiscard]] std::string joined(std::span<const std::string_view> words);                               // a, b, c
[[nodiscard]] std::string number_text(double value);  // shortest: 3, -4.5
[[nodiscard]] bool is_id(std::string_view text);
[[nodiscard]] bool is_date(std::string_view text);
// What YAML readers take for a truth value or nothing at all when it stands without quotes.
[[nodiscard]] bool looks_like_boolean(std::string_view text);

}  // namespace tenwinters
