#include "lib/files.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

namespace tenwinters {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> entries(const std::string& folder, bool folders) {
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator it(folder.empty() ? "." : folder, error), end; !error && it != end; it.increment(error)) {
    std::error_code unreadable;
    if (folders ? it->is_directory(unreadable) : it->is_regular_file(unreadable))
      names.push_back(it->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string too_large(std::size_t limit) {
  return "larger than the limit of " + std::to_string(limit / 1024) + " KiB";
}

std::string without_slash(std::string folder) {
  while (folder.size() > 1 && folder.ends_with('/')) folder.pop_back();
  return folder;
}

}  // namespace

std::optional<std::string> DiskReader::read(const std::string& path, std::size_t limit, std::string& why) const {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status)) {
    why = status.type() == fs::file_type::none ? "cannot be read: " + error.message() : "there is no such file";
    return std::nullopt;
  }
  if (fs::is_directory(status)) {
    why = "is a folder, expected a file";
    return std::nullopt;
  }
  // A device or a pipe may never end; a regular file says its size.
  if (!fs::is_regular_file(status)) {
    why = "is not a regular file";
    return std::nullopt;
  }
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    why = std::string("cannot be read: ") + std::strerror(errno);
    return std::nullopt;
  }
  std::string content;
  const auto size = fs::file_size(path, error);
  content.resize(std::min(limit, error ? limit : static_cast<std::size_t>(size)) + 1);
  in.read(content.data(), static_cast<std::streamsize>(content.size()));
  content.resize(static_cast<std::size_t>(in.gcount()));
  if (content.size() > limit) {
    why = too_large(limit);
    return std::nullopt;
  }
  return content;
}

std::vector<std::string> DiskReader::list(const std::string& folder) const {
  return entries(folder, false);
}
std::vector<std::string> DiskReader::folders(const std::string& folder) const {
  return entries(folder, true);
}

std::optional<std::string> MemoryReader::read(const std::string& path, std::size_t limit, std::string& why) const {
  const auto found = files.find(path);
  if (found == files.end()) {
    why = "there is no such file";
    return std::nullopt;
  }
  if (found->second.size() > limit) {
    why = too_large(limit);
    return std::nullopt;
  }
  return found->second;
}

std::vector<std::string> MemoryReader::list(const std::string& folder) const {
  const std::string prefix = folder.empty() || folder == "." ? "" : without_slash(folder) + "/";
  std::vector<std::string> names;
  for (auto it = files.lower_bound(prefix); it != files.end() && it->first.starts_with(prefix); ++it) {
    const std::string rest = it->first.substr(prefix.size());
    if (rest.find('/') == std::string::npos) names.push_back(rest);
  }
  return names;
}

std::vector<std::string> MemoryReader::folders(const std::string& folder) const {
  const std::string prefix = folder.empty() || folder == "." ? "" : without_slash(folder) + "/";
  std::set<std::string> names;
  for (auto it = files.lower_bound(prefix); it != files.end() && it->first.starts_with(prefix); ++it) {
    const std::string rest = it->first.substr(prefix.size());
    if (const std::size_t slash = rest.find('/'); slash != std::string::npos) names.insert(rest.substr(0, slash));
  }
  return {names.begin(), names.end()};
}

}  // namespace tenwinters
