// Writes the daily records of the two places of a county that does not exist.
//
//   demo_record gannet_quay   > gannet_quay.csv
//   demo_record burdock_hollow > burdock_hollow.csv
//
// The weather is invented: a seasonal cycle, weather that remembers yesterday, fronts, and now and then
// an arctic outbreak, shared by both places. Only + - * / on doubles and a generator of our own, so that
// every machine writes the same bytes; a test compares them with the files in catalog/offices/demo.
#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <string>
#include <string_view>
#include <vector>

namespace {

// SplitMix64: small, well mixed, the same everywhere.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  double uniform() {  // [0, 1)
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    z ^= z >> 31;
    return static_cast<double>(z >> 11) / 9007199254740992.0;
  }
  double bell() {  // mean 0, standard deviation 1: a sum of twelve uniforms
    double sum = -6.0;
    for (int i = 0; i < 12; ++i) sum += uniform();
    return sum;
  }

 private:
  std::uint64_t state_;
};

constexpr int kFirstYear = 1985, kLastYear = 2025;  // 1 July of the first to 30 June of the last

constexpr bool leap(int year) {
  return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}
constexpr int days_in(int year, int month) {
  constexpr int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && leap(year) ? 29 : lengths[month - 1];
}

struct Date {
  int year, month, day;
};

std::vector<Date> calendar() {
  std::vector<Date> days;
  for (int year = kFirstYear; year <= kLastYear; ++year)
    for (int month = year == kFirstYear ? 7 : 1; month <= (year == kLastYear ? 6 : 12); ++month)
      for (int day = 1; day <= days_in(year, month); ++day) days.push_back({year, month, day});
  return days;
}

// A monthly curve read at a day: straight lines between mid-months.
using Curve = std::array<double, 12>;
double at(const Curve& curve, const Date& date) {
  const double place = (date.day - 0.5) / days_in(date.year, date.month) - 0.5;  // -0.5..0.5 about mid-month
  const auto here = static_cast<std::size_t>(date.month - 1);
  const std::size_t next = place < 0 ? (here + 11) % 12 : (here + 1) % 12;
  const double share = place < 0 ? -place : place;
  return curve[here] * (1 - share) + curve[next] * share;
}

// Degrees F; what the weather does over the whole county.
struct Sky {
  double warmth;    // departure of the day from its season
  double outbreak;  // arctic air, at or below zero
  double cloud;     // 0 clear and calm .. 1 overcast or windy
};

// How strongly weather departs from its season, by month: restless winters, steady summers.
constexpr Curve kRestless{8.6, 8.2, 7.0, 5.2, 3.8, 2.4, 1.9, 1.9, 3.0, 5.6, 7.4, 8.4};

std::vector<Sky> make_sky(const std::vector<Date>& days, Dice& dice) {
  std::vector<Sky> sky(days.size(), Sky{0, 0, 0});
  double memory = 0, cloud = 0.4, season = 0;
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (days[i].month == 11 && days[i].day == 1) season = 2.2 * dice.bell();  // a cool or a mild winter
    if (days[i].month == 4 && days[i].day == 1) season = 0;
    memory = 0.68 * memory + 0.733 * dice.bell();
    cloud = std::clamp(0.55 * cloud + 0.2 + 0.28 * dice.bell(), 0.0, 1.0);
    sky[i].warmth = memory * at(kRestless, days[i]) + season;
    sky[i].cloud = cloud;
  }
  // Outbreaks: a plunge within two days, two or three nights of it, then a return within the week.
  for (int year = kFirstYear; year < kLastYear; ++year) {
    for (int chance = 0; chance < 3; ++chance) {
      const double depth_draw = dice.uniform(), day_draw = dice.uniform(), slow = dice.uniform();
      if (dice.uniform() > 0.62) continue;
      const double rare = depth_draw * depth_draw * depth_draw;
      const double depth = 3.5 + 11.5 * depth_draw + 9 * rare;          // most mild, a few deep
      const int after_november = static_cast<int>(20 + 85 * day_draw);  // late November to late February
      std::size_t start = 0;
      while (!(days[start].year == year && days[start].month == 11 && days[start].day == 1)) ++start;
      start += static_cast<std::size_t>(after_november);
      // Some outbreaks come after weeks of steady cool weather, which hardens trees; others out of the blue.
      if (slow < 0.45)
        for (std::size_t i = start - 18; i < start; ++i) sky[i].warmth = 0.35 * sky[i].warmth - 5.5;
      constexpr double shape[] = {0.5, 1.0, 0.9, 0.55, 0.25, 0.1};
      for (std::size_t i = 0; i < std::size(shape) && start + i < days.size(); ++i) {
        Sky& s = sky[start + i];
        s.outbreak = std::min(s.outbreak, -depth * shape[i]);
        // Its own air, neither mild nor twice cold.
        if (shape[i] > 0.6) s.warmth = std::clamp(0.4 * s.warmth - 3.6, -9.0, -2.0);
        if (i < 2)
          s.cloud = std::max(s.cloud, 0.75);  // it arrives with wind
        else if (i < 5)
          s.cloud = std::min(s.cloud, 0.25);  // and then the air lies still
      }
    }
  }
  return sky;
}

struct Place {
  std::string_view id;
  Curve low, high;     // seasonal mean of the daily minimum and maximum, degrees F
  double restless;     // how far the county's weather is felt here
  double outbreak;     // and its arctic air
  double clear_night;  // how much colder a clear, still winter night is than a cloudy one, degrees F
  std::uint64_t seed;
};

constexpr Place kPlaces[] = {
    {"gannet_quay",
     {45.5, 48.5, 54.5, 61.0, 68.5, 74.0, 76.0, 75.5, 71.5, 63.0, 54.0, 48.0},
     {61.5, 64.0, 69.5, 75.5, 82.0, 87.5, 89.5, 89.5, 86.5, 79.5, 70.5, 63.5},
     0.88,
     1.14,
     5.4,
     11},
    {"burdock_hollow",
     {39.5, 42.5, 48.5, 55.0, 63.5, 70.0, 72.5, 72.0, 67.0, 56.0, 46.0, 41.0},
     {61.0, 65.0, 72.0, 78.5, 85.5, 90.5, 92.5, 92.5, 88.5, 80.0, 70.0, 62.5},
     0.90,
     1.06,
     5.6,
     23},
};

int whole(double value) {
  return static_cast<int>(value < 0 ? value - 0.5 : value + 0.5);
}

std::string record_of(const Place& place, const std::vector<Date>& days, const std::vector<Sky>& sky) {
  Dice dice(place.seed);
  std::string text =
      "# Invented record for a county that does not exist; made by a seeded generator\ndate,tmin_f,tmax_f\n";
  for (std::size_t i = 0; i < days.size(); ++i) {
    const Sky& s = sky[i];
    const double winter_share = (at(kRestless, days[i]) - 1.9) / 6.7;
    const double air = place.restless * s.warmth + place.outbreak * s.outbreak;
    const double calm = (0.5 - s.cloud) * place.clear_night * (0.4 + 0.6 * winter_share);
    const double own = 1.1 * dice.bell();
    double low = at(place.low, days[i]) + air - calm + own;
    double high = at(place.high, days[i]) + 0.85 * air + 1.4 * calm + 1.2 * dice.bell();
    high = std::max(high, low + 5);
    char line[40];
    std::snprintf(line, sizeof line, "%04d-%02d-%02d,%d,%d\n", days[i].year, days[i].month, days[i].day, whole(low),
                  whole(high));
    text += line;
  }
  return text;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view wanted = argc == 2 ? argv[1] : "";
  for (const Place& place : kPlaces) {
    if (place.id != wanted) continue;
    const std::vector<Date> days = calendar();
    Dice dice(1985);
    const std::string text = record_of(place, days, make_sky(days, dice));
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 1;
  }
  std::fputs("usage: demo_record gannet_quay|burdock_hollow > FILE\n", stderr);
  return 2;
}
