// The site's print room: every sheet as a page that prints by itself, and the list of them.
#include <algorithm>

#include "render/handout.h"
#include "render/page.h"
#include "render/sheets.h"

namespace tenwinters {
namespace {

class PrintRoom {
 public:
  PrintRoom(Site& site, const Voice& voice) : site_(site), voice_(voice), office_(find_print_office(site.input, site.faults)) {
    page_["sections"] = Model::list();
  }

  void section(const std::string& title) {
    Model& row = page_["sections"].add();
    row["title"] = title;
    row["sheets"] = Model::list();
    sheets_ = &row["sheets"];
  }
  void add(const Sheet& sheet) {
    // Undated, so that the site does not change from day to day; paper as the browser is told.
    const SheetFrame frame{"", "", "", "index.html"};
    const std::string& code = voice_.language.code;
    add_draft(site_, voice_.language, {code + "/print/" + sheet.stem + ".html", sheet.form, code, framed(voice_, office_, sheet, frame), true, false, false, {}, {}});
    Model& row = sheets_->add();
    row["href"] = sheet.stem + ".html";
    row["title"] = sheet.title;
    row["says"] = sheet.says;
  }
  Model take() { return std::move(page_); }

 private:
  Site& site_;
  const Voice& voice_;
  PrintOffice office_;
  Model page_;
  Model* sheets_ = nullptr;
};

}  // namespace

void add_print_room(Site& site, const Voice& voice) {
  PrintRoom room(site, voice);
  room.section(voice.say("ui.sheets.room_general"));
  const auto groups = county_groups(voice.office);
  for (const std::vector<std::size_t>& places : groups) {
    if (places.empty()) continue;
    Sheet sheet = county_sheet(voice, site.yards, places);
    if (groups.size() > 1) {
      sheet.stem += "-" + voice.office.places[places.front()].id;
      sheet.title += " " + voice.of(voice.office.places[places.front()].name);
    }
    room.add(sheet);
  }
  for (std::size_t p = 0; p < voice.office.places.size(); ++p) {
    room.section(voice.of(voice.office.places[p].name));
    room.add(night_sheet(voice, site.yards, p));
    room.add(planting_sheet(voice, p));
    if (p < site.input.keys.size()) room.add(key_sheet(voice, p, site.input.keys[p]));
  }
  room.section(voice.say("ui.sheets.room_kinds"));
  std::vector<const CitrusType*> types;
  for (const CitrusType& type : voice.catalog.types) types.push_back(&type);
  std::sort(types.begin(), types.end(), [](const CitrusType* a, const CitrusType* b) { return a->trade_order < b->trade_order; });
  for (const CitrusType* type : types) room.add(type_sheet(voice, site.yards, *type));
  add_page(site, voice, "print_room.mustache", {"print/index.html", voice.say("ui.sheets.room_title"), voice.say("ui.sheets.room_lede"), "", false}, room.take());
}

}  // namespace tenwinters
