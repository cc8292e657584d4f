// The replay's speed: every cultivar on every rootstock, four protections, seven spots, ages 1 to 10,
// through forty winters. "tree_hours" counts what a plain loop would have to look at: every recorded cold
// hour once for every planting and age.
//
// Set TENWINTERS_BENCH_DUMP=FILE to have the inputs and a sample of the results written there as JSON: the
// numpy peer (replay_numpy.py) reads them.
#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "inputs.h"
#include "tenwinters/prospect.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

constexpr std::size_t kProtections = 4;
constexpr double kNights = 3;

double cold_hours(const Winters& winters) {
  double hours = 0;
  for (const Winter& winter : winters.winters)
    for (const Spell& spell : winter.spells) hours += static_cast<double>(spell.tenths_c.size());
  return hours;
}

// The protections that work in the ground, the first four.
std::vector<const Protection*> protections() {
  std::vector<const Protection*> all;
  for (const Protection& one : inputs().catalog.protections)
    if (!one.container_only && all.size() < kProtections) all.push_back(&one);
  return all;
}

template <class Visit>
void every_planting(const Place& place, Visit visit) {
  for (const Cultivar& cultivar : inputs().catalog.cultivars)
    for (const Rootstock& stock : inputs().catalog.rootstocks)
      for (const Protection* protection : protections())
        for (const Microclimate& spot : inputs().catalog.microclimates) {
          Planting planting;
          planting.cultivar = &cultivar;
          planting.rootstock = &stock;
          planting.protection = protection;
          planting.warmer_c = spot.warmer_c.best;
          planting.work_nights = kNights;
          planting.region = place.region;
          visit(planting);
        }
}

void count(benchmark::State& state, const Place& place, double plantings) {
  const double trees = plantings * static_cast<double>(state.iterations());
  state.counters["plantings"] = plantings;
  state.counters["winters"] = static_cast<double>(place.winters.winters.size());
  state.counters["tree_hours_per_s"] =
      benchmark::Counter(trees * 10 * cold_hours(place.winters), benchmark::Counter::kIsRate);
}

// Everything, as the engine does it: tables built afresh, equal plantings played once.
void ColdReplayAll(benchmark::State& state) {
  const Place& place = inputs().office.places[static_cast<std::size_t>(state.range(0))];
  double plantings = 0;
  for (auto _ : state) {
    const Replay replay = make_replay(place.winters, inputs().catalog.cold_model);
    ReplayMemo memo;
    plantings = 0;
    double sum = 0;
    every_planting(place, [&](const Planting& planting) {
      sum += expected_prospect(planting, replay, memo).good_harvests.best;
      ++plantings;
    });
    benchmark::DoNotOptimize(sum);
  }
  count(state, place, plantings);
  state.SetLabel(place.id);
}
BENCHMARK(ColdReplayAll)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond)->MinTime(2);
// For whole processes that are timed from outside.
BENCHMARK(ColdReplayAll)->Name("ColdReplayOnce")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond)->Iterations(1);

// The same with nothing remembered between plantings.
void ColdReplayEach(benchmark::State& state) {
  const Place& place = inputs().office.places[static_cast<std::size_t>(state.range(0))];
  const Replay replay = make_replay(place.winters, inputs().catalog.cold_model);
  double plantings = 0;
  for (auto _ : state) {
    plantings = 0;
    double sum = 0;
    every_planting(place, [&](const Planting& planting) {
      ReplayMemo memo;
      sum += expected_prospect(planting, replay, memo).good_harvests.best;
      ++plantings;
    });
    benchmark::DoNotOptimize(sum);
  }
  count(state, place, plantings);
  state.SetLabel(place.id);
}
BENCHMARK(ColdReplayEach)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

// One yard, as it is shown: every cultivar once, each with its intervals.
void ColdReplayOneYard(benchmark::State& state) {
  const Place& place = inputs().office.places[static_cast<std::size_t>(state.range(0))];
  const Replay replay = make_replay(place.winters, inputs().catalog.cold_model);
  double plantings = 0;
  for (auto _ : state) {
    ReplayMemo memo;
    plantings = 0;
    for (const Cultivar& cultivar : inputs().catalog.cultivars) {
      Planting planting;
      planting.cultivar = &cultivar;
      planting.rootstock = &inputs().catalog.rootstocks.front();
      planting.protection = protections().back();
      planting.work_nights = kNights;
      planting.region = place.region;
      benchmark::DoNotOptimize(prospect(planting, replay, memo));
      ++plantings;
    }
  }
  count(state, place, plantings);
  state.SetLabel(place.id);
}
BENCHMARK(ColdReplayOneYard)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void ColdTables(benchmark::State& state) {
  const Place& place = inputs().office.places[static_cast<std::size_t>(state.range(0))];
  for (auto _ : state) benchmark::DoNotOptimize(make_replay(place.winters, inputs().catalog.cold_model));
  state.SetLabel(place.id);
}
BENCHMARK(ColdTables)->Arg(0)->Arg(1)->Unit(benchmark::kMicrosecond);

// The machine's limit for a plain loop: one subtract, one compare and one add for every hour and tree,
// eight at a time where the machine can, with everything in the nearest cache.
void PlainHours(benchmark::State& state) {
  std::vector<std::int16_t> hours;
  for (const Winter& winter : inputs().office.places.back().winters.winters)
    for (const Spell& spell : winter.spells) hours.insert(hours.end(), spell.tenths_c.begin(), spell.tenths_c.end());
  int threshold = -40;
  for (auto _ : state) {
    int sum = 0;
    for (const std::int16_t air : hours) sum += std::max(0, threshold - air);
    benchmark::DoNotOptimize(sum);
    threshold = threshold == -40 ? -41 : -40;
  }
  state.counters["tree_hours_per_s"] = benchmark::Counter(
      static_cast<double>(state.iterations()) * static_cast<double>(hours.size()), benchmark::Counter::kIsRate);
}
BENCHMARK(PlainHours)->Unit(benchmark::kMicrosecond);

// Inputs, and the figures of every 97th planting of each place, for the peer.
bool dump() {
  const char* path = std::getenv("TENWINTERS_BENCH_DUMP");
  if (path == nullptr) return false;
  std::ofstream out(path);
  out << "{\"catalog\":" << catalog_to_json(inputs().catalog) << ",\"office\":" << office_to_json(inputs().office)
      << ",\"nights\":" << kNights << ",\"sample\":[";
  bool first = true;
  for (const Place& place : inputs().office.places) {
    const Replay replay = make_replay(place.winters, inputs().catalog.cold_model);
    ReplayMemo memo;
    int number = 0;
    every_planting(place, [&](const Planting& planting) {
      if (number++ % 97 != 0) return;
      const Prospect p = expected_prospect(planting, replay, memo);
      char line[400];
      std::snprintf(line, sizeof line,
                    "%s{\"place\":\"%s\",\"cultivar\":\"%s\",\"rootstock\":\"%s\",\"protection\":\"%s\",\"warmer_c\":%.17g,"
                    "\"figures\":[%.17g,%.17g,%.17g,%.17g]}",
                    first ? "" : ",", place.id.c_str(), planting.cultivar->id.c_str(), planting.rootstock->id.c_str(),
                    planting.protection->id.c_str(), planting.warmer_c, p.alive_at_ten.best, p.good_harvests.best,
                    p.work_nights.best, p.crops_lost.best);
      out << line;
      first = false;
    });
  }
  out << "]}\n";
  return true;
}
const bool dumped = dump();

}  // namespace
}  // namespace tenwinters
