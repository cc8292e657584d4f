#include "cli/browser.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string_view>

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

// An end of a pipe, closed with this.
class PipeEnd {
 public:
  explicit PipeEnd(int number = -1) : number_(number) {}
  ~PipeEnd() { close(); }
  PipeEnd(const PipeEnd&) = delete;
  PipeEnd& operator=(const PipeEnd&) = delete;
  void reset(int number) {
    close();
    number_ = number;
  }
  void close() {
    if (number_ >= 0) ::close(number_);
    number_ = -1;
  }
  [[nodiscard]] int get() const { return number_; }

 private:
  int number_;
};

// Both ends above the numbers under which the browser looks for its pipes, and not passed on by themselves.
bool make_pipe(PipeEnd& reads, PipeEnd& writes) {
  constexpr int kFirstFree = 10;
  int ends[2];
  if (pipe(ends) != 0) return false;
  reads.reset(fcntl(ends[0], F_DUPFD_CLOEXEC, kFirstFree));
  writes.reset(fcntl(ends[1], F_DUPFD_CLOEXEC, kFirstFree));
  ::close(ends[0]);
  ::close(ends[1]);
  return reads.get() >= 0 && writes.get() >= 0;
}

std::string decoded_base64(std::string_view text) {
  std::string out;
  std::uint32_t group = 0;
  int bits = 0;
  for (const char c : text) {
    const int digit = c >= 'A' && c <= 'Z' ? c - 'A' : c >= 'a' && c <= 'z' ? c - 'a' + 26 : c >= '0' && c <= '9' ? c - '0' + 52 : c == '+' ? 62 : c == '/' ? 63 : -1;
    if (digit < 0) continue;
    group = (group << 6u) | static_cast<std::uint32_t>(digit);
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      out += static_cast<char>((group >> static_cast<unsigned>(bits)) & 255u);
    }
  }
  return out;
}

// A page object of the PDF is said so in plain text, since the browser writes no object streams.
int count_pages(std::string_view pdf) {
  int pages = 0;
  constexpr std::string_view kPage = "/Type /Page";
  for (std::size_t at = pdf.find(kPage); at != std::string_view::npos; at = pdf.find(kPage, at + 1))
    pages += at + kPage.size() < pdf.size() && pdf[at + kPage.size()] != 's' ? 1 : 0;
  return pages;
}

// Run in the page, laid out for paper: waits for the fonts, then names every box marked data-fit whose content is
// larger than itself, tells how wide the page is beyond its paper, and how many pages each article may fill.
constexpr const char* kMeasure = R"js((async () => {
  await document.fonts.ready;
  const misfits = [];
  for (const box of document.querySelectorAll('[data-fit]'))
    if (box.scrollHeight > box.clientHeight + 1 || box.scrollWidth > box.clientWidth + 1) misfits.push(box.dataset.fit);
  const imposed = document.querySelector('main[data-pages]') !== null;  // signs lie at fixed places of a larger sheet
  const wide = imposed ? 0 : document.documentElement.scrollWidth - document.documentElement.clientWidth;
  const sheets = [...document.querySelectorAll('article')].map((sheet) =>
    ({name: sheet.querySelector('h1')?.textContent ?? document.title, height: sheet.offsetHeight}));
  const pages = Number(document.querySelector('main')?.dataset.pages ?? 2 * sheets.length);
  return JSON.stringify({misfits, wide, sheets, pages});
})())js";

// Talks to one browser. Every function returns what went wrong, or nullopt.
class Talk {
 public:
  using Json = nlohmann::json;
  using Fault = std::optional<std::string>;

  ~Talk() {
    if (child_ <= 0) return;
    Json nothing;
    if (!session_.empty()) (void)call("Browser.close", Json::object(), nothing, false);
    to_.close();
    from_.close();
    for (int tenths = 0; tenths < 50; ++tenths) {  // it needs a moment to leave
      if (waitpid(child_, nullptr, WNOHANG) == child_) return;
      usleep(100000);
    }
    kill(child_, SIGKILL);
    waitpid(child_, nullptr, 0);
  }

  Fault start(const std::string& browser) {
    if (scratch_.path().empty()) return "no temporary folder can be made";
    PipeEnd its_in, its_out;
    if (!make_pipe(its_in, to_) || !make_pipe(from_, its_out)) return "no pipe to the browser can be made";
    std::vector<std::string> arguments = {
        browser, "--headless", "--remote-debugging-pipe", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync", "--disable-extensions", "--hide-scrollbars", "--user-data-dir=" + scratch_.path()};
    // The browser refuses to sandbox itself for the superuser.
    if (geteuid() == 0) arguments.emplace_back("--no-sandbox");
    std::vector<char*> raw;
    for (std::string& argument : arguments) raw.push_back(argument.data());
    raw.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_adddup2(&actions, its_in.get(), 3);
    posix_spawn_file_actions_adddup2(&actions, its_out.get(), 4);
    const int failed = posix_spawn(&child_, browser.c_str(), &actions, nullptr, raw.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    its_in.close();  // so that the pipe ends when the browser does
    its_out.close();
    if (failed != 0) {
      child_ = 0;
      return browser + " cannot be started: " + std::strerror(failed);
    }
    signal(SIGPIPE, SIG_IGN);  // a browser that has left is told by write(), not by the end of this program
    Json answer;
    if (Fault fault = call("Target.createTarget", {{"url", "about:blank"}}, answer, false)) return fault;
    if (Fault fault = call("Target.attachToTarget", {{"targetId", answer["targetId"]}, {"flatten", true}}, answer, false)) return fault;
    session_ = answer["sessionId"].get<std::string>();
    if (Fault fault = call("Page.enable", Json::object(), answer)) return fault;
    // As wide as what A4 holds between its margins, the narrower of the two papers.
    constexpr int kWide = 680, kHigh = 960;
    if (Fault fault = call("Emulation.setDeviceMetricsOverride", {{"width", kWide}, {"height", kHigh}, {"deviceScaleFactor", 1}, {"mobile", false}}, answer))
      return fault;
    return call("Emulation.setEmulatedMedia", {{"media", "print"}}, answer);
  }

  Fault print(const PrintJob& job, Printed& out) {
    std::error_code error;
    Json answer;
    loaded_ = false;
    if (Fault fault = call("Page.navigate", {{"url", file_url(fs::absolute(job.html, error))}}, answer)) return fault;
    if (answer.contains("errorText")) return job.html + " cannot be opened: " + answer["errorText"].get<std::string>();
    while (!loaded_)
      if (Fault fault = receive()) return fault;
    if (Fault fault = call("Runtime.evaluate", {{"expression", kMeasure}, {"awaitPromise", true}, {"returnByValue", true}}, answer)) return fault;
    const Json measured = Json::parse(answer["result"].value("value", std::string("null")), nullptr, false);
    if (!measured.is_object()) return job.html + " cannot be measured";
    // No larger than a CSS page size that is missing would make it; the page's own size wins.
    if (Fault fault = call("Page.printToPDF",
                           {{"printBackground", true}, {"preferCSSPageSize", true}, {"generateTaggedPDF", true},
                            {"generateDocumentOutline", true}, {"transferMode", "ReturnAsStream"}}, answer))
      return fault;
    std::string bytes;
    if (Fault fault = read_stream(answer["stream"].get<std::string>(), bytes)) return fault;
    out = {job.pdf, count_pages(bytes), measured["misfits"].get<std::vector<std::string>>()};
    if (const double wide = measured["wide"].get<double>(); wide > 1) out.misfits.emplace_back("the page is wider than its paper");
    if (out.pages > measured["pages"].get<int>()) name_long_sheets(measured, out);
    return write(job.pdf, bytes);
  }

 private:
  // Which of the sheets are too long; how they break over pages is not told, so those near the limit are named too.
  static void name_long_sheets(const Json& measured, Printed& out) {
    constexpr double kTwoPages = 2 * 960 * 0.9;  // px; the height of what a page holds, less what breaks leave blank
    bool named = false;
    for (const Json& sheet : measured["sheets"])
      if (sheet["height"].get<double>() > kTwoPages) {
        out.misfits.push_back("\"" + sheet["name"].get<std::string>() + "\" fills more than its two pages");
        named = true;
      }
    if (!named) out.misfits.push_back("there are " + std::to_string(out.pages) + " pages, and room was laid out for " + std::to_string(measured["pages"].get<int>()));
  }

  Fault read_stream(const std::string& handle, std::string& bytes) {
    Json answer;
    do {
      if (Fault fault = call("IO.read", {{"handle", handle}, {"size", 1 << 20}}, answer)) return fault;
      const std::string data = answer["data"].get<std::string>();
      bytes += answer.value("base64Encoded", false) ? decoded_base64(data) : data;
    } while (!answer["eof"].get<bool>());
    return call("IO.close", {{"handle", handle}}, answer);
  }

  // Written aside and moved, so that a failure leaves an older PDF whole.
  static Fault write(const std::string& path, const std::string& bytes) {
    const std::string aside = path + ".part";
    std::error_code error;
    std::ofstream file(aside, std::ios::binary);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.close();
    if (file) fs::rename(aside, path, error);
    if (file && !error) return std::nullopt;
    fs::remove(aside, error);
    return path + " cannot be written";
  }

  Fault call(const std::string& method, const Json& parameters, Json& answer, bool in_session = true) {
    Json message = {{"id", ++last_}, {"method", method}, {"params", parameters}};
    if (in_session) message["sessionId"] = session_;
    const std::string text = message.dump();
    // The terminating zero goes with it.
    for (std::size_t done = 0; done <= text.size();) {
      const ssize_t written = ::write(to_.get(), text.c_str() + done, text.size() + 1 - done);
      if (written < 0 && errno == EINTR) continue;
      if (written <= 0) return "the browser left before it was done";
      done += static_cast<std::size_t>(written);
    }
    answered_ = false;
    while (!answered_)
      if (Fault fault = receive()) return fault;
    if (answer_.contains("error")) return "the browser refused " + method + ": " + answer_["error"].value("message", "");
    answer = answer_["result"];
    return std::nullopt;
  }

  // Takes one message: an answer, or an event of which only "loaded" matters.
  Fault receive() {
    constexpr int kPatience = 120000;  // ms; a long batch takes a while to lay out
    std::size_t end = 0;
    while ((end = heard_.find('\0')) == std::string::npos) {
      pollfd ready{from_.get(), POLLIN, 0};
      const int count = poll(&ready, 1, kPatience);
      if (count < 0 && errno == EINTR) continue;
      if (count == 0) return "the browser has not answered for two minutes";
      std::array<char, 65536> block{};
      const ssize_t got = count < 0 ? -1 : read(from_.get(), block.data(), block.size());
      if (got < 0 && errno == EINTR) continue;
      if (got <= 0) return "the browser ended before it was done";
      heard_.append(block.data(), static_cast<std::size_t>(got));
    }
    const Json message = Json::parse(heard_.substr(0, end), nullptr, false);
    heard_.erase(0, end + 1);
    if (message.is_object() && message.value("id", 0) == last_) {
      answer_ = message;
      answered_ = true;
    } else if (message.is_object() && message.value("method", "") == "Page.loadEventFired") {
      loaded_ = true;
    }
    return std::nullopt;
  }

  const Scratch scratch_;
  PipeEnd to_, from_;
  pid_t child_ = 0;
  int last_ = 0;
  bool answered_ = false, loaded_ = false;
  Json answer_;
  std::string session_, heard_;
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

std::optional<std::string> print_to_pdf(const std::string& browser, const std::vector<PrintJob>& jobs,
                                        const std::function<void(const Printed&)>& tell) {
  Talk talk;
  if (std::optional<std::string> fault = talk.start(browser)) return fault;
  for (const PrintJob& job : jobs) {
    Printed printed;
    if (std::optional<std::string> fault = talk.print(job, printed)) return fault;
    tell(printed);
  }
  return std::nullopt;
}

}  // namespace tenwinters::cli
