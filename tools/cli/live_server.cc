#include "cli/live_server.h"

#include <civetweb.h>
#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <mutex>
#include <nlohmann/json.hpp>

#include "draw/escape.h"

namespace tenwinters::cli {
namespace {

// What the server adds to the site lies here: no file of a site begins with a dot.
constexpr std::string_view kOwn = "/.live/";

constexpr std::string_view kScript = R"(// Asks the watch for news: loads the page again after a good build, shows what is wrong after a bad one.
(() => {
  'use strict';
  const built = new URL(document.currentScript.src).searchParams.get('build');
  const box = document.createElement('pre');
  box.id = 'live-faults';
  box.setAttribute('role', 'alert');
  const style = document.createElement('link');
  style.rel = 'stylesheet';
  style.href = '/.live/page.css';
  document.head.append(style);
  const look = async () => {
    try {
      const state = await (await fetch('/.live/state', {cache: 'no-store'})).json();
      if (state.build !== built) return location.reload();
      if (box.textContent !== state.faults) box.textContent = state.faults;
      if (state.faults === '') box.remove();
      else if (!box.isConnected) document.body.prepend(box);
    } catch {
      // The watch has ended, or is about to be started again.
    }
    setTimeout(look, 250);
  };
  look();
})();
)";

constexpr std::string_view kStyle =
    "#live-faults { box-sizing: border-box; max-width: 100%; margin: 0; padding: 1rem; overflow: auto; white-space: pre-wrap; overflow-wrap: anywhere;\n"
    "  font: 1rem/1.4 ui-monospace, monospace; color: #111; background: #fff4e0; border-bottom: 0.25rem solid #a33 }\n"
    "@media print { #live-faults { display: none } }\n";

// In place of the site's own: a worker of an earlier visit would go on showing pages that it has kept.
constexpr std::string_view kNoWorker =
    "self.addEventListener('install', () => self.skipWaiting());\n"
    "self.addEventListener('activate', (event) => event.waitUntil((async () => {\n"
    "  for (const name of await caches.keys()) await caches.delete(name);\n"
    "  await self.registration.unregister();\n"
    "})()));\n";

const char* type_of(std::string_view path) {
  constexpr std::pair<std::string_view, const char*> kTypes[] = {
      {".html", "text/html; charset=utf-8"}, {".css", "text/css; charset=utf-8"}, {".js", "text/javascript; charset=utf-8"},
      {".svg", "image/svg+xml"},             {".woff2", "font/woff2"},            {".xml", "application/xml"},
      {".txt", "text/plain; charset=utf-8"}};
  for (const auto& [end, type] : kTypes)
    if (path.ends_with(end)) return type;
  return "application/octet-stream";
}

// The page's policy, opened just so far that the script may run and ask its own host.
std::string open_policy(std::string_view policy) {
  std::string out;
  bool scripts = false;
  while (!policy.empty()) {
    const std::size_t end = std::min(policy.find("; "), policy.size());
    std::string rule(policy.substr(0, end));
    policy.remove_prefix(std::min(end + 2, policy.size()));
    if (rule.starts_with("script-src")) {
      scripts = true;
      if (const std::size_t none = rule.find("&#39;none&#39;"); none != std::string::npos) rule.replace(none, 14, "&#39;self&#39;");
    }
    out += rule + "; ";
  }
  return out + (scripts ? "" : "script-src &#39;self&#39;; ") + "connect-src &#39;self&#39;";
}

std::string with_script(std::string html, const std::string& build) {
  constexpr std::string_view kPolicy = "http-equiv=\"Content-Security-Policy\" content=\"";
  if (const std::size_t at = html.find(kPolicy); at != std::string::npos) {
    const std::size_t from = at + kPolicy.size(), to = html.find('"', from);
    std::string policy = html.substr(from, to - from);
    for (std::size_t quote = policy.find('\''); quote != std::string::npos; quote = policy.find('\'', quote)) policy.replace(quote, 1, "&#39;");
    html.replace(from, to - from, open_policy(policy));
  }
  const std::string script = "<script src=\"/.live/page.js?build=" + build + "\" defer></script>\n";
  const std::size_t head = html.find("</head>");
  html.insert(head == std::string::npos ? html.size() : head, script);
  return html;
}

LiveAnswer page_of_text(int status, const std::string& text, const std::string& build) {
  return {status, "text/html; charset=utf-8",
          with_script("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>tenwinters</title>\n</head>\n<body>\n<pre>" +
                          escape_html(text) + "</pre>\n</body>\n</html>\n",
                      build)};
}

}  // namespace

struct LiveServer::State {
  mutable std::mutex held;  // guards the three below
  std::shared_ptr<const std::vector<OutputFile>> files;
  std::string build, faults;
  // Another in each run, so that a page left open from the last one loads again.
  const std::string run = fmt::format("{}-{}", ::getpid(), std::chrono::steady_clock::now().time_since_epoch().count());
  int builds = 0, port = 0;
  std::string why;
  mg_context* server = nullptr;
};

LiveServer::LiveServer() : state_(std::make_unique<State>()) { state_->build = state_->run + "-0"; }
LiveServer::~LiveServer() {
  if (state_->server) mg_stop(state_->server);
}

int LiveServer::port() const { return state_->port; }
const std::string& LiveServer::why() const { return state_->why; }

bool LiveServer::start(int port) {
  const std::string address = fmt::format("127.0.0.1:{}", port);
  const char* options[] = {"listening_ports", address.c_str(), "num_threads", "4", "request_timeout_ms", "10000", nullptr};
  mg_callbacks callbacks{};
  callbacks.begin_request = [](mg_connection* connection) {
    const auto* server = static_cast<const LiveServer*>(mg_get_user_context_data(connection));
    const mg_request_info* request = mg_get_request_info(connection);
    const char* host = mg_get_header(connection, "Host");
    const LiveAnswer answer = server->answer(request->request_method, request->local_uri ? request->local_uri : "", host ? host : "");
    mg_printf(connection,
              "HTTP/1.1 %d %s\r\nContent-Type: %s\r\nContent-Length: %zu\r\nCache-Control: no-store\r\nX-Content-Type-Options: nosniff\r\n"
              "Connection: close\r\n\r\n",
              answer.status, mg_get_response_code_text(connection, answer.status), answer.type.c_str(), answer.body.size());
    if (std::string_view(request->request_method) != "HEAD") mg_write(connection, answer.body.data(), answer.body.size());
    return answer.status;
  };
  callbacks.log_message = [](const mg_connection*, const char*) { return 1; };  // it says nothing that why() does not
  state_->server = mg_start(&callbacks, this, options);
  if (!state_->server) {
    state_->why = port == 0 ? "no port on 127.0.0.1 can be had" : fmt::format("port {} on 127.0.0.1 cannot be had: another program has it, or it is reserved; name another with --port", port);
    return false;
  }
  mg_server_port ports[1] = {};
  if (mg_get_server_ports(state_->server, 1, ports) == 1) state_->port = ports[0].port;
  return true;
}

void LiveServer::show(std::shared_ptr<const std::vector<OutputFile>> files) {
  const std::lock_guard<std::mutex> lock(state_->held);
  state_->files = std::move(files);
  state_->build = fmt::format("{}-{}", state_->run, ++state_->builds);
  state_->faults.clear();
}

void LiveServer::tell(const std::string& faults) {
  const std::lock_guard<std::mutex> lock(state_->held);
  state_->faults = faults;
}

LiveAnswer LiveServer::answer(const std::string& method, const std::string& path, const std::string& host) const {
  constexpr const char* kText = "text/plain; charset=utf-8";
  if (method != "GET" && method != "HEAD") return {405, kText, "only GET and HEAD\n"};
  // Another site's page could lead its own name to this machine, and read what is served here.
  const std::string name = host.substr(0, host.find(':'));
  if (name != "127.0.0.1" && name != "localhost") return {403, kText, "this is served to 127.0.0.1 and localhost alone\n"};
  std::shared_ptr<const std::vector<OutputFile>> files;
  std::string build, faults;
  {
    const std::lock_guard<std::mutex> lock(state_->held);
    files = state_->files;
    build = state_->build;
    faults = state_->faults;
  }
  if (path == "/.live/page.js") return {200, type_of(".js"), std::string(kScript)};
  if (path == "/.live/page.css") return {200, type_of(".css"), std::string(kStyle)};
  if (path == "/.live/state") return {200, "application/json", nlohmann::json{{"build", build}, {"faults", faults}}.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace)};
  if (path.starts_with(kOwn)) return {404, kText, "there is no such file\n"};
  if (path == "/worker.js") return {200, type_of(path), std::string(kNoWorker)};
  if (!files) return page_of_text(503, faults.empty() ? "The site is being built." : faults, build);
  const std::string wanted = path.substr(std::min<std::size_t>(1, path.size())) + (path.ends_with('/') ? "index.html" : "");
  const auto file = std::lower_bound(files->begin(), files->end(), wanted, [](const OutputFile& each, const std::string& text) { return each.path < text; });
  if (file == files->end() || file->path != wanted) return page_of_text(404, "The site has no page " + path, build);
  if (!wanted.ends_with(".html")) return {200, type_of(wanted), file->content};
  return {200, type_of(wanted), with_script(file->content, build)};
}

}  // namespace tenwinters::cli
