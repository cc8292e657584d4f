// What the year asks of chosen trees at one place: bloom, natural drop, ripe fruit, freezes, and the work.
//
//   std::vector<CalendarTree> trees{{"owari", "cover", 11, 12}};
//   for (const CalendarEvent& event : calendar(catalog, seasons, place, trees))   // January first
//     use(event.kind, event.cultivar, event.days);
//
// Days are usual ones, without a year. Pure and deterministic: same arguments, same result. Never throws.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {

// A day of a year of 365 days; month 0 = no such day.
struct MonthDay {
  int month = 0, day = 0;
  friend auto operator<=>(const MonthDay&, const MonthDay&) = default;
};
inline constexpr int kDaysInYear = 365;
// 0 = 1 January. For a day that exists.
[[nodiscard]] int year_day(MonthDay day);
// Any whole number of days from 1 January; wraps round.
[[nodiscard]] MonthDay month_day(int day_in_year);

// Both days included; from later than to runs over the new year.
struct DaySpan {
  MonthDay from, to;
  friend bool operator==(const DaySpan&, const DaySpan&) = default;
};
// Whole months, first day to last.
[[nodiscard]] DaySpan days_of(const Window& months);

// A tree's months at a place. The catalogue tells them north of the equator, as the replay takes them; south of it they
// are half a year on.
[[nodiscard]] Window months_at(const Place& place, Window months);
// When its fruit is ripe there by the catalogue: as listed for the place's region, else for the region whose climate is
// nearest to it; months 0 where nothing is listed.
[[nodiscard]] Window ripe_months_at(const Place& place, const Traits& traits);

enum class CalendarKind {
  bloom, fruit_drop, ripe, feed, prune, prune_frozen, freeze_ready, freeze_usual, freeze_last, freeze_over, cold_work
};
template <> struct Names<CalendarKind> {
  static constexpr std::string_view list[] = {"bloom",        "fruit_drop",   "ripe",        "feed",        "prune",    "prune_frozen",
                                              "freeze_ready", "freeze_usual", "freeze_last", "freeze_over", "cold_work"};
};

// What a region's sources say of a season: the drop of small fruit, feeding, pruning. A row of
// catalog/seasons.yaml. Where there is none the calendar is silent: it never borrows another region's.
struct Season {
  CalendarKind kind = CalendarKind::feed;      // fruit_drop, feed, prune or prune_frozen
  Region region = Region::other;
  DaySpan days;
  std::vector<std::string> only, but;          // types it holds for, types it does not; both empty = all
  Evidence evidence;
};
struct Seasons {
  std::vector<Season> rows;                    // in the file's order
};

// When the place's record first and last reads 0 C or less in a winter. A winter without a freeze counts
// as one in which it never comes. No day: too few winters of the record freeze.
struct FreezeDays {
  int winters = 0, with_freeze = 0;
  MonthDay ready;                              // by this day the first freeze has come in 1 winter of 10
  MonthDay usual_first, usual_last;            // by the first, on or after the last, in 5 of 10
  MonthDay over;                               // on or after this day a freeze still comes in 1 of 10
};
[[nodiscard]] FreezeDays freeze_days(const Winters& winters);

// A tree as it is grown: what is done on cold nights ("" or "none" = nothing) and when its fruit is ripe here.
struct CalendarTree {
  std::string cultivar;
  std::string protection;
  int ripe_from_month = 0, ripe_to_month = 0;  // 0 = never
};
// As the advice would grow it; a tree that it does not speak of gets the months of the place's region. Unknown ids are left out.
struct Advice;
[[nodiscard]] std::vector<CalendarTree> calendar_trees(const Catalog& catalog, const Place& place, const Advice& advice,
                                                       std::span<const std::string> cultivars);

struct CalendarEvent {
  CalendarKind kind = CalendarKind::bloom;
  std::string cultivar;                        // "" = of the whole yard
  DaySpan days;
  std::string protection;                      // of cold_work
  std::vector<std::string> cautions;           // ids, sorted
  Evidence evidence;                           // of what the catalogue states; of freezes and ripening none: they are computed
};

// By first day, kind, cultivar. Bloom or fruit all the year round is no event. The drop is told of trees
// that bloom in spring alone, for the sources speak of that bloom. A tree's months are those at
// the place (months_at); those of a season are its region's own.
[[nodiscard]] std::vector<CalendarEvent> calendar(const Catalog& catalog, const Seasons& seasons, const Place& place,
                                                  std::span<const CalendarTree> trees);

}  // namespace tenwinters
