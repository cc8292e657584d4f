// seasons.yaml: the drop of small fruit, feeding and pruning, region by region.
#include <algorithm>

#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr CalendarKind kStated[] = {CalendarKind::fruit_drop, CalendarKind::feed, CalendarKind::prune, CalendarKind::prune_frozen};

// MM-DD of a year of 365 days.
MonthDay read_month_day(YamlFile& file, const Node* node) {
  const std::string text = read_text(file, node);
  if (text.empty()) return {};
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  if (text.size() == 5 && text[2] == '-' && digit(text[0]) && digit(text[1]) && digit(text[3]) && digit(text[4])) {
    const MonthDay day{(text[0] - '0') * 10 + text[1] - '0', (text[3] - '0') * 10 + text[4] - '0'};
    if (day.month >= 1 && day.month <= 12 && day.day >= 1 && month_day(year_day(day)) == day) return day;
  }
  file.fault(*node, "found " + quoted(text) + ", expected a day of any year as \"05-31\", month first (not 02-29)");
  return {};
}

}  // namespace

void read_seasons(Reading& reading) {
  const std::vector<std::string> names = reading.disk.list(reading.root);
  if (std::find(names.begin(), names.end(), "seasons.yaml") == names.end()) return;  // then the calendar has no such events
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "seasons.yaml", "seasons", rows);
  for (const Node& row : rows) {
    Season season;
    MapReader map(*file, &row);
    std::vector<std::string_view> kinds;
    for (const CalendarKind kind : kStated) kinds.push_back(name_of(kind));
    const int kind = read_word_index(*file, map.take("kind"), kinds);
    if (kind >= 0) season.kind = kStated[kind];
    season.region = read_word<Region>(*file, map.take("region"));
    season.days.from = read_month_day(*file, map.take("from"));
    season.days.to = read_month_day(*file, map.take("to"));
    if (const Node* only = map.take_if("only")) season.only = reading.link_all(*file, only, Kin::type);
    if (const Node* but = map.take_if("but")) season.but = reading.link_all(*file, but, Kin::type);
    season.evidence = read_evidence(reading, map);
    map.finish();
    if (kind >= 0) reading.seasons.rows.push_back(std::move(season));
  }
}

}  // namespace tenwinters
