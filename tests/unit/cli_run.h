// Runs the built program in a folder, as a person would.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace tenwinters::testing {

struct Outcome {
  int status = -1;
  std::string text;  // standard output and standard error
};

inline Outcome run_shell(const std::filesystem::path& folder, const std::string& command) {
  FILE* pipe = popen(("cd '" + folder.string() + "' && { " + command + "\n} 2>&1").c_str(), "r");
  Outcome outcome;
  std::array<char, 4096> block{};
  for (std::size_t n; (n = fread(block.data(), 1, block.size(), pipe)) > 0;) outcome.text.append(block.data(), n);
  outcome.status = WEXITSTATUS(pclose(pipe));
  return outcome;
}

inline std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

// A copy of the catalogue and the README in a folder of this test alone, removed with it.
class ProjectCopy {
 public:
  explicit ProjectCopy(const std::string& name)
      : folder_(std::filesystem::temp_directory_path() / ("tenwinters_" + std::to_string(::getpid()) + "_" + name)) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    const std::filesystem::path source = TENWINTERS_SOURCE_DIR;
    std::filesystem::copy(source / "catalog", folder_ / "catalog", std::filesystem::copy_options::recursive);
    std::filesystem::copy(source / "README.md", folder_);
  }
  ~ProjectCopy() { std::filesystem::remove_all(folder_); }
  ProjectCopy(const ProjectCopy&) = delete;
  ProjectCopy& operator=(const ProjectCopy&) = delete;

  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  [[nodiscard]] std::string read(const std::string& path) const { return file_text(folder_ / path); }
  void write(const std::string& path, const std::string& text) const { std::ofstream(folder_ / path, std::ios::binary) << text; }
  [[nodiscard]] Outcome run(const std::string& arguments) const {
    return run_shell(folder_, std::string(TENWINTERS_BINARY_DIR) + "/tenwinters --today 2026-12-01 " + arguments);
  }

 private:
  std::filesystem::path folder_;
};

}  // namespace tenwinters::testing
