// write_output: a set of files into a folder, all or nothing.
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <set>

#include "lib/descriptor.h"
#include "lib/files.h"
#include "lib/utf8.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;

constexpr const char* kManifest = ".tenwinters-manifest";
constexpr const char* kAside = ".tenwinters-aside";
constexpr std::string_view kManifestHead =
    "# Files that tenwinters wrote here. A later run removes these and no others.\n";

using Problem = std::optional<std::string>;

// Relative, inside the folder, and none of our own bookkeeping.
bool is_safe_path(const std::string& path) {
  if (path.empty() || path.front() == '/' || path.back() == '/' || shown(path) != path ||
      path.find('\\') != std::string::npos)
    return false;
  const fs::path parts(path);
  return std::none_of(parts.begin(), parts.end(), [](const fs::path& part) {
    return part == ".." || part == "." || part.empty() || part == kManifest || part == kAside;
  });
}

std::string why(const std::error_code& error) {
  return error.message();
}

Problem cannot_write(const fs::path& path, const std::string& reason) {
  return "cannot write " + path.string() + ": " + reason + "; the output of the last run is still there as it was";
}

std::optional<std::string> content_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary | std::ios::ate);
  if (!in) return std::nullopt;
  std::string text(static_cast<std::size_t>(std::max<std::streamoff>(in.tellg(), 0)), '\0');
  in.seekg(0);
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  return in ? std::optional(std::move(text)) : std::nullopt;
}

bool holds(const fs::path& path, const std::string& content) {
  std::error_code error;
  if (fs::file_size(path, error) != content.size() || error) return false;
  return content_of(path) == content;
}

Problem write_file(const fs::path& path, const std::string& content) {
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  if (error) return cannot_write(path.parent_path(), why(error));
  errno = 0;
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(content.data(), static_cast<std::streamsize>(content.size()));
  out.close();
  if (!out) return cannot_write(path, errno != 0 ? std::strerror(errno) : "the disk may be full");
  return std::nullopt;
}

// Keeps a second run out of the folder while this one writes.
class FolderLock {
 public:
  explicit FolderLock(const fs::path& folder)
      : open_(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)),
        held_(open_.number() >= 0 && ::flock(open_.number(), LOCK_EX | LOCK_NB) == 0) {}
  [[nodiscard]] bool held() const { return held_; }

 private:
  Descriptor open_;
  bool held_;
};

// Moves files in and out, and can take it all back.
class Swap {
 public:
  Swap(fs::path folder, fs::path aside) : folder_(std::move(folder)), aside_(std::move(aside)) {}

  Problem take_away(const std::string& path) { return move(folder_ / path, aside_ / "old" / path); }

  Problem bring_in(const std::string& path) {
    std::error_code error;
    if (fs::symlink_status(folder_ / path, error).type() == fs::file_type::directory) {
      fs::remove(folder_ / path, error);  // only if empty
    }
    if (fs::exists(fs::symlink_status(folder_ / path, error))) {
      if (Problem problem = take_away(path)) return problem;
    }
    return move(aside_ / "new" / path, folder_ / path);
  }

  void take_back() {
    for (auto step = steps_.rbegin(); step != steps_.rend(); ++step) {
      std::error_code error;
      fs::create_directories(step->first.parent_path(), error);
      fs::rename(step->second, step->first, error);
    }
  }

 private:
  Problem move(const fs::path& from, const fs::path& to) {
    std::error_code error;
    fs::create_directories(to.parent_path(), error);
    if (!error) fs::rename(from, to, error);
    if (error) return cannot_write(to, why(error));
    steps_.emplace_back(from, to);
    return std::nullopt;
  }

  fs::path folder_, aside_;
  std::vector<std::pair<fs::path, fs::path>> steps_;
};

std::set<std::string> read_manifest(const fs::path& folder) {
  std::set<std::string> paths;
  std::ifstream in(folder / kManifest, std::ios::binary);
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with('#') && is_safe_path(line)) paths.insert(line);
  }
  return paths;
}

bool is_below(const std::string& path, const std::string& folder) {
  return path.size() > folder.size() && path.starts_with(folder) && path[folder.size()] == '/';
}

// A folder on the way that is a link leads out of the output; a foreign file must not be lost.
Problem in_the_way(const fs::path& folder, const std::string& path, const std::set<std::string>& ours) {
  std::error_code error;
  fs::path here = folder;
  std::string walked;
  for (const fs::path& part : fs::path(path)) {
    here /= part;
    walked += (walked.empty() ? "" : "/") + part.string();
    const fs::file_type type = fs::symlink_status(here, error).type();
    const bool last = walked == path;
    if (type == fs::file_type::not_found) return std::nullopt;
    if (ours.contains(walked) && type == fs::file_type::regular) return std::nullopt;
    if (type == fs::file_type::directory && !last) continue;
    if (type == fs::file_type::directory) {
      const bool only_ours =
          std::any_of(ours.begin(), ours.end(), [&](const std::string& each) { return is_below(each, path); });
      if (only_ours || fs::is_empty(here, error)) return std::nullopt;
    }
    return here.string() +
           " stands in the way and was not written by tenwinters; move it away or choose another folder";
  }
  return std::nullopt;
}

void remove_empty_folders(const fs::path& folder, const std::string& path) {
  std::error_code error;
  for (fs::path below = fs::path(path).parent_path(); !below.empty(); below = below.parent_path()) {
    if (!fs::remove(folder / below, error)) return;  // fails unless it is empty
  }
}

std::string manifest_text(const std::set<std::string>& paths) {
  std::string text(kManifestHead);
  for (const std::string& path : paths) text += path + '\n';
  return text;
}

// Pages come after what they show, so that none ever shows something that is not there yet.
bool page_last(const OutputFile* a, const OutputFile* b) {
  const bool page_a = a->path.ends_with(".html"), page_b = b->path.ends_with(".html");
  return page_a != page_b ? page_b : a->path < b->path;
}

class Writer {
 public:
  Writer(const std::string& folder, const std::vector<OutputFile>& files)
      : folder_(folder), aside_(folder_ / kAside), files_(files), swap_(folder_, aside_) {}

  Problem run() {
    std::error_code error;
    fs::create_directories(folder_, error);
    if (error || !fs::is_directory(folder_)) return cannot_write(folder_, error ? why(error) : "it is not a folder");
    const FolderLock lock(folder_);
    if (!lock.held()) return cannot_write(folder_, "another run is writing there, or the folder cannot be opened");
    fs::remove_all(aside_, error);  // of a run that was cut off
    Problem problem = write();
    if (problem) swap_.take_back();
    fs::remove_all(aside_, error);
    return problem;
  }

 private:
  Problem write() {
    const std::set<std::string> before = read_manifest(folder_);
    std::set<std::string> wanted, owned;
    std::vector<const OutputFile*> changed;
    for (const OutputFile& file : files_) {
      wanted.insert(file.path);
      const bool same = is_regular(file.path) && holds(folder_ / file.path, file.content);
      if (!same || before.contains(file.path)) owned.insert(file.path);
      if (same) continue;
      if (Problem problem = in_the_way(folder_, file.path, before)) return problem;
      if (Problem problem = write_file(aside_ / "new" / file.path, file.content)) return problem;
      changed.push_back(&file);
    }
    const std::string manifest = manifest_text(owned);
    const bool new_manifest = !holds(folder_ / kManifest, manifest);
    if (new_manifest) {
      if (Problem problem = write_file(aside_ / "new" / kManifest, manifest)) return problem;
    }

    std::vector<std::string> unwanted;
    for (const std::string& path : before) {
      if (!wanted.contains(path) && is_regular(path)) unwanted.push_back(path);
    }
    // A file that became a folder, or a folder that became a file, has to go first.
    const auto later = std::stable_partition(unwanted.begin(), unwanted.end(), [&](const std::string& path) {
      return std::any_of(changed.begin(), changed.end(), [&](const OutputFile* file) {
        return is_below(file->path, path) || is_below(path, file->path);
      });
    });
    for (auto path = unwanted.begin(); path != later; ++path) {
      if (Problem problem = swap_.take_away(*path)) return problem;
      remove_empty_folders(folder_, *path);
    }
    std::sort(changed.begin(), changed.end(), page_last);
    for (const OutputFile* file : changed) {
      if (Problem problem = swap_.bring_in(file->path)) return problem;
    }
    for (auto path = later; path != unwanted.end(); ++path) {
      if (Problem problem = swap_.take_away(*path)) return problem;
    }
    if (new_manifest) {
      if (Problem problem = swap_.bring_in(kManifest)) return problem;
    }
    for (const std::string& path : unwanted) remove_empty_folders(folder_, path);
    return std::nullopt;
  }

  [[nodiscard]] bool is_regular(const std::string& path) const {
    std::error_code error;
    return fs::symlink_status(folder_ / path, error).type() == fs::file_type::regular;
  }

  fs::path folder_, aside_;
  const std::vector<OutputFile>& files_;
  Swap swap_;
};

}  // namespace

std::optional<std::string> write_output(const std::string& folder, std::vector<OutputFile> files) {
  std::sort(files.begin(), files.end(), [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; });
  for (std::size_t i = 0; i < files.size(); ++i) {
    const std::string& path = files[i].path;
    if (!is_safe_path(path))
      return "cannot write \"" + shown(path) + "\": expected a plain relative path with / between its parts";
    if (i > 0 && path == files[i - 1].path)
      return "two pages would be written to " + path + "; give one of them another name";
    for (std::size_t j = i + 1; j < files.size() && files[j].path.starts_with(path); ++j) {
      if (is_below(files[j].path, path)) return path + " would be a file and a folder; give one of them another name";
    }
  }
  return Writer(folder, files).run();
}

}  // namespace tenwinters
