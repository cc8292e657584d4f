#include "draw/draw.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "draw/escape.h"
#include "draw/number.h"

namespace tenwinters::draw {
namespace {

// Whole degrees with a true minus sign.
std::string degrees(double value) {
  const long whole = std::lround(value);
  return (whole < 0 ? "\u2212" : "") + std::to_string(std::labs(whole)) + "°";
}

std::string text_at(double x, double y, const char* css, const char* anchor, const std::string& words) {
  return "<text class=\"" + std::string(css) + "\"" + attribute("x", x) + attribute("y", y) +
         (*anchor ? " text-anchor=\"" + std::string(anchor) + "\"" : "") + ">" + escape_html(words) + "</text>";
}

std::string line_at(double x1, double y1, double x2, double y2, const char* css) {
  return "<line class=\"" + std::string(css) + "\"" + attribute("x1", x1) + attribute("y1", y1) + attribute("x2", x2) +
         attribute("y2", y2) + "/>";
}

const char* fill_name(Fill fill) {
  switch (fill) {
    case Fill::leaf: return "leaf";
    case Fill::drop: return "drop";
    case Fill::rind: return "rind";
    case Fill::cold: return "cold";
    case Fill::paper: break;
  }
  return "paper";
}

std::string rect_at(double x, double y, double width, double height, Fill fill, const std::string& id) {
  return std::string("<rect class=\"f-") + fill_name(fill) + "\"" + attribute("x", x) + attribute("y", y) +
         attribute("width", width) + attribute("height", height) +
         (fill == Fill::paper || fill == Fill::leaf ? "" : " fill=\"url(#" + id + "-" + fill_name(fill) + ")\"") + "/>";
}

// The patterns a drawing uses; ids are prefixed so that many drawings may share a page.
std::string patterns(const std::string& id) {
  const auto pattern = [&](const char* name, const char* size, const char* turn, const std::string& inside) {
    return "<pattern id=\"" + id + "-" + name + "\" width=\"" + size + "\" height=\"" + size +
           "\" patternUnits=\"userSpaceOnUse\"" + turn + ">" + inside + "</pattern>";
  };
  return "<defs>" +
         pattern("rind", "6", " patternTransform=\"rotate(45)\"",
                 "<rect class=\"p-back\" width=\"6\" height=\"6\"/><rect class=\"p-rind\" width=\"3.5\" height=\"6\"/>") +
         pattern("cold", "6", "", "<rect class=\"p-ice\" width=\"6\" height=\"6\"/><circle class=\"p-cold\" cx=\"3\" cy=\"3\" r=\"1.3\"/>") +
         pattern("drop", "6", "", "<rect class=\"p-back\" width=\"6\" height=\"6\"/><rect class=\"p-drop\" width=\"6\" height=\"3\"/>") +
         "</defs>";
}

std::string open_svg(const Caption& caption, Form form, double width, double height) {
  const std::string id = caption.id + (form == Form::wide ? "-w" : "-s");
  return "<svg class=\"" + std::string(form == Form::wide ? "wide" : "slim") + "\" viewBox=\"0 0 " + num(width) + " " +
         num(height) + "\" role=\"img\" aria-labelledby=\"" + id + "t " + id + "d\"><title id=\"" + id + "t\">" +
         escape_html(caption.title) + "</title><desc id=\"" + id + "d\">" + escape_html(caption.description) + "</desc>";
}

// A stroke of a path, straight down.
std::string upright(double x, double top, double bottom) { return "M" + num(x) + " " + num(top) + "V" + num(bottom); }

struct Frame { double left, right, width; };
Frame frame_for(Form form) { return form == Form::wide ? Frame{176, 620, 640} : Frame{14, 326, 340}; }

constexpr double kRowWide = 34, kRowSlim = 50, kAxisTop = 24;

}  // namespace

Axis axis_for(double lowest, double highest, int ticks) {
  for (const int step : {1, 2, 4, 5, 10, 20, 50}) {
    const int first = static_cast<int>(std::floor(lowest / step)) * step;
    const int last = static_cast<int>(std::ceil(highest / step)) * step;
    if ((last - first) / step + 1 <= ticks) return {first, std::max(last, first + step), step};
  }
  return {static_cast<int>(std::floor(lowest)), static_cast<int>(std::ceil(highest)) + 1, 100};
}

std::string cold_ruler(const ColdRuler& ruler, Form form) {
  const bool wide = form == Form::wide;
  double lowest = 1e9, highest = -1e9;
  const auto take = [&](double value) {
    lowest = std::min(lowest, value);
    highest = std::max(highest, value);
  };
  for (const ColdRuler::Dots& place : ruler.places) std::for_each(place.lows.begin(), place.lows.end(), take);
  for (const ColdRuler::Row& row : ruler.rows) take(row.hardened), take(row.unhardened);
  if (lowest > highest) lowest = 0, highest = 1;
  const Axis axis = axis_for(lowest - 0.5, highest + 0.5, wide ? 10 : 8);
  const Frame frame = frame_for(form);
  const auto x = [&](double value) {
    return frame.left + (value - axis.first) / (axis.last - axis.first) * (frame.right - frame.left);
  };

  std::string body;
  double y = kAxisTop;
  for (std::size_t p = 0; p < ruler.places.size(); ++p) {
    const ColdRuler::Dots& place = ruler.places[p];
    std::map<long, int> columns;
    int tallest = 1;
    for (const double low : place.lows) tallest = std::max(tallest, ++columns[std::lround(low)]);
    const double step = std::min(8.0, 88.0 / tallest), radius = std::min(3.4, step * 0.43);
    const double label_room = wide ? 0 : 20, least = wide ? 40 : 0;
    const double floor = y + label_room + std::max(least, tallest * step + 4);
    if (wide) {
      body += text_at(0, floor - 18, "l", "", place.label) + text_at(0, floor - 3, "m", "", place.below);
    } else {
      body += text_at(0, y + 14, "l", "", place.label);
    }
    // All dots of a place are one path: a page of drawings stays light.
    const std::string r = num(radius), across = num(2 * radius);
    const std::string dot = "a" + r + " " + r + " 0 1 0 " + across + " 0a" + r + " " + r + " 0 1 0-" + across + " 0";
    std::string dots;
    for (const auto& [degree, count] : columns)
      for (int i = 0; i < count; ++i)
        dots += "M" + num(x(static_cast<double>(degree)) - radius) + " " + num(floor - 5 - step * i) + dot;
    if (!dots.empty()) body += std::string("<path class=\"") + (p % 2 == 0 ? "dot" : "ring") + "\" d=\"" + dots + "\"/>";
    body += line_at(wide ? frame.left : 0, floor, wide ? frame.right : frame.width, floor, "base");
    y = floor + (wide ? 8 : 6);
  }
  for (const ColdRuler::Row& row : ruler.rows) {
    const double middle = y + (wide ? 17 : 32);
    body += text_at(0, wide ? middle + 5 : y + 15, "l", "", row.label);
    const double solid = x(row.hardened), dashed = x(row.unhardened);
    body += "<rect class=\"band\"" + attribute("x", std::min(solid, dashed)) + attribute("y", middle - 4.5) +
            attribute("width", std::abs(dashed - solid)) + attribute("height", 9) + "/>";
    body += line_at(solid, middle - 9, solid, middle + 9, "hard") + line_at(dashed, middle - 9, dashed, middle + 9, "soft");
    const std::string left = degrees(std::min(row.hardened, row.unhardened)), right = degrees(std::max(row.hardened, row.unhardened));
    if (left == right) {
      body += text_at(std::max(solid, dashed) + 7, middle + 4.5, "t", "", right);
    } else {
      const bool cramped = std::min(solid, dashed) - frame.left < 26 && wide;
      body += text_at(std::min(solid, dashed) - 7, middle + 4.5, cramped ? "t halo" : "t", "end", left);
      body += text_at(std::max(solid, dashed) + 7, middle + 4.5, "t", "", right);
    }
    y += wide ? kRowWide : kRowSlim;
  }
  const double height = y + 6;
  std::string grid, lines;
  for (int tick = axis.first; tick <= axis.last; tick += axis.step)
    lines += upright(x(tick), kAxisTop - 4, height - 4), grid += text_at(x(tick), 14, "t", "middle", degrees(tick));
  grid = "<path class=\"grid\" d=\"" + lines + "\"/>" + grid;
  return open_svg(ruler.caption, form, frame.width, height) + grid + body + "</svg>";
}

std::string year_strip(const YearStrip& strip, Form form) {
  const bool wide = form == Form::wide;
  const Frame frame = frame_for(form);
  const auto x = [&](double share) { return frame.left + std::clamp(share, 0.0, 1.0) * (frame.right - frame.left); };
  const std::string id = strip.caption.id + (wide ? "-w" : "-s");
  std::string body;
  double y = kAxisTop + 4;
  for (const YearStrip::Row& row : strip.rows) {
    const double top = y + (wide ? 7 : 21);
    if (!wide) {
      body += text_at(0, y + 15, "l", "", row.note.empty() ? row.label : row.label + ": " + row.note);
    } else if (row.note.empty()) {
      body += text_at(0, top + 14, "l", "", row.label);
    } else {
      body += text_at(0, top + 6, "l", "", row.label) + text_at(0, top + 21, "t", "", row.note);
    }
    for (const YearStrip::Span& span : row.spans) {
      if (span.from <= span.to) {
        body += rect_at(x(span.from), top, x(span.to) - x(span.from), 18, span.fill, id);
      } else {
        body += rect_at(x(span.from), top, x(1) - x(span.from), 18, span.fill, id) +
                rect_at(x(0), top, x(span.to) - x(0), 18, span.fill, id);
      }
    }
    y += wide ? 32 : 46;
  }
  const bool marked = strip.today >= 0 && strip.today <= 1;
  const double height = y + (marked ? 22 : 6);
  std::string grid, lines;
  for (std::size_t i = 0; i < strip.months.size(); ++i) {
    const double share = static_cast<double>(i) / 12.0;
    lines += upright(x(share), kAxisTop - 2, y);
    grid += text_at(x(share + 1.0 / 24.0), 14, "t", "middle", strip.months[i]);
  }
  grid = "<path class=\"grid\" d=\"" + lines + upright(x(1), kAxisTop - 2, y) + "\"/>" + grid;
  if (marked) {
    body += line_at(x(strip.today), kAxisTop - 2, x(strip.today), y + 4, "base");
    body += text_at(std::clamp(x(strip.today), 24.0, frame.width - 24), y + 18, "t", "middle", strip.today_label);
  }
  return open_svg(strip.caption, form, frame.width, height) + patterns(id) + grid + body + "</svg>";
}

std::string plot_plan(const PlotPlan& plan, Form form) {
  const bool wide = form == Form::wide;
  const double most_wide = wide ? 520 : 300, most_long = wide ? 460 : 380, margin = 20, top = 30;
  const double scale = std::min(most_wide / std::max(1, plan.wide_cm), most_long / std::max(1, plan.long_cm));
  const double across = plan.wide_cm * scale, down = plan.long_cm * scale;
  const double width = wide ? 640 : 340, left = (width - across) / 2, height = top + down + 2 * margin + 8;
  const auto x = [&](int cm) { return left + cm * scale; };
  const auto y = [&](int cm) { return top + down - cm * scale; };
  const auto box = [&](const char* css, double at_x, double at_y, double w, double h) {
    return "<rect class=\"" + std::string(css) + "\"" + attribute("x", at_x) + attribute("y", at_y) + attribute("width", w) + attribute("height", h) + "/>";
  };
  const auto circle = [&](const char* css, double at_x, double at_y, double r) {
    return "<circle class=\"" + std::string(css) + "\"" + attribute("cx", at_x) + attribute("cy", at_y) + attribute("r", r) + "/>";
  };
  std::string body = box("plot", left, top, across, down);
  const PlotPlan::KeptFree& free = plan.kept_free;
  if (free.north + free.east + free.south + free.west > 0)
    body += box("free", x(free.west), y(plan.long_cm - free.north), std::max(0.0, (plan.wide_cm - free.west - free.east) * scale),
                std::max(0.0, (plan.long_cm - free.north - free.south) * scale));
  for (const PlotPlan::Tree& tree : plan.trees) {
    const double r = tree.crown_cm * scale / 2;
    body += circle("crown", x(tree.x_cm), y(tree.y_cm), r);
    if (tree.stands_already && r > 4) body += circle("inner", x(tree.x_cm), y(tree.y_cm), r - 3);
  }
  for (const auto& [a, b] : plan.pairs)
    if (a < plan.trees.size() && b < plan.trees.size())
      body += line_at(x(plan.trees[a].x_cm), y(plan.trees[a].y_cm), x(plan.trees[b].x_cm), y(plan.trees[b].y_cm), "pair");
  for (const PlotPlan::Tree& tree : plan.trees) {
    const double at_x = x(tree.x_cm), at_y = y(tree.y_cm);
    body += tree.pot ? box("trunk", at_x - 4, at_y - 4, 8, 8) : circle("trunk", at_x, at_y, 4);
    body += text_at(at_x, at_y - 9, "k", "middle", tree.letter);
  }
  body += text_at(left + across / 2, top - 10, "t", "middle", "\u2191 " + plan.north);
  body += text_at(left + across / 2, top + down + 18, "t", "middle", plan.width_label + " \u00d7 " + plan.length_label);
  return open_svg(plan.caption, form, width, height) + body + "</svg>";
}

std::string ten_year_ledger(const Ledger& ledger, Form form) {
  const bool wide = form == Form::wide;
  const double cell = wide ? 62 : 33.4, gap = wide ? 2 : 0.6, tall = 30;
  const double width = wide ? 640 : 340, pitch = cell + gap;
  const std::string id = ledger.caption.id + (wide ? "-w" : "-s");
  std::string body, keys;
  double from = 0, key_y = tall + 22;
  for (const Ledger::Part& part : ledger.parts) {
    const double to = std::min(10.0, from + std::max(0.0, part.years));
    for (int i = static_cast<int>(from); i < 10 && i < to; ++i) {
      const double begin = std::max(from, static_cast<double>(i)) - i, end = std::min(to, i + 1.0) - i;
      if (end - begin > 1e-9 && part.fill != Fill::paper)
        body += rect_at(1 + i * pitch + begin * cell, 1, (end - begin) * cell, tall, part.fill, id);
    }
    from = to;
    keys += rect_at(1, key_y - 12, 22, 14, part.fill, id) + text_at(31, key_y, "l", "", part.label);
    key_y += 22;
  }
  std::string cells;
  for (int i = 0; i < 10; ++i)
    cells += "<rect class=\"cell\"" + attribute("x", 1 + i * pitch) + attribute("y", 1) + attribute("width", cell) +
             attribute("height", tall) + "/>";
  return open_svg(ledger.caption, form, width, key_y - 8) + patterns(id) + body + cells + keys + "</svg>";
}

std::string pollen_table(const PollenTable& table, Form form) {
  const bool wide = form == Form::wide;
  const std::size_t n = table.kinds.size();
  const double width = wide ? 640 : 340, label = wide ? 176 : 2, room = width - label - 2;
  const double cell = std::min(wide ? 26.0 : 20.0, room / static_cast<double>(std::max<std::size_t>(n, 1)));
  const double pitch = wide ? std::max(cell, 20.0) : cell + 17;
  const std::string id = table.caption.id + (wide ? "-w" : "-s");
  std::string body, lines, dots;
  const auto heads = [&](double y) {
    for (std::size_t g = 0; g < n; ++g) body += text_at(label + cell * (static_cast<double>(g) + 0.5), y, "c", "middle", std::to_string(g + 1));
  };
  // A mark for some is half as tall, and half as wide unless another stands beside it.
  const auto mark = [&](double x, double y, double w, PollenTable::Reach reach, Fill fill, bool both) {
    if (reach == PollenTable::Reach::none) return;
    const double part = reach == PollenTable::Reach::all ? 1 : 0.5, tall = cell * part, broad = both ? w : w * part;
    body += rect_at(x + (w - broad) / 2, y + (cell - tall) / 2, broad, tall, fill, id);
  };
  const double inset = 1.2;
  heads(12);
  double y = 18;
  for (std::size_t t = 0; t < n; ++t) {
    const double top = wide ? y : y + 16;
    body += text_at(0, wide ? top + cell / 2 + 5 : y + 12, "l", "", std::to_string(t + 1) + " " + table.kinds[t]);
    for (std::size_t g = 0; g < n; ++g) {
      const PollenTable::Cell& one = table.cells[t][g];
      const double x = label + cell * static_cast<double>(g);
      lines += "M" + num(x) + " " + num(top) + "h" + num(cell) + "v" + num(cell) + "h-" + num(cell) + "z";
      const bool both = one.fruit != PollenTable::Reach::none && one.seeds != PollenTable::Reach::none;
      const double w = (cell - 2 * inset) / (both ? 2 : 1);
      mark(x + inset, top, w, one.fruit, Fill::leaf, both);
      mark(x + inset + (both ? w : 0), top, w, one.seeds, Fill::rind, both);
      if (one.meet && one.fruit == PollenTable::Reach::none && one.seeds == PollenTable::Reach::none)
        dots += "M" + num(x + cell / 2 - 1) + " " + num(top + cell / 2) + "h2";
    }
    y += pitch;
  }
  if (!wide) heads(y + 12), y += 16;
  body = "<path class=\"grid\" fill=\"none\" d=\"" + lines + "\"/>" + (dots.empty() ? "" : "<path class=\"speck\" d=\"" + dots + "\"/>") + body;
  y += 14;
  const auto key = [&](const std::string& picture, const std::string& words) {
    body += picture + text_at(24, y + 12, "l", "", words);
    y += 22;
  };
  key(rect_at(2, y, 14, 14, Fill::leaf, id), table.fruit_key);
  key(rect_at(2, y, 14, 14, Fill::rind, id), table.seeds_key);
  key("<path class=\"speck\" d=\"M8 " + num(y + 7) + "h2\"/>", table.nothing_key);
  key("<rect class=\"cell\" x=\"2\" y=\"" + num(y) + "\" width=\"14\" height=\"14\"/>", table.blank_key);
  return open_svg(table.caption, form, width, y + 4) + patterns(id) + body + "</svg>";
}

}  // namespace tenwinters::draw
