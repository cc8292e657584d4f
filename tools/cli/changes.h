// What a run that follows changes needs: which files were read, whether any has changed since, when to end.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "lib/files.h"

namespace tenwinters::cli {

// Reads from the disk and notes what it read.
class NotingReader final : public FileReader {
 public:
  [[nodiscard]] std::optional<std::string> read(const std::string& path, std::size_t limit, std::string& why) const override;
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const override { return disk_.list(folder); }
  [[nodiscard]] std::vector<std::string> folders(const std::string& folder) const override { return disk_.folders(folder); }

  // A text that changes when the content of any file read so far does, but for those whose path begins with one of
  // `without`.
  [[nodiscard]] std::string noted(const std::vector<std::string>& without) const;
  [[nodiscard]] std::vector<std::string> paths() const;

 private:
  DiskReader disk_;
  mutable std::map<std::string, std::string> hashes_;  // by path
};

// How files stand at a moment: by path, what changes when they are written.
class Snapshot {
 public:
  // All that lies below the folders, hidden files and the copies of editors aside, and these files.
  Snapshot(const std::vector<std::string>& folders, const std::vector<std::string>& files);
  // Takes over what `later` has of files that are not known here.
  void add_unknown(const Snapshot& later);
  bool operator==(const Snapshot&) const = default;

 private:
  struct Stamp {
    std::int64_t seconds = 0, nanoseconds = 0;
    std::uint64_t size = 0, number = 0;
    bool operator==(const Stamp&) const = default;
  };
  std::map<std::string, Stamp> stamps_;
};

// While one of these lives, Ctrl-C and a polite request to end are noted instead of obeyed.
class Interrupt {
 public:
  Interrupt();
  ~Interrupt();
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;
  [[nodiscard]] bool came() const;
};

// Sleeps until the files are no longer as in `before`, and have come to rest, or until the interrupt.
void wait_for_change(const Snapshot& before, const std::vector<std::string>& folders, const std::vector<std::string>& files, const Interrupt& interrupt);

}  // namespace tenwinters::cli
