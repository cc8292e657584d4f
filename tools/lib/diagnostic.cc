#include "lib/diagnostic.h"

#include <algorithm>
#include <tuple>
#include <vector>

#include "lib/utf8.h"

namespace tenwinters {
namespace {

constexpr int kWidth = 110;  // terminal columns of source shown; more is cut around the caret
constexpr int kLead = 60;    // of which at most this much before the caret

// One character of the source line as it is shown.
struct Piece {
  std::string text;
  int columns = 0;
};

std::vector<Piece> pieces_of(std::string_view line) {
  std::vector<Piece> pieces;
  for (std::size_t at = 0; at < line.size();) {
    const CodePoint point = code_point_at(line, at);
    const std::string text = shown(line.substr(at, point.bytes));
    const bool plain = text.size() == point.bytes && point.valid;
    pieces.push_back({text, plain ? columns_of(point.value) : static_cast<int>(text.size())});
    at += point.bytes;
  }
  return pieces;
}

void append_source(std::string& out, const Diagnostic& diagnostic) {
  const std::vector<Piece> pieces = pieces_of(diagnostic.source_line);
  const std::size_t caret = std::min(pieces.size(), static_cast<std::size_t>(std::max(diagnostic.column, 1) - 1));
  std::size_t first = caret;
  for (int used = 0; first > 0 && used + pieces[first - 1].columns <= kLead; --first) used += pieces[first - 1].columns;
  int all_before = 0;
  for (std::size_t i = 0; i < first; ++i) all_before += pieces[i].columns;
  if (all_before <= 3) first = 0;  // no gain in cutting so little

  const std::string gutter = std::to_string(diagnostic.line);
  std::string text = first > 0 ? "..." : "";
  int columns = first > 0 ? 3 : 0;
  int caret_at = columns;
  std::size_t i = first;
  for (; i < pieces.size() && (columns + pieces[i].columns <= kWidth || i <= caret); ++i) {
    if (i == caret) caret_at = columns;
    text += pieces[i].text;
    columns += pieces[i].columns;
  }
  if (caret >= pieces.size()) caret_at = columns;
  if (i < pieces.size()) text += "...";
  out += "\n  " + gutter + " | " + text;
  out += "\n  " + std::string(gutter.size(), ' ') + " | " + std::string(static_cast<std::size_t>(caret_at), ' ') + '^';
}

auto order(const Diagnostic& d) {
  return std::tie(d.file, d.line, d.column, d.message, d.warning);
}

}  // namespace

std::string to_text(const Diagnostic& diagnostic) {
  std::string out = shown(diagnostic.file);
  if (diagnostic.line > 0) out += ':' + std::to_string(diagnostic.line) + ':' + std::to_string(diagnostic.column);
  out += diagnostic.warning ? ": warning: " : ": ";
  out += shown(diagnostic.message);
  if (diagnostic.line > 0 && !diagnostic.source_line.empty()) append_source(out, diagnostic);
  return out;
}

void sort_diagnostics(std::vector<Diagnostic>& diagnostics) {
  std::sort(diagnostics.begin(), diagnostics.end(),
            [](const Diagnostic& a, const Diagnostic& b) { return order(a) < order(b); });
  diagnostics.erase(std::unique(diagnostics.begin(), diagnostics.end(),
                                [](const Diagnostic& a, const Diagnostic& b) { return order(a) == order(b); }),
                    diagnostics.end());
}

}  // namespace tenwinters
