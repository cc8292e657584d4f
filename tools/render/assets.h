// Style sheet, fonts, scripts: gathered, bound together and named by their content.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "lib/diagnostic.h"
#include "lib/files.h"

namespace tenwinters {

// Sixteen hexadecimal digits that change when the content does.
[[nodiscard]] std::string content_hash(std::string_view content);

[[nodiscard]] std::string base64(std::string_view bytes);

// RFC 1952, without name or time: the same bytes give the same bytes.
[[nodiscard]] std::string gzip(std::string_view bytes);

// A JavaScript string literal; safe in a script file and in a script element.
[[nodiscard]] std::string js_string(std::string_view text);

// Joins ES modules into one classic script, dependencies first, so that pages work from file://.
// Understands `import {a, b} from './x.js';` and `export` before a declaration, each on one line;
// anything else of the kind is a fault. `modules`: file name -> text.
[[nodiscard]] std::string bundle_modules(const std::map<std::string, std::string>& modules, const std::string& entry,
                                         const std::string& folder, std::vector<Diagnostic>& faults);

// The output folder assets/: each file under its name with the hash put in, style.css -> style-0123abcd.css.
class Assets {
 public:
  // Returns the path from the site's root.
  std::string add(std::string_view name, std::string content);
  // A style sheet: each url(...) names one of `files` beside it, which is added and renamed.
  std::string add_style(std::string_view name, std::string css, const std::map<std::string, std::string>& files,
                        const std::string& folder, std::vector<Diagnostic>& faults);
  // A file that keeps its name, such as a licence.
  void add_plain(std::string_view name, std::string content);

  [[nodiscard]] const std::vector<OutputFile>& files() const { return files_; }

 private:
  std::vector<OutputFile> files_;
};

}  // namespace tenwinters
