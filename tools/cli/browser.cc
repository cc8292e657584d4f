#include "cli/browser.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <vector>

extern char** environ;

namespace tenwinters::cli {
namespace fs = std::filesystem;

namespace {

constexpr std::array kNames = {"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"};

bool can_run(const fs::path& path) {
  std::error_code error;
  return fs::is_regular_file(path, error) && access(path.c_str(), X_OK) == 0;
}

std::optional<std::string> on_path(const std::string& name) {
  if (name.find('/') != std::string::npos) return can_run(name) ? std::optional(name) : std::nullopt;
  const char* path = std::getenv("PATH");
  for (std::string rest = path ? path : ""; !rest.empty();) {
    const std::size_t colon = std::min(rest.find(':'), rest.size());
    const fs::path candidate = fs::path(rest.substr(0, colon)) / name;
    if (can_run(candidate)) return candidate.string();
    rest.erase(0, std::min(colon + 1, rest.size()));
  }
  return std::nullopt;
}

// A percent-encoded file:// address.
std::string file_url(const fs::path& path) {
  std::string url = "file://";
  for (const char c : path.string()) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || std::strchr("/-_.~", c);
    if (plain && c != '\0') {
      url += c;
    } else {
      constexpr const char* kHex = "0123456789ABCDEF";
      const auto byte = static_cast<unsigned char>(c);
      url += {'%', kHex[byte >> 4u], kHex[byte & 15u]};
    }
  }
  return url;
}

// A folder for the browser's own files, gone afterwards.
class Scratch {
 public:
  Scratch() {
    std::error_code error;
    std::string name = (fs::temp_directory_path(error) / "tenwinters-").string() + std::string(6, 'X');  // mkdtemp fills in the last six
    if (mkdtemp(name.data())) path_ = name;
  }
  ~Scratch() {
    std::error_code error;
    if (!path_.empty()) fs::remove_all(path_, error);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

}  // namespace

std::optional<std::string> find_browser(const std::string& given, std::string& tried) {
  const char* named = std::getenv("TENWINTERS_BROWSER");
  const std::string wanted = !given.empty() ? given : (named ? named : "");
  if (!wanted.empty()) {
    tried = wanted;
    return on_path(wanted);
  }
  for (const char* name : kNames) {
    tried += (tried.empty() ? "" : ", ") + std::string(name);
    if (std::optional<std::string> found = on_path(name)) return found;
  }
  return std::nullopt;
}

std::optional<std::string> print_to_pdf(const std::string& browser, const std::string& html, const std::string& pdf) {
  const Scratch scratch;
  if (scratch.path().empty()) return "no temporary folder can be made";
  std::error_code error;
  const std::string target = fs::absolute(pdf, error).string();
  fs::remove(target, error);
  std::vector<std::string> arguments = {
      browser, "--headless", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
      "--disable-component-update", "--disable-sync", "--disable-extensions", "--hide-scrollbars", "--no-pdf-header-footer",
      "--generate-pdf-document-outline", "--user-data-dir=" + scratch.path(), "--print-to-pdf=" + target};
  // The browser refuses to sandbox itself for the superuser.
  if (geteuid() == 0) arguments.push_back("--no-sandbox");
  arguments.push_back(file_url(fs::absolute(html, error)));
  std::vector<char*> raw;
  for (std::string& argument : arguments) raw.push_back(argument.data());
  raw.push_back(nullptr);

  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = posix_spawn(&child, browser.c_str(), &actions, nullptr, raw.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failed != 0) return browser + " cannot be started: " + std::strerror(failed);
  int status = 0;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) return browser + " was lost sight of";
  if (!fs::exists(target, error) || fs::file_size(target, error) == 0)
    return browser + " ended (status " + std::to_string(WIFEXITED(status) ? WEXITSTATUS(status) : -1) + ") without writing " + pdf;
  return std::nullopt;
}

}  // namespace tenwinters::cli
