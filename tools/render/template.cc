#include "render/template.h"

#include <algorithm>
#include <kainjow/mustache.hpp>
#include <set>

#include "render/markup.h"

namespace tenwinters {
namespace {

namespace mustache = kainjow::mustache;
constexpr char kMark = '|';  // between a name and the place it stands at

// What a template may ask of a model, prose as HTML; `printed` gathers the keys of the prose.
mustache::data to_data(const Model& model, const Language& language, std::vector<std::string>* printed) {
  switch (model.kind()) {
    case Model::Kind::text: return mustache::data(model.text());
    case Model::Kind::prose: {
      if (printed) printed->push_back(model.text());
      const auto prose = language.prose.find(model.text());
      return mustache::data(prose == language.prose.end() ? "" : markdown_to_html(prose->second));
    }
    case Model::Kind::flag: return mustache::data(model.flag());
    case Model::Kind::list: {
      mustache::list list;
      list.reserve(model.items().size());
      for (const Model& item : model.items()) list.push_back(to_data(item, language, printed));
      return mustache::data(list);
    }
    case Model::Kind::object: break;
  }
  mustache::data object;
  for (const auto& [key, value] : model.object()) object[key] = to_data(value, language, printed);
  return object;
}

// The library leaves a missing name blank; this lookup remembers it, with its place.
class Lookup final : public mustache::basic_context<std::string> {
 public:
  Lookup(const mustache::data& root, const Language& language) : items_{&root}, language_(language) {}

  void push(const mustache::data* data) override { items_.push_back(data); }
  void pop() override { items_.pop_back(); }
  const mustache::data* get_partial(const std::string&) const override { return nullptr; }

  const mustache::data* get(const std::string& marked) const override {
    const std::size_t mark = marked.rfind(kMark);
    const std::string name = marked.substr(0, mark);
    if (name == ".") return items_.back();
    for (auto item = items_.rbegin(); item != items_.rend(); ++item)
      if (const mustache::data* found = member(**item, name)) return found;
    if (const auto known = words_.find(name); known != words_.end()) return &known->second;
    if (const auto word = language_.words.find(name); word != language_.words.end())
      return &words_.emplace(name, mustache::data(word->second)).first->second;
    missing.insert(marked);
    return nullptr;
  }

  mutable std::set<std::string> missing;

 private:
  static const mustache::data* member(const mustache::data& from, std::string_view name) {
    const mustache::data* found = &from;
    while (!name.empty()) {
      const std::size_t dot = std::min(name.find('.'), name.size());
      found = found->get(std::string(name.substr(0, dot)));
      if (!found) return nullptr;
      name.remove_prefix(std::min(dot + 1, name.size()));
    }
    return found;
  }

  std::vector<const mustache::data*> items_;
  const Language& language_;
  mutable std::map<std::string, mustache::data> words_;
};

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\n' || text.back() == '\r'))
    text.remove_suffix(1);
  return text;
}

bool opens_or_ends_section(std::string_view tag) { return tag.size() > 2 && std::string_view("#^/").find(tag[2]) != std::string_view::npos; }

// A line that holds tags of sections and nothing else prints nothing, not even its end. The library says so of a line
// as it comes out; here it is settled once, as the specification has it, whatever a section holds.
std::string without_lines_of_tags(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string_view line = text.substr(at, end - at);
    std::size_t from = 0;
    bool only_tags = !line.empty();
    while (from < line.size() && only_tags) {
      const std::size_t close = line.find("}}", from);
      only_tags = line.compare(from, 2, "{{") == 0 && opens_or_ends_section(line.substr(from)) && close != std::string_view::npos;
      from = close + 2;
    }
    out += line;
    if (end < text.size() && !only_tags) out += '\n';
    at = end + 1;
  }
  return out;
}

}  // namespace

struct Templates::Parsed {
  explicit Parsed(const std::string& text) : view(text) {}
  mustache::mustache view;  // rendering reads it alone, so threads may share it
  std::string source;       // the texts of the template and its parts
};

Templates::Templates(std::map<std::string, std::string> files, std::string folder)
    : files_(std::move(files)), folder_(std::move(folder)) {}
Templates::~Templates() = default;

void Templates::fault(std::string_view file, int line, std::string message) {
  Diagnostic diagnostic{folder_ + "/" + std::string(file), line, 0, std::move(message), "", false};
  const auto same = [&](const Diagnostic& d) {
    return d.file == diagnostic.file && d.line == diagnostic.line && d.message == diagnostic.message;
  };
  const std::lock_guard<std::mutex> lock(held_);
  if (std::none_of(faults_.begin(), faults_.end(), same)) faults_.push_back(std::move(diagnostic));
}

bool Templates::flatten(const std::string& name, std::vector<std::string>& chain, std::string& out, std::string& source) {
  const auto file = files_.find(name);
  if (file == files_.end()) {
    fault(name, 0, chain.empty() ? "there is no such template" : "no such template, included by " + chain.back());
    return false;
  }
  if (std::find(chain.begin(), chain.end(), name) != chain.end()) {
    fault(name, 0, "the template includes itself");
    return false;
  }
  chain.push_back(name);
  const std::string& text = file->second;
  source += name + '\n' + text + '\n';
  bool good = true;
  struct Open { std::string name, marked; };
  std::vector<Open> open;
  int line = 1;
  std::size_t at = 0;
  const auto copy = [&](std::size_t end) {
    for (; at < end; ++at) {
      const char c = text[at];
      if (c == '\n') ++line;
      // Indentation and blank lines cost bytes and time, and mean nothing in HTML.
      if ((c == ' ' || c == '\t' || c == '\n') && (out.empty() || out.back() == '\n')) continue;
      out += c;
    }
  };
  while (true) {
    const std::size_t tag = std::min(text.find("{{", at), text.size());
    copy(tag);
    if (tag == text.size()) break;
    const bool raw = text.compare(tag, 3, "{{{") == 0;
    const std::string_view closing = raw ? "}}}" : "}}";
    const std::size_t end = text.find(closing, tag);
    if (end == std::string::npos) {
      fault(name, line, "a tag is opened and not closed");
      good = false;
      break;
    }
    std::string_view content = trimmed(std::string_view(text).substr(tag + closing.size(), end - tag - closing.size()));
    const char sigil = !raw && !content.empty() && std::string_view("#^/>!=&").find(content.front()) != std::string_view::npos
                           ? content.front() : '\0';
    if (sigil != '\0') content = trimmed(content.substr(1));
    const std::string marked = std::string(content) + kMark + name + ":" + std::to_string(line);
    if (sigil == '>') {
      good = flatten(std::string(content) + ".mustache", chain, out, source) && good;
    } else if (sigil == '=') {
      fault(name, line, "delimiters may not be changed");
      good = false;
    } else if (sigil == '#' || sigil == '^') {
      open.push_back({std::string(content), marked});
      out += "{{" + std::string(1, sigil) + marked + "}}";
    } else if (sigil == '/') {
      if (open.empty() || open.back().name != content) {
        fault(name, line, "\"" + std::string(content) + "\" is closed where " +
                              (open.empty() ? "nothing is open" : "\"" + open.back().name + "\" is open"));
        good = false;
        break;
      }
      out += "{{/" + open.back().marked + "}}";
      open.pop_back();
    } else if (sigil != '!') {
      out += raw || sigil == '&' ? "{{{" + marked + "}}}" : "{{" + marked + "}}";
    }
    for (at = tag; at < end + closing.size(); ++at)
      if (text[at] == '\n') ++line;
  }
  if (good && !open.empty()) {
    fault(name, line, "\"" + open.back().name + "\" is opened and not closed");
    good = false;
  }
  chain.pop_back();
  return good;
}

Templates::Parsed* Templates::parse(const std::string& name) {
  {
    const std::lock_guard<std::mutex> lock(held_);
    if (const auto known = parsed_.find(name); known != parsed_.end()) return known->second.get();
  }
  std::string text, source;
  std::vector<std::string> chain;
  std::unique_ptr<Parsed> parsed;
  if (flatten(name, chain, text, source)) {
    parsed = std::make_unique<Parsed>(without_lines_of_tags(text));
    parsed->source = std::move(source);
    parsed->view.set_custom_escape([](const std::string& plain) { return escape_html(plain); });
    if (!parsed->view.is_valid()) {
      fault(name, 0, parsed->view.error_message());
      parsed.reset();
    }
  }
  const std::lock_guard<std::mutex> lock(held_);
  return parsed_.emplace(name, std::move(parsed)).first->second.get();  // another thread's, if it was quicker
}

std::string Templates::render(const std::string& name, const Model& model, const Language& language, std::vector<std::string>* prose) {
  Parsed* parsed = parse(name);
  if (!parsed) return "";
  const mustache::data root = to_data(model, language, prose);
  Lookup lookup(root, language);
  std::string out = parsed->view.render(lookup);
  for (const std::string& marked : lookup.missing) {
    const std::size_t mark = marked.rfind(kMark), colon = marked.rfind(':');
    fault(marked.substr(mark + 1, colon - mark - 1), std::stoi(marked.substr(colon + 1)),
          "nothing is called \"" + marked.substr(0, mark) + "\" (language " + language.code + ")");
  }
  return out;
}

std::string Templates::source(const std::string& name) {
  const Parsed* parsed = parse(name);
  return parsed ? parsed->source : "";
}

}  // namespace tenwinters
