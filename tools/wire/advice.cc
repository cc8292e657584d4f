// Advice -> JSON. Figures are rounded to a fixed number of decimals first, so that their text follows
// from whole numbers alone.
#include <cmath>

#include "wire/json.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

using wire::Json;

Json rounded(double value, double per_unit) {
  const double steps = std::floor(value * per_unit + 0.5);
  const double whole = std::floor(steps / per_unit);
  // Whole figures are written without a point, as people write them.
  if (whole * per_unit == steps) return static_cast<std::int64_t>(whole);
  return steps / per_unit;
}
Json share(double value) { return rounded(value, 1000); }
Json figure(double value) { return rounded(value, 100); }

Json to_json(const Reason& reason) {
  Json args = Json::array();
  for (const Arg& arg : reason.args) {
    Json one{{"name", arg.name}, {"kind", name_of(arg.kind)}};
    if (arg.id.empty()) one["number"] = figure(arg.number);
    else one["id"] = arg.id;
    args.push_back(std::move(one));
  }
  return {{"id", reason.id}, {"args", std::move(args)}};
}

Json to_json(const std::vector<Reason>& reasons) {
  Json list = Json::array();
  for (const Reason& reason : reasons) list.push_back(to_json(reason));
  return list;
}

Json to_json(const Interval& interval, Json (*as)(double)) {
  return {{"best", as(interval.best)}, {"low", as(interval.low)}, {"high", as(interval.high)}};
}

Json to_json(const Prospect& prospect) {
  return {{"alive_at_ten", to_json(prospect.alive_at_ten, share)},
          {"good_harvests", to_json(prospect.good_harvests, figure)},
          {"work_nights", to_json(prospect.work_nights, figure)},
          {"crops_lost", to_json(prospect.crops_lost, figure)},
          {"ripe_from_month", prospect.ripe_from_month},
          {"ripe_to_month", prospect.ripe_to_month}};
}

Json to_json(const std::vector<Limit>& limits) {
  Json list = Json::array();
  for (const Limit& limit : limits)
    list.push_back({{"id", limit.id}, {"verdict", name_of(limit.verdict)}, {"chance", share(limit.chance)}, {"reason", to_json(limit.reason)}});
  return list;
}

Json to_json(const std::vector<Contribution>& contributions) {
  Json list = Json::array();
  for (const Contribution& one : contributions)
    list.push_back({{"criterion", one.criterion}, {"points", one.points}, {"of", one.of}, {"reason", to_json(one.reason)}});
  return list;
}

Json to_json(const Candidate& candidate) {
  return {{"cultivar", candidate.cultivar},
          {"rootstock", candidate.rootstock},
          {"protection", candidate.protection},
          {"shelf", name_of(candidate.shelf)},
          {"points", candidate.points},
          {"prospect", to_json(candidate.prospect)},
          {"contributions", to_json(candidate.contributions)},
          {"limits", to_json(candidate.limits)},
          {"notes", to_json(candidate.notes)},
          {"cautions", candidate.cautions}};
}

}  // namespace

std::string advice_to_json(const Advice& advice) {
  Json answers = Json::object();
  for (const auto& [question, answer] : advice.answers) answers[question] = answer;
  Json candidates = Json::array();
  for (const Candidate& candidate : advice.candidates) candidates.push_back(to_json(candidate));
  return wire::to_text({{"place", advice.place},
                        {"answers", std::move(answers)},
                        {"unanswered", advice.unanswered},
                        {"yard", to_json(advice.yard)},
                        {"candidates", std::move(candidates)},
                        {"notes", to_json(advice.notes)}});
}

}  // namespace tenwinters
