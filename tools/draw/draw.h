// Drawings as SVG, from numbers and words alone: the same small module for page and print.
//
// Each drawing has a title and a description for people who cannot see it; the page puts a table of the
// same figures under it. Colours come from the style sheet by class, and no colour stands alone: every
// meaning has a pattern, a line style or a word as well. Numbers are written with one decimal, so equal
// data are equal bytes.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace tenwinters::draw {

// Labels stand beside the drawing on wide screens and above each row on narrow ones.
enum class Form { wide, slim };

struct Caption {
  std::string id;           // unique on its page; letters, digits, '-'
  std::string title;
  std::string description;  // what a person would say of the picture
};

// One temperature axis. Over it a column of dots for each winter's lowest reading, a band of them for
// each place; under it what harms each tissue, hardened (solid end) and unhardened (dashed end).
// Temperatures in the reader's degrees.
struct ColdRuler {
  Caption caption;
  struct Dots { std::string label, below; std::vector<double> lows; };
  struct Row { std::string label; double hardened = 0, unhardened = 0; };
  std::vector<Dots> places;
  std::vector<Row> rows;
};
[[nodiscard]] std::string cold_ruler(const ColdRuler& ruler, Form form);

enum class Fill { leaf, drop, rind, cold, paper };

// Twelve months, January first. Spans as shares of the year, 0..1; from > to runs over the new year.
struct YearStrip {
  Caption caption;
  std::vector<std::string> months;  // twelve short names
  struct Span { double from = 0, to = 0; Fill fill = Fill::leaf; };
  struct Row { std::string label, note; std::vector<Span> spans; };  // the note stands under the label, may be empty
  std::vector<Row> rows;
  double today = -1;                // share of the year, or < 0: no mark
  std::string today_label;
};
[[nodiscard]] std::string year_strip(const YearStrip& strip, Form form);

// A plot to scale, north up: crowns at full size round their trunks, what is kept free along the edges, and
// a line between partners. A pot has a square trunk, a tree that stands there already a double outline.
struct PlotPlan {
  Caption caption;
  int wide_cm = 0, long_cm = 0;     // west to east, south to north; above 0
  struct KeptFree { int north = 0, east = 0, south = 0, west = 0; } kept_free;  // centimetres
  std::string north, width_label, length_label;
  struct Tree {
    std::string letter;
    int x_cm = 0, y_cm = 0;         // of the trunk, from the west and the south edge
    int crown_cm = 0;
    bool pot = false, stands_already = false;
  };
  std::vector<Tree> trees;
  std::vector<std::pair<std::size_t, std::size_t>> pairs;  // partners, by index
};
[[nodiscard]] std::string plot_plan(const PlotPlan& plan, Form form);

// Ten years as ten cells, filled from the left in the order given; years may be fractions.
struct Ledger {
  Caption caption;
  struct Part { std::string label; double years = 0; Fill fill = Fill::paper; };
  std::vector<Part> parts;
};
[[nodiscard]] std::string ten_year_ledger(const Ledger& ledger, Form form);

// One row of the why bar: `points` filled out of the outlined `of`; `most` is the widest row's `of`.
// Carries no words, since it stands in a table beside them.
[[nodiscard]] std::string why_bar(int points, int of, int most);

// Who brings pollen to whom. A square holds two marks: fruit that is needed, and seeds that are not.
struct PollenTable {
  Caption caption;
  enum class Reach { none, some, all };  // of the cultivars of both kinds
  struct Cell { bool meet = false; Reach fruit = Reach::none, seeds = Reach::none; };
  std::vector<std::string> kinds;                // rows and, by number, columns
  std::vector<std::vector<Cell>> cells;          // [taker][giver]
  std::string fruit_key, seeds_key, nothing_key, blank_key;
};
[[nodiscard]] std::string pollen_table(const PollenTable& table, Form form);

// Degrees for an axis: first and last tick and the step between, at most `ticks` of them.
struct Axis { int first = 0, last = 0, step = 1; };
[[nodiscard]] Axis axis_for(double lowest, double highest, int ticks);

}  // namespace tenwinters::draw
