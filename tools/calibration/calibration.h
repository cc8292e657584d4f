// Recorded observations of cold and citrus beside the model's answer; used by tools/calibrate and its test.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/cold.h"

namespace tenwinters {

// One line of tests/published/cold_observations.csv (its head says what the columns mean).
struct ColdObservation {
  std::string id, source, said;
  std::vector<std::string> kinds;          // types or cultivars
  Tissue tissue{};
  double low_c = 0, high_c = 0, hours = 4;
  double hardening = 0.5;                  // 0..1
  int age = 10;
  std::string expect;
  double least = 0, most = 1;              // injury that fits what was said
};

// Empty `fault` = read well; else it says which line is wrong.
struct ColdObservations {
  std::vector<ColdObservation> all;
  std::string fault;
};
[[nodiscard]] ColdObservations read_cold_observations(std::string_view csv);

// The model beside one observation, over the kinds it names and the range of temperatures said.
struct ColdFit {
  double injury = 0;                       // mean over kinds, in the middle of the range
  double misfit = 0;                       // how far that lies outside what was said, 0..1
  double degrees = 0;                      // C the air would have to be colder (+) or warmer (-) to fit
};
[[nodiscard]] ColdFit fit(const ColdObservation& observation, const Catalog& catalog);

struct ColdFitTotal {
  int observations = 0, inside = 0, warmer = 0, colder = 0;  // warmer: the model hurts more than was seen
  double rms_degrees = 0, mean_degrees = 0;
};
[[nodiscard]] ColdFitTotal total(const std::vector<ColdFit>& fits);

}  // namespace tenwinters
