// tenwinters calendar: what the year asks of chosen trees at a place, as text, as JSON and as a calendar file.
#include <fmt/core.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "cli/yard_options.h"
#include "screens/calendar_words.h"
#include "screens/view.h"
#include "tenwinters/advise.h"
#include "tenwinters/calendar.h"

namespace tenwinters::cli {
namespace {

struct CalendarOptions {
  YardOptions yard;
  std::vector<std::string> trees;
  int year = 0;            // 0 = that of today
  bool once = false;
  int alarm_days = 0;
  std::string ics;
};

using Json = nlohmann::ordered_json;

std::string iso_day(const MonthDay& day) { return fmt::format("{:02}-{:02}", day.month, day.day); }

Json event_json(const Voice& voice, const Place& place, const CalendarEvent& event) {
  Json json = {{"kind", name_of(event.kind)}, {"cultivar", event.cultivar}, {"from", iso_day(event.days.from)}, {"to", iso_day(event.days.to)},
               {"name", screens::event_name(voice, event)}, {"text", screens::event_text(voice, place, event)}};
  if (!event.protection.empty()) json["protection"] = event.protection;
  json["cautions"] = event.cautions;
  // Freezes and ripe months are computed from the record; the rest is stated by the catalogue.
  if (!event.evidence.seen.empty()) json["evidence"] = {{"basis", name_of(event.evidence.basis)}, {"sources", event.evidence.sources}, {"seen", event.evidence.seen}};
  return json;
}

void print_text(const Voice& voice, const Place& place, const std::vector<CalendarEvent>& events) {
  fmt::print("{}\n", wrap(voice.say("calendar.title_at", {{"place", voice.of(place.name)}}), 0));
  if (voice.office.invented || place.winters.invented) fmt::print("{}\n", wrap(voice.say("terminal.invented"), 0));
  int month = 0;
  std::vector<std::string> cautions;
  for (const CalendarEvent& event : events) {
    if (event.days.from.month != month) {
      month = event.days.from.month;
      fmt::print("\n{}\n", voice.say("language.months." + std::to_string(month)));
    }
    fmt::print("{}\n", wrap(screens::event_days(voice, event) + "  " + screens::event_name(voice, event), 2));
    fmt::print("{}\n", wrap(screens::event_text(voice, place, event), 4));
    cautions.insert(cautions.end(), event.cautions.begin(), event.cautions.end());
  }
  std::sort(cautions.begin(), cautions.end());
  cautions.erase(std::unique(cautions.begin(), cautions.end()), cautions.end());
  if (cautions.empty()) return;
  fmt::print("\n{}\n", voice.say("night.cautions"));
  for (const std::string& id : cautions)
    fmt::print("- {}\n", wrap(voice.say("cautions." + id + ".sign") + " " + voice.say("cautions." + id + ".text"), 2).substr(2));
}

int run(const Session& session, const CalendarOptions& options) {
  return run_on_yard(session, options.yard, [&](const Loaded& loaded, const Place& place, const Answers& answers) {
    std::vector<std::string_view> known;
    for (const Cultivar& cultivar : loaded.catalog.cultivars) known.push_back(cultivar.id);
    std::vector<std::string> chosen;
    for (const std::string& id : options.trees) {
      if (find_cultivar(loaded.catalog, id) == nullptr) {
        complain("no cultivar \"" + id + "\" in the catalogue", std::string(nearest_name(id, known)));
        return kMisuse;
      }
      if (std::find(chosen.begin(), chosen.end(), id) == chosen.end()) chosen.push_back(id);
    }
    screens::CalendarFile how;
    how.year = options.year > 0 ? options.year : std::stoi(session.today.substr(0, 4));
    how.yearly = !options.once;
    how.alarm_days = options.alarm_days;
    const Voice voice = loaded.voice(session);
    const Advice advice = advise(loaded.catalog, loaded.office, place, answers);
    const std::vector<CalendarEvent> events = calendar(loaded.catalog, loaded.seasons, place, calendar_trees(loaded.catalog, place, advice, chosen));
    if (!options.ics.empty()) {
      const std::string text = screens::calendar_file(voice, place, events, how);
      if (options.ics == "-") {
        fmt::print("{}", text);
        return kDone;
      }
      std::ofstream file(options.ics, std::ios::binary);
      file << text;
      file.close();
      if (!file) {
        complain("cannot write \"" + options.ics + "\": " + std::strerror(errno));
        return kFindings;
      }
      if (!options.yard.json) {
        fmt::print("{}: {}\n", options.ics, voice.count("calendar.status", static_cast<long>(events.size())));
        return kDone;
      }
    }
    if (!options.yard.json) {
      print_text(voice, place, events);
      return kDone;
    }
    Json json = {{"place", place.id}, {"invented", loaded.office.invented || place.winters.invented}, {"events", Json::array()}};
    for (const CalendarEvent& event : events) json["events"].push_back(event_json(voice, place, event));
    fmt::print("{}\n", json.dump(2));
    return kDone;
  });
}

}  // namespace

void add_calendar(const Command& app, Session& session) {
  const Command command = app.add_command("calendar", "Bloom, drop, harvest, freezes and work of chosen trees through the year");
  const auto options = std::make_shared<CalendarOptions>();
  command.add_option("--tree", options->trees, "A cultivar; may be given again and again").required().type_name("ID").take_all();
  command.add_option("--ics", options->ics, "Write a calendar file (iCalendar) instead of text; - for standard output").type_name("FILE");
  command.add_option("--year", options->year, "Year of the first events in the file (default: this one)").between(1, 9998).type_name("YYYY");
  command.add_flag("--once", options->once, "In the file: that year only, not every year");
  command.add_option("--alarm", options->alarm_days, "In the file: a reminder so many days before each event (default: none)")
      .between(0, screens::kAlarmDaysMost).type_name("DAYS");
  add_yard_options(command, options->yard, false);
  command.footer(
      "Answers decide how a tree is grown, and so what cold nights ask. Days are those of a usual year.\n"
      "Example:\n"
      "  tenwinters calendar --tree owari --tree meyer --answer winter_work=few_nights --ics trees.ics");
  command.does(session, [&session, options] { return run(session, *options); });
}

}  // namespace tenwinters::cli
