// tenwinters rank: the ranking for one set of answers.
#include <memory>

#include "cli/commands.h"
#include "cli/yard_options.h"

namespace tenwinters::cli {

void add_rank(const Command& app, Session& session) {
  const Command command = app.add_command("rank", "Rank every citrus for one yard, with reasons");
  const auto options = std::make_shared<YardOptions>();
  add_yard_options(command, *options);
  command.footer(
      "Questions left out count as \"don't know\".\n"
      "Example:\n"
      "  tenwinters rank --place burdock_hollow --answer sun=full --answer planting=ground --answer taste=sweet --why\n"
      "  tenwinters rank --answers yard.yaml --json");
  on_yard(command, session, options, [&session, options](const Loaded& loaded, const Place& place, const Answers& answers) {
    Ground ground{loaded, place};
    print_ranking(session, ground, answers, *options);
    return kDone;
  });
}

}  // namespace tenwinters::cli
