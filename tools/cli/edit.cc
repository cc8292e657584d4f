#include "cli/edit.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace tenwinters::cli {
namespace fs = std::filesystem;

std::vector<std::string> catalog_files(const std::string& root) {
  std::vector<std::string> paths;
  std::error_code error;
  const auto add = [&](const fs::path& folder) {
    for (const auto& entry : fs::directory_iterator(folder, error)) {
      const std::string name = entry.path().filename().string();
      if (entry.is_regular_file(error) && name.ends_with(".yaml") && !name.starts_with('.'))
        paths.push_back(fs::path(entry.path()).lexically_relative(root).generic_string());
    }
  };
  add(root);
  for (const char* folder : {"types", "cultivars", "rootstocks", "words"}) add(fs::path(root) / folder);
  for (const auto& office : fs::directory_iterator(fs::path(root) / "offices", error)) add(office.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

std::string write_file(const std::string& path, const std::string& content) {
  std::error_code error;
  const fs::path beside = path + ".new";
  {
    std::ofstream out(beside, std::ios::binary);
    out << content;
    out.close();
    if (!out) {
      fs::remove(beside, error);
      return "\"" + path + "\" cannot be written; is there room, and may you write there?";
    }
  }
  fs::rename(beside, path, error);
  if (!error) return "";
  const std::string why = error.message();
  fs::remove(beside, error);
  return "\"" + path + "\" cannot be replaced: " + why;
}

}  // namespace tenwinters::cli
