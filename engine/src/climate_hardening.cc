// Where the figures of HardeningModel come from (all degrees C):
// - 12.8: growth slows and hardening goes on below 55 F (University of Florida IFAS Extension, Oswalt
//   2021, read). Loss above 15.6 (60 F): the top of the 40-60 F band in which some hardiness is gained in
//   two weeks (UF/IFAS Seminole County, read); between the two nothing is gained or lost.
// - 8.0: halfway to 12.8 stands the 10 C below which Ebel et al. 2005 count an hour as cool, whatever its
//   depth (read). Nothing is gained at or below freezing: our judgement.
// - 8.6 days: two weeks between 40 and 60 F give 2.8-3.3 of the 4.4-6.1 degrees between growing and
//   hardened (Arborgate, read; spread from UF Oswalt), that is h of about 0.55; and four to six weeks of
//   days near 15.6 and nights near 4.4 harden fully (Yelenosky 1985, from memory), h of about 0.9.
// - 25.0 and 3 days: loss in the field is quicker than gain (UF Oswalt 2021, read). How much quicker is
//   our judgement: twice, for each degree and day.
// - scar: hardiness once lost is not fully regained (UF Oswalt 2021, read). The share is our judgement.
// The index is checked against the cool-hour count of Ebel et al. 2005, and against the two-step regime of
// Nesbitt et al. 2002, in tests/published.
#include <algorithm>
#include <cmath>

#include "tenwinters/climate.h"

namespace tenwinters {

Hardening harden(const HardeningModel& model, Hardening state, double air_c, double hours) {
  const double cool = std::clamp((model.gain_below_c - air_c) / (model.gain_below_c - model.gain_full_c), 0.0, 1.0);
  const double gain = air_c > model.gain_stops_c ? cool : 0;
  const double loss = std::clamp((air_c - model.lose_above_c) / (model.lose_full_c - model.lose_above_c), 0.0, 1.0);
  const double ceiling = 1 - model.scar * state.lost;
  const double gained = std::max(0.0, ceiling - state.h) * gain * hours / (24 * model.gain_days);
  const double lost = state.h * loss * hours / (24 * model.lose_days);
  return {std::clamp(state.h + gained - lost, 0.0, 1.0), std::min(1.0, state.lost + lost)};
}

std::vector<float> hardening_by_day(const HourlySeries& hours, bool southern, const HardeningModel& model) {
  std::vector<float> by_day(hours.air_c.size() / 24);
  Hardening state;
  int next_season = by_day.empty() ? 0 : winter_start(winter_year(civil_date(hours.first_day), southern) + 1, southern);
  for (std::size_t day = 0; day < by_day.size(); ++day) {
    const int number = hours.first_day + static_cast<int>(day);
    if (number == next_season) {
      state.lost = 0;
      next_season = winter_start(winter_year(civil_date(number), southern) + 1, southern);
    }
    by_day[day] = static_cast<float>(state.h);
    for (std::size_t hour = 0; hour < 24; ++hour) {
      const double air = static_cast<double>(hours.air_c[day * 24 + hour]);
      if (!std::isnan(air)) state = harden(model, state, air, 1);
    }
  }
  return by_day;
}

int cool_hours_500(const HourlySeries& hours, std::size_t at) {
  const std::size_t end = std::min(at, hours.air_c.size());
  int count = 0;
  for (std::size_t i = end > 500 ? end - 500 : 0; i < end; ++i)
    if (hours.air_c[i] <= 10.0F) ++count;
  return count;
}

}  // namespace tenwinters
