// What a folder holds, and a folder of a test's own.
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include "faults/sets.h"
#include "unit/cli_run.h"

namespace tenwinters::testing {

namespace fs = std::filesystem;

using Contents = std::map<std::string, std::string>;  // path to content; a link to "-> where it leads"

// Our own bookkeeping is left out.
inline Contents contents(const fs::path& folder) {
  Contents out;
  for (auto it = fs::recursive_directory_iterator(folder); it != fs::recursive_directory_iterator(); ++it) {
    const std::string path = it->path().lexically_relative(folder).generic_string();
    if (path.starts_with(".tenwinters")) {
      it.disable_recursion_pending();
      continue;
    }
    if (it->is_symlink()) out[path] = "-> " + fs::read_symlink(it->path()).string();
    else if (it->is_regular_file()) out[path] = file_text(it->path());
  }
  return out;
}

inline Contents contents_of(const std::vector<OutputFile>& files) {
  Contents out;
  for (const OutputFile& file : files) out[file.path] = file.content;
  return out;
}

inline Contents joined(Contents a, const Contents& b) {
  a.insert(b.begin(), b.end());
  return a;
}

class Scratch {
 public:
  explicit Scratch(const std::string& name)
      : path_(fs::temp_directory_path() / ("tenwinters_" + std::to_string(::getpid()) + "_" + name)) {
    fs::remove_all(path_);
    fs::create_directories(path_);
  }
  ~Scratch() {
    std::error_code error;
    fs::remove_all(path_, error);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] const fs::path& path() const { return path_; }
  void write(const std::string& path, const std::string& text) const {
    fs::create_directories((path_ / path).parent_path());
    std::ofstream(path_ / path, std::ios::binary) << text;
  }

 private:
  fs::path path_;
};

}  // namespace tenwinters::testing
