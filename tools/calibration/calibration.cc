#include "calibration/calibration.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace tenwinters {
namespace {

constexpr std::size_t kColumns = 11;
constexpr double kFarthest = 12;   // degrees C beyond which a misfit is not searched
constexpr double kStep = 0.1;

struct Expectation {
  std::string_view word;
  double least, most;
};
constexpr Expectation kExpectations[] = {{"none", 0, 0.10},     {"begins", 0.05, 0.40}, {"half", 0.40, 0.60},
                                         {"hurt", 0.20, 0.80},  {"severe", 0.50, 1},    {"killed", 0.70, 1}};

std::vector<std::string> split(std::string_view text, char by, std::size_t most) {
  std::vector<std::string> parts;
  while (parts.size() + 1 < most) {
    const std::size_t at = text.find(by);
    if (at == std::string_view::npos) break;
    parts.emplace_back(text.substr(0, at));
    text.remove_prefix(at + 1);
  }
  parts.emplace_back(text);
  return parts;
}

bool to_number(const std::string& text, double& number) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc() && end == text.data() + text.size();
}

bool read_row(std::string_view line, ColdObservation& row) {
  // The last column is free text and may hold commas.
  const std::vector<std::string> cells = split(line, ',', kColumns);
  if (cells.size() != kColumns) return false;
  row.id = cells[0];
  row.kinds = split(cells[1], '|', 99);
  const std::optional<Tissue> tissue = parse<Tissue>(cells[2]);
  double age = 0;
  const bool numbers = to_number(cells[3], row.low_c) && to_number(cells[4], row.high_c) && to_number(cells[5], row.hours) &&
                       to_number(cells[6], row.hardening) && to_number(cells[7], age);
  row.expect = cells[8];
  row.source = cells[9];
  row.said = cells[10];
  if (!tissue || !numbers || row.low_c > row.high_c) return false;
  row.tissue = *tissue;
  row.age = static_cast<int>(age);
  for (const Expectation& one : kExpectations) {
    if (one.word != row.expect) continue;
    row.least = one.least;
    row.most = one.most;
    return true;
  }
  return false;
}

const Traits* traits_of(const Catalog& catalog, const std::string& kind) {
  if (const CitrusType* type = find_type(catalog, kind)) return &type->traits;
  if (const Cultivar* cultivar = find_cultivar(catalog, kind)) return &cultivar->traits;
  return nullptr;
}

// On a middling stock, in good health, the air held at one temperature.
double injury_at(const ColdObservation& seen, const Catalog& catalog, double air_c) {
  const ColdNumbers numbers = cold_numbers(catalog.cold_model, Lean::best);
  double sum = 0;
  int kinds = 0;
  for (const std::string& kind : seen.kinds) {
    const Traits* traits = traits_of(catalog, kind);
    if (traits == nullptr) continue;
    const int permille = static_cast<int>(seen.hardening * 1000 + 0.5);
    int point = killing_tenths(killing_point(traits->cold[static_cast<std::size_t>(seen.tissue)], Lean::best), permille);
    if (seen.tissue <= Tissue::trunk) point += state_shift(numbers, seen.age, Health::good, false);
    const double depth = std::max(0, point + numbers.width - to_tenths(air_c));
    sum += injury(static_cast<std::int64_t>(depth * seen.hours + 0.5), numbers);
    ++kinds;
  }
  return kinds > 0 ? sum / kinds : 0;
}

double outside(const ColdObservation& seen, double injury) {
  return std::max({0.0, seen.least - injury, injury - seen.most});
}

}  // namespace

ColdObservations read_cold_observations(std::string_view csv) {
  ColdObservations read;
  int number = 0;
  bool header = true;
  while (!csv.empty()) {
    const std::size_t end = csv.find('\n');
    const std::string_view line = csv.substr(0, end);
    csv.remove_prefix(end == std::string_view::npos ? csv.size() : end + 1);
    ++number;
    if (line.empty() || line[0] == '#') continue;
    if (header) {
      header = false;
      continue;
    }
    ColdObservation row;
    if (!read_row(line, row)) {
      read.fault = "line " + std::to_string(number) + ": not an observation";
      return read;
    }
    read.all.push_back(std::move(row));
  }
  return read;
}

ColdFit fit(const ColdObservation& seen, const Catalog& catalog) {
  const double middle = (seen.low_c + seen.high_c) / 2;
  ColdFit result;
  result.injury = injury_at(seen, catalog, middle);
  // What was said of a range holds if it holds anywhere in it.
  for (double air = seen.low_c; air <= seen.high_c + kStep / 2; air += kStep)
    if (!(outside(seen, injury_at(seen, catalog, air)) > 0)) return result;
  result.misfit = std::min(outside(seen, injury_at(seen, catalog, seen.low_c)),
                           outside(seen, injury_at(seen, catalog, seen.high_c)));
  const double sign = result.injury < seen.least ? 1 : -1;
  const double from = sign > 0 ? seen.low_c : seen.high_c;
  while (std::abs(result.degrees) < kFarthest) {
    result.degrees += sign * kStep;
    if (!(outside(seen, injury_at(seen, catalog, from - result.degrees)) > 0)) break;
  }
  return result;
}

ColdFitTotal total(const std::vector<ColdFit>& fits) {
  ColdFitTotal sum;
  double squares = 0;
  for (const ColdFit& one : fits) {
    ++sum.observations;
    sum.inside += one.misfit > 0 ? 0 : 1;
    sum.warmer += one.degrees < 0 ? 1 : 0;
    sum.colder += one.degrees > 0 ? 1 : 0;
    sum.mean_degrees += one.degrees;
    squares += one.degrees * one.degrees;
  }
  if (sum.observations > 0) {
    sum.mean_degrees /= sum.observations;
    sum.rms_degrees = std::sqrt(squares / sum.observations);
  }
  return sum;
}

}  // namespace tenwinters
