#include "tenwinters/calendar.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "order_statistic.h"
#include "ripening.h"
#include "tenwinters/advise.h"

namespace tenwinters {
namespace {

constexpr std::array<int, 13> kMonthStart = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, kDaysInYear};
constexpr int kWinterStartNorth = 181;  // 1 July; south of the equator winters are counted from 1 January

MonthDay reached_by(const std::vector<int>& days, int winters, int percent, bool south) {
  const std::optional<int> day = order_statistic(days, winters, percent);
  return day ? month_day(*day + (south ? 0 : kWinterStartNorth)) : MonthDay{};
}

bool lists(const std::vector<std::string>& ids, const std::string& id) { return std::find(ids.begin(), ids.end(), id) != ids.end(); }

bool holds_for(const Season& season, const std::string& type) {
  return (season.only.empty() || lists(season.only, type)) && !lists(season.but, type);
}

// One spring bloom and no more: from February at the earliest, over by May, in the catalogue's months.
bool blooms_in_spring(const Window& bloom) {
  constexpr int kFirst = 2, kLast = 5;
  return kFirst <= bloom.from_month && bloom.from_month <= bloom.to_month && bloom.to_month <= kLast;
}

bool whole_year(const Window& window) { return window_months(window) >= kEverbearingMonths; }

void add_cautions(const Catalog& catalog, Situation situation, std::vector<std::string>& ids) {
  for (const Caution& caution : catalog.cautions)
    if (std::find(caution.when.begin(), caution.when.end(), situation) != caution.when.end()) ids.push_back(caution.id);
}

void add_tree(const Catalog& catalog, const Seasons& seasons, const Place& place, const CalendarTree& tree, const FreezeDays& freezes,
              std::vector<CalendarEvent>& events) {
  const Cultivar* cultivar = find_cultivar(catalog, tree.cultivar);
  if (cultivar == nullptr) return;
  const auto add = [&](CalendarKind kind, const DaySpan& days, const Evidence& evidence) -> CalendarEvent& {
    return events.emplace_back(CalendarEvent{kind, tree.cultivar, days, "", {}, evidence});
  };
  const Window& bloom = cultivar->traits.bloom;
  if (!whole_year(bloom)) add(CalendarKind::bloom, days_of(months_at(place, bloom)), bloom.evidence);
  const Window ripe{tree.ripe_from_month, tree.ripe_to_month, {}};
  if (tree.ripe_from_month > 0 && !whole_year(ripe)) add(CalendarKind::ripe, days_of(ripe), {});
  for (const Season& season : seasons.rows)
    if (season.kind == CalendarKind::fruit_drop && season.region == place.region && holds_for(season, cultivar->type) &&
        blooms_in_spring(bloom))
      add(season.kind, season.days, season.evidence);
  const Protection* protection = find_protection(catalog, tree.protection);
  if (protection == nullptr || protection->id == "none" || freezes.ready.month == 0) return;
  const MonthDay end = freezes.over.month > 0 ? freezes.over : freezes.ready;
  CalendarEvent& work = add(CalendarKind::cold_work, {freezes.ready, end}, {});
  work.protection = protection->id;
  work.cautions = protection->cautions;
}

// Feeding and pruning of the yard: told once, for the trees it holds for.
void add_yard(const Catalog& catalog, const Seasons& seasons, const Place& place, std::span<const CalendarTree> trees,
              const FreezeDays& freezes, std::vector<CalendarEvent>& events) {
  for (const Season& season : seasons.rows) {
    if (season.kind == CalendarKind::fruit_drop || season.region != place.region) continue;
    if (season.kind == CalendarKind::prune_frozen && freezes.with_freeze == 0) continue;
    const auto concerned = [&](const CalendarTree& tree) {
      const Cultivar* cultivar = find_cultivar(catalog, tree.cultivar);
      return cultivar != nullptr && holds_for(season, cultivar->type);
    };
    if (std::none_of(trees.begin(), trees.end(), concerned)) continue;
    const auto add = [&](const std::string& cultivar) {
      CalendarEvent event{season.kind, cultivar, season.days, "", {}, season.evidence};
      if (season.kind != CalendarKind::feed) add_cautions(catalog, Situation::ladder, event.cautions);
      events.push_back(std::move(event));
    };
    if (std::all_of(trees.begin(), trees.end(), concerned)) {
      add("");
      continue;
    }
    for (const CalendarTree& tree : trees)
      if (concerned(tree)) add(tree.cultivar);
  }
}

void add_freezes(const FreezeDays& freezes, std::vector<CalendarEvent>& events) {
  const std::pair<CalendarKind, MonthDay> all[] = {{CalendarKind::freeze_ready, freezes.ready},
                                                   {CalendarKind::freeze_usual, freezes.usual_first},
                                                   {CalendarKind::freeze_last, freezes.usual_last},
                                                   {CalendarKind::freeze_over, freezes.over}};
  for (const auto& [kind, day] : all)
    if (day.month > 0) events.push_back({kind, "", {day, day}, "", {}, {}});
}

}  // namespace

int year_day(MonthDay day) { return kMonthStart[static_cast<std::size_t>(std::clamp(day.month, 1, 12) - 1)] + day.day - 1; }

MonthDay month_day(int day_in_year) {
  const int day = (day_in_year % kDaysInYear + kDaysInYear) % kDaysInYear;
  int month = 1;
  while (kMonthStart[static_cast<std::size_t>(month)] <= day) ++month;
  return {month, day - kMonthStart[static_cast<std::size_t>(month - 1)] + 1};
}

Window months_at(const Place& place, Window months) {
  constexpr int kHalfYear = 6;
  if (place.winters.latitude_deg < 0)
    for (int* month : {&months.from_month, &months.to_month}) *month = (*month + kHalfYear - 1) % 12 + 1;
  return months;
}

Window ripe_months_at(const Place& place, const Traits& traits) {
  const Window* listed = ripening_window(traits, place.region);
  return listed == nullptr ? Window{0, 0, {}} : months_at(place, *listed);
}

DaySpan days_of(const Window& months) {
  const auto to = static_cast<std::size_t>(std::clamp(months.to_month, 1, 12));
  return {{months.from_month, 1}, {months.to_month, kMonthStart[to] - kMonthStart[to - 1]}};
}

FreezeDays freeze_days(const Winters& winters) {
  FreezeDays out;
  const bool south = winters.latitude_deg < 0;
  std::vector<int> first, last;
  for (const Winter& winter : winters.winters) {
    ++out.winters;
    if (winter.first_freeze_day < 0) continue;
    first.push_back(winter.first_freeze_day);
    last.push_back(winter.last_freeze_day);
  }
  out.with_freeze = static_cast<int>(first.size());
  std::sort(first.begin(), first.end());
  std::sort(last.rbegin(), last.rend());
  out.ready = reached_by(first, out.winters, 10, south);
  out.usual_first = reached_by(first, out.winters, 50, south);
  out.usual_last = reached_by(last, out.winters, 50, south);
  out.over = reached_by(last, out.winters, 10, south);
  return out;
}

std::vector<CalendarTree> calendar_trees(const Catalog& catalog, const Place& place, const Advice& advice,
                                         std::span<const std::string> cultivars) {
  std::vector<CalendarTree> trees;
  for (const std::string& id : cultivars) {
    const Cultivar* cultivar = find_cultivar(catalog, id);
    if (cultivar == nullptr) continue;
    const auto told = std::find_if(advice.candidates.begin(), advice.candidates.end(), [&](const Candidate& c) { return c.cultivar == id; });
    if (told != advice.candidates.end()) {
      trees.push_back({id, told->protection, told->prospect.ripe_from_month, told->prospect.ripe_to_month});
      continue;
    }
    const Window ripe = ripe_months_at(place, cultivar->traits);
    trees.push_back({id, "", ripe.from_month, ripe.to_month});
  }
  return trees;
}

std::vector<CalendarEvent> calendar(const Catalog& catalog, const Seasons& seasons, const Place& place,
                                    std::span<const CalendarTree> trees) {
  const FreezeDays freezes = freeze_days(place.winters);
  std::vector<CalendarEvent> events;
  add_freezes(freezes, events);
  add_yard(catalog, seasons, place, trees, freezes, events);
  for (const CalendarTree& tree : trees) add_tree(catalog, seasons, place, tree, freezes, events);
  for (CalendarEvent& event : events) {
    std::sort(event.cautions.begin(), event.cautions.end());
    event.cautions.erase(std::unique(event.cautions.begin(), event.cautions.end()), event.cautions.end());
  }
  std::stable_sort(events.begin(), events.end(), [](const CalendarEvent& a, const CalendarEvent& b) {
    return std::tie(a.days.from, a.kind, a.cultivar) < std::tie(b.days.from, b.kind, b.cultivar);
  });
  return events;
}

}  // namespace tenwinters
