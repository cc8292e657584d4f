// Prints every recorded observation of cold and citrus beside the model's answer, and the misfit of all.
//   calibrate CATALOG OBSERVATIONS.csv
#include <cstdio>

#include "calibration/calibration.h"
#include "lib/files.h"
#include "loader/loader.h"

namespace {

using namespace tenwinters;

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : ", ") + word;
  return all;
}

void print_constants(const ColdModel& model) {
  std::printf("Constants (catalog/cold_model.yaml)\n");
  for_each_constant(model, [](std::string_view name, std::string_view unit, double, double, const Fact& fact) {
    std::printf("  %-18s %6.2f %-6s (%g to %g)\n", std::string(name).c_str(), fact.best, std::string(unit).c_str(),
                fact.low, fact.high);
  });
}

void print_fit(const ColdObservation& seen, const ColdFit& one) {
  std::printf("%-28s %-6s %6.1f %6.1f %5.1fh  h %.1f age %2d  seen %-6s model %4.0f%%  ", seen.id.c_str(),
              std::string(name_of(seen.tissue)).c_str(), seen.low_c, seen.high_c, seen.hours, seen.hardening, seen.age,
              seen.expect.c_str(), one.injury * 100);
  if (one.misfit > 0) {
    std::printf("off by %+.1f C", one.degrees);
  } else {
    std::printf("fits");
  }
  std::printf("  [%s: %s; %s]\n", joined(seen.kinds).c_str(), seen.said.c_str(), seen.source.c_str());
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 3) {
    std::fprintf(stderr, "usage: calibrate CATALOG OBSERVATIONS.csv\n");
    return 2;
  }
  const DiskReader disk;
  const LoadedCatalog loaded = load_catalog(disk, arguments[1]);
  int status = 0;
  for (const Diagnostic& fault : loaded.faults) {
    if (fault.warning) continue;
    std::fprintf(stderr, "%s\n", to_text(fault).c_str());
    status = 1;
  }
  std::string why;
  const std::optional<std::string> text = disk.read(arguments[2], 1u << 20u, why);
  if (!text) {
    std::fprintf(stderr, "%s: %s\n", arguments[2], why.c_str());
    return 1;
  }
  const ColdObservations observations = read_cold_observations(*text);
  if (!observations.fault.empty()) {
    std::fprintf(stderr, "%s: %s\n", arguments[2], observations.fault.c_str());
    return 1;
  }
  if (status != 0) return status;

  print_constants(loaded.catalog.cold_model);
  std::printf("\nObservations: share killed as seen (none 0-10%%, begins 5-40%%, half 40-60%%, hurt 20-80%%, severe 50%% up,\n"
              "killed 70%% up) and as the model has it; off by: degrees colder (+) or warmer (-) that would make it fit\n");
  std::vector<ColdFit> fits;
  for (const ColdObservation& seen : observations.all) {
    fits.push_back(fit(seen, loaded.catalog));
    print_fit(seen, fits.back());
  }
  const ColdFitTotal sum = total(fits);
  std::printf("\n%d of %d fit; %d hurt more than was seen, %d less; misfit %.2f C (root mean square), %+.2f C on average\n",
              sum.inside, sum.observations, sum.warmer, sum.colder, sum.rms_degrees, sum.mean_degrees);
  return 0;
}
