#include "lib/descriptor.h"
#include "lib/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

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
  // Straight to the system: a catalogue is some hundreds of small files, and each call counts.
  struct stat about {};
  // Not to wait for somebody to write into a pipe.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.number() < 0 || ::fstat(file.number(), &about) != 0) {
    why = errno == ENOENT || errno == ENOTDIR ? "there is no such file" : std::string("cannot be read: ") + std::strerror(errno);
    return std::nullopt;
  }
  if (S_ISDIR(about.st_mode)) {
    why = "is a folder, expected a file";
    return std::nullopt;
  }
  // A device or a pipe may never end; a regular file says its size.
  if (!S_ISREG(about.st_mode)) {
    why = "is not a regular file";
    return std::nullopt;
  }
  std::string content(std::min(limit, static_cast<std::size_t>(about.st_size)) + 1, '\0');
  std::size_t filled = 0;
  while (filled < content.size()) {
    const ssize_t got = ::read(file.number(), content.data() + filled, content.size() - filled);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      why = std::string("cannot be read: ") + std::strerror(errno);
      return std::nullopt;
    }
    filled += static_cast<std::size_t>(got);
    // All that was there; asking once more would only say so.
    if (got == 0 || (filled == static_cast<std::size_t>(about.st_size) && about.st_size > 0)) break;
  }
  content.resize(filled);
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
