#include "render/key_text.h"

#include <cmath>

namespace tenwinters {
namespace {

std::string tree_name(const Voice& voice, const std::string& id) {
  return voice.cultivar_name(id) + " (" + voice.type_name(find_cultivar(voice.catalog, id)->type) + ")";
}

std::string end_text(const Voice& voice, const KeyNode& node) {
  if (node.trees.empty()) return voice.say("key.none");
  std::string others;
  for (std::size_t i = 1; i < node.trees.size(); ++i) others += (others.empty() ? "" : ", ") + tree_name(voice, node.trees[i]);
  return voice.say(others.empty() ? "key.trees" : "key.trees_also", {{"tree", tree_name(voice, node.trees.front())}, {"others", others}});
}

}  // namespace

std::vector<KeyStep> key_steps(const Voice& voice, const PaperKey& key) {
  std::vector<int> numbers;  // by node; 0 for an end
  int count = 0;
  for (const KeyNode& node : key.nodes) numbers.push_back(node.question.empty() ? 0 : ++count);
  const auto leads = [&](int to) {
    const auto at = static_cast<std::size_t>(to);
    return key.nodes[at].question.empty() ? end_text(voice, key.nodes[at]) : voice.say("key.go", {{"n", std::to_string(numbers[at])}});
  };
  std::vector<KeyStep> steps;
  for (std::size_t i = 0; i < key.nodes.size(); ++i) {
    const KeyNode& node = key.nodes[i];
    if (node.question.empty()) continue;
    std::string answers;
    for (const std::string& answer : node.answers)
      answers += (answers.empty() ? "" : voice.say("key.or")) + voice.say("questions." + node.question + ".answers." + answer);
    steps.push_back({numbers[i],
                     voice.say("key.step", {{"n", std::to_string(numbers[i])}, {"question", voice.say("questions." + node.question + ".ask")}}),
                     {answers, leads(node.yes)},
                     {voice.say("key.otherwise"), leads(node.no)}});
  }
  return steps;
}

std::string key_agreement(const Voice& voice, const PaperKey& key) {
  return voice.say("key.agrees", {{"n", std::to_string(key.yards)},
                                  {"fresh", std::to_string(std::lround(key.agrees_fresh))},
                                  {"planted", std::to_string(std::lround(key.planted_fresh))}});
}

}  // namespace tenwinters
