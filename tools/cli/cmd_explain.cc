// tenwinters explain: why a tree stands where it does, the least that would change that, and what decides between two.
#include <fmt/core.h>

#include <memory>

#include "cli/commands.h"
#include "cli/yard_options.h"
#include "screens/comparison_words.h"
#include "tenwinters/change.h"
#include "wire/wire.h"

namespace tenwinters::cli {
namespace {

// The id behind an id, a name or a synonym, in any case; "" with a complaint if there is none on sale here.
std::string find_tree(const Loaded& loaded, const std::string& text) {
  const auto folded = [](std::string word) {
    for (char& c : word)
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return word;
  };
  const std::string sought = folded(text);
  const std::vector<std::string>& sold = loaded.office.on_sale;
  std::vector<std::string_view> names;
  std::string of_kind;
  for (const Cultivar& cultivar : loaded.catalog.cultivars) {
    if (!sold.empty() && std::find(sold.begin(), sold.end(), cultivar.id) == sold.end()) continue;
    if (sought == cultivar.id || sought == folded(cultivar.name)) return cultivar.id;
    for (const std::string& synonym : cultivar.synonyms)
      if (sought == folded(synonym)) return cultivar.id;
    names.push_back(cultivar.id);
    if (cultivar.type == sought) of_kind += (of_kind.empty() ? "" : ", ") + cultivar.id;
  }
  if (!of_kind.empty()) {
    complain("\"" + text + "\" is a kind; name one of its cultivars");
    fmt::print(stderr, "They are: {}\n", of_kind);
    return {};
  }
  complain("no cultivar \"" + text + "\" on sale here", std::string(nearest_name(sought, names)));
  return {};
}

class Explainer {
 public:
  Explainer(const Session& session, Ground& ground, Answers answers)
      : session_(session), ground_(ground), loaded_(ground.loaded), voice_(loaded_.voice(session)), answers_(std::move(answers)) {}

  void tree(const std::string& id, bool json) {
    const LeastChange least = *least_change(loaded_.catalog, loaded_.office, ground_.place, answers_, id, ground_.replay, ground_.memo);
    if (json) {
      fmt::print("{}\n", least_change_to_json(least));
      return;
    }
    print_tree(session_, loaded_, *candidate_in_full(loaded_.catalog, loaded_.office, ground_.place, answers_, id, ground_.replay, ground_.memo));
    fmt::print("\n");
    const std::string name = voice_.cultivar_name(id);
    if (least.reached) {
      say("explain.reached", {{"tree", name}});
    } else if (!least.barred.empty()) {
      say("explain.barred", {{"tree", name}});
      for (const std::string& limit : least.barred) fmt::print("  - {}\n", voice_.say("limits." + limit));
    } else if (least.ways.empty()) {
      say("explain.no_way", {{"n", std::to_string(kMostChanges)}});
    } else {
      say(least.aim == Aim::grow ? "explain.grows" : "explain.rises", {{"tree", name}, {"n", std::to_string(least.ways.front().changes.size())}});
      constexpr std::size_t kShown = 5;
      const std::size_t of = loaded_.office.on_sale.empty() ? loaded_.catalog.cultivars.size() : loaded_.office.on_sale.size();
      for (std::size_t i = 0; i < least.ways.size() && i < kShown; ++i) {
        const WayIn& way = least.ways[i];
        for (std::size_t c = 0; c < way.changes.size(); ++c)
          fmt::print("{}{}\n", c == 0 ? "  - " : "    ", wrap(screens::change_text(voice_, way.changes[c]), 4).substr(4));
        fmt::print("      {}\n", voice_.say("explain.then", {{"points", std::to_string(way.points)},
                                                       {"place", std::to_string(way.place)},
                                                       {"of", std::to_string(of)}}));
      }
      if (least.ways.size() > kShown) fmt::print("  {}\n", voice_.say("terminal.more_ways", {{"n", std::to_string(least.ways.size() - kShown)}}));
    }
  }

  void against(const std::string& first, const std::string& second, bool json) {
    const Comparison two = *compare(loaded_.catalog, loaded_.office, ground_.place, answers_, first, second, ground_.replay, ground_.memo);
    if (json) {
      fmt::print("{}\n", comparison_to_json(two));
      return;
    }
    print_tree(session_, loaded_, two.first);
    fmt::print("\n");
    print_tree(session_, loaded_, two.second);
    fmt::print("\n");
    fmt::print("{}\n", wrap(screens::lead_text(voice_, two), 0));
    parts(two);
    turns(two);
    fmt::print("\n{}\n", wrap(screens::cold_turn_text(voice_, two), 0));
  }

 private:
  void say(std::string_view key, Voice::Fills fills) const { fmt::print("{}\n", wrap(voice_.say(key, fills), 0)); }
  // Only the criteria in which they differ.
  void parts(const Comparison& two) const {
    fmt::print("\n{}\n", voice_.say("explain.parts"));
    for (std::size_t i = 0; i < two.first.contributions.size() && i < two.second.contributions.size(); ++i) {
      const Contribution &a = two.first.contributions[i], &b = two.second.contributions[i];
      if (a.points != b.points) fmt::print("  {:>3} : {:<3} {}\n", a.points, b.points, voice_.say("criteria." + a.criterion));
    }
  }
  void turns(const Comparison& two) const {
    fmt::print("\n");
    if (two.turns.empty()) {
      say("explain.no_turns", {});
      return;
    }
    say("explain.turns", {});
    for (const Turn& turn : two.turns)
      fmt::print("  - {}\n      {}\n", wrap(screens::change_text(voice_, turn.change), 4).substr(4), screens::turn_text(voice_, two, turn));
  }

  const Session& session_;
  Ground& ground_;
  const Loaded& loaded_;
  const Voice voice_;
  Answers answers_;
};

}  // namespace

void add_explain(const Command& app, Session& session) {
  struct Options : YardOptions {
    std::string tree, against;
  };
  const Command command = app.add_command("explain", "Why a tree stands where it does, and what would change that");
  const auto options = std::make_shared<Options>();
  command.add_option("cultivar", options->tree, "Its id, name or a synonym").required().type_name("CULTIVAR");
  command.add_option("--against", options->against, "Another: what decides between the two").type_name("CULTIVAR");
  add_yard_options(command, *options, false);
  command.footer(
      "Example:\n"
      "  tenwinters explain meyer --place burdock_hollow --answer sun=full --answer planting=ground\n"
      "  tenwinters explain owari --against nagami --answers yard.yaml");
  on_yard(command, session, options, [&session, options](const Loaded& loaded, const Place& place, const Answers& answers) {
    const std::string tree = find_tree(loaded, options->tree);
    const std::string against = options->against.empty() ? std::string() : find_tree(loaded, options->against);
    if (tree.empty() || (against.empty() && !options->against.empty())) return kMisuse;
    if (tree == against) {
      complain("--against \"" + options->against + "\": expected another cultivar than the first");
      return kMisuse;
    }
    Ground ground{loaded, place};
    Explainer explainer(session, ground, answers);
    if (against.empty()) explainer.tree(tree, options->json);
    else explainer.against(tree, against, options->json);
    return kDone;
  });
}

}  // namespace tenwinters::cli
