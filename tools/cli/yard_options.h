// The options by which rank and ask take a yard, and the printed ranking they share.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/session.h"
#include "tenwinters/advise.h"
#include "tenwinters/certainty.h"
#include "tenwinters/prospect.h"

namespace tenwinters::cli {

struct YardOptions {
  std::string answers_file;
  std::vector<std::string> answers;  // "question=answer"
  std::string place;
  bool json = false;
  bool all = false;                  // every candidate, not only the best of each shelf
  bool why = false;                  // the contributions to each score
};

// --answers, --answer and --place alone.
void add_answer_options(const Command& command, YardOptions& options);
// The answers given by file and options (options win), checked. 0 or the exit status, complaints printed.
[[nodiscard]] int read_yard(const YardOptions& options, const Loaded& loaded, Answers& answers, const Place*& place);

// Without `listed` the options that shape a list of trees are left out.
void add_yard_options(const Command& command, YardOptions& options, bool listed = true);

// What a command does with a catalogue and the yard that its options name; returns the exit status.
using YardWork = std::function<int(const Loaded& loaded, const Place& place, Answers answers)>;
// Reads both, then does the work; what is wrong with them is complained of instead.
[[nodiscard]] int run_on_yard(const Session& session, const YardOptions& options, const YardWork& work);
// Has the command do so.
void on_yard(const Command& command, Session& session, std::shared_ptr<const YardOptions> options, YardWork work);

// One place's winters, kept between rankings.
struct Ground {
  const Loaded& loaded;
  const Place& place;
  Replay replay = make_replay(place.winters, loaded.catalog.cold_model);
  ReplayMemo memo = {};

  Advice advise(const Answers& answers) { return tenwinters::advise(loaded.catalog, loaded.office, place, answers, replay, memo); }
  Certainty how_sure(const Answers& answers) { return tenwinters::how_sure(loaded.catalog, loaded.office, place, answers, replay, memo); }
};

// One tree as the ranking shows it, its points told one by one.
void print_tree(const Session& session, const Loaded& loaded, const Candidate& candidate);

// The ranking and how sure it is, in words or as JSON.
void print_ranking(const Session& session, Ground& ground, const Answers& answers, const YardOptions& options);

}  // namespace tenwinters::cli
