// The site's print room: every sheet as a page that prints by itself, and the list of them.
#include <functional>
#include <memory>

#include "render/advice_view.h"
#include "render/handout.h"
#include "render/page.h"
#include "render/sheets.h"
#include "render/verdict.h"

namespace tenwinters {
namespace {

class PrintRoom {
 public:
  PrintRoom(Site& site, const Voice& voice) : site_(site), voice_(voice), office_(std::make_shared<PrintOffice>(find_print_office(site.input, site.faults))) {
    page_["sections"] = Model::list();
  }

  void section(const std::string& title) {
    Model& row = page_["sections"].add();
    row["title"] = title;
    row["sheets"] = Model::list();
    sheets_ = &row["sheets"];
  }
  // `about` and what `make` refers to: see make_page.
  void add(const SheetHead& head, std::vector<std::string> about, std::function<Sheet()> make) {
    const std::string path = "print/" + head.stem + ".html";
    make_page(site_, voice_, path, std::move(about), [&voice = voice_, office = office_, make = std::move(make), path](Site& own) {
      // Undated, so that the site does not change from day to day; paper as the browser is told.
      const SheetFrame frame{"", "", "", "index.html"};
      const Sheet sheet = make();
      const std::string& code = voice.language.code;
      add_draft(own, voice.language, {code + "/" + path, sheet.form, code, framed(voice, *office, sheet, frame), true, false, false, {}, {}});
    });
    Model& row = sheets_->add();
    row["href"] = head.stem + ".html";
    row["title"] = head.title;
    row["says"] = head.says;
  }
  Model take() { return std::move(page_); }

 private:
  Site& site_;
  const Voice& voice_;
  std::shared_ptr<const PrintOffice> office_;
  Model page_;
  Model* sheets_ = nullptr;
};

}  // namespace

void add_print_room(Site& site, const Voice& voice) {
  const YardAdvice& yards = site.yards;
  const std::vector<PaperKey>& keys = site.input.keys;
  PrintRoom room(site, voice);
  room.section(voice.say("ui.sheets.room_general"));
  for (const std::vector<std::size_t>& places : county_groups(voice.office)) {
    if (places.empty()) continue;
    room.add(county_head(voice, places), {kAboutAll}, [&voice, &yards, places] { return county_sheet(voice, yards, places); });
  }
  const std::vector<const CitrusType*> types = in_trade_order(voice.catalog);
  for (std::size_t p = 0; p < voice.office.places.size(); ++p) {
    room.section(voice.of(voice.office.places[p].name));
    std::vector<std::string> about;
    for (const VerdictYard& yard : kVerdictYards) about.push_back(about_yard(voice.office.places[p], yard.yard));
    for (const CitrusType* type : types) about.push_back(type->id);
    room.add(night_head(voice, p), std::move(about), [&voice, &yards, p] { return night_sheet(voice, yards, p); });
    room.add(planting_head(voice, p), {}, [&voice, p] { return planting_sheet(voice, p); });
    if (p < keys.size()) room.add(key_head(voice, p), {kAboutAll}, [&voice, &keys, p] { return key_sheet(voice, p, keys[p]); });
  }
  room.section(voice.say("ui.sheets.room_kinds"));
  for (const CitrusType* type : types) {
    std::vector<std::string> about = cultivars_of(voice.catalog, *type);
    about.push_back(type->id);
    room.add(type_head(voice, *type), std::move(about), [&voice, &yards, type] { return type_sheet(voice, yards, *type); });
  }
  add_page(site, voice, "print_room.mustache", {"print/index.html", voice.say("ui.sheets.room_title"), voice.say("ui.sheets.room_lede"), "", false}, room.take());
}

}  // namespace tenwinters
