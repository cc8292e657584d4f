#include "loader/yaml_file.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "lib/utf8.h"

namespace tenwinters {
namespace {

constexpr std::string_view kEmpty = "empty; write a value, or leave the key out where it may be left out";

bool find_path(const Node& from, const Node& target, std::string& path) {
  if (&from == &target) return true;
  int place = 0;
  for (const Node& child : from.children) {
    ++place;
    const std::size_t length = path.size();
    if (from.kind == Node::Kind::map) {
      path += length == 0 ? "" : ".";
      path += child.key;
    } else {
      const Node* id = child.find("id");
      path += id != nullptr && id->kind == Node::Kind::scalar ? "." + std::string(id->text) : "[" + std::to_string(place) + "]";
    }
    if (find_path(child, target, path)) return true;
    path.resize(length);
  }
  return false;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool all_digits(std::string_view text) { return !text.empty() && std::all_of(text.begin(), text.end(), is_digit); }

std::string_view without_sign(std::string_view text) {
  if (!text.empty() && (text.front() == '-' || text.front() == '+')) text.remove_prefix(1);
  return text;
}

// -12, 3.5: no exponent, no leading zero, no bare point.
bool is_number(std::string_view text) {
  if (text.starts_with('+')) return false;
  text = without_sign(text);
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  if (!all_digits(whole) || (whole.size() > 1 && whole.front() == '0')) return false;
  return point == std::string_view::npos || all_digits(text.substr(point + 1));
}

// 010 and 0o10 are eight and 0x1F is 31 to some readers.
bool looks_octal_or_hex(std::string_view text) {
  text = without_sign(text);
  if (text.size() < 2 || text.front() != '0') return false;
  if (text[1] == 'o' || text[1] == 'x' || text[1] == 'b') {
    return text.find_first_not_of("0123456789abcdefABCDEF", 2) == std::string_view::npos;
  }
  return all_digits(text);
}

bool looks_like_infinity(std::string_view text) {
  text = without_sign(text);
  constexpr std::array<std::string_view, 6> kNames = {".inf", ".Inf", ".INF", ".nan", ".NaN", ".NAN"};
  return std::find(kNames.begin(), kNames.end(), text) != kNames.end();
}

std::string found(const Node& node) {
  switch (node.kind) {
    case Node::Kind::map:
      return "found a map";
    case Node::Kind::list:
      return "found a list";
    case Node::Kind::scalar:
      return "found " + quoted(node.text);
    default:
      return "found nothing";
  }
}

bool is_empty(const Node& node) {
  return node.kind == Node::Kind::null ||
         (node.is_plain() && (node.text == "~" || node.text == "null" || node.text == "Null" || node.text == "NULL"));
}

// True for a scalar that holds something; tells what it is otherwise. `expected()` as in "a number": it is
// called only when there is something to tell, for most reading is of sound files.
template <class Expected>
bool scalar(YamlFile& file, const Node* node, const Expected& expected) {
  if (node == nullptr || node->kind == Node::Kind::broken) return false;
  if (is_empty(*node)) {
    file.fault(*node, std::string(kEmpty));
    return false;
  }
  if (node->kind != Node::Kind::scalar) {
    file.fault(*node, found(*node) + ", expected " + std::string(expected()));
    return false;
  }
  return true;
}

std::string range(double least, double most, std::string_view unit) {
  std::string text = number_text(least) + " to " + number_text(most);
  if (!unit.empty()) text += " " + std::string(unit);
  return text;
}

template <class Expected>
bool parse_number(YamlFile& file, const Node* node, const Expected& expected, double& value) {
  if (!scalar(file, node, expected)) return false;
  const std::string_view text = node->text;
  const auto refuse = [&](const std::string& why) {
    file.fault(*node, "found " + quoted(text) + why);
    return false;
  };
  if (node->style != Node::Style::plain && is_number(text))
    return refuse(" in quotes, which is text; a number stands without quotes");
  if (looks_octal_or_hex(text))
    return refuse(", which some YAML readers take for an octal or hexadecimal number; expected " + expected());
  if (looks_like_infinity(text)) return refuse(", which is no figure; expected " + expected());
  const std::size_t digits = text.find_first_not_of("-+.0123456789");
  if (digits != std::string_view::npos && digits > 0 && is_number(text.substr(0, digits)) &&
      text.find_first_of("0123456789", digits) == std::string_view::npos) {
    return refuse("; expected " + expected() + ", with nothing behind the figure");
  }
  if (!is_number(text)) return refuse("; expected " + expected());
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  if (result.ec != std::errc()) return refuse("; expected " + expected());
  return true;
}

}  // namespace

std::string quoted(std::string_view text) {
  constexpr std::size_t kMost = 60;
  if (text.size() <= kMost) return '"' + std::string(text) + '"';
  std::size_t end = 0;
  for (std::size_t next = 0; next <= kMost; next += code_point_at(text, next).bytes) end = next;
  return '"' + std::string(text.substr(0, end)) + "...\"";
}

std::string did_you_mean(std::string_view text, std::span<const std::string_view> names) {
  const std::string_view nearest = nearest_name(text, names);
  return nearest.empty() ? "" : "; did you mean " + quoted(nearest) + "?";
}

std::string joined(std::span<const std::string_view> words) {
  std::string text;
  for (std::string_view word : words) text += (text.empty() ? "" : ", ") + std::string(word);
  return text;
}

std::string number_text(double value) {
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
  return {buffer.data(), end};
}

bool is_id(std::string_view text) {
  if (text.empty() || text.size() > 60 || text.front() < 'a' || text.front() > 'z') return false;
  return std::all_of(text.begin(), text.end(), [](char c) { return (c >= 'a' && c <= 'z') || is_digit(c) || c == '_'; });
}

bool is_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (const std::size_t part : {0U, 5U, 8U}) {
    if (!all_digits(text.substr(part, part == 0 ? 4 : 2))) return false;
  }
  const auto number = [&](std::size_t at, std::size_t length) {
    int value = 0;
    for (const char c : text.substr(at, length)) value = value * 10 + (c - '0');
    return value;
  };
  const int year = number(0, 4), month = number(5, 2), day = number(8, 2);
  if (year < 1500 || month < 1 || month > 12 || day < 1) return false;
  constexpr std::array<int, 12> kDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
  return day <= kDays[static_cast<std::size_t>(month - 1)] + (month == 2 && leap ? 1 : 0);
}

bool looks_like_boolean(std::string_view text) {
  if (text.size() > 5) return false;
  std::string lower(text);
  for (char& c : lower) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  constexpr std::array<std::string_view, 10> kWords = {"y",   "n",    "yes",   "no",   "on",
                                                       "off", "true", "false", "null", "~"};
  return std::find(kWords.begin(), kWords.end(), lower) != kWords.end();
}

void YamlFile::tell(const Node& node, std::size_t offset, const std::string& message, bool warning) {
  // Finding the path walks the tree; for the thousandth fault of a file nobody will read it.
  const std::string text = full() ? message : path_to(node) + message;
  if (warning) {
    source_.warning(offset, text);
  } else {
    source_.fault(offset, text);
  }
}

std::string YamlFile::path_to(const Node& node) const {
  std::string path;
  if (!find_path(root(), node, path) || path.empty()) return "";
  if (path.front() == '.') path.erase(0, 1);
  return path + ": ";
}

MapReader::MapReader(YamlFile& file, const Node* node) : file_(file), node_(as_map(file, node)) {
  constexpr std::size_t kUsual = 8;  // keys of a figure
  known_.reserve(kUsual);
}

const Node* MapReader::find(std::string_view key, bool required) {
  known_.push_back(key);
  if (node_ == nullptr) return nullptr;
  // Most files keep the house order, in which the next key asked for is the next one there.
  const auto& children = node_->children;
  const bool next = taken_ < children.size() && children[taken_].key == key;
  const Node* child = next ? &children[taken_] : node_->find(key);
  if (child == nullptr) {
    if (required) missing_.push_back(key);
    return nullptr;
  }
  ++taken_;
  return child->kind == Node::Kind::broken ? nullptr : child;
}

void MapReader::finish() {
  if (node_ == nullptr) return;
  if (taken_ < node_->children.size()) {
    for (const Node& child : node_->children) {
      if (file_.full()) return;
      if (std::find(known_.begin(), known_.end(), child.key) != known_.end()) continue;
      const std::string_view nearest = nearest_name(child.key, known_);
      std::erase(missing_, nearest);  // a slip of the pen is told once
      std::string message = "unknown key";
      if (!nearest.empty()) message += "; did you mean " + quoted(nearest) + "?";
      file_.fault_at_key(child, message + (nearest.empty() ? "; " : " ") + "Keys here: " + joined(known_));
    }
  }
  if (node_->partial) return;
  for (std::string_view key : missing_) file_.fault_at_key(*node_, "the key " + quoted(key) + " is missing");
}

const Node* as_map(YamlFile& file, const Node* node) {
  if (node == nullptr || node->kind == Node::Kind::broken) return nullptr;
  if (node->kind == Node::Kind::map) return node;
  file.fault(*node, is_empty(*node) ? std::string(kEmpty) : found(*node) + ", expected a map");
  return nullptr;
}

std::span<const Node> items(YamlFile& file, const Node* node) {
  if (node == nullptr || node->kind == Node::Kind::broken) return {};
  if (node->kind == Node::Kind::list) return node->children;
  file.fault(*node, is_empty(*node) ? std::string(kEmpty) : found(*node) + ", expected a list");
  return {};
}

std::string read_text_or_number(YamlFile& file, const Node* node) {
  if (node != nullptr && node->is_plain() && is_number(node->text) && node->text.find('.') == std::string::npos)
    return std::string(node->text);
  return read_text(file, node);
}

std::string read_text(YamlFile& file, const Node* node) {
  if (!scalar(file, node, [] { return "text"; })) return "";
  const std::string_view text = node->text;
  if (node->is_plain()) {
    if (looks_like_boolean(text)) {
      file.fault(*node,
                 "found " + quoted(text) +
                     " without quotes, which YAML readers take for a truth value; expected text, put it in quotes");
    } else if (is_number(text) || looks_octal_or_hex(text) || looks_like_infinity(text)) {
      file.fault(*node,
                 "found " + quoted(text) + " without quotes, which is a number; expected text, put it in quotes");
    }
  } else if (text.find_first_not_of(" \n\t") == std::string_view::npos) {
    file.fault(*node, "found empty text; write something, or leave the key out where it may be left out");
  }
  return std::string(text);
}

std::string read_id(YamlFile& file, const Node* node) {
  constexpr std::string_view kExpected = "an id: lower-case letters, digits and _, beginning with a letter";
  if (!scalar(file, node, [&] { return kExpected; })) return "";
  if (node->is_plain() && looks_like_boolean(node->text)) {
    file.fault(*node,
               "found " + quoted(node->text) +
                   " without quotes, which YAML readers take for a truth value; put it in quotes or choose another id");
    return "";
  }
  if (is_id(node->text)) return std::string(node->text);
  file.fault(*node, "found " + quoted(node->text) + ", expected " + std::string(kExpected));
  return "";
}

std::string read_date(YamlFile& file, const Node* node) {
  if (!scalar(file, node, [] { return "a date, as 2026-11-25"; })) return "";
  if (is_date(node->text)) return std::string(node->text);
  file.fault(*node, "found " + quoted(node->text) + ", expected a date that exists, as 2026-11-25");
  return "";
}

double read_number(YamlFile& file, const Node* node, double least, double most, std::string_view unit) {
  double value = 0;
  const auto expected = [&] { return "a number from " + range(least, most, unit); };
  if (!parse_number(file, node, expected, value)) return 0;
  if (value < least || value > most) file.fault(*node, "found " + std::string(node->text) + ", expected " + expected());
  return value;
}

int read_whole(YamlFile& file, const Node* node, int least, int most) {
  double value = 0;
  const auto expected = [&] { return "a whole number from " + range(least, most, ""); };
  if (!parse_number(file, node, expected, value)) return 0;
  if (value >= least && value <= most && node->text.find('.') == std::string::npos) return static_cast<int>(value);
  file.fault(*node, "found " + std::string(node->text) + ", expected " + expected());
  return 0;
}

bool read_bool(YamlFile& file, const Node* node) {
  if (!scalar(file, node, [] { return "true or false"; })) return false;
  if (node->is_plain() && (node->text == "true" || node->text == "false")) return node->text == "true";
  file.fault(*node, found(*node) + (node->is_plain() ? "" : " in quotes") + ", expected true or false");
  return false;
}

int read_word_index(YamlFile& file, const Node* node, std::span<const std::string_view> words) {
  const auto expected = [&] { return "one of " + joined(words); };
  if (!scalar(file, node, expected)) return -1;
  const auto place = std::find(words.begin(), words.end(), node->text);
  if (place != words.end()) return static_cast<int>(place - words.begin());
  file.fault(*node, found(*node) + ", expected " + expected() + did_you_mean(node->text, words));
  return -1;
}

std::vector<std::string> read_texts(YamlFile& file, const Node* node) {
  std::vector<std::string> texts;
  for (const Node& item : items(file, node)) {
    std::string text = read_text(file, &item);
    if (text.empty()) continue;
    if (std::find(texts.begin(), texts.end(), text) != texts.end()) {
      file.fault(item, quoted(text) + " stands here a second time");
    } else {
      texts.push_back(std::move(text));
    }
  }
  return texts;
}

std::vector<std::string> read_ids(YamlFile& file, const Node* node) {
  std::vector<std::string> ids;
  for (const Node& item : items(file, node)) {
    std::string id = read_id(file, &item);
    if (id.empty()) continue;
    if (std::find(ids.begin(), ids.end(), id) != ids.end()) {
      file.fault(item, quoted(id) + " stands here a second time");
    } else {
      ids.push_back(std::move(id));
    }
  }
  return ids;
}

}  // namespace tenwinters
