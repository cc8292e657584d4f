#include "screens/calendar_words.h"

#include "lib/ics.h"
#include "screens/view.h"

namespace tenwinters::screens {
namespace {

std::string key_of(const CalendarEvent& event) { return "calendar.events." + std::string(name_of(event.kind)); }

IcsDate dated(int year, const MonthDay& day) { return {year, day.month, day.day}; }

}  // namespace

std::string event_name(const Voice& voice, const CalendarEvent& event) {
  const std::string key = key_of(event) + (event.cultivar.empty() ? ".yard" : ".tree");
  return voice.say(key, {{"tree", event.cultivar.empty() ? "" : voice.cultivar_name(event.cultivar)},
                         {"care", event.protection.empty() ? "" : voice.say("protections." + event.protection + ".name")}});
}

std::string event_text(const Voice& voice, const Place& place, const CalendarEvent& event) {
  const FreezeDays freezes = freeze_days(place.winters);
  std::string text = voice.say(key_of(event) + ".text", {{"place", voice.of(place.name)},
                                                         {"winters", std::to_string(freezes.winters)},
                                                         {"frozen", std::to_string(freezes.with_freeze)},
                                                         {"how", event.protection.empty() ? "" : voice.say("protections." + event.protection + ".how")}});
  // Seasons that were not read in a source for this region say so. (Of bloom the browser knows no evidence.)
  if (event.kind != CalendarKind::bloom && !event.evidence.seen.empty() && event.evidence.basis != Basis::published)
    text += " " + voice.say("calendar.basis", {{"basis", voice.say("ui.basis." + std::string(name_of(event.evidence.basis)))}});
  return text;
}

std::string event_days(const Voice& voice, const CalendarEvent& event) {
  std::string from = day_text(voice, event.days.from.month, event.days.from.day);
  if (event.days.from == event.days.to) return from;
  return voice.say("calendar.days", {{"low", from}, {"high", day_text(voice, event.days.to.month, event.days.to.day)}});
}

std::string calendar_file(const Voice& voice, const Place& place, const std::vector<CalendarEvent>& events, const CalendarFile& how) {
  const std::string year = std::string(how.year < 1000 ? how.year < 100 ? how.year < 10 ? 3 : 2 : 1 : 0, '0') + std::to_string(how.year);
  IcsCalendar file;
  file.product = "-//Tenwinters//Calendar//EN";
  file.language = voice.language.code;
  file.name = voice.say("calendar.file_name", {{"place", voice.of(place.name)}});
  file.stamp = year + "0101T000000Z";
  const bool invented = voice.office.invented || place.winters.invented;
  for (const CalendarEvent& event : events) {
    IcsEvent out;
    std::string id = std::string(name_of(event.kind)) + (event.cultivar.empty() ? "" : "-" + event.cultivar);
    // Several of one kind (feeds) are told apart by their first day.
    if (event.kind == CalendarKind::feed) id += "-" + std::to_string(event.days.from.month) + "-" + std::to_string(event.days.from.day);
    out.uid = id + "-" + place.id + "-" + voice.office.id + (how.yearly ? "" : "-" + year) + "@tenwinters";
    out.from = dated(how.year, event.days.from);
    out.to = dated(event.days.to < event.days.from ? how.year + 1 : how.year, event.days.to);
    out.yearly = how.yearly;
    out.summary = event_name(voice, event);
    out.description = event_text(voice, place, event);
    for (const std::string& caution : event.cautions) out.description += "\n! " + voice.say("cautions." + caution + ".sign");
    out.description += "\n" + voice.of(voice.office.name);
    if (invented) out.description += "\n" + voice.say("ui.invented_notice");
    out.categories = {voice.say("calendar.category")};
    out.alarm_days = how.alarm_days;
    file.events.push_back(std::move(out));
  }
  return ics_text(file);
}

}  // namespace tenwinters::screens
