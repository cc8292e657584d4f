#include "render/handout.h"

#include <fmt/core.h>

#include <algorithm>

#include "render/assets.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

constexpr std::size_t kMostColumns = 3;  // places side by side on one sheet

class Room {
 public:
  Room(const SiteInput& input, const HandoutOrder& order) : input_(input), order_(order), templates_(top_level(input), input.folder) {
    office_ = find_print_office(input, faults_);
    style_ = add_print_style(input, office_, "print.css", assets_, faults_);
    if (wants(SheetKind::county) || wants(SheetKind::night) || wants(SheetKind::types)) {
      const auto file = input.files.find("yards.json");
      yards_ = advise_yards(input.catalog, input.office,
                            read_yards(file == input.files.end() ? "" : file->second, input.folder + "/yards.json", input.catalog, faults_));
    }
    for (std::size_t p = 0; p < input.office.places.size(); ++p) {
      keys_.emplace_back();
      if (!wants(SheetKind::key) || !wanted_place(p)) continue;
      const Place& place = input.office.places[p];
      const Replay replay = make_replay(place.winters, input.catalog.cold_model);
      ReplayMemo memo;
      keys_.back() = paper_key(input.catalog, input.office, place, {}, replay, memo);
    }
    if (wants(SheetKind::yard)) advise_households();
  }

  Rendered take() {
    for (const std::string& code : input_.office.languages) {
      if (!order_.language.empty() && code != order_.language) continue;
      for (const Language& language : input_.languages)
        if (language.code == code) add_language({input_.catalog, input_.office, language, input_.units});
    }
    out_.files.insert(out_.files.end(), assets_.files().begin(), assets_.files().end());
    std::sort(out_.files.begin(), out_.files.end(), [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; });
    out_.faults = std::move(faults_);
    out_.faults.insert(out_.faults.end(), templates_.faults().begin(), templates_.faults().end());
    sort_diagnostics(out_.faults);
    return std::move(out_);
  }

 private:
  static std::map<std::string, std::string> top_level(const SiteInput& input) {
    std::map<std::string, std::string> texts;
    for (const auto& [path, text] : input.files)
      if (path.find('/') == std::string::npos) texts.emplace(path, text);
    return texts;
  }
  [[nodiscard]] bool wants(SheetKind kind) const { return order_.kinds.contains(kind); }
  [[nodiscard]] bool wanted_place(std::size_t place) const {
    const std::vector<std::string>& ids = order_.places;
    return ids.empty() || std::find(ids.begin(), ids.end(), input_.office.places[place].id) != ids.end();
  }

  void advise_households() {
    struct Ground { Replay replay; ReplayMemo memo; };
    std::map<std::size_t, Ground> grounds;
    for (const Household& household : order_.households) {
      const Place& place = input_.office.places[household.place];
      const auto [ground, fresh] = grounds.try_emplace(household.place);
      if (fresh) ground->second.replay = make_replay(place.winters, input_.catalog.cold_model);
      const Replay& replay = ground->second.replay;
      ReplayMemo& memo = ground->second.memo;
      advice_.push_back(advise(input_.catalog, input_.office, place, household.answers, replay, memo));
      least_.emplace_back();
      const std::vector<Candidate>& all = advice_.back().candidates;
      if (!all.empty() && all.front().shelf == Shelf::not_here)
        least_.back() = *least_change(input_.catalog, input_.office, place, household.answers, all.front().cultivar, replay, memo);
    }
  }

  void add_language(const Voice& voice) {
    std::vector<Sheet> sheets;
    if (wants(SheetKind::county)) {
      for (const std::vector<std::size_t>& places : county_groups(voice.office)) {
        if (std::none_of(places.begin(), places.end(), [&](std::size_t p) { return wanted_place(p); })) continue;
        sheets.push_back(county_sheet(voice, yards_, places));
      }
    }
    for (std::size_t p = 0; p < voice.office.places.size(); ++p) {
      if (!wanted_place(p)) continue;
      if (wants(SheetKind::night)) sheets.push_back(night_sheet(voice, yards_, p));
      if (wants(SheetKind::planting)) sheets.push_back(planting_sheet(voice, p));
      if (wants(SheetKind::key)) sheets.push_back(key_sheet(voice, p, keys_[p]));
    }
    if (wants(SheetKind::types))
      for (const CitrusType& type : voice.catalog.types)
        if (order_.types.empty() || std::find(order_.types.begin(), order_.types.end(), type.id) != order_.types.end())
          sheets.push_back(type_sheet(voice, yards_, type));
    for (const Sheet& sheet : sheets)
      for (const Paper paper : order_.papers) add(voice, sheet.head.stem, sheet.form, paper, framed(voice, office_, sheet, frame(paper)));
    if (wants(SheetKind::yard)) add_households(voice);
  }

  void add_households(const Voice& voice) {
    std::vector<Sheet> sheets;
    for (std::size_t i = 0; i < order_.households.size(); ++i) sheets.push_back(household_sheet(voice, order_.households[i], advice_[i], least_[i]));
    if (sheets.empty()) return;
    const int width = static_cast<int>(std::to_string(sheets.size()).size());
    for (const Paper paper : order_.papers) {
      const auto put = [&](const std::string& stem, std::size_t first, std::size_t last) {
        Model page = framed(voice, office_, sheets[first], frame(paper));
        page["sheets"] = Model::list();
        for (std::size_t i = first; i < last; ++i) page["sheets"].add(framed(voice, office_, sheets[i], frame(paper)));
        add(voice, stem, sheets[first].form, paper, page);
      };
      if (order_.together) {
        put("all-yards", 0, sheets.size());
        continue;
      }
      for (std::size_t i = 0; i < sheets.size(); ++i)
        put(sheets.size() == 1 ? sheets[i].head.stem : sheets[i].head.stem + "-" + fmt::format("{:0{}}", i + 1, width), i, i + 1);
    }
  }

  [[nodiscard]] SheetFrame frame(Paper paper) const { return {std::string(name_of(paper)), style_, order_.today, ""}; }
  void add(const Voice& voice, const std::string& stem, const std::string& form, Paper paper, const Model& model) {
    out_.files.push_back({stem + "-" + voice.language.code + "-" + std::string(name_of(paper)) + ".html", templates_.render(form, model, voice.language)});
  }

  const SiteInput& input_;
  const HandoutOrder& order_;
  Templates templates_;
  Assets assets_;
  PrintOffice office_;
  std::string style_;
  YardAdvice yards_;
  std::vector<PaperKey> keys_;    // by place
  std::vector<Advice> advice_;    // by household
  std::vector<LeastChange> least_;
  std::vector<Diagnostic> faults_;
  Rendered out_;
};

}  // namespace

PrintOffice find_print_office(const SiteInput& input, std::vector<Diagnostic>& faults) {
  const auto file = input.files.find("print_office.json");
  return read_print_office(file == input.files.end() ? "" : file->second, input.folder + "/print_office.json", faults);
}

std::string add_print_style(const SiteInput& input, const PrintOffice& office, const std::string& name, Assets& assets,
                            std::vector<Diagnostic>& faults) {
  constexpr std::string_view kFolder = "assets/";
  std::map<std::string, std::string> beside;
  for (const auto& [path, text] : input.files)
    if (path.starts_with(kFolder)) beside.emplace(path.substr(kFolder.size()), text);
  for (const std::string& needed : {name, std::string("fonts/OFL.txt")})
    if (!beside.contains(needed)) faults.push_back({input.folder + "/assets/" + needed, 0, 0, "the file is missing", "", false});
  assets.add_plain("fonts/OFL.txt", beside["fonts/OFL.txt"]);
  return assets.add_style(name, office.style + beside[name], beside, input.folder + "/assets", faults);
}

std::vector<std::vector<std::size_t>> county_groups(const Office& office) {
  std::vector<std::vector<std::size_t>> groups(1);
  for (std::size_t p = 0; p < office.places.size(); ++p) {
    if (office.places.size() > kMostColumns && p > 0) groups.emplace_back();
    groups.back().push_back(p);
  }
  return groups;
}

Rendered render_handouts(const SiteInput& input, const HandoutOrder& order) { return Room(input, order).take(); }

}  // namespace tenwinters
