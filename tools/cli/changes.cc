#include "cli/changes.h"

#include <sys/stat.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <thread>

#include "render/assets.h"

namespace tenwinters::cli {
namespace fs = std::filesystem;

namespace {

constexpr std::chrono::milliseconds kBetween{100};  // looks at the files
constexpr std::chrono::milliseconds kRest{25};      // without a further change: whoever saves has saved all

volatile std::sig_atomic_t interrupted = 0;

}  // namespace

std::optional<std::string> NotingReader::read(const std::string& path, std::size_t limit, std::string& why) const {
  std::optional<std::string> text = disk_.read(path, limit, why);
  hashes_[path] = text ? content_hash(*text) : "";
  return text;
}

std::string NotingReader::noted(const std::vector<std::string>& without) const {
  std::string out;
  for (const auto& [path, hash] : hashes_) {
    const bool left_out = std::any_of(without.begin(), without.end(), [&path = path](const std::string& start) { return path.starts_with(start); });
    if (!left_out) out += path + '\n' + hash + '\n';
  }
  return out;
}

std::vector<std::string> NotingReader::paths() const {
  std::vector<std::string> out;
  for (const auto& [path, hash] : hashes_) out.push_back(path);
  return out;
}

Snapshot::Snapshot(const std::vector<std::string>& folders, const std::vector<std::string>& files) {
  const auto add = [&](const std::string& path) {
    struct stat about {};
    Stamp& stamp = stamps_[path];
    if (::stat(path.c_str(), &about) != 0) return;
    stamp = {about.st_mtim.tv_sec, about.st_mtim.tv_nsec, static_cast<std::uint64_t>(about.st_size), about.st_ino};
  };
  for (const std::string& folder : folders) {
    std::error_code error;
    for (fs::recursive_directory_iterator each(folder, error), end; !error && each != end; each.increment(error)) {
      const std::string name = each->path().filename().string();
      std::error_code unreadable;
      if (name.starts_with('.')) {
        if (each->is_directory(unreadable)) each.disable_recursion_pending();
      } else if (!name.ends_with('~') && each->is_regular_file(unreadable)) {
        add(each->path().string());
      }
    }
  }
  for (const std::string& file : files)
    if (!stamps_.contains(file)) add(file);
}

void Snapshot::add_unknown(const Snapshot& later) { stamps_.insert(later.stamps_.begin(), later.stamps_.end()); }

Interrupt::Interrupt() {
  interrupted = 0;
  struct sigaction action {};
  action.sa_handler = [](int) { interrupted = 1; };
  for (const int signal : {SIGINT, SIGTERM}) ::sigaction(signal, &action, nullptr);
}
Interrupt::~Interrupt() {
  for (const int signal : {SIGINT, SIGTERM}) std::signal(signal, SIG_DFL);
}
bool Interrupt::came() const { return interrupted != 0; }

void wait_for_change(const Snapshot& before, const std::vector<std::string>& folders, const std::vector<std::string>& files, const Interrupt& interrupt) {
  while (!interrupt.came()) {
    std::this_thread::sleep_for(kBetween);
    for (Snapshot now(folders, files); now != before && !interrupt.came();) {
      std::this_thread::sleep_for(kRest);
      Snapshot later(folders, files);
      if (later == now) return;
      now = std::move(later);
    }
  }
}

}  // namespace tenwinters::cli
