#include "render/signs.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>

#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/handout.h"
#include "render/page.h"
#include "render/qr.h"
#include "render/verdict.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

constexpr double kInch = 25.4;

// What a buyer must be warned of at the pot; how to protect a tree is for the sheets.
constexpr Situation kAtThePot[] = {Situation::eats_fruit, Situation::medicine, Situation::skin_and_sun, Situation::pets, Situation::thorny,
                                   Situation::acid_fruit, Situation::moves_plants};

std::string mm(double value) { return fmt::format("{:.3f}mm", value); }

// The part of the style sheet that the geometry decides.
std::string geometry_style(const Imposition& grid) {
  std::string css = "@page { size: " + mm(grid.sheet.width) + " " + mm(grid.sheet.height) + "; margin: 0; }\n";
  css += ".side { width: " + mm(grid.sheet.width) + "; height: " + mm(grid.sheet.height) + "; }\n";
  css += ".sign { width: " + mm(grid.sign.width + 2 * grid.bleed) + "; height: " + mm(grid.sign.height + 2 * grid.bleed) + "; padding: " + mm(grid.bleed) + "; }\n";
  for (std::size_t i = 0; i < grid.fronts.size(); ++i)
    for (const auto& [letter, corner] : {std::pair{'f', grid.fronts[i]}, std::pair{'b', grid.backs[i]}})
      css += fmt::format(".{}{} {{ left: {}; top: {}; }}\n", letter, i, mm(corner.x - grid.bleed), mm(corner.y - grid.bleed));
  return css;
}

std::string marks_svg(const Imposition& grid) {
  if (grid.marks.empty()) return "";
  std::string path;
  for (const Mark& mark : grid.marks) path += fmt::format("M{:.3f} {:.3f}L{:.3f} {:.3f}", mark.x1, mark.y1, mark.x2, mark.y2);
  return fmt::format("<svg class=\"marks\" viewBox=\"0 0 {:.3f} {:.3f}\" aria-hidden=\"true\"><path d=\"{}\"/></svg>", grid.sheet.width, grid.sheet.height, path);
}

// What one cultivar on one stock does here.
struct Judged {
  Shelf shelf = Shelf::not_here;
  bool pot = false;
  Candidate candidate;
};

class Signs {
 public:
  Signs(const SiteInput& input, const SignOrder& order)
      : input_(input), order_(order), templates_(top_level(input), input.folder), place_(input.office.places[order.place]), office_(input.office),
        replay_(make_replay(place_.winters, input.catalog.cold_model)) {
    const auto file = input.files.find("yards.json");
    yards_ = read_yards(file == input.files.end() ? "" : file->second, input.folder + "/yards.json", input.catalog, faults_);
  }

  Rendered make(const Language& language, const std::vector<StockRow>& stock) {
    const Voice voice{input_.catalog, input_.office, language, input_.units};
    const Size sheet = size_of(order_.sheet), sign = size_of(order_.format, order_.sheet);
    const std::optional<Imposition> grid = impose(sign, sheet, order_.bleed_mm, order_.flip);
    Rendered out;
    if (!grid) {
      out.faults.push_back({"", 0, 0, fmt::format("a sign of {:.1f} x {:.1f} mm with {:.1f} mm of bleed and crop marks does not fit on {}; take a larger sheet or less bleed",
                                                  sign.width, sign.height, order_.bleed_mm, name_of(order_.sheet)), "", false});
      return out;
    }
    const PrintOffice print_office = find_print_office(input_, faults_);
    const std::string style = add_style(print_office, *grid);
    std::vector<const StockRow*> signs;
    for (const StockRow& row : stock)
      for (int i = 0; i < (order_.each ? row.quantity : 1); ++i) signs.push_back(&row);
    const std::size_t documents = (signs.size() + kSignsInDocument - 1) / kSignsInDocument;
    const auto digits = std::to_string(documents).size();
    for (std::size_t d = 0; d < documents; ++d) {
      const std::size_t first = d * kSignsInDocument, last = std::min(signs.size(), first + kSignsInDocument);
      Model page = view_page(voice, *grid, {signs.begin() + static_cast<std::ptrdiff_t>(first), signs.begin() + static_cast<std::ptrdiff_t>(last)}, style);
      out.files.push_back({fmt::format("signs-{}-{}-{}{}.html", name_of(order_.format), language.code, name_of(order_.sheet),
                                       documents > 1 ? fmt::format("-{:0{}}", d + 1, digits) : ""),
                           templates_.render("print_signs.mustache", page, language)});
    }
    out.files.insert(out.files.end(), assets_.files().begin(), assets_.files().end());
    std::sort(out.files.begin(), out.files.end(), [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; });
    out.faults = std::move(faults_);
    out.faults.insert(out.faults.end(), templates_.faults().begin(), templates_.faults().end());
    sort_diagnostics(out.faults);
    return out;
  }

 private:
  static std::map<std::string, std::string> top_level(const SiteInput& input) {
    std::map<std::string, std::string> texts;
    for (const auto& [path, text] : input.files)
      if (path.find('/') == std::string::npos) texts.emplace(path, text);
    return texts;
  }

  std::string add_style(const PrintOffice& print_office, const Imposition& grid) {
    PrintOffice with_geometry = print_office;
    with_geometry.style += geometry_style(grid);
    return add_print_style(input_, with_geometry, "signs.css", assets_, faults_);
  }

  // A figure that does not break before its unit.
  static std::string unbroken(std::string text) {
    for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 2)) text.replace(at, 1, "\u00a0");
    return text;
  }

  const Judged& judge(const StockRow& row) {
    const auto [known, fresh] = judged_.try_emplace({row.cultivar, row.rootstock});
    Judged& out = known->second;
    if (!fresh) return out;
    office_.on_sale = {row.cultivar};
    office_.rootstocks_on_sale = row.rootstock.empty() ? input_.office.rootstocks_on_sale : std::vector<std::string>{row.rootstock};
    for (const VerdictYard& reading : kVerdictYards) {
      const auto yard = std::find_if(yards_.begin(), yards_.end(), [&](const CommonYard& y) { return y.id == reading.yard; });
      if (yard == yards_.end()) continue;
      Advice advice = advise(input_.catalog, office_, place_, yard->answers, replay_, memo_);
      if (advice.candidates.empty()) continue;
      const bool good = advice.candidates.front().shelf != Shelf::not_here;
      // Of a tree that does nowhere the open yard's reason is told.
      if (good || reading.yard == "open_ground") out = {advice.candidates.front().shelf, reading.pot, std::move(advice.candidates.front())};
      if (good) break;
    }
    return out;
  }

  Model view_page(const Voice& voice, const Imposition& grid, const std::vector<const StockRow*>& signs, const std::string& style) {
    Model page;
    view_office(voice, page);
    page["lang"] = voice.language.code;
    page["title"] = voice.say("ui.sheets.signs_title", {{"place", voice.of(place_.name)}});
    page["style"] = style;
    page["format"] = std::string(name_of(order_.format)) + (grid.bleed > 0 ? " bled" : "");
    page["sides"] = Model::list();
    const std::string marks = marks_svg(grid);
    const std::size_t each = grid.fronts.size();
    std::size_t sides = 0;
    for (std::size_t first = 0; first < signs.size(); first += each)
      for (const bool front : {true, false}) {
        Model& side = page["sides"].add();
        ++sides;
        side["marks"] = marks;
        side["signs"] = Model::list();
        for (std::size_t i = first; i < std::min(first + each, signs.size()); ++i) side["signs"].add(view_sign(voice, *signs[i], i - first, front));
      }
    page["pages"] = std::to_string(sides);
    return page;
  }

  Model view_sign(const Voice& voice, const StockRow& row, std::size_t slot, bool front) {
    // A row's sign is the same wherever it lies; only slot and side change.
    auto [known, fresh] = views_.try_emplace(&row);
    if (fresh) known->second = view_row(voice, row);
    Model out = known->second;
    out["slot"] = (front ? "f" : "b") + std::to_string(slot);
    const bool both = order_.format == SignFormat::aisle;  // hangs in the way: read from both sides
    out["front"] = front || both;
    out["heading"] = front;                                // one bookmark a sign
    out["fit"] = voice.say(front ? "ui.sheets.fit_front" : "ui.sheets.fit_back", {{"line", std::to_string(row.line)}, {"tree", voice.cultivar_name(row.cultivar)}});
    return out;
  }

  Model view_row(const Voice& voice, const StockRow& row) {
    const Judged& judged = judge(row);
    const Cultivar& cultivar = *find_cultivar(input_.catalog, row.cultivar);
    const Traits& traits = cultivar.traits;
    Model out;
    const std::string type = voice.type_name(cultivar.type);
    out["name"] = cultivar.name;
    out["kind"] = type == cultivar.name ? "" : type;
    out["shelf_id"] = std::string(name_of(judged.shelf));
    out["shelf"] = voice.say(judged.pot ? "ui.sheets.pot_only" : "shelves." + std::string(name_of(judged.shelf)));
    out["place"] = voice.say("ui.sheets.at_place", {{"place", voice.of(place_.name)}});
    out["facts"] = Model::list();
    const auto fact = [&](std::string_view label, std::string value) {
      if (value.empty()) return;
      Model& line = out["facts"].add();
      line["label"] = voice.say("ui.sheets.sign." + std::string(label));
      line["value"] = std::move(value);
    };
    const Prospect& p = judged.candidate.prospect;
    if (judged.shelf == Shelf::not_here) {
      for (const Limit& limit : judged.candidate.limits)
        if (limit.verdict == Verdict::fail) {
          fact("why", voice.say("limits." + limit.id));
          break;
        }
    } else {
      fact("work", nights_text(voice, p.work_nights.best));
      fact("harvests", voice.say("ui.sheets.in_ten", {{"n", voice.number(p.good_harvests.best, 1)}}));
      fact("ripe", p.ripe_from_month > 0 ? voice.months(p.ripe_from_month, p.ripe_to_month) : voice.say("ui.never"));
    }
    const auto cold = [&](Tissue tissue) { return unbroken(voice.figure(ArgKind::celsius, traits.cold[static_cast<std::size_t>(tissue)].hardened.best)); };
    fact("cold", voice.say("ui.sheets.cold_line", {{"fruit", cold(Tissue::fruit)}, {"leaf", cold(Tissue::leaf)}, {"wood", cold(Tissue::wood)}}));
    fact("partner", partner_line(voice, cultivar));
    fact("size", voice.say("ui.sheets.size_line", {{"height", unbroken(voice.figure(ArgKind::metres, traits.height_m.best))}, {"spread", unbroken(voice.figure(ArgKind::metres, traits.spread_m.best))}}));
    fact("pot", voice.word("fitness", name_of(traits.container.is)));
    out["has_stock"] = !row.rootstock.empty();
    out["stock"] = row.rootstock.empty() ? "" : voice.say("ui.on_stock", {{"stock", voice.rootstock_name(row.rootstock)}});
    out["size"] = row.size;
    out["price"] = row.price;
    out["has_notes"] = !row.notes.empty();
    out["notes"] = row.notes;
    out["law"] = law_lines(voice, cultivar, row.rootstock);
    out["has_law"] = !out["law"].items().empty();
    std::vector<std::string> ids;
    for (const std::string& id : judged.candidate.cautions) {
      const Caution* caution = find_caution(input_.catalog, id);
      if (caution && std::any_of(caution->when.begin(), caution->when.end(), [](Situation s) { return std::find(std::begin(kAtThePot), std::end(kAtThePot), s) != std::end(kAtThePot); }))
        ids.push_back(id);
    }
    out["cautions"] = view_cautions(voice, ids);
    out["has_cautions"] = !ids.empty();
    out["record"] = record_line(voice, place_);
    out["printed"] = voice.say("ui.handout.printed", {{"date", order_.today}});
    const std::string address = page_address(voice, "cultivars/" + row.cultivar + ".html");
    const std::string code = draw::qr(address, voice.say("ui.sheets.qr", {{"address", address}}));
    out["has_qr"] = !code.empty();
    out["qr"] = code;
    return out;
  }

  static std::string partner_line(const Voice& voice, const Cultivar& cultivar) {
    if (cultivar.traits.sets_fruit.is != SetsFruit::partner_needed) return voice.say("ui.sheets.partner_alone");
    std::string names;
    constexpr std::size_t kNamed = 2;
    for (std::size_t i = 0; i < cultivar.partners.size() && i < kNamed; ++i) names += (names.empty() ? "" : ", ") + voice.cultivar_name(cultivar.partners[i]);
    return names.empty() ? voice.say("ui.sheets.partner_any") : voice.say("ui.sheets.partner_named", {{"trees", names}});
  }

  // What the office's rules say of this tree; due for review is said too.
  Model law_lines(const Voice& voice, const Cultivar& cultivar, const std::string& rootstock) const {
    Model out = Model::list();
    for (const LocalRule& rule : input_.office.rules) {
      const auto forbids = [&](const std::string& id) { return !id.empty() && std::find(rule.forbids.begin(), rule.forbids.end(), id) != rule.forbids.end(); };
      if (!forbids(cultivar.id) && !forbids(cultivar.type) && !forbids(rootstock)) continue;
      std::string text = voice.say("ui.sheets.law", {{"says", voice.of(rule.says)}, {"citation", rule.citation}, {"ask", voice.of(rule.ask)}});
      if (!rule.review_by.empty() && rule.review_by < order_.today) text += " " + voice.say("ui.sheets.law_old", {{"date", rule.review_by}});
      out.add(text);
    }
    return out;
  }

  const SiteInput& input_;
  const SignOrder& order_;
  Templates templates_;
  Assets assets_;
  const Place& place_;
  Office office_;                       // the one tree in question on sale
  Replay replay_;
  ReplayMemo memo_;
  std::vector<CommonYard> yards_;
  std::map<std::pair<std::string, std::string>, Judged> judged_;
  std::map<const StockRow*, Model> views_;
  std::vector<Diagnostic> faults_;
};

}  // namespace

Size size_of(SignSheet sheet) {
  switch (sheet) {
    case SignSheet::letter: return {8.5 * kInch, 11 * kInch};
    case SignSheet::tabloid: return {11 * kInch, 17 * kInch};
    case SignSheet::a4: return {210, 297};
    case SignSheet::a3: break;
  }
  return {297, 420};
}

Size size_of(SignFormat format, SignSheet sheet) {
  const bool metric = sheet == SignSheet::a4 || sheet == SignSheet::a3;
  switch (format) {
    case SignFormat::tag: return metric ? Size{50, 100} : Size{2 * kInch, 4 * kInch};
    case SignFormat::bench: return metric ? Size{148, 210} : Size{5.5 * kInch, 8.5 * kInch};
    case SignFormat::aisle: break;
  }
  return size_of(metric ? SignSheet::a4 : SignSheet::letter);
}

Rendered render_signs(const SiteInput& input, const std::vector<StockRow>& stock, const SignOrder& order) {
  const auto language = std::find_if(input.languages.begin(), input.languages.end(), [&](const Language& l) { return l.code == order.language; });
  if (language == input.languages.end()) return {{}, {{"", 0, 0, "no language \"" + order.language + "\"", "", false}}};
  return Signs(input, order).make(*language, stock);
}

}  // namespace tenwinters
