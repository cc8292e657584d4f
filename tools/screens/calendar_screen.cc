// The calendar of chosen trees: a year strip each, the months one by one, and the file to take along.
#include <algorithm>

#include "draw/draw.h"
#include "screens/calendar_words.h"
#include "screens/request.h"
#include "tenwinters/advise.h"

namespace tenwinters::screens {
namespace {

double share(const MonthDay& day) { return static_cast<double>(year_day(day)) / kDaysInYear; }

draw::YearStrip::Span span(const DaySpan& days, draw::Fill fill) {
  return {share(days.from), static_cast<double>(year_day(days.to) + 1) / kDaysInYear, fill};
}

// Bloom, drop, ripe fruit and freezes of one tree.
void add_strip(View& view, const Voice& voice, const Place& place, const CalendarTree& tree, const std::vector<CalendarEvent>& events, int today) {
  const Cultivar& cultivar = *find_cultivar(voice.catalog, tree.cultivar);
  draw::YearStrip strip;
  strip.months = month_letters(voice);
  if (today > 0) {
    strip.today = share({today / 100, today % 100});
    strip.today_label = voice.say("calendar.today");
  }
  Drawn drawn;
  const auto add = [&](const std::string& label, const DaySpan& days, draw::Fill fill) {
    strip.rows.push_back({label, "", {span(days, fill)}});
    drawn.rows.push_back({label, {voice.say("calendar.days", {{"low", day_text(voice, days.from.month, days.from.day)}, {"high", day_text(voice, days.to.month, days.to.day)}})}});
  };
  add(voice.say("ui.year_bloom"), days_of(months_at(place, cultivar.traits.bloom)), draw::Fill::leaf);
  for (const CalendarEvent& event : events)
    if (event.kind == CalendarKind::fruit_drop && event.cultivar == tree.cultivar) add(voice.say("calendar.drop"), event.days, draw::Fill::drop);
  if (tree.ripe_from_month > 0) add(voice.say("ui.year_ripe"), days_of({tree.ripe_from_month, tree.ripe_to_month, {}}), draw::Fill::rind);
  else drawn.rows.push_back({voice.say("ui.year_ripe"), {voice.say("ui.never")}});
  const FreezeDays freezes = freeze_days(place.winters);
  if (freezes.ready.month > 0) add(voice.say("ui.year_freezes"), {freezes.ready, freezes.over.month > 0 ? freezes.over : freezes.ready}, draw::Fill::cold);
  else drawn.rows.push_back({voice.say("ui.year_freezes"), {voice.say("calendar.freezes_rare")}});
  drawn.title = tree_name(voice, tree.cultivar);
  drawn.head = {voice.say("ui.year_head")};
  std::string says;
  for (const Row& row : drawn.rows) says += (says.empty() ? "" : "; ") + row.label + ": " + row.cells.front();
  strip.caption = {"year-" + tree.cultivar, drawn.title, says};
  drawn.wide = draw::year_strip(strip, draw::Form::wide);
  drawn.slim = draw::year_strip(strip, draw::Form::slim);
  view.drawing(drawn);
}

}  // namespace

Shown calendar_screen(const Asked& asked) {
  const Voice& voice = asked.voice;
  const Place& place = asked.ground.place;
  const std::vector<std::string> ids = asked_trees(asked, kTreesMost);
  CalendarFile how;
  how.year = asked.request.whole("year", how.year, 1, 9998);
  how.yearly = asked.request.truth("yearly", how.yearly);
  how.alarm_days = asked.request.whole("alarm_days", 0, 0, kAlarmDaysMost);
  const int today = asked.request.whole("today", 0, 0, 1231);
  if (today != 0 && (today % 100 < 1 || today % 100 > 31 || today / 100 < 1)) asked.request.refuse("today", std::to_string(today));
  if (asked.request.refused()) return {};
  const Advice advice = advise(asked.screens.catalog(), asked.screens.office(), place, asked.answers, asked.ground.replay, asked.ground.memo);
  const std::vector<CalendarTree> trees = calendar_trees(asked.screens.catalog(), place, advice, ids);
  const std::vector<CalendarEvent> events = calendar(asked.screens.catalog(), asked.screens.seasons(), place, trees);

  View view(voice);
  view.text(record_line(voice, place));
  view.text(voice.say("calendar.strip_note"), "aside");
  for (const CalendarTree& tree : trees) add_strip(view, voice, place, tree, events, today);
  view.open("section", "months", "by-month");
  view.heading(2, "by-month", voice.say("calendar.by_month"));
  std::vector<std::string> cautions;
  for (int month = 1; month <= 12; ++month) {
    const bool any = std::any_of(events.begin(), events.end(), [&](const CalendarEvent& e) { return e.days.from.month == month; });
    if (!any) continue;
    view.heading(3, "", voice.say("language.months." + std::to_string(month)));
    for (const CalendarEvent& event : events) {
      if (event.days.from.month != month) continue;
      view.open("div", "event");
      view.text(event_name(voice, event), "event-name");
      view.text(event_days(voice, event), "under");
      view.text(event_text(voice, place, event));
      view.signs(event.cautions);
      view.close();
      cautions.insert(cautions.end(), event.cautions.begin(), event.cautions.end());
    }
  }
  view.close();
  view.cautions(std::move(cautions));

  Shown shown;
  shown.title = voice.say("calendar.title_at", {{"place", voice.of(place.name)}});
  shown.status = voice.count("calendar.status", static_cast<long>(events.size()));
  shown.blocks = view.take();
  shown.file = "tenwinters-" + place.id + ".ics";
  shown.ics = calendar_file(voice, place, events, how);
  return shown;
}

}  // namespace tenwinters::screens
