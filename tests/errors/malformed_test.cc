// Every malformed file in cases/ is told in exactly the words of its expected.txt. See README.md.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "loader/loader.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kFewestCases = 60;
constexpr const char* kToday = "2026-11-25";  // fixed, so that dates read the same for ever

fs::path errors_folder() { return fs::path(TENWINTERS_SOURCE_DIR) / "tests" / "errors"; }

bool updating() {
  const char* update = std::getenv("TENWINTERS_UPDATE");
  return update != nullptr && std::string(update) == "1";
}

std::string content_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

void lay(const fs::path& folder, MemoryReader& files) {
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string path = entry.path().lexically_relative(folder).generic_string();
    if (entry.is_regular_file() && path != "edit.txt" && path != "expected.txt") files.files[path] = content_of(entry.path());
  }
}

std::string unescaped(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\' || i + 1 == text.size()) {
      out += text[i];
      continue;
    }
    const char name = text[++i];
    if (name == 'x') {
      out += static_cast<char>(std::stoi(text.substr(i + 1, 2), nullptr, 16));
      i += 2;
    } else {
      out += name == 'n' ? '\n' : name == 't' ? '\t' : name == 'r' ? '\r' : name;
    }
  }
  return out;
}

// Does the steps of edit.txt; false and a test failure if one does not fit the base.
bool edit(const std::string& steps, MemoryReader& files) {
  std::istringstream lines(steps);
  std::string line, path, sought;
  bool adding = false;
  while (std::getline(lines, line)) {
    const std::size_t blank = std::min(line.find(' '), line.size());
    const std::string word = line.substr(0, blank);
    const std::string rest = line.substr(std::min(blank + 1, line.size()));
    if (word == "in" || word == "add") {
      path = rest;
      adding = word == "add";
      if (adding) files.files[path].clear();
    } else if (word == "find") {
      sought = unescaped(rest);
    } else if (word == "put" && adding) {
      files.files[path] += unescaped(rest);
    } else if (word == "put") {
      std::string& text = files.files[path];
      const std::size_t at = text.find(sought);
      if (sought.empty() || at == std::string::npos || text.find(sought, at + 1) != std::string::npos) {
        ADD_FAILURE() << path << " does not hold exactly once: " << sought;
        return false;
      }
      text.replace(at, sought.size(), unescaped(rest));
    } else if (word == "drop") {
      if (files.files.erase(rest) != 1) ADD_FAILURE() << "nothing to drop: " << rest;
    } else if (word == "fill") {
      const std::size_t last = rest.rfind(' ');
      files.files[rest.substr(0, last)] = std::string(std::stoul(rest.substr(last + 1)), '#');
    } else {
      ADD_FAILURE() << "unknown step: " << line;
      return false;
    }
  }
  return true;
}

// All that is said of catalogue, office and yard, one after the other.
std::string said(const MemoryReader& files) {
  const LoadedCatalog catalog = load_catalog(files, "catalog", kToday);
  const LoadedOffice office = load_office(files, "catalog/offices/demo/office.yaml", catalog.catalog, kToday);
  const LoadedAnswers answers = load_answers(files, "yard.yaml", catalog.catalog, office.office);
  std::string text;
  for (const auto* faults : {&catalog.faults, &office.faults, &answers.faults}) {
    for (const Diagnostic& fault : *faults) text += to_text(fault) + '\n';
  }
  return text;
}

std::vector<fs::path> case_folders() {
  std::vector<fs::path> folders;
  for (const auto& entry : fs::directory_iterator(errors_folder() / "cases")) {
    if (entry.is_directory()) folders.push_back(entry.path());
  }
  std::sort(folders.begin(), folders.end());
  return folders;
}

TEST(Malformed, BaseIsSound) {
  MemoryReader files;
  lay(errors_folder() / "base", files);
  EXPECT_EQ(said(files), "");
}

TEST(Malformed, EveryCaseIsToldExactly) {
  MemoryReader base;
  lay(errors_folder() / "base", base);
  for (const fs::path& folder : case_folders()) {
    SCOPED_TRACE(folder.filename().string());
    MemoryReader files = base;
    lay(folder, files);
    const bool edited = edit(content_of(folder / "edit.txt"), files);
    ASSERT_TRUE(edited);
    EXPECT_NE(files.files, base.files) << "the case changes nothing";
    const std::string text = said(files);
    EXPECT_NE(text, "") << "nothing is said of this case";
    if (updating()) std::ofstream(folder / "expected.txt", std::ios::binary) << text;
    EXPECT_TRUE(fs::exists(folder / "expected.txt")) << "expected.txt is missing";
    EXPECT_EQ(text, content_of(folder / "expected.txt"));
  }
}

TEST(Malformed, ThereAreEnoughCases) {
  const std::vector<fs::path> folders = case_folders();
  EXPECT_GE(folders.size(), kFewestCases);
  for (const auto& entry : fs::directory_iterator(errors_folder() / "cases")) {
    EXPECT_TRUE(entry.is_directory()) << entry.path() << " belongs to no case";
  }
  for (const fs::path& folder : folders) {
    EXPECT_TRUE(fs::exists(folder / "expected.txt")) << folder;
    EXPECT_GT(std::distance(fs::directory_iterator(folder), fs::directory_iterator()), 1) << folder << " has no edit";
  }
}

}  // namespace
}  // namespace tenwinters
