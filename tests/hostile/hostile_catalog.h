// A copy of the catalogue in which every text that the loader lets pass is hostile. See README.md.
#pragma once

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "lib/files.h"
#include "lib/utf8.h"
#include "loader/format.h"
#include "loader/loader.h"

namespace tenwinters::testing {

inline constexpr const char* kToday = "2026-12-01";

// Each text begins or ends with a mark of its own, "hqNq", by which a fault or a page tells which one it met.
inline std::string hostile(std::size_t number, std::size_t shift) {
  static const std::array<std::string, 14> kTexts = {
      "<script>alarm()</script>",
      "\"><img src=x onerror=alarm()>",
      "' onmouseover='alarm()' autofocus onfocus='alarm()' x='",
      "{{ui.home_title}} {{{title}}} {{#places}}{{> head}}",
      "</script></title></textarea><svg onload=alarm()>",
      "javascript:alarm()",
      "../../../etc/passwd",
      "]]> --> <!-- <style>*{display:none}</style>",
      "[press](javascript:alarm()) ![x](https://evil.invalid/x.png) `<b>`",
      "&lt;script&gt;alarm()&lt;/script&gt; &#106;avascript:alarm()",
      std::string(300, 'W'),
      "$& $1 $` \\u003cscript\\u003e \\\" %s %n ${alarm()} `${alarm()}`",
      "data:text/html,<script>alarm()</script>",
      "<a href=javascript:alarm() target=_top>press</a><iframe srcdoc='<script>parent.alarm()</script>'>"};
  return kTexts[(number + shift) % kTexts.size()] + " hq" + std::to_string(number) + "q";
}
// Read by a spreadsheet as a formula if it stands first in a cell.
inline std::string formula(std::size_t number) {
  static const std::array<std::string, 5> kStarts = {"=", "+", "-", "@", "'="};
  return kStarts[number % kStarts.size()] + "HYPERLINK(\"https://evil.invalid\",1) hq" + std::to_string(number) + "q";
}

struct HostileCatalog {
  std::size_t tried = 0, kept = 0;        // values of all files; those that stayed hostile
  std::vector<std::string> unexplained;   // faults that putting texts back did not mend
  std::map<std::string, std::string> files;  // by path from the folder of the catalogue
};

namespace hostile_detail {

struct Text {
  Part* part;
  std::string raw, text;  // as they were
};

inline void collect(Part& part, std::vector<Text>& texts) {
  if (part.kind == Part::Kind::scalar) texts.push_back({&part, part.raw, part.text});
  for (Part& child : part.children) collect(child, texts);
}

// The number of the first mark at or after `from`, or npos.
inline std::size_t mark_after(const std::string& line, std::size_t from) {
  for (std::size_t at = line.find("hq", std::min(from, line.size())); at != std::string::npos; at = line.find("hq", at + 1)) {
    char* end = nullptr;
    const unsigned long number = std::strtoul(line.c_str() + at + 2, &end, 10);
    if (end != line.c_str() + at + 2 && *end == 'q') return number;
  }
  return std::string::npos;
}

// Columns count characters, from 1.
inline std::size_t byte_of_column(const std::string& line, int column) {
  std::size_t at = 0;
  for (int left = column - 1; left > 0 && at < line.size(); --left) at += std::max<std::size_t>(1, code_point_at(line, at).bytes);
  return at;
}

inline std::string line_of(const std::string& text, int line) {
  std::size_t at = 0;
  for (int i = 1; i < line && at != std::string::npos; ++i) at = text.find('\n', at) == std::string::npos ? text.npos : text.find('\n', at) + 1;
  return at == std::string::npos ? "" : text.substr(at, text.find('\n', at) - at);
}

}  // namespace hostile_detail

// `shift` chooses which text meets which value.
inline HostileCatalog make_hostile(const std::filesystem::path& catalog, std::size_t shift) {
  namespace fs = std::filesystem;
  using namespace hostile_detail;
  HostileCatalog out;
  MemoryReader disk;
  std::map<std::string, Document> documents;
  for (const auto& entry : fs::recursive_directory_iterator(catalog)) {
    if (!entry.is_regular_file()) continue;
    const std::string path = entry.path().lexically_relative(catalog).generic_string();
    std::string why;
    const std::optional<std::string> raw = DiskReader().read(entry.path().string(), 1u << 26u, why);
    if (!raw) continue;
    out.files[path] = *raw;
    Document document;
    if (!path.ends_with(".yaml") || !read_document(path, *raw, document).empty()) continue;
    documents.emplace(path, std::move(document));
  }
  std::vector<Text> texts;
  for (auto& [path, document] : documents) collect(document.root, texts);
  out.tried = out.kept = texts.size();
  for (std::size_t i = 0; i < texts.size(); ++i) {
    // What a text is to be filled with must stay in it; every third begins with the old one all the same, as a formula cannot.
    const bool has_fills = texts[i].text.find('{') != std::string::npos;
    const std::string text = i % 3 == 0 && !has_fills ? formula(i) : (has_fills ? texts[i].text + " " : "") + hostile(i, shift);
    texts[i].part->raw = written(text);
  }
  constexpr int kRounds = 60;
  for (int round = 0; round < kRounds; ++round) {
    for (const auto& [path, document] : documents) out.files[path] = write_document(document, path);
    for (const auto& [path, text] : out.files) disk.files["catalog/" + path] = text;
    LoadedCatalog loaded = load_catalog(disk, "catalog", kToday);
    std::vector<Diagnostic> faults = std::move(loaded.faults);
    for (const std::string& id : disk.folders("catalog/offices")) {
      LoadedOffice office = load_office(disk, "catalog/offices/" + id + "/office.yaml", loaded.catalog, kToday);
      faults.insert(faults.end(), office.faults.begin(), office.faults.end());
    }
    out.unexplained.clear();
    // A fault points at the text it does not like. Only when none does (the rest follow from them, as a link to an id
    // that could not be read) is every text put back that stands on a line with a fault.
    std::set<std::size_t> pointed_at, on_the_line;
    for (const Diagnostic& fault : faults) {
      if (fault.warning) continue;
      out.unexplained.push_back(to_text(fault));
      const std::string line = line_of(disk.files[fault.file], fault.line);
      const std::size_t column = byte_of_column(line, fault.column), number = mark_after(line, column);
      if (number < texts.size() && line.compare(column, texts[number].part->raw.size(), texts[number].part->raw) == 0) pointed_at.insert(number);
      for (std::size_t at = 0, n; (n = mark_after(line, at)) < texts.size(); at = line.find("hq" + std::to_string(n) + "q", at) + 1)
        on_the_line.insert(n);
    }
    const std::set<std::size_t>& refused = pointed_at.empty() ? on_the_line : pointed_at;
    for (const std::size_t number : refused) texts[number].part->raw = texts[number].raw;
    out.kept -= refused.size();
    if (refused.empty()) break;
  }
  return out;
}

}  // namespace tenwinters::testing
