// Lines and cells of a station file, without copies. Private to the records library.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lib/diagnostic.h"

namespace tenwinters::records {

// Walks the lines of a text; CR before LF is not part of a line.
class Lines {
 public:
  explicit Lines(std::string_view text);  // skips a byte-order mark
  bool next(std::string_view& line);
  [[nodiscard]] int number() const { return number_; }  // of the line last returned, from 1

 private:
  std::string_view rest_;
  int number_ = 0;
};

struct Cell {
  std::string_view text;  // without surrounding blanks and quotes
  int column = 1;         // from 1
};

inline constexpr char kBlanks = ' ';  // separator: any run of blanks and tabs

// Splits a line at `separator`; quoted cells may hold it.
void split(std::string_view line, char separator, std::vector<Cell>& cells);

// The separator that cuts this line into the most cells.
[[nodiscard]] char guess_separator(std::string_view line);

[[nodiscard]] std::string_view trim(std::string_view text);
[[nodiscard]] std::string lower(std::string_view text);

[[nodiscard]] std::optional<double> to_number(std::string_view text, bool decimal_comma = false);
[[nodiscard]] std::optional<int> to_whole(std::string_view text);

// Empty, NA, null, M, and the codes that files use for "not read" whatever the unit (-99.9, -9999 ...).
[[nodiscard]] bool is_missing(std::string_view text);

// Why this is no text file ("is compressed (gzip); unpack it first"), or "".
[[nodiscard]] std::string not_text(std::string_view text);

// Fills Diagnostic::source_line of each from the text.
void add_source_lines(std::string_view text, std::vector<Diagnostic>& faults);

// Reports of one file. Of each kind only the first few are told, then how many more there were.
class Reports {
 public:
  explicit Reports(std::string file) : file_(std::move(file)) {}
  void fault(int line, int column, std::string message, std::string_view kind = "fault") {
    add(line, column, std::move(message), kind, false);
  }
  void warn(int line, int column, std::string message, std::string_view kind) {
    add(line, column, std::move(message), kind, true);
  }
  [[nodiscard]] bool any_fault() const { return any_fault_; }
  std::vector<Diagnostic> take(std::string_view text);

 private:
  static constexpr int kTold = 12;
  struct Kind {
    std::string name;
    int count = 0;
    bool warning = true;
  };
  void add(int line, int column, std::string message, std::string_view kind, bool warning);
  std::string file_;
  std::vector<Diagnostic> told_;
  std::vector<Kind> kinds_;
  bool any_fault_ = false;
};

}  // namespace tenwinters::records
