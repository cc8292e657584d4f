// The site that `site --watch` serves on loopback: the files of the last good build, out of memory, so that no
// request reaches the disk. Pages get a script that asks for news and loads the page again, or shows what is wrong.
//
//   LiveServer server;
//   if (!server.start(8080)) complain(server.why());
//   server.show(files);        // a good build
//   server.tell(faults);       // a build that failed: the pages of the last good one stay
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "lib/files.h"

namespace tenwinters::cli {

// What a request is answered with.
struct LiveAnswer {
  int status = 200;
  std::string type, body;
};

class LiveServer {
 public:
  LiveServer();
  ~LiveServer();
  LiveServer(const LiveServer&) = delete;
  LiveServer& operator=(const LiveServer&) = delete;

  // On 127.0.0.1 alone; port 0: a free one. False if it cannot be had: why() says so.
  [[nodiscard]] bool start(int port);
  [[nodiscard]] int port() const;
  [[nodiscard]] const std::string& why() const;

  // Sorted by path, as render_site gives them.
  void show(std::shared_ptr<const std::vector<OutputFile>> files);
  // Plain text; shown on every open page until the next good build.
  void tell(const std::string& faults);

  // `path` as in the request's first line, decoded, without query; `host` as in its head.
  [[nodiscard]] LiveAnswer answer(const std::string& method, const std::string& path, const std::string& host) const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace tenwinters::cli
