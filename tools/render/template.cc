#include "render/template.h"

#include <algorithm>

#include "render/markup.h"

namespace tenwinters {
namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\n' || text.back() == '\r'))
    text.remove_suffix(1);
  return text;
}

bool is_blank(std::string_view text) { return text.find_first_not_of(" \t\n") == std::string_view::npos; }

// False, an empty list and an empty text leave a section out.
bool is_shown(const Model& value) {
  switch (value.kind()) {
    case Model::Kind::flag: return value.flag();
    case Model::Kind::list: return !value.items().empty();
    case Model::Kind::text: return !value.text().empty();
    case Model::Kind::prose:
    case Model::Kind::object: break;
  }
  return true;
}

}  // namespace

// One tag, or the text between two.
struct Templates::Step {
  enum class Kind { text, name, raw, section, inverted, end };
  Kind kind = Kind::text;
  std::string text;                // of a text; else the name as it is written
  std::vector<std::string> path;   // the name at its dots; empty: the innermost value itself
  std::string file;                // where the tag stands
  int line = 0;
  std::size_t end = 0;             // of a section or its opposite: the step that ends it
};

struct Templates::Parsed {
  std::vector<Step> steps;
  std::string source;              // the texts of the template and its parts
};

// Reads a template and its parts into one row of steps.
class Templates::Reader {
 public:
  explicit Reader(Templates& templates) : templates_(templates) {}

  bool read(const std::string& name) {
    const auto file = templates_.files_.find(name);
    if (file == templates_.files_.end()) {
      templates_.fault(name, 0, chain_.empty() ? "there is no such template" : "no such template, included by " + chain_.back());
      return false;
    }
    if (std::find(chain_.begin(), chain_.end(), name) != chain_.end()) {
      templates_.fault(name, 0, "the template includes itself");
      return false;
    }
    chain_.push_back(name);
    parsed_.source += name + '\n' + file->second + '\n';
    const bool good = read_text(name, file->second);
    chain_.pop_back();
    return good;
  }

  // What was read, once all of it is.
  Parsed take() {
    strip_lines_of_tags();
    std::vector<std::size_t> open;
    for (std::size_t i = 0; i < parsed_.steps.size(); ++i) {
      Step& step = parsed_.steps[i];
      if (step.kind == Step::Kind::section || step.kind == Step::Kind::inverted) open.push_back(i);
      if (step.kind != Step::Kind::end) continue;
      parsed_.steps[open.back()].end = i;
      open.pop_back();
    }
    return std::move(parsed_);
  }

 private:
  bool read_text(const std::string& name, const std::string& text) {
    bool good = true;
    std::vector<std::string> open;
    int line = 1;
    std::size_t at = 0;
    while (true) {
      const std::size_t tag = std::min(text.find("{{", at), text.size());
      for (; at < tag; ++at) {
        if (text[at] == '\n') ++line;
        add_text(text[at]);
      }
      if (tag == text.size()) break;
      const bool raw = text.compare(tag, 3, "{{{") == 0;
      const std::string_view closing = raw ? "}}}" : "}}";
      const std::size_t end = text.find(closing, tag);
      if (end == std::string::npos) {
        templates_.fault(name, line, "a tag is opened and not closed");
        return false;
      }
      std::string_view content = trimmed(std::string_view(text).substr(tag + closing.size(), end - tag - closing.size()));
      const char sigil = !raw && !content.empty() && std::string_view("#^/>!=&").find(content.front()) != std::string_view::npos
                             ? content.front() : '\0';
      if (sigil != '\0') content = trimmed(content.substr(1));
      const std::string called(content);
      if (sigil == '>') {
        good = read(called + ".mustache") && good;
      } else if (sigil == '=') {
        templates_.fault(name, line, "delimiters may not be changed");
        good = false;
      } else if (sigil == '#' || sigil == '^') {
        open.push_back(called);
        add_tag(sigil == '#' ? Step::Kind::section : Step::Kind::inverted, called, name, line);
      } else if (sigil == '/') {
        if (open.empty() || open.back() != called) {
          templates_.fault(name, line, "\"" + called + "\" is closed where " + (open.empty() ? "nothing is open" : "\"" + open.back() + "\" is open"));
          return false;
        }
        open.pop_back();
        add_tag(Step::Kind::end, called, name, line);
      } else if (sigil != '!') {
        add_tag(raw || sigil == '&' ? Step::Kind::raw : Step::Kind::name, called, name, line);
      }
      for (at = tag; at < end + closing.size(); ++at)
        if (text[at] == '\n') ++line;
    }
    if (good && !open.empty()) {
      templates_.fault(name, line, "\"" + open.back() + "\" is opened and not closed");
      good = false;
    }
    return good;
  }

  void add_text(char c) {
    std::vector<Step>& steps = parsed_.steps;
    const bool line_begins = steps.empty() || (steps.back().kind == Step::Kind::text && steps.back().text.back() == '\n');
    // Indentation and blank lines cost bytes and time, and mean nothing in HTML.
    if (line_begins && (c == ' ' || c == '\t' || c == '\n')) return;
    // One step a line, so that lines of tags are found.
    if (line_begins || steps.back().kind != Step::Kind::text) steps.emplace_back();
    steps.back().text += c;
  }

  void add_tag(Step::Kind kind, const std::string& called, const std::string& file, int line) {
    Step step;
    step.kind = kind;
    step.text = called;
    step.file = file;
    step.line = line;
    if (called != ".")
      for (std::size_t from = 0; from <= called.size();) {
        const std::size_t dot = std::min(called.find('.', from), called.size());
        step.path.push_back(called.substr(from, dot - from));
        from = dot + 1;
      }
    parsed_.steps.push_back(std::move(step));
  }

  // A line that holds tags of sections and nothing else prints nothing, not even its end; then texts are joined.
  void strip_lines_of_tags() {
    std::vector<Step> kept;
    for (std::size_t from = 0, to = 0; from < parsed_.steps.size(); from = to) {
      bool tags = false, prints = false, ended = false;
      for (to = from; to < parsed_.steps.size() && !ended; ++to) {
        const Step& step = parsed_.steps[to];
        ended = step.kind == Step::Kind::text && step.text.back() == '\n';
        tags = tags || step.kind != Step::Kind::text;
        prints = prints || step.kind == Step::Kind::name || step.kind == Step::Kind::raw || (step.kind == Step::Kind::text && !is_blank(step.text));
      }
      for (std::size_t i = from; i < to; ++i) {
        Step& step = parsed_.steps[i];
        if (step.kind == Step::Kind::text && tags && !prints) continue;
        if (step.kind == Step::Kind::text && !kept.empty() && kept.back().kind == Step::Kind::text) kept.back().text += step.text;
        else kept.push_back(std::move(step));
      }
    }
    parsed_.steps = std::move(kept);
  }

  Templates& templates_;
  std::vector<std::string> chain_;
  Parsed parsed_;
};

// One page while it is printed.
class Templates::Printer {
 public:
  Printer(Templates& templates, const Parsed& parsed, const Model& root, const Language& language, std::vector<std::string>* prose)
      : templates_(templates), steps_(parsed.steps), language_(language), prose_(prose), values_{&root} {}

  std::string print() {
    print(0, steps_.size());
    return std::move(out_);
  }

 private:
  void print(std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) {
      const Step& step = steps_[i];
      switch (step.kind) {
        case Step::Kind::text: out_ += step.text; break;
        case Step::Kind::name: print_value(step, true); break;
        case Step::Kind::raw: print_value(step, false); break;
        case Step::Kind::section:
          print_section(step, i + 1);
          i = step.end;
          break;
        case Step::Kind::inverted: {
          const Found found = find(step);
          if (!found.word && (!found.value || !is_shown(*found.value))) print(i + 1, step.end);
          i = step.end;
          break;
        }
        case Step::Kind::end: break;
      }
    }
  }

  struct Found {
    const Model* value = nullptr;
    const std::string* word = nullptr;
  };

  Found find(const Step& step) {
    if (step.path.empty()) return {values_.back(), nullptr};
    for (auto from = values_.rbegin(); from != values_.rend(); ++from) {
      const Model* value = *from;
      for (const std::string& part : step.path) {
        const auto member = value->object().find(part);
        value = member == value->object().end() ? nullptr : &member->second;
        if (!value) break;
      }
      if (value) return {value, nullptr};
    }
    if (const auto word = language_.words.find(step.text); word != language_.words.end()) return {nullptr, &word->second};
    templates_.fault(step.file, step.line, "nothing is called \"" + step.text + "\" (language " + language_.code + ")");
    return {};
  }

  void print_value(const Step& step, bool escaped) {
    const Found found = find(step);
    if (found.value && found.value->kind() == Model::Kind::prose) {
      if (prose_) prose_->push_back(found.value->text());
      const auto prose = language_.prose.find(found.value->text());
      if (prose != language_.prose.end()) out_ += markdown_to_html(prose->second);
      return;
    }
    const std::string* text = found.word;
    if (found.value && found.value->kind() == Model::Kind::text) text = &found.value->text();
    if (!text) return;
    if (escaped) add_escaped(out_, *text);
    else out_ += *text;
  }

  void print_section(const Step& step, std::size_t from) {
    const Found found = find(step);
    if (found.word) return print(from, step.end);
    if (!found.value || !is_shown(*found.value)) return;
    if (found.value->kind() == Model::Kind::flag) return print(from, step.end);
    if (found.value->kind() != Model::Kind::list) return print_in(*found.value, from, step.end);
    for (const Model& item : found.value->items()) print_in(item, from, step.end);
  }

  void print_in(const Model& value, std::size_t from, std::size_t to) {
    values_.push_back(&value);
    print(from, to);
    values_.pop_back();
  }

  Templates& templates_;
  const std::vector<Step>& steps_;
  const Language& language_;
  std::vector<std::string>* prose_;
  std::vector<const Model*> values_;  // from the outside in
  std::string out_;
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

const Templates::Parsed* Templates::parse(const std::string& name) {
  {
    const std::lock_guard<std::mutex> lock(held_);
    if (const auto known = parsed_.find(name); known != parsed_.end()) return known->second.get();
  }
  Reader reader(*this);
  std::unique_ptr<Parsed> parsed;
  if (reader.read(name)) parsed = std::make_unique<Parsed>(reader.take());
  const std::lock_guard<std::mutex> lock(held_);
  return parsed_.emplace(name, std::move(parsed)).first->second.get();  // another thread's, if it was quicker
}

std::string Templates::render(const std::string& name, const Model& model, const Language& language, std::vector<std::string>* prose) {
  const Parsed* parsed = parse(name);
  return parsed ? Printer(*this, *parsed, model, language, prose).print() : "";
}

std::string Templates::source(const std::string& name) {
  const Parsed* parsed = parse(name);
  return parsed ? parsed->source : "";
}

}  // namespace tenwinters
