#include "cli/catalog_csv.h"

#include <algorithm>
#include <utility>

namespace tenwinters::cli {
namespace {

constexpr std::string_view kBetween = "; ", kUntil = " to ";

// Where the value of a figure stands, by the key that tells its kind.
constexpr std::array<std::string_view, 2> kListKeys = {"are", "alleles"};
constexpr std::array<std::pair<Cell, std::string_view>, 3> kRange = {
    {{Cell::low, "low"}, {Cell::high, "high"}, {Cell::unit, "unit"}}};
constexpr std::array<std::pair<Cell, std::string_view>, 3> kEvidence = {
    {{Cell::basis, "basis"}, {Cell::seen, "seen"}, {Cell::note, "note"}}};

bool is_figure(const Part& part) { return part.kind == Part::Kind::map && part.find("basis") != nullptr; }

std::string text_at(const Part& map, std::string_view key) {
  const Part* child = map.find(key);
  return child == nullptr ? "" : child->text;
}

std::string joined(const Part& list) {
  std::string out;
  for (std::size_t i = 0; i < list.children.size(); ++i) out += (i > 0 ? std::string(kBetween) : "") + list.children[i].text;
  return out;
}

std::vector<std::string> parted(std::string_view cell) {
  std::vector<std::string> items;
  while (!cell.empty()) {
    const std::size_t end = cell.find(';');
    std::string_view item = cell.substr(0, end);
    while (!item.empty() && item.front() == ' ') item.remove_prefix(1);
    while (!item.empty() && item.back() == ' ') item.remove_suffix(1);
    if (!item.empty()) items.emplace_back(item);
    cell = end == std::string_view::npos ? "" : cell.substr(end + 1);
  }
  return items;
}

bool is_text_list(const Part& part) {
  return part.kind == Part::Kind::list && std::all_of(part.children.begin(), part.children.end(), [](const Part& item) {
           return item.kind == Part::Kind::scalar && item.text.find(';') == std::string::npos;
         });
}

// The keys of a figure that have a cell of their own.
bool has_cell(std::string_view key) {
  constexpr std::array<std::string_view, 14> kKeys = {"best", "low", "high", "unit",    "is",    "are",  "alleles",
                                                      "from", "to",  "weight", "sources", "basis", "seen", "note"};
  return std::find(kKeys.begin(), kKeys.end(), key) != kKeys.end();
}

FigureRow figure_row(const std::string& file, const std::string& path, const Part& figure) {
  FigureRow row;
  row[Cell::file] = file;
  row[Cell::path] = path;
  for (const char* key : {"best", "is", "weight"})
    if (figure.find(key) != nullptr) row[Cell::value] = text_at(figure, key);
  for (std::string_view key : kListKeys)
    if (const Part* list = figure.find(key)) row[Cell::value] = joined(*list);
  if (figure.find("from") != nullptr) row[Cell::value] = text_at(figure, "from") + std::string(kUntil) + text_at(figure, "to");
  for (const auto& [cell, key] : kRange) row[cell] = text_at(figure, key);
  for (const auto& [cell, key] : kEvidence) row[cell] = text_at(figure, key);
  if (const Part* sources = figure.find("sources")) row[Cell::sources] = joined(*sources);
  return row;
}

// Of a figure, a text or a list of texts.
FigureRow current_row(const std::string& file, const std::string& path, const Part& part) {
  if (part.kind == Part::Kind::map) return figure_row(file, path, part);
  FigureRow row;
  row[Cell::file] = file;
  row[Cell::path] = path;
  row[Cell::value] = part.kind == Part::Kind::scalar ? part.text : joined(part);
  return row;
}

void collect(const std::string& file, const std::string& path, const Part& part, std::vector<FigureRow>& rows) {
  if (part.kind == Part::Kind::scalar || is_text_list(part)) {
    rows.push_back(current_row(file, path, part));
    return;
  }
  const bool figure = is_figure(part);
  if (figure) rows.push_back(current_row(file, path, part));
  for (std::size_t i = 0; i < part.children.size(); ++i) {
    const Part& child = part.children[i];
    const std::string name = part.kind == Part::Kind::list ? name_of_item(child, i) : child.key;
    // What names an item stands in its path.
    const bool named = !path.empty() && part.kind == Part::Kind::map && (name == "id" || ((name == "region" || name == "spot") && part.find("kind") == nullptr));
    if ((figure && has_cell(name)) || named) continue;
    collect(file, path.empty() ? name : path + "." + name, child, rows);
  }
}

// --- changes ------------------------------------------------------------------------------------

// Numbers, dates, ids and words of the catalogue stand without quotes.
bool is_token(std::string_view text) {
  return !text.empty() && text.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_.-") == std::string_view::npos;
}

void set_scalar(Part& part, const std::string& text) {
  const bool quoted = !part.raw.empty() && (part.raw.front() == '"' || part.raw.front() == '\'');
  part.kind = Part::Kind::scalar;
  part.text = text;
  part.raw = is_token(text) && !quoted ? text : written(text);
  if (quoted && part.raw.front() != '"') part.raw = '"' + part.raw + '"';
}

void set_list(Part& part, const std::string& cell) {
  part.kind = Part::Kind::list;
  part.flow = true;
  part.children.clear();
  for (const std::string& item : parted(cell)) set_scalar(part.children.emplace_back(), item);
}

Part& child_of(Part& map, std::string_view key) {
  if (Part* child = map.find(key)) return *child;
  Part& made = map.children.emplace_back();
  made.key = made.key_raw = std::string(key);
  made.flow = map.flow;
  return made;
}

// "" removes the key.
void set_text(Part& map, std::string_view key, const std::string& text) {
  if (text.empty()) std::erase_if(map.children, [&](const Part& child) { return child.key == key; });
  else set_scalar(child_of(map, key), text);
}

bool has(const std::vector<std::string>& keys, std::string_view key) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

std::string set_value(Part& figure, const std::vector<std::string>& keys, const std::string& cell) {
  for (std::string_view key : kListKeys)
    if (has(keys, key)) {
      set_list(child_of(figure, key), cell);
      return "";
    }
  for (const char* key : {"best", "is", "weight"})
    if (has(keys, key)) {
      set_text(figure, key, cell);
      return "";
    }
  if (has(keys, "from")) {
    const std::size_t until = cell.find(kUntil);
    if (until == std::string::npos) return "expected months, as 11 to 1, found \"" + cell + "\"";
    set_text(figure, "from", cell.substr(0, until));
    set_text(figure, "to", cell.substr(until + kUntil.size()));
    return "";
  }
  return cell.empty() ? "" : "this figure has no value of its own";
}

void fill_figure(Part& figure, const FigureRow& before, const FigureRow& row, const std::vector<std::string>& keys, std::string& why) {
  if (row[Cell::value] != before[Cell::value]) why = set_value(figure, keys, row[Cell::value]);
  for (const auto& [cell, key] : kRange) {
    if (row[cell] == before[cell]) continue;
    if (!has(keys, key)) why = "this figure has no " + std::string(key);
    else set_text(figure, key, row[cell]);
  }
  for (const auto& [cell, key] : kEvidence)
    if (row[cell] != before[cell]) set_text(figure, key, row[cell]);
  if (row[Cell::sources] != before[Cell::sources] || figure.find("sources") == nullptr)
    set_list(child_of(figure, "sources"), row[Cell::sources]);
}

// The part at the path, made where its place is known to the schema; nullptr and `why` otherwise.
Part* make_path(Document& document, const std::string& file, const std::string& path, std::string& why) {
  if (!shape_at(file, path).known) {
    why = "nothing of this kind of file has this path";
    return nullptr;
  }
  Part* at = &document.root;
  std::string so_far;
  for (std::size_t begin = 0; begin <= path.size();) {
    const std::size_t dot = std::min(path.find('.', begin), path.size());
    const std::string name = path.substr(begin, dot - begin);
    const ShapeAt above = shape_at(file, so_far);
    so_far += (so_far.empty() ? "" : ".") + name;
    begin = dot + 1;
    if (Part* there = find_path(*at, name)) {
      at = there;
      continue;
    }
    const ShapeAt shape = shape_at(file, so_far);
    const bool figure = has(shape.keys, "basis");
    Part made;
    made.kind = shape.list ? Part::Kind::list : shape.keys.empty() ? Part::Kind::scalar : Part::Kind::map;
    made.flow = at->flow || figure || (shape.list && shape.item_keys.empty());
    if (above.list) {
      const char* naming = has(above.item_keys, "id") ? "id" : has(above.item_keys, "kind") ? nullptr : has(above.item_keys, "region") ? "region" : has(above.item_keys, "spot") ? "spot" : nullptr;
      if (naming == nullptr) {
        why = "a list whose items have no names can only be changed as a whole";
        return nullptr;
      }
      set_scalar(child_of(made, naming), name);
    } else {
      made.key = made.key_raw = name;
    }
    at = &at->children.emplace_back(std::move(made));
  }
  return at;
}

}  // namespace

std::vector<FigureRow> rows_of(const std::string& file, const Document& document) {
  std::vector<FigureRow> rows;
  collect(file, "", document.root, rows);
  return rows;
}

std::vector<std::string> apply_row(const FigureRow& row, Document& document, std::string& why) {
  why.clear();
  const std::string &file = row[Cell::file], &path = row[Cell::path];
  Part* part = path.empty() ? nullptr : find_path(document.root, path);
  const bool fresh = part == nullptr;
  if (!fresh && current_row(file, path, *part).cells == row.cells) return {};  // most come back as they went out
  const Document unchanged = document;
  if (path.empty()) why = "no path";
  if (fresh && why.empty()) part = make_path(document, file, path, why);
  if (part == nullptr) {
    document = unchanged;
    return {};
  }

  FigureRow before;
  if (!fresh) before = current_row(file, path, *part);
  if (part->kind == Part::Kind::map) {
    if (!fresh && !is_figure(*part)) why = "several values stand under this path; each has a row of its own";
    if (why.empty()) fill_figure(*part, before, row, shape_at(file, path).keys, why);
  } else {
    for (std::size_t cell = static_cast<std::size_t>(Cell::low); cell < kCsvColumns.size(); ++cell)
      if (!row.cells[cell].empty()) why = "\"" + std::string(kCsvColumns[cell]) + "\" has no place here";
    if (why.empty() && (fresh || row[Cell::value] != before[Cell::value])) {
      if (part->kind == Part::Kind::list) set_list(*part, row[Cell::value]);
      else set_scalar(*part, row[Cell::value]);
    }
  }
  std::vector<std::string> changes;
  if (!why.empty()) {
    document = unchanged;
    return changes;
  }
  for (std::size_t cell = static_cast<std::size_t>(Cell::value); cell < kCsvColumns.size(); ++cell) {
    if (row.cells[cell] == before.cells[cell]) continue;
    changes.push_back(std::string(kCsvColumns[cell]) + ": " + (before.cells[cell].empty() ? "nothing" : before.cells[cell]) + " -> " +
                      (row.cells[cell].empty() ? "nothing" : row.cells[cell]));
  }
  return changes;
}

}  // namespace tenwinters::cli
