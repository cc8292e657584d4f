// What the targets share: a small catalogue in memory, the real one, a file without a disk.
#pragma once

#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

#include "cli/session.h"
#include "lib/files.h"
#include "lib/utf8.h"

namespace tenwinters::testing {

// The small sound catalogue of tests/errors: loading it once more for each input is quick.
inline MemoryReader read_base() {
  namespace fs = std::filesystem;
  MemoryReader reader;
  const fs::path base = fs::path(TENWINTERS_SOURCE_DIR) / "tests/errors/base";
  for (const auto& entry : fs::recursive_directory_iterator(base)) {
    std::string why;
    if (entry.is_regular_file())
      reader.files[entry.path().lexically_relative(base).generic_string()] = *DiskReader().read(entry.path().string(), 1u << 20u, why);
  }
  return reader;
}

// The real catalogue with its demo office.
inline cli::Loaded read_real(cli::Records records) {
  cli::Session session;
  session.catalog = std::string(TENWINTERS_SOURCE_DIR) + "/catalog";
  session.today = "2026-12-01";
  cli::Loaded loaded;
  if (cli::load(session, loaded, records) != cli::kDone) std::abort();
  return loaded;
}

// A file in memory, for what reads by path.
class HeldFile {
 public:
  explicit HeldFile(std::string_view text) : number_(memfd_create("input", MFD_CLOEXEC)) {
    if (number_ < 0 || ::write(number_, text.data(), text.size()) != static_cast<ssize_t>(text.size())) std::abort();
  }
  ~HeldFile() { ::close(number_); }
  HeldFile(const HeldFile&) = delete;
  HeldFile& operator=(const HeldFile&) = delete;
  [[nodiscard]] std::string path() const { return "/proc/self/fd/" + std::to_string(number_); }

 private:
  int number_;
};

// Leaves a text to begin with, where tools/fuzz asks for it.
inline void write_seed(const std::string& name, const std::string& text) {
  if (const char* folder = std::getenv("TENWINTERS_SEEDS")) std::ofstream(std::filesystem::path(folder) / name, std::ios::binary) << text;
}

// Stops the run where a terminal would show something else than text.
inline void expect_plain(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    if (!point.valid || is_hidden(point.value)) std::abort();
    at += point.bytes;
  }
}

}  // namespace tenwinters::testing
