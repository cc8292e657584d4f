#include "lib/ics.h"

namespace tenwinters {
namespace {

constexpr std::size_t kLineOctets = 75;

bool leap(int year) { return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0); }

int days_in(int year, int month) {
  constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && leap(year) ? 29 : kDays[month - 1];
}

// An end is the first day that is no longer part of it.
IcsDate day_after(IcsDate date) {
  if (++date.day <= days_in(date.year, date.month)) return date;
  date.day = 1;
  if (++date.month <= 12) return date;
  date.month = 1;
  ++date.year;
  return date;
}

std::string digits(int value, std::size_t count) {
  std::string text = std::to_string(value);
  return text.size() < count ? std::string(count - text.size(), '0') + text : text;
}

std::string date_text(const IcsDate& date) { return digits(date.year, 4) + digits(date.month, 2) + digits(date.day, 2); }

void add_event(const IcsCalendar& calendar, const IcsEvent& event, std::string& out) {
  const auto line = [&](const std::string& text) { out += ics_line(text); };
  const std::string in = ";LANGUAGE=" + calendar.language + ":";
  line("BEGIN:VEVENT");
  line("UID:" + ics_escaped(event.uid));
  line("DTSTAMP:" + calendar.stamp);
  line("DTSTART;VALUE=DATE:" + date_text(event.from));
  line("DTEND;VALUE=DATE:" + date_text(day_after(event.to)));
  if (event.yearly) line("RRULE:FREQ=YEARLY");
  line("SUMMARY" + in + ics_escaped(event.summary));
  if (!event.description.empty()) line("DESCRIPTION" + in + ics_escaped(event.description));
  if (!event.categories.empty()) {
    std::string list;
    for (const std::string& one : event.categories) list += (list.empty() ? "" : ",") + ics_escaped(one);
    line("CATEGORIES" + in + list);
  }
  line("CLASS:PUBLIC");
  line("TRANSP:TRANSPARENT");  // nobody is busy because a tree blooms
  if (event.alarm_days > 0) {
    line("BEGIN:VALARM");
    line("ACTION:DISPLAY");
    line("TRIGGER:-P" + std::to_string(event.alarm_days) + "D");
    line("DESCRIPTION" + in + ics_escaped(event.summary));
    line("END:VALARM");
  }
  line("END:VEVENT");
}

}  // namespace

std::string ics_escaped(std::string_view text) {
  std::string out;
  char before = 0;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') (out += '\\') += c;
    else if (c == '\r' || (c == '\n' && before != '\r')) out += "\\n";
    else if (c == '\t') out += ' ';
    else if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7f) out += c;
    before = c;
  }
  return out;
}

std::string ics_line(std::string_view line) {
  std::string out;
  std::size_t room = kLineOctets;
  while (line.size() > room) {
    std::size_t cut = room;
    while (cut > 0 && (static_cast<unsigned char>(line[cut]) & 0xC0u) == 0x80u) --cut;  // a character is kept whole
    if (cut == 0) cut = room;
    out.append(line.substr(0, cut)).append("\r\n ");
    line.remove_prefix(cut);
    room = kLineOctets - 1;  // the blank that marks a continuation counts
  }
  return out.append(line).append("\r\n");
}

std::string ics_text(const IcsCalendar& calendar) {
  std::string out = ics_line("BEGIN:VCALENDAR") + ics_line("VERSION:2.0") +
                    ics_line("PRODID:" + ics_escaped(calendar.product)) + ics_line("CALSCALE:GREGORIAN") +
                    ics_line("NAME;LANGUAGE=" + calendar.language + ":" + ics_escaped(calendar.name));
  for (const IcsEvent& event : calendar.events) add_event(calendar, event, out);
  return out + ics_line("END:VCALENDAR");
}

}  // namespace tenwinters
