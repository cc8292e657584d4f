// What a station's daily record says about its winters. Native side only: it needs logarithms and
// trigonometry, whose last bit differs between machines; its results reach the core as whole numbers
// (winters.h).
//
//   ClimateSummary s = summarize(record.days, {.latitude_deg = 29.7});
//   if (s.normal.winters > 0) use(s.normal.mean_c, zone_name(s.zone));
//
// Temperatures are degrees Celsius unless a name says otherwise; NaN is a missing reading. A "winter"
// of year Y runs from 1 July of Y-1 to 30 June of Y; south of the equator it is the calendar year Y.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace tenwinters {

// ---- Days -------------------------------------------------------------------------------------------

struct Day {
  int year = 0, month = 0, day = 0;
  double min_c = 0, max_c = 0;  // NaN where missing
  int line = 0;                 // where it stood in its file, for diagnostics
};

struct CivilDate {
  int year = 0, month = 0, day = 0;
  friend constexpr bool operator==(const CivilDate&, const CivilDate&) = default;
};

[[nodiscard]] bool is_date(int year, int month, int day);  // of the Gregorian calendar, leap days minded
[[nodiscard]] int days_in_month(int year, int month);
[[nodiscard]] int day_number(int year, int month, int day);  // 1 January 1970 = 0
[[nodiscard]] CivilDate civil_date(int number);
[[nodiscard]] int day_of_year(const CivilDate& date);  // 1..366

// ---- Sun and the hours of a day ---------------------------------------------------------------------

// Hours between sunrise and sunset. `fao56`: the sun's centre at the horizon (Allen et al. 1998).
// `spencer`: its upper edge, with refraction (-0.8333 degrees), declination after Spencer 1971.
// Latitude -90..90, day of year 1..366; polar day and night give 24 and 0.
enum class SunRule { fao56, spencer };
[[nodiscard]] double solar_declination_deg(int day_of_year, SunRule rule = SunRule::spencer);
[[nodiscard]] double day_length_h(double latitude_deg, int day_of_year, SunRule rule = SunRule::spencer);

// One day of the curve: the reading and the length of its daylight. Times are local solar (noon = 12).
struct CurveDay {
  double min_c = 0, max_c = 0, day_length_h = 12;
  [[nodiscard]] double sunrise_h() const { return 12 - day_length_h / 2; }
  [[nodiscard]] double sunset_h() const { return 12 + day_length_h / 2; }
};

// Linvill (HortScience 25:14-16, 1990): a sine from sunrise to sunset with its top two hours after noon,
// then a logarithmic fall to the next morning's minimum. As printed, the fall goes with ln(t) and starts
// an hour after sunset; `from_sunset` uses ln(t + 1), which starts at sunset and meets the minimum exactly.
enum class NightFall { from_sunset, as_printed };
[[nodiscard]] double air_by_day(const CurveDay& today, double hours_after_sunrise);
[[nodiscard]] double air_by_night(double at_sunset_c, double next_min_c, double night_h, double hours_after_sunset,
                                  NightFall fall = NightFall::from_sunset);
// At an hour of `today`, 0..24 solar time.
[[nodiscard]] double air_at(const CurveDay& yesterday, const CurveDay& today, const CurveDay& tomorrow, double hour,
                            NightFall fall = NightFall::from_sunset);

// Every hour of a record, 24 a day from hour 0 of the first day; days without readings are NaN unless
// `bridge`, which carries the temperature (not the freezes) over gaps by the season's own mean.
// The hour in which the sun rises carries the day's minimum itself.
struct HourlySeries {
  int first_day = 0;         // day_number
  std::vector<float> air_c;  // 24 entries a day
  std::vector<char> read;    // one a day: 1 where the day's minimum was really read
};
[[nodiscard]] HourlySeries hourly_series(std::span<const Day> days, double latitude_deg, bool bridge);

// ---- Hardening --------------------------------------------------------------------------------------

// How hardened trees at the station are, 0 (growing) .. 1 (as hard as they get): hour by hour it rises in
// cool air and falls, twice as fast for each degree, in warm air. Figures and reasons: climate_hardening.cc.
struct HardeningModel {
  double gain_below_c = 12.8;  // growth slows and hardening starts below this
  double gain_full_c = 8.0;    // and is quickest from here down
  double gain_stops_c = 0.0;   // to here: frozen leaves do not prepare for frost
  double gain_days = 8.6;      // days of quickest gain after which 1/e of the way is left
  double lose_above_c = 15.6;  // hardening is lost above this
  double lose_full_c = 25.0;   // and quickest from here up
  double lose_days = 3.0;      // days of quickest loss after which 1/e is left
  double scar = 0.25;          // share of the range a winter's losses can take off the ceiling for good
};
struct Hardening {
  double h = 0;     // 0..1
  double lost = 0;  // lost since the season began, 0..1
};
[[nodiscard]] Hardening harden(const HardeningModel& model, Hardening state, double air_c, double hours);

// The index at the start of each day of the series; it starts from 0 and its losses are forgotten each
// 1 July (1 January south of the equator).
[[nodiscard]] std::vector<float> hardening_by_day(const HourlySeries& hours, bool southern,
                                                  const HardeningModel& model = {});

// Hours at or below 10 C in the 500 h before hour `at` of the series (Ebel et al. 2005, CHI500).
[[nodiscard]] int cool_hours_500(const HourlySeries& hours, std::size_t at);

// ---- Winters ----------------------------------------------------------------------------------------

inline constexpr double kFreezeThresholdsF[] = {32, 28, 24};
inline constexpr std::size_t kFreezeCount = 3;
// US stations read whole degrees F and files keep tenths of C: 24 F stands as -4.4 C, which is 24.08 F.
// A tenth of a degree F is allowed before a reading counts as above its threshold.
inline constexpr double kRoundingC = 0.06;

struct WinterLow {
  int year = 0;
  double lowest_c = 0;
  int lowest_day = 0;                                           // day_number
  std::array<int, kFreezeCount> first_freeze{}, last_freeze{};  // days since the winter began; -1 = none
};

struct WinterList {
  std::vector<WinterLow> complete;  // oldest first
  std::vector<int> left_out;        // years between the first and the last with readings
};
[[nodiscard]] int winter_year(const CivilDate& date, bool southern);
[[nodiscard]] int winter_start(int winter, bool southern);  // day_number of its first day
// Complete: at least 143 of the November-March (south: May-September) minima were read. (A bound of 145 would leave
// out three winters at Merced, CA, that the reference figures of that station count.)
[[nodiscard]] WinterList list_winters(std::span<const Day> days, bool southern);
// True when June-August is colder than December-February.
[[nodiscard]] bool seasons_turned(std::span<const Day> days);

// ---- Hardiness zone ---------------------------------------------------------------------------------

// Half zones of 5 F: number 1..13 and half a or b; a value on an edge belongs to the warmer one.
struct Zone {
  int number = 0;
  char half = 'a';
};
[[nodiscard]] Zone hardiness_zone(double mean_annual_extreme_min_c);
[[nodiscard]] std::string zone_name(const Zone& zone);

// ---- Extremes ---------------------------------------------------------------------------------------

struct LMoments {
  double l1 = 0, l2 = 0, t3 = 0, t4 = 0;
};
// Unbiased sample L-moments; needs at least 4 values.
[[nodiscard]] LMoments sample_l_moments(std::vector<double> values);

// Generalised extreme value distribution for maxima. `shape` is Hosking's k (minus Coles' xi): positive
// means that the upper tail ends.
struct Gev {
  double location = 0, scale = 0, shape = 0;
};
[[nodiscard]] Gev fit_gev(const LMoments& moments);
[[nodiscard]] Gev fit_gumbel(const LMoments& moments);                  // shape 0
[[nodiscard]] double gev_quantile(const Gev& gev, double probability);  // probability in (0, 1)
[[nodiscard]] double gev_cdf(const Gev& gev, double value);
[[nodiscard]] LMoments gev_l_moments(const Gev& gev);  // shape > -1
// The low that has a chance of 1 in `years` of being undercut in a winter; `gev` fits negated minima.
[[nodiscard]] double return_level_of_minima(const Gev& gev, double years);

struct Range {
  double low = 0, high = 0;
};
// 90 % limits of those return levels by `samples` seeded parametric bootstrap samples of size n.
[[nodiscard]] std::vector<Range> bootstrap_return_levels(const Gev& gev, std::size_t n, std::span<const double> years,
                                                         int samples = 4000, std::uint64_t seed = 1);

// Theil-Sen: the median slope of all pairs, with Sen's 90 % limits. Units of y for one unit of x.
struct Trend {
  double slope = 0;
  Range limits;
};
[[nodiscard]] Trend theil_sen(std::span<const double> x, std::span<const double> y);

// ---- Seasons ----------------------------------------------------------------------------------------

inline constexpr std::array<int, 5> kChances{10, 20, 50, 80, 90};  // percent

// Dates as days since the winter began; nullopt = fewer winters froze than the percentage needs.
struct FreezeDates {
  double threshold_f = 32;
  int winters = 0, winters_with_freeze = 0;
  std::array<std::optional<int>, 5> last;   // this chance (kChances) of such a freeze on or after the date
  std::array<std::optional<int>, 5> first;  // in this share of winters the first such freeze came by the date
};
[[nodiscard]] FreezeDates freeze_dates(std::span<const WinterLow> winters, std::size_t threshold_index);

// Degree-days of one day above `base`, same unit as the readings.
[[nodiscard]] double degree_days_mean(double min, double max, double base);
[[nodiscard]] double degree_days_lifted(double min, double max, double base);  // readings lifted to the base first
// With a horizontal cut-off at `upper` (no growth is added above it).
[[nodiscard]] double degree_days_triangle(double min, double max, double base, double upper);
[[nodiscard]] double degree_days_sine(double min, double max, double base, double upper);

inline constexpr double kHeatBaseC = 12.8;  // 55 F, below which citrus hardly grows
// Degree-days above 12.8 C (mean method) of a calendar month. Missing days count as the month's other
// days; nullopt when fewer than 20 days were read.
[[nodiscard]] std::optional<double> month_heat(std::span<const Day> days, int year, int month);

struct HeatUnits {
  std::array<double, 12> month{};  // mean over the years, NaN when never read
  double year = 0;                 // their sum
};
[[nodiscard]] HeatUnits heat_units(std::span<const Day> days);

// ---- Summary ----------------------------------------------------------------------------------------

struct ClimateOptions {
  double latitude_deg = 30;      // used for the length of days
  std::optional<bool> southern;  // nullopt = by latitude when given, else by the seasons
  bool latitude_known = false;
  int first_winter = 0, last_winter = 0;  // 0 = the last 30 complete winters
};

struct Gap {
  int first_day = 0, days = 0;
};  // a run of days without a minimum

struct NormalPeriod {
  int first_winter = 0, last_winter = 0, winters = 0;
  double mean_c = 0;  // mean annual extreme minimum
};

struct ReturnLevel {
  double years = 0, level_c = 0;
  Range limits_c;
};

struct ColdestWinter {
  WinterLow winter;
  double hardening = 0;  // index on the evening before the lowest reading
  int cool_hours_500 = 0;
};

struct ClimateSummary {
  bool southern = false;
  int first_day = 0, last_day = 0;  // day_number; 0, -1 when nothing was read
  int days = 0;                     // with a minimum
  int days_missing = 0;             // between the first and the last
  std::vector<Gap> gaps;
  WinterList winters;
  NormalPeriod normal;
  Zone zone;
  double mean_all_c = 0;  // over all complete winters
  LMoments negated_moments;
  std::optional<Gev> gev;                  // of negated minima, all complete winters; needs 10
  std::vector<ReturnLevel> return_levels;  // 2, 5, 10, 20, 50, 100 winters
  std::vector<FreezeDates> freezes;        // one a threshold, over the normal period
  HeatUnits heat;
  std::optional<Trend> trend_c_per_decade;
  std::vector<ColdestWinter> coldest;  // five, coldest first
};
[[nodiscard]] ClimateSummary summarize(std::span<const Day> days, const ClimateOptions& options);

}  // namespace tenwinters
