// The options by which rank and ask take a yard, and the printed ranking they share.
#pragma once

#include <string>
#include <vector>

#include "cli/session.h"
#include "tenwinters/advise.h"

namespace CLI {
class App;
}

namespace tenwinters::cli {

struct YardOptions {
  std::string answers_file;
  std::vector<std::string> answers;  // "question=answer"
  std::string place;
  bool json = false;
  bool all = false;                  // every candidate, not only the best of each shelf
  bool why = false;                  // the contributions to each score
};

void add_yard_options(CLI::App& command, YardOptions& options);

// The answers given by file and options (options win), checked. 0 or the exit status, complaints printed.
[[nodiscard]] int read_yard(const YardOptions& options, const Loaded& loaded, Answers& answers, const Place*& place);

void print_advice(const Session& session, const Loaded& loaded, const Place& place, const Advice& advice,
                  const YardOptions& options);

}  // namespace tenwinters::cli
