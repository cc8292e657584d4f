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
  KeyPrinter(const Session& session, const Loaded& loaded, const PaperKey& key) : words_(loaded.language(session.language)), loaded_(loaded), key_(key) {
    // Steps are numbered in the order of the nodes; ends have no number.
    for (const KeyNode& node : key.nodes) numbers_.push_back(node.question.empty() ? 0 : ++steps_);
  }

  void print(const Place& place) const {
    const auto name = place.name.find(words_.code);
    fmt::print("{}\n{}\n", fill(words_.say("key.title"), "place", name == place.name.end() ? place.id : name->second), wrap(words_.say("key.how"), 0));
    for (std::size_t i = 0; i < key_.nodes.size(); ++i) {
      const KeyNode& node = key_.nodes[i];
      if (node.question.empty()) continue;
      fmt::print("\n{}\n", wrap(fill(fill(words_.say("key.step"), "n", std::to_string(numbers_[i])), "question", words_.say("questions." + node.question + ".ask")), 0));
      std::string answers;
      for (const std::string& answer : node.answers)
        answers += (answers.empty() ? "" : words_.say("key.or")) + words_.say("questions." + node.question + ".answers." + answer);
      line(answers, node.yes);
      line(words_.say("key.otherwise"), node.no);
    }
    std::string agrees = fill(words_.say("key.agrees"), "n", std::to_string(key_.yards));
    agrees = fill(fill(agrees, "fresh", std::to_string(std::lround(key_.agrees_fresh))), "planted", std::to_string(std::lround(key_.planted_fresh)));
    fmt::print("\n{}\n{}\n", wrap(agrees, 0), wrap(words_.say("key.care"), 0));
    if (place.winters.invented) fmt::print("{}\n", wrap(words_.say("terminal.invented"), 0));
  }

 private:
  void line(const std::string& answer, int to) const {
    const KeyNode& node = key_.nodes[static_cast<std::size_t>(to)];
    const std::string where = node.question.empty() ? end(node) : fill(words_.say("key.go"), "n", std::to_string(numbers_[static_cast<std::size_t>(to)]));
    fmt::print("   - {}\n", wrap(answer + ": " + where, 5).substr(5));
  }
  [[nodiscard]] std::string end(const KeyNode& node) const {
    if (node.trees.empty()) return words_.say("key.none");
    std::string others;
    for (std::size_t i = 1; i < node.trees.size(); ++i) others += (others.empty() ? "" : ", ") + name(node.trees[i]);
    const std::string text = words_.say(others.empty() ? "key.trees" : "key.trees_also");
    return fill(fill(text, "tree", name(node.trees.front())), "others", others);
  }
  [[nodiscard]] std::string name(const std::string& id) const {
    const Cultivar* cultivar = find_cultivar(loaded_.catalog, id);
    return cultivar->name + " (" + words_.say("types." + cultivar->type + ".name") + ")";
  }

  const Language& words_;
  const Loaded& loaded_;
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
  command->callback([&session, options] {
    session.run = [&session, options] {
      Loaded loaded;
      if (const int status = load(session, loaded)) return status;
      Answers answers;
      const Place* place = nullptr;
      if (const int status = read_yard(*options, loaded, answers, place)) return status;
      Ground ground{loaded, *place};
      const PaperKey key = paper_key(loaded.catalog, loaded.office, *place, answers, ground.replay, ground.memo);
      if (options->json) fmt::print("{}\n", key_to_json(key));
      else KeyPrinter(session, loaded, key).print(*place);
      return kDone;
    };
  });
}

}  // namespace tenwinters::cli
