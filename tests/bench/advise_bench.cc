// How long a household waits for its answer: the whole choice for one yard, everything answered and nothing
// answered, at each place of the demonstration office. `cold` starts without anything remembered; `next`
// changes one answer of a yard already judged, as a visitor of the picker does.
#include <benchmark/benchmark.h>

#include "inputs.h"
#include "tenwinters/advise.h"
#include "tenwinters/certainty.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

const Place& place(const benchmark::State& state) { return inputs().office.places[static_cast<std::size_t>(state.range(0))]; }

// The answer at `turn` to every question, taken in turn.
Answers everything(std::size_t turn) {
  Answers answers;
  for (const Question& question : inputs().catalog.questions) answers[question.id] = question.answers[turn % question.answers.size()].id;
  return answers;
}

void cold(benchmark::State& state, const Answers& answers) {
  const Replay replay = make_replay(place(state).winters, inputs().catalog.cold_model);
  std::size_t played = 0;
  for (auto _ : state) {
    ReplayMemo memo;
    benchmark::DoNotOptimize(advise(inputs().catalog, inputs().office, place(state), answers, replay, memo));
    played = memo.expected.size() + memo.with_interval.size();
  }
  state.counters["plantings"] = static_cast<double>(played);
  state.counters["freezes"] = static_cast<double>(replay.colds.size());
}

void all_answered(benchmark::State& state) { cold(state, everything(0)); }
void half_answered(benchmark::State& state) {
  Answers answers = everything(0);
  for (const char* left_out : {"planting", "spot", "winter_work", "soil", "company"}) answers.erase(left_out);
  cold(state, answers);
}
void none_answered(benchmark::State& state) { cold(state, {}); }

void next_answer(benchmark::State& state) {
  const Replay replay = make_replay(place(state).winters, inputs().catalog.cold_model);
  ReplayMemo memo;
  std::size_t turn = 0;
  for (auto _ : state) benchmark::DoNotOptimize(advise(inputs().catalog, inputs().office, place(state), everything(turn++ % 2), replay, memo));
}

// Nothing answered, everything remembered: what the open questions themselves cost.
void again(benchmark::State& state) {
  const Replay replay = make_replay(place(state).winters, inputs().catalog.cold_model);
  ReplayMemo memo;
  for (auto _ : state) benchmark::DoNotOptimize(advise(inputs().catalog, inputs().office, place(state), {}, replay, memo));
}

// How sure the choice is and what to ask next, winters remembered: with `range(1)` of the questions answered.
void sure(benchmark::State& state) {
  const Replay replay = make_replay(place(state).winters, inputs().catalog.cold_model);
  ReplayMemo memo;
  Answers answers;
  for (const auto& one : everything(0))
    if (static_cast<std::int64_t>(answers.size()) < state.range(1)) answers.insert(one);
  for (auto _ : state) benchmark::DoNotOptimize(how_sure(inputs().catalog, inputs().office, place(state), answers, replay, memo));
}

BENCHMARK(all_answered)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(half_answered)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(none_answered)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(next_answer)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(again)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(sure)->ArgsProduct({{0, 1}, {0, 8, 17}})->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace tenwinters
