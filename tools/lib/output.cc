// write_output: a set of files into a folder, all or nothing.
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
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
      path.find('\\') != std::string::npos || path.find("//") != std::string::npos)
    return false;
  const fs::path parts(path);
  return std::none_of(parts.begin(), parts.end(), [](const fs::path& part) {
    return part == ".." || part == "." || part.empty() || part == kManifest || part == kAside;
  });
}

Problem cannot_write(const fs::path& path, const std::string& reason) {
  return "cannot write " + path.string() + ": " + reason + "; the output of the last run is still there as it was";
}

// The system's reason, and what to do about it where that is known.
Problem cannot_write(const fs::path& path, const std::error_code& error) {
  const bool full = error == std::errc::no_space_on_device || error.value() == EDQUOT;
  const bool barred = error == std::errc::permission_denied || error == std::errc::operation_not_permitted ||
                      error == std::errc::read_only_file_system;
  return cannot_write(path, error.message() + (full     ? " (make room there, or choose another folder)"
                                               : barred ? " (choose a folder that you may write to)"
                                                        : ""));
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
  if (error) return cannot_write(path.parent_path(), error);
  errno = 0;
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(content.data(), static_cast<std::streamsize>(content.size()));
  out.close();
  if (!out) return cannot_write(path, std::error_code(errno != 0 ? errno : ENOSPC, std::generic_category()));
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

void remove_empty_folders(const fs::path& folder, const std::string& path) {
  for (fs::path below = fs::path(path).parent_path(); !below.empty(); below = below.parent_path()) {
    if (::rmdir((folder / below).c_str()) != 0) return;  // it is not empty, or a file has taken its place
  }
}

// Moves files in and out, and can take it all back. A file that is replaced is there at every moment, as it was or
// as it will be, so that a run which is cut off leaves no gap.
class Swap {
 public:
  Swap(fs::path folder, fs::path old) : folder_(std::move(folder)), old_(std::move(old)) {}

  Problem take_away(const std::string& path) {
    std::error_code error;
    fs::create_directories(old_, error);
    const fs::path kept = next_kept();
    if (!error) fs::rename(folder_ / path, kept, error);
    if (error) return cannot_write(folder_ / path, error);
    steps_.push_back({path, kept});
    return std::nullopt;
  }

  Problem bring_in(const fs::path& staged, const std::string& path) {
    const fs::path target = folder_ / path;
    std::error_code error;
    if (fs::symlink_status(target, error).type() == fs::file_type::directory) fs::remove(target, error);  // only if empty
    fs::path kept;
    if (fs::exists(fs::symlink_status(target, error))) {
      fs::create_directories(old_, error);
      kept = next_kept();
      fs::create_hard_link(target, kept, error);
      if (error) {  // not every file system has links: then the file is away for a moment
        kept.clear();
        if (Problem problem = take_away(path)) return problem;
      }
    }
    fs::create_directories(target.parent_path(), error);
    if (!error) fs::rename(staged, target, error);
    if (error) {
      remove_empty_folders(folder_, path);
      return cannot_write(target, error);
    }
    steps_.push_back({path, kept});
    return std::nullopt;
  }

  // True if all is as it was.
  bool take_back() {
    bool whole = true;
    for (auto step = steps_.rbegin(); step != steps_.rend(); ++step) {
      const fs::path target = folder_ / step->path;
      std::error_code error;
      if (step->kept.empty()) {
        fs::remove(target, error);
        remove_empty_folders(folder_, step->path);
      } else {
        fs::create_directories(target.parent_path(), error);
        if (!error) fs::rename(step->kept, target, error);
      }
      whole = whole && !error;
    }
    return whole;
  }

 private:
  fs::path next_kept() { return old_ / std::to_string(kept_++); }

  struct Step {
    std::string path;
    fs::path kept;  // what stood there; empty if nothing did, or if a step before has taken it away
  };
  fs::path folder_, old_;
  std::vector<Step> steps_;
  std::size_t kept_ = 0;
};

Problem read_manifest(const fs::path& folder, std::set<std::string>& paths) {
  std::error_code error;
  if (!fs::exists(folder / kManifest, error)) return std::nullopt;
  errno = 0;
  std::ifstream in(folder / kManifest, std::ios::binary);
  // Without it our own files would be taken for those of others.
  if (!in) return cannot_write(folder / kManifest, std::error_code(errno, std::generic_category()));
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with('#') && is_safe_path(line)) paths.insert(line);
  }
  return std::nullopt;
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
      : folder_(folder), aside_(folder_ / kAside), files_(files), swap_(folder_, aside_ / "old") {}

  Problem run() {
    std::error_code error;
    fs::create_directories(folder_, error);
    if (error && !fs::exists(folder_)) return cannot_write(folder_, error);
    if (!fs::is_directory(folder_, error)) return cannot_write(folder_, "it is not a folder; choose another");
    if (error) return cannot_write(folder_, error);
    const FolderLock lock(folder_);
    if (!lock.held())
      return cannot_write(folder_, "another run is writing there (wait until it has ended), or the folder cannot be opened");
    fs::remove_all(aside_, error);  // of a run that was cut off
    Problem problem = write();
    if (problem && !swap_.take_back())
      problem = *problem + ", but for some files that could not be put back; mend the cause and run this again";
    fs::remove_all(aside_, error);
    return problem;
  }

 private:
  Problem write() {
    std::set<std::string> before, wanted, owned;
    if (Problem problem = read_manifest(folder_, before)) return problem;
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
    // First what a run that is cut off may leave behind is claimed, so that the next one knows it for ours.
    std::set<std::string> claimed = before;
    claimed.insert(owned.begin(), owned.end());
    const fs::path claims = aside_ / "claims", manifest = aside_ / "manifest";
    if (owned != before) {
      if (Problem problem = write_file(manifest, manifest_text(owned))) return problem;
    }
    if (claimed != before) {
      if (Problem problem = write_file(claims, manifest_text(claimed))) return problem;
      if (Problem problem = swap_.bring_in(claims, kManifest)) return problem;
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
      if (Problem problem = swap_.bring_in(aside_ / "new" / file->path, file->path)) return problem;
    }
    for (auto path = later; path != unwanted.end(); ++path) {
      if (Problem problem = swap_.take_away(*path)) return problem;
    }
    if (owned != before) {
      if (Problem problem = swap_.bring_in(manifest, kManifest)) return problem;
    }
    for (const std::string& path : unwanted) remove_empty_folders(folder_, path);
    return std::nullopt;
  }

  // A file in the folder itself: what lies behind a link is somebody else's.
  [[nodiscard]] bool is_regular(const std::string& path) const {
    std::error_code error;
    for (fs::path above = fs::path(path).parent_path(); !above.empty(); above = above.parent_path())
      if (fs::symlink_status(folder_ / above, error).type() != fs::file_type::directory) return false;
    return fs::symlink_status(folder_ / path, error).type() == fs::file_type::regular;
  }

  fs::path folder_, aside_;
  const std::vector<OutputFile>& files_;
  Swap swap_;
};

}  // namespace

std::optional<std::string> write_output(const std::string& folder, const std::vector<OutputFile>& files) {
  const auto by_path = [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; };
  if (!std::is_sorted(files.begin(), files.end(), by_path)) {
    std::vector<OutputFile> sorted = files;
    std::sort(sorted.begin(), sorted.end(), by_path);
    return write_output(folder, sorted);
  }
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
