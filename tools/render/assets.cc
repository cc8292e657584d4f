#include "render/assets.h"

#define XXH_INLINE_ALL  // nothing to link
#include <xxhash.h>
#include <zlib.h>

#include <algorithm>
#include <cstdint>

namespace tenwinters {
namespace {

constexpr std::string_view kFolder = "assets/";

bool starts_with(std::string_view text, std::string_view prefix) { return text.substr(0, prefix.size()) == prefix; }

class Binder {
 public:
  Binder(const std::map<std::string, std::string>& modules, std::string folder, std::vector<Diagnostic>& faults)
      : modules_(modules), folder_(std::move(folder)), faults_(faults) {}

  void add(const std::string& name, const std::string& wanted_by, int wanted_line) {
    if (std::find(done_.begin(), done_.end(), name) != done_.end()) return;
    const auto module = modules_.find(name);
    if (module == modules_.end()) return fault(wanted_by, wanted_line, "there is no module \"" + name + "\"");
    if (std::find(open_.begin(), open_.end(), name) != open_.end())
      return fault(wanted_by, wanted_line, "modules import one another in a ring: \"" + name + "\"");
    open_.push_back(name);
    std::string body;
    int line_number = 0;
    for (std::string_view rest = module->second; !rest.empty();) {
      const std::size_t end = std::min(rest.find('\n'), rest.size());
      const std::string_view line = rest.substr(0, end);
      rest.remove_prefix(std::min(end + 1, rest.size()));
      ++line_number;
      // A line that is only a comment serves whoever reads the module, not the page.
      const std::size_t text = line.find_first_not_of(' ');
      if (text == std::string_view::npos || starts_with(line.substr(text), "//")) continue;
      if (starts_with(line, "import ")) {
        const std::size_t from = line.find(" from './"), close = line.rfind("';");
        if (from == std::string_view::npos || close == std::string_view::npos || close <= from) {
          fault(name, line_number, "an import must read: import {a, b} from './file.js';");
        } else {
          add(std::string(line.substr(from + 9, close - from - 9)), name, line_number);
        }
        continue;
      }
      if (starts_with(line, "export ")) {
        const std::string_view what = line.substr(7);
        const bool known = starts_with(what, "function ") || starts_with(what, "const ") || starts_with(what, "class ") ||
                           starts_with(what, "async function ");
        if (!known) fault(name, line_number, "an export must stand before a function, const or class");
        body += what;
      } else {
        body += line;
      }
      body += '\n';
    }
    open_.pop_back();
    done_.push_back(name);
    out_ += body;
  }

  [[nodiscard]] const std::string& text() const { return out_; }

 private:
  void fault(const std::string& file, int line, std::string message) {
    faults_.push_back({folder_ + "/" + file, line, 0, std::move(message), "", false});
  }

  const std::map<std::string, std::string>& modules_;
  const std::string folder_;
  std::vector<Diagnostic>& faults_;
  std::vector<std::string> open_, done_;
  std::string out_;
};

// Without comments and indentation, which every reader would have to fetch.
std::string squeezed(std::string_view css) {
  std::string out;
  for (std::size_t at = 0; at < css.size(); ++at) {
    if (css.substr(at, 2) == "/*") {
      const std::size_t end = css.find("*/", at + 2);
      if (end == std::string_view::npos) break;
      at = end + 1;
      continue;
    }
    const bool line_starts = out.empty() || out.back() == '\n';
    if (line_starts && (css[at] == ' ' || css[at] == '\n')) continue;
    out += css[at];
  }
  return out;
}

}  // namespace

std::string content_hash(std::string_view content) {
  const std::uint64_t hash = XXH64(content.data(), content.size(), 0);
  std::string text;
  for (int shift = 60; shift >= 0; shift -= 4) text += "0123456789abcdef"[(hash >> shift) & 15u];
  return text;
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view kDigits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k)
      group = (group << 8u) | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k)
      out += i + k <= bytes.size() ? kDigits[(group >> (18u - 6u * k)) & 63u] : '=';
  }
  return out;
}

std::string gzip(std::string_view bytes) {
  z_stream stream{};
  constexpr int kGzip = 16;  // added to the window's size, this asks for gzip rather than zlib
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, MAX_WBITS + kGzip, MAX_MEM_LEVEL, Z_DEFAULT_STRATEGY) != Z_OK) return "";
  std::string out(deflateBound(&stream, static_cast<uLong>(bytes.size())), '\0');
  std::string in(bytes);  // zlib takes its input as mutable
  stream.next_in = reinterpret_cast<Bytef*>(in.data());
  stream.avail_in = static_cast<uInt>(in.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  const int status = deflate(&stream, Z_FINISH);
  out.resize(status == Z_STREAM_END ? stream.total_out : 0);
  deflateEnd(&stream);
  return out;
}

std::string js_string(std::string_view text) {
  constexpr std::string_view kHex = "0123456789abcdef";
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (byte < 0x20 || c == '<') {  // '<' so that no "</script" can stand inside
      out += "\\u00";
      out += kHex[byte >> 4u];
      out += kHex[byte & 15u];
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string bundle_modules(const std::map<std::string, std::string>& modules, const std::string& entry,
                           const std::string& folder, std::vector<Diagnostic>& faults) {
  Binder binder(modules, folder, faults);
  binder.add(entry, entry, 0);
  return "(() => {\n'use strict';\n" + binder.text() + "})();\n";
}

std::string Assets::add(std::string_view name, std::string content) {
  const std::size_t slash = name.rfind('/') == std::string_view::npos ? 0 : name.rfind('/') + 1;
  const std::size_t dot = std::min(name.find('.', slash), name.size());
  std::string path = std::string(kFolder) + std::string(name.substr(0, dot)) + "-" + content_hash(content).substr(0, 10) +
                     std::string(name.substr(dot));
  const bool known = std::any_of(files_.begin(), files_.end(), [&](const OutputFile& f) { return f.path == path; });
  if (!known) files_.push_back({path, std::move(content)});
  return path;
}

std::string Assets::add_style(std::string_view name, std::string css, const std::map<std::string, std::string>& files,
                              const std::string& folder, std::vector<Diagnostic>& faults) {
  constexpr std::string_view kOpen = "url(";
  for (std::size_t at = css.find(kOpen); at != std::string::npos; at = css.find(kOpen, at + 1)) {
    const std::size_t start = at + kOpen.size(), end = css.find(')', start);
    const std::string target = css.substr(start, end - start);
    const auto file = files.find(target);
    if (end == std::string::npos || file == files.end()) {
      const auto line = static_cast<int>(1 + std::count(css.begin(), css.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
      faults.push_back({folder + "/" + std::string(name), line, 0, "there is no file \"" + target + "\" beside this one", "", false});
      continue;
    }
    css.replace(start, end - start, add(target, file->second).substr(kFolder.size()));
  }
  return add(name, squeezed(css));
}

void Assets::add_plain(std::string_view name, std::string content) {
  const std::string path = std::string(kFolder) + std::string(name);
  const bool known = std::any_of(files_.begin(), files_.end(), [&](const OutputFile& f) { return f.path == path; });
  if (!known) files_.push_back({path, std::move(content)});
}

}  // namespace tenwinters
