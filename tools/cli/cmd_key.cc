// tenwinters key: the choice as a few yes-or-no steps, for paper.
#include <fmt/core.h>

#include <memory>

#include "cli/commands.h"
#include "cli/yard_options.h"
#include "render/key_text.h"
#include "tenwinters/key.h"
#include "wire/wire.h"

namespace tenwinters::cli {
namespace {

void print_key(const Voice& voice, const Place& place, const PaperKey& key) {
  fmt::print("{}\n{}\n", voice.say("key.title", {{"place", voice.of(place.name)}}), wrap(voice.say("key.how"), 0));
  for (const KeyStep& step : key_steps(voice, key)) {
    fmt::print("\n{}\n", wrap(step.question, 0));
    for (const KeyStep::Line* line : {&step.yes, &step.no}) fmt::print("   - {}\n", wrap(line->answer + ": " + line->leads, 5).substr(5));
  }
  fmt::print("\n{}\n{}\n", wrap(key_agreement(voice, key), 0), wrap(voice.say("key.care"), 0));
  if (place.winters.invented) fmt::print("{}\n", wrap(voice.say("terminal.invented"), 0));
}

}  // namespace

void add_key(const Command& app, Session& session) {
  const Command command = app.add_command("key", "The choice on paper: a key of at most five yes-or-no steps for one place");
  const auto options = std::make_shared<YardOptions>();
  add_yard_options(command, *options, false);
  command.footer(
      "Answers given hold for everybody who uses the key, and are not asked in it.\n"
      "Example:\n"
      "  tenwinters key --place gannet_quay\n"
      "  tenwinters key --place burdock_hollow --answer sun=full --answer drainage=good --json");
  on_yard(command, session, options, [&session, options](const Loaded& loaded, const Place& place, const Answers& answers) {
    Ground ground{loaded, place};
    const PaperKey key = paper_key(loaded.catalog, loaded.office, place, answers, ground.replay, ground.memo);
    if (options->json) fmt::print("{}\n", key_to_json(key));
    else print_key(loaded.voice(session), place, key);
    return kDone;
  });
}

}  // namespace tenwinters::cli
