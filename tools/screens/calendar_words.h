// The calendar's events in words, and as a calendar file: the same bytes from the terminal and the browser.
#pragma once

#include <string>
#include <vector>

#include "render/voice.h"
#include "tenwinters/calendar.h"

namespace tenwinters::screens {

// "Owari: in bloom"
[[nodiscard]] std::string event_name(const Voice& voice, const CalendarEvent& event);
// What it means and what to do, in a sentence or three. `place` gives the record's figures.
[[nodiscard]] std::string event_text(const Voice& voice, const Place& place, const CalendarEvent& event);
// "March 1 to April 30", or one day.
[[nodiscard]] std::string event_days(const Voice& voice, const CalendarEvent& event);

struct CalendarFile {
  int year = 2026;         // of the first events, 1..9998
  bool yearly = true;      // again every year; else for that year alone
  int alarm_days = 0;      // a reminder so many days before each event; 0 = none
};
inline constexpr int kAlarmDaysMost = 60;

// RFC 5545. Identities (UID) are of office, place, tree and event, so that a newer file replaces an older one.
[[nodiscard]] std::string calendar_file(const Voice& voice, const Place& place, const std::vector<CalendarEvent>& events, const CalendarFile& how);

}  // namespace tenwinters::screens
