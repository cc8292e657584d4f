// Calendar files (RFC 5545, with NAME from RFC 7986): whole days, no clock and no time zone.
//
//   IcsCalendar file{"-//Tenwinters//Calendar//EN", "en", "Satsuma at Gannet Quay", "20270101T000000Z", {}};
//   file.events.push_back({"bloom-owari@example", {2027, 3, 1}, {2027, 4, 30}, true, "Owari: in bloom", "...", {}, 0});
//   std::string text = ics_text(file);
//
// Same values, same bytes: nothing is read from a clock. Lines end in CR LF and are folded at 75 octets,
// never inside a character.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tenwinters {

struct IcsDate { int year = 0, month = 0, day = 0; };  // of the Gregorian calendar, year 1..9999

struct IcsEvent {
  std::string uid;                      // the same for ever for the same event
  IcsDate from, to;                     // whole days, both included
  bool yearly = false;                  // again every year, without end
  std::string summary, description;     // UTF-8; a line break is one in the calendar too
  std::vector<std::string> categories;
  int alarm_days = 0;                   // a reminder so many days before; 0 = none
};

struct IcsCalendar {
  std::string product;                  // PRODID: "-//maker//product//LANGUAGE"
  std::string language;                 // "en"; of all texts
  std::string name;
  std::string stamp;                    // "20270101T000000Z": DTSTAMP of every event
  std::vector<IcsEvent> events;
};

[[nodiscard]] std::string ics_text(const IcsCalendar& calendar);

// One content line, folded, with its line break.
[[nodiscard]] std::string ics_line(std::string_view line);
// A TEXT value: backslash, comma, semicolon and line breaks escaped, other control characters left out.
[[nodiscard]] std::string ics_escaped(std::string_view text);

}  // namespace tenwinters
