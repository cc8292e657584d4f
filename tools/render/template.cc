#include "render/template.h"

#include <algorithm>
#include <kainjow/mustache.hpp>
#include <set>

#include "render/markup.h"

namespace tenwinters {
namespace {

namespace mustache = kainjow::mustache;
constexpr char kMark = '|';  // between a name and the place it stands at

// A piece of a template: text as it stands, and the tag that follows on it, if one that prints or opens does.
struct Piece {
  enum class Kind { text, escaped, raw, section, inverted } kind;
  std::string text;
  std::string name, marked;        // of the tag: "a.b" and "a.b|page.mustache:12"
  std::vector<std::string> parts;  // "a.b" is a, then b; "." is none
  std::vector<Name> names = {};    // of these
};

// The library takes a template word by word and copies what it prints several times over. So it is given the pieces'
// numbers alone ("{{4}}{{#5}}{{6}}{{/5}}") and decides which of them come, in what order and how often; each piece is
// printed here, at the moment when the library asks for it.
class Printer final : public mustache::basic_context<std::string> {
 public:
  Printer(const std::vector<Piece>& pieces, const Model& root, const Language& language, Templates::Asked* asked)
      : pieces_(pieces), language_(language), asked_(asked) {
    items_.push_back(&root);
  }

  // For a piece that prints: nothing, since it is printed. For a section: whether, or over how many items, it opens.
  const mustache::data* get(const std::string& number) const override {
    std::size_t at = 0;
    for (const char digit : number) at = 10 * at + static_cast<std::size_t>(digit - '0');
    const Piece& piece = pieces_[at];
    out += piece.text;
    switch (piece.kind) {
      case Piece::Kind::text: return nullptr;
      case Piece::Kind::escaped:
      case Piece::Kind::raw: print(piece); return nullptr;
      case Piece::Kind::section: return open(find(piece));
      case Piece::Kind::inverted: return is_something(find(piece)) ? &yes_ : nullptr;
    }
    return nullptr;
  }

  // Sections open and close one within another, so the next item is always one of the section opened last.
  void push(const mustache::data*) override { items_.push_back(sections_.back().next++); }
  void pop() override {
    items_.pop_back();
    if (sections_.back().next == sections_.back().end) sections_.pop_back();
  }
  const mustache::data* get_partial(const std::string&) const override { return nullptr; }

  mutable std::string out;
  mutable std::set<std::string> missing;  // names that nothing has, with their places

 private:
  struct Section {
    const Model *next, *end;
  };

  // Null: nothing is called so.
  const Model* find(const Piece& piece) const {
    if (piece.names.empty()) return items_.back();
    for (auto item = items_.rbegin(); item != items_.rend(); ++item)
      if (const Model* model = member(*item, piece.names)) return model;
    if (const auto word = language_.words.find(piece.name); word != language_.words.end()) {
      const auto [known, first] = words_.try_emplace(&piece, word->second);
      if (first && asked_) asked_->words.push_back(piece.name);
      return &known->second;
    }
    missing.insert(piece.marked);
    return nullptr;
  }

  static const Model* member(const Model* model, const std::vector<Name>& names) {
    for (std::size_t i = 0; i < names.size() && model; ++i) model = model->find(names[i]);
    return model;
  }

  static bool is_something(const Model* model) {
    if (!model) return false;
    if (model->kind() == Model::Kind::flag) return model->flag();
    return model->kind() != Model::Kind::list || !model->items().empty();
  }

  const mustache::data* open(const Model* model) const {
    if (!is_something(model)) return nullptr;
    if (model->kind() != Model::Kind::list) {
      sections_.push_back({model, model + 1});
      return &yes_;
    }
    const std::vector<Model>& items = model->items();
    sections_.push_back({items.data(), items.data() + items.size()});
    mustache::data& list = lists_.try_emplace(items.size(), mustache::data::type::list).first->second;
    while (list.list_value().size() < items.size()) list.push_back(yes_);
    return &list;
  }

  void print(const Piece& piece) const {
    const Model* model = find(piece);
    if (!model) return;
    if (model->kind() == Model::Kind::text) {
      put(piece, model->text());
    } else if (model->kind() == Model::Kind::prose) {
      const std::string& key = model->text();
      if (asked_) asked_->prose.push_back(key);
      if (const auto prose = language_.prose.find(key); prose != language_.prose.end()) put(piece, markdown_to_html(prose->second));
    }
  }

  void put(const Piece& piece, const std::string& text) const {
    if (piece.kind == Piece::Kind::raw) out += text;
    else add_escaped(out, text);
  }

  const std::vector<Piece>& pieces_;
  const Language& language_;
  Templates::Asked* asked_;
  const mustache::data yes_{true};
  std::vector<const Model*> items_;        // what sections are open on, outermost first
  mutable std::vector<Section> sections_;  // those of which items are still to come or open
  mutable std::map<std::size_t, mustache::data> lists_;  // by length: the library counts, and reads no item
  mutable std::map<const Piece*, Model> words_;          // that were asked for
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

// The pieces of a flattened template, and what the library is given for them.
std::string numbered(std::string_view text, std::vector<Piece>& pieces) {
  std::string out;
  std::vector<std::size_t> open;
  const auto add = [&](Piece piece, const char* sigil) {
    out += "{{" + std::string(sigil) + std::to_string(pieces.size()) + "}}";
    pieces.push_back(std::move(piece));
  };
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t tag = std::min(text.find("{{", at), text.size());
    Piece piece{Piece::Kind::text, std::string(text.substr(at, tag - at)), {}, {}, {}};
    const char sigil = tag < text.size() ? text[tag + 2] : '/';
    if (sigil == '/') {
      if (!piece.text.empty()) add(std::move(piece), "");
      if (tag == text.size()) break;
      out += "{{/" + std::to_string(open.back()) + "}}";
      open.pop_back();
      at = text.find("}}", tag) + 2;
      continue;
    }
    const bool raw = sigil == '{', section = sigil == '#' || sigil == '^';
    const std::size_t from = tag + (raw || section ? 3 : 2), end = text.find(raw ? "}}}" : "}}", tag);
    at = end + (raw ? 3 : 2);
    piece.kind = sigil == '#' ? Piece::Kind::section : sigil == '^' ? Piece::Kind::inverted : raw ? Piece::Kind::raw : Piece::Kind::escaped;
    piece.marked = text.substr(from, end - from);
    piece.name = piece.marked.substr(0, piece.marked.rfind(kMark));
    for (std::size_t part = 0; piece.name != "." && part <= piece.name.size();) {
      const std::size_t dot = std::min(piece.name.find('.', part), piece.name.size());
      piece.parts.push_back(piece.name.substr(part, dot - part));
      part = dot + 1;
    }
    for (const std::string& part : piece.parts) piece.names.emplace_back(part);
    if (section) open.push_back(pieces.size());
    add(std::move(piece), sigil == '#' ? "#" : sigil == '^' ? "^" : "");
  }
  return out;
}

}  // namespace

struct Templates::Parsed {
  explicit Parsed(const std::string& text) : view(numbered(text, pieces)) {}
  std::vector<Piece> pieces;
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
    if (!parsed->view.is_valid()) {
      fault(name, 0, parsed->view.error_message());
      parsed.reset();
    }
  }
  const std::lock_guard<std::mutex> lock(held_);
  return parsed_.emplace(name, std::move(parsed)).first->second.get();  // another thread's, if it was quicker
}

std::string Templates::render(const std::string& name, const Model& model, const Language& language, Asked* asked) {
  Parsed* parsed = parse(name);
  if (!parsed) return "";
  Printer printer(parsed->pieces, model, language, asked);
  (void)parsed->view.render(printer);
  for (const std::string& marked : printer.missing) {
    const std::size_t mark = marked.rfind(kMark), colon = marked.rfind(':');
    fault(marked.substr(mark + 1, colon - mark - 1), std::stoi(marked.substr(colon + 1)),
          "nothing is called \"" + marked.substr(0, mark) + "\" (language " + language.code + ")");
  }
  return std::move(printer.out);
}

std::string Templates::source(const std::string& name) {
  const Parsed* parsed = parse(name);
  return parsed ? parsed->source : "";
}

}  // namespace tenwinters
