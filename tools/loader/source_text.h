// One text file under reading: its text made fit for reading, and the way from a place to a Diagnostic.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "lib/diagnostic.h"

namespace tenwinters {

class SourceText {
 public:
  // Takes the raw bytes and reports what a file of ours must not hold: a byte-order mark, CRLF line ends
  // and bytes that are not UTF-8 (each told once), hidden characters. The kept text has LF line ends, no
  // mark, and ends in a line feed, so that readers need not mind.
  SourceText(std::string name, std::string raw);

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] std::string_view text() const { return text_; }

  // A fault or warning at a byte of text(); lines and columns (in characters) count from 1.
  void fault(std::size_t offset, std::string message) { add(offset, std::move(message), false); }
  void warning(std::size_t offset, std::string message) { add(offset, std::move(message), true); }
  // About the file as a whole.
  void fault_of_file(std::string message) { faults_.push_back({name_, 0, 0, std::move(message), "", false}); }
  void warning_of_file(std::string message) { faults_.push_back({name_, 0, 0, std::move(message), "", true}); }

  // Enough was said of this file; a reader may save itself the wording of more.
  [[nodiscard]] bool full() const { return told_faults_ > kMost; }
  [[nodiscard]] int line_of(std::size_t offset) const;
  [[nodiscard]] const std::vector<Diagnostic>& faults() const { return faults_; }

 private:
  static constexpr std::size_t kMost = 100;  // faults, and warnings; a broken tool may make thousands

  void add(std::size_t offset, std::string message, bool warning);
  void check_characters();

  std::string name_;
  std::string text_;
  std::vector<std::size_t> line_starts_;
  std::vector<Diagnostic> faults_;
  std::size_t told_faults_ = 0, told_warnings_ = 0;
};

}  // namespace tenwinters
