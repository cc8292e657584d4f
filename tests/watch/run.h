// One run of `tenwinters site --watch`, and how to ask it.
#pragma once

#include <arpa/inet.h>
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <functional>
#include <string>
#include <thread>

#include "unit/cli_run.h"

namespace tenwinters::testing {

namespace fs = std::filesystem;

constexpr std::chrono::seconds kLong{60};  // far longer than any step takes, on a machine that has much else to do

inline bool wait_until(const std::function<bool()>& condition) {
  for (const auto end = std::chrono::steady_clock::now() + kLong; std::chrono::steady_clock::now() < end; std::this_thread::sleep_for(std::chrono::milliseconds(20)))
    if (condition()) return true;
  return false;
}

// A copy of the catalogue and the templates, and a watch over it.
class Watched {
 public:
  explicit Watched(const std::string& name) : project_(name) {
    fs::copy(fs::path(TENWINTERS_SOURCE_DIR) / "site-templates", project_.folder() / "site-templates", fs::copy_options::recursive);
  }
  ~Watched() {
    if (process_ > 0) (void)end(SIGKILL);
  }
  Watched(const Watched&) = delete;
  Watched& operator=(const Watched&) = delete;

  // False if it does not come to serve.
  bool start() {
    const std::string program = std::string(TENWINTERS_BINARY_DIR) + "/tenwinters", folder = project_.folder().string(), file = log_path().string();
    process_ = ::fork();
    if (process_ == 0) {
      const int out = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
      if (out < 0 || ::dup2(out, 1) < 0 || ::dup2(out, 2) < 0 || ::chdir(folder.c_str()) != 0) ::_exit(9);
      ::execl(program.c_str(), program.c_str(), "--today", "2026-12-01", "site", "--out", "out", "--watch", nullptr);
      ::_exit(9);
    }
    constexpr std::string_view kAddress = "http://127.0.0.1:";
    if (!wait_until([&] { return log().find(kAddress) != std::string::npos && log().find('\n') != std::string::npos; })) return false;
    port_ = std::stoi(log().substr(log().find(kAddress) + kAddress.size()));
    return true;
  }

  // Its exit status.
  int end(int signal) {
    ::kill(process_, signal);
    int status = 0;
    ::waitpid(process_, &status, 0);
    process_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

  // The whole answer, head and body; "" if there is none.
  [[nodiscard]] std::string ask(const std::string& path, const std::string& host = "127.0.0.1", const std::string& method = "GET") const {
    const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port_));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    std::string answer;
    if (::connect(socket, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0) {
      const std::string request = method + " " + path + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n";
      if (::send(socket, request.data(), request.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(request.size())) {
        char block[65536];
        for (ssize_t got; (got = ::recv(socket, block, sizeof block, 0)) > 0;) answer.append(block, static_cast<std::size_t>(got));
      }
    }
    ::close(socket);
    return answer;
  }
  [[nodiscard]] bool shows(const std::string& path, const std::string& text) const {
    const std::string answer = ask(path);
    return answer.starts_with("HTTP/1.1 200") && answer.find(text) != std::string::npos;
  }

  // How many builds have been written.
  [[nodiscard]] int written() const {
    const std::string text = log();
    int count = 0;
    for (std::size_t at = text.find("files written"); at != std::string::npos; at = text.find("files written", at + 1)) ++count;
    return count;
  }
  [[nodiscard]] bool wait_for_build(int number) const {
    return wait_until([&] { return written() >= number; });
  }

  // Replaces the first `from` of a file.
  void edit(const std::string& path, const std::string& from, const std::string& to) const {
    std::string text = project_.read(path);
    const std::size_t at = text.find(from);
    ASSERT_NE(at, std::string::npos) << path << " has no \"" << from << "\"";
    save(path, text.replace(at, from.size(), to));
  }
  // As editors do: aside, then in its place.
  void save(const std::string& path, const std::string& text) const {
    const fs::path aside = project_.folder() / "aside.tmp";
    std::ofstream(aside, std::ios::binary) << text;
    fs::rename(aside, project_.folder() / path);
  }

  [[nodiscard]] const ProjectCopy& project() const { return project_; }
  [[nodiscard]] std::string log() const { return file_text(log_path()); }
  [[nodiscard]] int port() const { return port_; }

 private:
  [[nodiscard]] fs::path log_path() const { return project_.folder() / "log.txt"; }

  ProjectCopy project_;
  pid_t process_ = 0;
  int port_ = 0;
};

}  // namespace tenwinters::testing
