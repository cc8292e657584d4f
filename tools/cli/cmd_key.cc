// tenwinters key: the choice as a few yes-or-no steps, for paper.
#include <fmt/core.h>

#include <cmath>
#include <memory>

#include "cli/commands.h"
#include "cli/yard_options.h"
#include "tenwinters/key.h"
#include "wire/wire.h"

namespace tenwinters::cli {
namespace {

class KeyPrinter {
 public:
  KeyPrinter(const Voice& voice, const PaperKey& key) : voice_(voice), key_(key) {
    // Steps are numbered in the order of the nodes; ends have no number.
    for (const KeyNode& node : key.nodes) numbers_.push_back(node.question.empty() ? 0 : ++steps_);
  }

  void print(const Place& place) const {
    fmt::print("{}\n{}\n", voice_.say("key.title", {{"place", voice_.of(place.name)}}), wrap(voice_.say("key.how"), 0));
    for (std::size_t i = 0; i < key_.nodes.size(); ++i) {
      const KeyNode& node = key_.nodes[i];
      if (node.question.empty()) continue;
      fmt::print("\n{}\n", wrap(voice_.say("key.step", {{"n", std::to_string(numbers_[i])}, {"question", voice_.say("questions." + node.question + ".ask")}}), 0));
      std::string answers;
      for (const std::string& answer : node.answers)
        answers += (answers.empty() ? "" : voice_.say("key.or")) + voice_.say("questions." + node.question + ".answers." + answer);
      line(answers, node.yes);
      line(voice_.say("key.otherwise"), node.no);
    }
    const std::string agrees = voice_.say("key.agrees", {{"n", std::to_string(key_.yards)},
                                                         {"fresh", std::to_string(std::lround(key_.agrees_fresh))},
                                                         {"planted", std::to_string(std::lround(key_.planted_fresh))}});
    fmt::print("\n{}\n{}\n", wrap(agrees, 0), wrap(voice_.say("key.care"), 0));
    if (place.winters.invented) fmt::print("{}\n", wrap(voice_.say("terminal.invented"), 0));
  }

 private:
  void line(const std::string& answer, int to) const {
    const KeyNode& node = key_.nodes[static_cast<std::size_t>(to)];
    const std::string where = node.question.empty() ? end(node) : voice_.say("key.go", {{"n", std::to_string(numbers_[static_cast<std::size_t>(to)])}});
    fmt::print("   - {}\n", wrap(answer + ": " + where, 5).substr(5));
  }
  [[nodiscard]] std::string end(const KeyNode& node) const {
    if (node.trees.empty()) return voice_.say("key.none");
    std::string others;
    for (std::size_t i = 1; i < node.trees.size(); ++i) others += (others.empty() ? "" : ", ") + name(node.trees[i]);
    return voice_.say(others.empty() ? "key.trees" : "key.trees_also", {{"tree", name(node.trees.front())}, {"others", others}});
  }
  [[nodiscard]] std::string name(const std::string& id) const {
    return voice_.cultivar_name(id) + " (" + voice_.type_name(find_cultivar(voice_.catalog, id)->type) + ")";
  }

  const Voice voice_;
  const PaperKey& key_;
  std::vector<int> numbers_;  // by node; 0 for an end
  int steps_ = 0;
};

}  // namespace

void add_key(CLI::App& app, Session& session) {
  CLI::App* command = app.add_subcommand("key", "The choice on paper: a key of at most five yes-or-no steps for one place");
  const auto options = std::make_shared<YardOptions>();
  add_yard_options(*command, *options, false);
  command->footer(
      "Answers given hold for everybody who uses the key, and are not asked in it.\n"
      "Example:\n"
      "  tenwinters key --place gannet_quay\n"
      "  tenwinters key --place burdock_hollow --answer sun=full --answer drainage=good --json");
  on_yard(*command, session, options, [&session, options](const Loaded& loaded, const Place& place, const Answers& answers) {
    Ground ground{loaded, place};
    const PaperKey key = paper_key(loaded.catalog, loaded.office, place, answers, ground.replay, ground.memo);
    if (options->json) fmt::print("{}\n", key_to_json(key));
    else KeyPrinter(loaded.voice(session), key).print(place);
    return kDone;
  });
}

}  // namespace tenwinters::cli
