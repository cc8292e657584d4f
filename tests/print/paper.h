// What the print tests share: the program run into a folder of its own, and readers of what it made.
#pragma once

#include <gtest/gtest.h>

#include <cstdint>
#include <regex>
#include <vector>

#include "../unit/cli_run.h"

namespace tenwinters::testing {

// A project of this test alone, with this tree's templates.
class PrintRoom {
 public:
  explicit PrintRoom(const std::string& name) : copy_(name) {}

  [[nodiscard]] Outcome run(const std::string& arguments) const {
    return copy_.run(arguments + " --templates '" + std::string(TENWINTERS_SOURCE_DIR) + "/site-templates' --out out");
  }
  [[nodiscard]] Outcome shell(const std::string& command) const { return run_shell(copy_.folder(), command); }
  [[nodiscard]] const ProjectCopy& project() const { return copy_; }
  void write(const std::string& path, const std::string& text) const { copy_.write(path, text); }
  [[nodiscard]] std::string read(const std::string& path) const { return copy_.read("out/" + path); }
  [[nodiscard]] bool has(const std::string& path) const { return std::filesystem::exists(copy_.folder() / "out" / path); }

 private:
  ProjectCopy copy_;
};

inline bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

inline int count_of(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
  return count;
}

// True, after saying so, where there is nothing to print PDF with.
inline bool no_browser() {
  const bool missing = run_shell("/", "test -n \"$TENWINTERS_BROWSER\" || command -v chromium chromium-browser google-chrome google-chrome-stable").status != 0;
  if (missing) std::fprintf(stderr, "no Chromium-family browser here: the PDF is NOT tested\n");
  return missing;
}
#define SKIP_WITHOUT_BROWSER() \
  if (tenwinters::testing::no_browser()) GTEST_SKIP() << "no Chromium-family browser here"

// A page of a PDF in grey, as pdftoppm writes it.
struct Pixels {
  int width = 0, height = 0;
  std::string grey;
  [[nodiscard]] int at(int x, int y) const { return static_cast<std::uint8_t>(grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)]); }
};
inline Pixels rasterised(const PrintRoom& room, const std::string& pdf, int page, int dpi) {
  const std::string number = std::to_string(page);
  const Outcome made = room.shell("pdftoppm -gray -singlefile -r " + std::to_string(dpi) + " -f " + number + " -l " + number + " 'out/" + pdf + "' page");
  EXPECT_EQ(made.status, 0) << made.text;
  const std::string file = room.project().read("page.pgm");
  Pixels out;
  int most = 0, length = 0;
  EXPECT_EQ(std::sscanf(file.c_str(), "P5 %d %d %d%n", &out.width, &out.height, &most, &length), 3);
  out.grey = file.substr(static_cast<std::size_t>(length) + 1);
  EXPECT_EQ(out.grey.size(), static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height));
  return out;
}

// What a decoder reads on a page, in no order.
inline std::vector<std::string> codes_on(const PrintRoom& room, const std::string& pdf, int page, int dpi) {
  const std::string number = std::to_string(page);
  const Outcome read = room.shell("pdftoppm -gray -singlefile -r " + std::to_string(dpi) + " -f " + number + " -l " + number + " 'out/" + pdf +
                                  "' code && zbarimg -q --raw -Sdisable -Sqrcode.enable code.pgm 2>/dev/null");
  std::vector<std::string> out;
  std::istringstream lines(read.text);
  for (std::string line; std::getline(lines, line);) out.push_back(line);
  return out;
}

}  // namespace tenwinters::testing
