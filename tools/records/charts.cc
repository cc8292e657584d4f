#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "records/describe.h"

namespace tenwinters {
namespace {

constexpr double kWidth = 720, kHeight = 360, kLeft = 64, kRight = 18, kTop = 52, kBottom = 46;

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else if (static_cast<unsigned char>(c) >= 0x20)
      out += c;
  }
  return out;
}

double shown_degrees(double celsius, Units units) {
  return units == Units::us ? celsius * 9 / 5 + 32 : celsius;
}
std::string unit_mark(Units units) {
  return units == Units::us ? "°F" : "°C";
}

// A picture under construction: x and y run from data to the drawing's own coordinates.
class Chart {
 public:
  Chart(std::string id, std::string title, std::string description)
      : id_(std::move(id)), title_(std::move(title)), description_(std::move(description)) {}

  void range_x(double low, double high) { x0_ = low, x1_ = high; }
  void range_y(double low, double high) { y0_ = low, y1_ = high; }
  [[nodiscard]] double x(double value) const { return kLeft + (value - x0_) / (x1_ - x0_) * (kWidth - kLeft - kRight); }
  [[nodiscard]] double y(double value) const {
    return kHeight - kBottom - (value - y0_) / (y1_ - y0_) * (kHeight - kTop - kBottom);
  }

  void line(double xa, double ya, double xb, double yb, std::string_view kind) {
    body_ += fmt::format("<line class=\"{}\" x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\"/>\n", kind, xa, ya,
                         xb, yb);
  }
  void dot(double xa, double ya, std::string_view kind) {
    body_ += fmt::format("<circle class=\"{}\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4\"/>\n", kind, xa, ya);
  }
  void text(double xa, double ya, std::string_view anchor, std::string_view words) {
    body_ +=
        fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>\n", xa, ya, anchor, escaped(words));
  }
  void raw(const std::string& element) { body_ += element; }

  void grid_y(double step, const std::string& unit) {
    for (double v = std::ceil(y0_ / step) * step; v <= y1_ + 1e-9; v += step) {
      line(kLeft, y(v), kWidth - kRight, y(v), "grid");
      text(kLeft - 8, y(v) + 4, "end", fmt::format("{}{:.0f}{}", v < 0 ? "\u2212" : "", std::abs(v), unit));
    }
  }
  void tick_x(double at, std::string_view words) {
    line(x(at), kHeight - kBottom, x(at), kHeight - kBottom + 5, "axis");
    text(x(at), kHeight - kBottom + 20, "middle", words);
  }

  [[nodiscard]] std::string svg() const {
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" role=\"img\" "
        "aria-labelledby=\"{2}-title {2}-desc\">\n<title id=\"{2}-title\">{3}</title>\n<desc "
        "id=\"{2}-desc\">{4}</desc>\n"
        "<style>svg{{background:#fffdf7}}text{{font:14px sans-serif;fill:#22201c}}.head{{font:600 17px serif}}"
        ".grid{{stroke:#d9d3c4}}.axis{{stroke:#22201c}}.cold{{fill:#1d5687}}.open{{fill:#fffdf7;stroke:#1d5687;stroke-"
        "width:2}}"
        ".mean{{stroke:#a84300;stroke-width:2;stroke-dasharray:7 4}}.trace{{fill:none;stroke:#1d5687;stroke-width:2}}"
        ".span{{stroke:#1d5687;stroke-width:2}}.band{{fill:#1d5687;fill-opacity:.15}}.heat{{fill:#a84300}}</style>\n"
        "<text class=\"head\" x=\"{5:.0f}\" y=\"26\">{3}</text>\n{6}</svg>\n",
        kWidth, kHeight, id_, escaped(title_), escaped(description_), kLeft, body_);
  }

 private:
  std::string id_, title_, description_, body_;
  double x0_ = 0, x1_ = 1, y0_ = 0, y1_ = 1;
};

void year_axis(Chart& chart, int first, int last) {
  chart.range_x(first - 1, last + 1);
  const int step = last - first > 60 ? 20 : last - first > 24 ? 10 : 5;
  for (int year = (first + step - 1) / step * step; year <= last; year += step)
    chart.tick_x(year, std::to_string(year));
}

std::string winters_chart(const ClimateSummary& s, const std::string& station, const ClimateVoice& voice) {
  const Units units = voice.units;
  const std::vector<WinterLow>& all = s.winters.complete;
  const ColdestWinter& worst = s.coldest.front();
  const std::string mean_said = voice.temperature(s.normal.mean_c);
  Chart chart("winters", voice.say("chart.winters.title", {{"station", station}}),
              voice.say("chart.winters.text", {{"first", std::to_string(all.front().year)},
                                               {"last", std::to_string(all.back().year)},
                                               {"from", std::to_string(s.normal.first_winter)},
                                               {"to", std::to_string(s.normal.last_winter)},
                                               {"mean", mean_said},
                                               {"low", voice.temperature(worst.winter.lowest_c)},
                                               {"year", std::to_string(worst.winter.year)}}));
  double low = 1e9, high = -1e9;
  for (const WinterLow& w : all) {
    low = std::min(low, shown_degrees(w.lowest_c, units));
    high = std::max(high, shown_degrees(w.lowest_c, units));
  }
  chart.range_y(std::floor(low) - 2, std::ceil(high) + 2);
  year_axis(chart, all.front().year, all.back().year);
  chart.grid_y(units == Units::us ? 5 : 2, " " + unit_mark(units));
  const double mean = chart.y(shown_degrees(s.normal.mean_c, units));
  chart.line(chart.x(s.normal.first_winter), mean, chart.x(s.normal.last_winter), mean, "mean");
  for (const WinterLow& w : all) chart.dot(chart.x(w.year), chart.y(shown_degrees(w.lowest_c, units)), "cold");
  for (const int year : s.winters.left_out)
    if (year > all.front().year && year < all.back().year)
      chart.text(chart.x(year), kHeight - kBottom - 4, "middle", "×");
  chart.text(kWidth - kRight, kTop - 6, "end",
             (s.winters.left_out.empty() ? "" : voice.say("chart.winters.left_out") + " ") +
                 voice.say("chart.winters.key", {{"mean", mean_said}, {"zone", zone_name(s.zone)}}));
  return chart.svg();
}

std::string freezes_chart(const ClimateSummary& s, const std::string& station, const ClimateVoice& voice) {
  const std::string cold = voice.temperature(0);
  std::vector<const WinterLow*> froze;
  int low = 400, high = 0;
  for (const WinterLow& w : s.winters.complete) {
    if (w.first_freeze[0] < 0) continue;
    froze.push_back(&w);
    low = std::min(low, w.first_freeze[0]);
    high = std::max(high, w.last_freeze[0]);
  }
  if (froze.empty()) return "";
  Chart chart("freezes", voice.say("chart.freezes.title", {{"cold", cold}, {"station", station}}),
              voice.say("chart.freezes.text", {{"cold", cold},
                                               {"first", voice.winter_date(low, s.southern)},
                                               {"last", voice.winter_date(high, s.southern)},
                                               {"froze", std::to_string(froze.size())},
                                               {"winters", std::to_string(s.winters.complete.size())}}));
  chart.range_y(high + 5, low - 5);  // winter runs downwards, as a calendar does
  year_axis(chart, s.winters.complete.front().year, s.winters.complete.back().year);
  const int start = winter_start(s.southern ? 2001 : 2002, s.southern);
  for (int day = std::max(0, low - 5); day <= high + 5; ++day) {
    const CivilDate date = civil_date(start + day);
    if (date.day != 1) continue;
    chart.line(kLeft, chart.y(day), kWidth - kRight, chart.y(day), "grid");
    chart.text(kLeft - 8, chart.y(day) + 4, "end",
               "1 " + voice.language.say("language.months_short." + std::to_string(date.month)));
  }
  for (const WinterLow* w : froze) {
    chart.line(chart.x(w->year), chart.y(w->first_freeze[0]), chart.x(w->year), chart.y(w->last_freeze[0]), "span");
    chart.dot(chart.x(w->year), chart.y(w->first_freeze[0]), "open");
    chart.dot(chart.x(w->year), chart.y(w->last_freeze[0]), "cold");
  }
  chart.text(kWidth - kRight, kTop - 6, "end", voice.say("chart.freezes.key"));
  return chart.svg();
}

std::string levels_chart(const ClimateSummary& s, const std::string& station, const ClimateVoice& voice) {
  const Units units = voice.units;
  if (!s.gev) return "";
  std::string words;
  for (const ReturnLevel& level : s.return_levels)
    words += (words.empty() ? "" : "; ") +
             voice.say("chart.levels.one", {{"winters", voice.whole(level.years)}, {"level", voice.temperature(level.level_c)}});
  Chart chart("levels", voice.say("chart.levels.title", {{"station", station}}),
              voice.say("chart.levels.text", {{"levels", words}}));
  std::vector<double> lows;
  for (const WinterLow& w : s.winters.complete) lows.push_back(w.lowest_c);
  std::sort(lows.begin(), lows.end());
  double low = lows.front(), high = lows[lows.size() / 2];
  for (const ReturnLevel& level : s.return_levels) {
    low = std::min(low, level.limits_c.low);
    high = std::max(high, level.limits_c.high);
  }
  chart.range_y(std::floor(shown_degrees(low, units)) - 1, std::ceil(shown_degrees(high, units)) + 1);
  const double most = std::max(100.0, static_cast<double>(lows.size() + 1) / 0.56);
  chart.range_x(std::log(1.8), std::log(most * 1.1));
  chart.grid_y(units == Units::us ? 5 : 2, " " + unit_mark(units));
  std::string band, trace;
  for (const ReturnLevel& level : s.return_levels) {
    band += fmt::format("{:.1f},{:.1f} ", chart.x(std::log(level.years)),
                        chart.y(shown_degrees(level.limits_c.high, units)));
    trace +=
        fmt::format("{:.1f},{:.1f} ", chart.x(std::log(level.years)), chart.y(shown_degrees(level.level_c, units)));
    chart.tick_x(std::log(level.years), voice.say(level.years == 2 ? "chart.levels.tick_first" : "chart.levels.tick", {{"winters", voice.whole(level.years)}}));
  }
  for (auto level = s.return_levels.rbegin(); level != s.return_levels.rend(); ++level)
    band += fmt::format("{:.1f},{:.1f} ", chart.x(std::log(level->years)),
                        chart.y(shown_degrees(level->limits_c.low, units)));
  band.pop_back();
  trace.pop_back();
  chart.raw("<polygon class=\"band\" points=\"" + band + "\"/>\n<polyline class=\"trace\" points=\"" + trace +
            "\"/>\n");
  for (std::size_t i = 0; i < lows.size(); ++i) {
    // Cunnane's plotting position, fair to the extremes of any such distribution.
    const double years = (static_cast<double>(lows.size()) + 0.2) / (static_cast<double>(i) + 0.6);
    if (years >= 2) chart.dot(chart.x(std::log(years)), chart.y(shown_degrees(lows[i], units)), "open");
  }
  chart.text(kWidth - kRight, kTop - 6, "end", voice.say("chart.levels.key"));
  return chart.svg();
}

std::string heat_chart(const ClimateSummary& s, const std::string& station, const ClimateVoice& voice) {
  const Units units = voice.units;
  if (std::isnan(s.heat.year)) return "";
  const double scale = units == Units::us ? 9.0 / 5 : 1;
  const double most = *std::max_element(s.heat.month.begin(), s.heat.month.end()) * scale;
  Chart chart("heat", voice.say("chart.heat.title", {{"station", station}}),
              voice.say(units == Units::us ? "chart.heat.text_us" : "chart.heat.text_metric",
                        {{"sum", voice.whole(s.heat.year * scale)}, {"most", voice.whole(most)}}));
  const double step = most > 400 ? 100 : most > 150 ? 50 : 20;
  chart.range_y(0, std::max(step, std::ceil(most / step) * step));
  chart.range_x(0.4, 12.6);
  chart.grid_y(step, "");
  for (std::size_t m = 0; m < 12; ++m) {
    const double value = s.heat.month[m] * scale, at = static_cast<double>(m + 1);
    chart.raw(fmt::format("<rect class=\"heat\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"34\" height=\"{:.1f}\"/>\n",
                          chart.x(at) - 17, chart.y(value), chart.y(0) - chart.y(value)));
    chart.text(chart.x(at), chart.y(value) - 6, "middle", voice.whole(value));
    chart.tick_x(at, voice.language.say("language.months_short." + std::to_string(m + 1)));
  }
  chart.text(kWidth - kRight, kTop - 6, "end", voice.say(units == Units::us ? "chart.heat.key_us" : "chart.heat.key_metric"));
  return chart.svg();
}

}  // namespace

std::vector<OutputFile> climate_charts(const ClimateSummary& summary, const std::string& station,
                                       const std::string& remark, const ClimateVoice& voice) {
  std::vector<OutputFile> files;
  const auto add = [&](std::string path, std::string svg) {
    if (svg.empty()) return;
    if (!remark.empty())
      svg.insert(svg.rfind("</svg>"), fmt::format("<text x=\"{:.0f}\" y=\"{:.0f}\" text-anchor=\"middle\">{}</text>\n",
                                                  kWidth / 2, kHeight - 6, escaped(remark)));
    files.push_back({std::move(path), std::move(svg)});
  };
  if (!summary.winters.complete.empty()) {
    add("winters.svg", winters_chart(summary, station, voice));
    add("freezes.svg", freezes_chart(summary, station, voice));
    add("return_levels.svg", levels_chart(summary, station, voice));
  }
  add("heat.svg", heat_chart(summary, station, voice));
  return files;
}

}  // namespace tenwinters
