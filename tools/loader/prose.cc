// prose/CODE/**.md: longer texts for people, as Markdown without HTML.
#include <algorithm>

#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr int kDeepestFolder = 4;

// Where the code span ends that a run of ticks opens at `start`: a run of as many in the same paragraph. Without one
// the ticks stand for themselves, and what follows is no code.
std::size_t past_code(std::string_view text, std::size_t start) {
  const auto run_at = [&](std::size_t at) { return std::min(text.find_first_not_of('`', at), text.size()) - at; };
  const std::size_t ticks = run_at(start), end = std::min(text.find("\n\n", start), text.size());
  for (std::size_t at = text.find('`', start + ticks); at < end; at = text.find('`', at + run_at(at)))
    if (run_at(at) == ticks) return at + ticks;
  return start + ticks;
}

// HTML is shown as the text it is, which nobody meant who wrote it.
void tell_html(SourceText& source) {
  const std::string_view text = source.text();
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    if (text[i] == '`') {
      i = past_code(text, i) - 1;
      continue;
    }
    if (text[i] == '\\') {
      ++i;
      continue;
    }
    if (text[i] != '<') continue;
    const std::string_view rest = text.substr(i + 1);
    const char next = rest.front();
    const bool letter = (next >= 'a' && next <= 'z') || (next >= 'A' && next <= 'Z');
    if (rest.starts_with("https://") || rest.starts_with("http://") || rest.starts_with("mailto:")) continue;
    if (letter || next == '/' || next == '!' || next == '?')
      source.fault(i, "HTML; prose is plain Markdown, write \\< for the sign itself");
  }
}

bool leads_nowhere(const Reading& reading, const std::string& key, std::string& nearest) {
  const std::size_t slash = key.find('/');
  if (slash == std::string::npos) return false;
  const std::string folder = key.substr(0, slash);
  const auto* ids = folder == "types"        ? &reading.type_ids
                    : folder == "cultivars"  ? &reading.cultivar_ids
                    : folder == "rootstocks" ? &reading.rootstock_ids
                                             : nullptr;
  if (ids == nullptr) return false;
  const std::string id = key.substr(slash + 1);
  if (ids->contains(id)) return false;
  const std::vector<std::string_view> names(ids->begin(), ids->end());
  nearest = did_you_mean(id, names);
  return true;
}

void read_folder(Reading& reading, Language& language, const std::string& base, const std::string& below, int depth) {
  const std::string folder = below.empty() ? base : base + "/" + below;
  for (const std::string& id : ids_of_folder(reading, folder, ".md")) {
    const std::string path = folder + "/" + id + ".md";
    const std::string key = below.empty() ? id : below + "/" + id;
    std::string why;
    std::optional<std::string> raw = reading.disk.read(path, kLargestFile, why);
    if (!raw) {
      reading.fault_of_path(path, why);
      continue;
    }
    SourceText source(path, std::move(*raw));
    if (source.text().find_first_not_of(" \n\t") == std::string_view::npos) source.fault_of_file("the file is empty");
    tell_html(source);
    if (std::string nearest; leads_nowhere(reading, key, nearest))
      source.fault_of_file("nothing in the catalogue has this name" + nearest);
    reading.faults.insert(reading.faults.end(), source.faults().begin(), source.faults().end());
    language.prose.emplace(key, source.text());
  }
  if (depth == kDeepestFolder) return;
  for (const std::string& name : reading.disk.folders(folder)) {
    if (!name.starts_with('.'))
      read_folder(reading, language, base, below.empty() ? name : below + "/" + name, depth + 1);
  }
}

}  // namespace

void read_prose(Reading& reading) {
  for (Language& language : reading.languages) {
    const std::string base = reading.root + "/prose/" + language.code;
    read_folder(reading, language, base, "", 1);
    std::string missing;
    for (const std::string& id : reading.type_ids) {
      if (!language.prose.contains("types/" + id)) missing += (missing.empty() ? "" : ", ") + id;
    }
    if (!missing.empty()) reading.faults.push_back({base + "/types", 0, 0, "no prose for " + missing, "", true});
  }
}

}  // namespace tenwinters
