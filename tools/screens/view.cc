#include "screens/view.h"

#include <algorithm>

#include "draw/draw.h"

namespace tenwinters::screens {

void View::begin(std::string_view what) {
  json_.open('{');
  put("is", what);
}

void View::put(std::string_view key, std::string_view value) {
  json_.key(key);
  json_.string(value);
}

void View::put(std::string_view key, const std::vector<std::string>& values) {
  json_.key(key);
  json_.open('[');
  for (const std::string& value : values) json_.string(value);
  json_.close(']');
}

void View::put(std::string_view key, const std::vector<Row>& rows) {
  json_.key(key);
  json_.open('[');
  for (const Row& row : rows) {
    json_.open('[');
    json_.string(row.label);
    for (const std::string& cell : row.cells) json_.string(cell);
    json_.close(']');
  }
  json_.close(']');
}

void View::heading(int level, std::string_view id, std::string_view text) {
  begin("heading");
  json_.key("level");
  json_.whole(level);
  put("id", id);
  put("text", text);
  json_.close('}');
}

void View::text(std::string_view text, std::string_view css) {
  begin("text");
  put("text", text);
  put("css", css);
  json_.close('}');
}

void View::limit(const Limit& limit) {
  if (limit.verdict == Verdict::pass) return;
  const bool fails = limit.verdict == Verdict::fail;
  const std::string title = voice_.say("limits." + limit.id) + ".";
  begin("limit");
  put("css", fails ? "no" : "open");
  put("title", fails ? title : voice_.say("ui.find_out") + " " + title);
  put("text", voice_.reason(limit.reason));
  json_.close('}');
}

void View::list(const std::vector<std::string>& items, bool ordered, std::string_view css) {
  if (items.empty()) return;
  begin("list");
  put("element", ordered ? "ol" : "ul");
  put("css", css);
  put("items", items);
  json_.close('}');
}

void View::figures(const std::vector<Figure>& figures) {
  begin("figures");
  json_.key("rows");
  json_.open('[');
  for (const Figure& figure : figures) {
    json_.open('[');
    json_.string(figure.label);
    json_.string(figure.value);
    json_.string(figure.beside);
    json_.close(']');
  }
  json_.close(']');
  json_.close('}');
}

void View::figures_of(const Prospect& p) {
  const std::string low = voice_.number(p.good_harvests.low, 1), high = voice_.number(p.good_harvests.high, 1);
  const long work = voice_.whole(p.work_nights.best);
  const std::string nights = work > 0 ? voice_.count("ui.nights", work)
                                      : voice_.say(Voice::as_wired(p.work_nights.best) >= 0.05 ? "ui.nights_rare" : "ui.nights_none");
  figures({{voice_.say("ui.fig_harvests"), voice_.number(p.good_harvests.best, 1),
            low == high ? "" : voice_.say("ui.range", {{"low", low}, {"high", high}})},
           {voice_.say("ui.fig_alive"), voice_.chance(p.alive_at_ten.best), ""},
           {voice_.say("ui.fig_nights"), nights, ""},
           {voice_.say("ui.fig_ripe"), p.ripe_from_month > 0 ? voice_.months(p.ripe_from_month, p.ripe_to_month) : voice_.say("ui.never"), ""}});
}

void View::drawing(const Drawn& drawn) {
  begin("drawing");
  put("title", drawn.title);
  put("note", drawn.note);
  put("wide", drawn.wide);
  put("slim", drawn.slim);
  put("as_table", voice_.say("ui.as_table"));
  put("head", drawn.head);
  put("rows", drawn.rows);
  json_.close('}');
}

void View::table(std::string_view caption, const std::vector<std::string>& head, const std::vector<Row>& rows) {
  begin("table");
  put("caption", caption);
  put("head", head);
  put("rows", rows);
  json_.close('}');
}

void View::why(const Candidate& candidate) {
  int most = 0;
  for (const Contribution& one : candidate.contributions) most = std::max(most, one.of);
  std::vector<Row> rows;
  for (const Contribution& one : candidate.contributions)
    rows.push_back({voice_.say("criteria." + one.criterion),
                    {std::to_string(one.points) + " / " + std::to_string(one.of), draw::why_bar(one.points, one.of, most), voice_.reason(one.reason)}});
  begin("why");
  put("title", voice_.say("ui.why_points", {{"n", std::to_string(candidate.points)}}));
  put("of", tree_name(voice_, candidate.cultivar));
  put("head", std::vector<std::string>{voice_.say("ui.why_criterion"), voice_.say("ui.why_of"), voice_.say("ui.why_bar"), voice_.say("ui.why_reason")});
  put("rows", rows);
  json_.close('}');
}

void View::open(std::string_view element, std::string_view css, std::string_view label) {
  begin("open");
  put("element", element);
  put("css", css);
  put("label", label);
  json_.close('}');
}

void View::close() {
  begin("close");
  json_.close('}');
}

void View::cautions(std::vector<std::string> ids) {
  const auto severity = [&](const std::string& id) {
    const Caution* caution = find_caution(voice_.catalog, id);
    return caution == nullptr ? Severity::low : caution->severity;
  };
  std::sort(ids.begin(), ids.end());
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
  std::stable_sort(ids.begin(), ids.end(), [&](const std::string& a, const std::string& b) { return severity(a) > severity(b); });
  if (ids.empty()) return;
  begin("cautions");
  put("title", voice_.say("ui.cautions_title"));
  put("lede", voice_.say("ui.cautions_lede"));
  json_.key("rows");
  json_.open('[');
  for (const std::string& id : ids) {
    json_.open('[');
    json_.string(id);
    json_.string(severity(id) == Severity::high ? "grave" : "");
    json_.string(voice_.say("cautions." + id + ".sign"));
    json_.string(voice_.say("cautions." + id + ".text"));
    json_.close(']');
  }
  json_.close(']');
  json_.close('}');
}

void View::signs(const std::vector<std::string>& ids) {
  if (ids.empty()) return;
  begin("signs");
  put("label", voice_.say("ui.cautions_title"));
  std::vector<Row> rows;
  for (const std::string& id : ids) rows.push_back({id, {voice_.say("cautions." + id + ".sign")}});
  put("rows", rows);
  json_.close('}');
}

std::string View::take() {
  json_.close(']');
  return json_.take();
}

std::string tree_name(const Voice& voice, std::string_view id) {
  const Cultivar* cultivar = find_cultivar(voice.catalog, id);
  if (cultivar == nullptr) return voice.type_name(id);
  const std::string type = voice.type_name(cultivar->type);
  return cultivar->name == type ? type : cultivar->name + ", " + type;
}

std::string day_text(const Voice& voice, int month, int day) {
  return voice.say("ui.date", {{"day", std::to_string(day)}, {"month", voice.say("language.months." + std::to_string(month))}});
}

std::vector<std::string> month_letters(const Voice& voice) {
  std::vector<std::string> letters;
  for (int month = 1; month <= 12; ++month) {
    const std::string full = voice.say("language.months." + std::to_string(month));
    letters.push_back(full.substr(0, (static_cast<unsigned char>(full[0]) & 0x80u) != 0 ? 2 : 1));
  }
  return letters;
}

}  // namespace tenwinters::screens
