// Station files, daily and hourly, and what is reckoned from them.
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "fuzz/base.h"
#include "records/records.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tenwinters;
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const RecordUnit unit : {RecordUnit::infer, RecordUnit::tenths_celsius}) {
    const Record record = read_record(text, "station.csv", unit);
    for (const Diagnostic& fault : record.faults) testing::expect_plain(to_text(fault));
    if (record.days.empty()) continue;
    for (const double latitude : {30.0, -30.0}) (void)pack_winters(record, latitude, true);
    (void)summarize(record.days, ClimateOptions{});
  }
  if (looks_hourly(text)) {
    const HourlyRecord hours = read_hourly(text, "station.csv", RecordUnit::infer);
    for (const Diagnostic& fault : hours.faults) testing::expect_plain(to_text(fault));
    for (const CurveError& error : curve_errors(hours, 30))
      if (!std::isfinite(error.rmse_c)) std::abort();
  }
  return 0;
}
