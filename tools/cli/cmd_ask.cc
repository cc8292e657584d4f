// tenwinters ask: the interview, the most telling question first, until the best three are settled; then the ranking.
#include <fmt/core.h>

#include <algorithm>
#include <iostream>
#include <memory>

#include "cli/commands.h"
#include "cli/yard_options.h"

namespace tenwinters::cli {
namespace {

struct Choice { std::string id, text; };

// Asks until the answer fits. Returns the id, "" for "don't know", or nullopt at the end of input.
// Prompts go to standard error, so that --json leaves clean JSON on standard output.
std::optional<std::string> ask_one(const Language& words, const std::string& question, const std::string& why,
                                   const std::vector<Choice>& choices) {
  fmt::print(stderr, "\n{}\n{}\n", wrap(question, 0), wrap(why, 2));
  for (std::size_t i = 0; i < choices.size(); ++i) fmt::print(stderr, "  {}  {}\n", i + 1, choices[i].text);
  fmt::print(stderr, "  ?  {}\n", words.say("terminal.dont_know"));
  std::vector<std::string_view> ids;
  for (const Choice& choice : choices) ids.push_back(choice.id);
  for (;;) {
    fmt::print(stderr, "> ");
    std::string line;
    if (!std::getline(std::cin, line)) return std::nullopt;
    while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.pop_back();
    if (line.empty() || line == "?" || line == kDontKnow) return "";
    for (std::size_t i = 0; i < choices.size(); ++i)
      if (line == std::to_string(i + 1) || line == choices[i].id) return choices[i].id;
    complain("\"" + line + "\" is not among the answers: give a number from 1 to " + std::to_string(choices.size()) + ", or ?",
             std::string(nearest_name(line, ids)));
  }
}

int interview(const Session& session, const YardOptions& options, const Loaded& loaded, const Place* place, Answers answers) {
  const Language& words = loaded.language(session.language);
  fmt::print(stderr, "{}\n", wrap(words.say("terminal.welcome"), 0));
  bool open = true;
  if (options.place.empty() && loaded.office.places.size() > 1) {
    std::vector<Choice> places;
    for (const Place& p : loaded.office.places) places.push_back({p.id, loaded.voice(session).of(p.name)});
    const auto given = ask_one(words, words.say("terminal.ask_place"), words.say("terminal.why_place"), places);
    open = given.has_value();
    if (open && !given->empty()) place = find_place(loaded.office, *given);
  }
  Ground ground{loaded, *place};
  const auto next = [&]() -> std::string {
    if (!options.all) return ground.how_sure(answers).next_question;
    for (const std::string& id : open_questions(loaded.catalog, answers))
      if (answers.count(id) == 0) return id;
    return {};
  };
  while (open) {
    const std::string id = next();
    if (id.empty()) {
      fmt::print(stderr, "\n{}\n", wrap(words.say("certainty.stop"), 0));
      break;
    }
    const Question& question = *find_question(loaded.catalog, id);
    std::vector<Choice> choices;
    for (const Answer& answer : question.answers)
      choices.push_back({answer.id, words.say("questions." + id + ".answers." + answer.id)});
    const auto given = ask_one(words, words.say("questions." + id + ".ask"), words.say("questions." + id + ".why"), choices);
    open = given.has_value();
    if (open) answers[id] = given->empty() ? std::string(kDontKnow) : *given;
  }
  fmt::print(stderr, "\n");
  print_ranking(session, ground, answers, options);
  std::string again = "tenwinters rank --place " + place->id;
  for (const auto& [question, answer] : answers)
    if (answer != kDontKnow) again += " --answer " + question + "=" + answer;
  fmt::print(stderr, "\n{}\n  {}\n", words.say("terminal.again"), again);
  return kDone;
}

}  // namespace

void add_ask(const Command& app, Session& session) {
  const Command command = app.add_command("ask", "Interview a household, then rank");
  const auto options = std::make_shared<YardOptions>();
  add_yard_options(command, *options);
  command.footer(
      "Answer with the number or ?. Answers given as options are not asked again. What is asked next is what tells most\n"
      "about the best three; it ends when no answer is likely to change them. With --all every question is asked in order,\n"
      "and every candidate shown.\n"
      "Example:\n  tenwinters ask --place gannet_quay\n  printf '1\\n1\\n' | tenwinters ask --json");
  on_yard(command, session, options, [&session, options](const Loaded& loaded, const Place& place, Answers answers) {
    return interview(session, *options, loaded, &place, std::move(answers));
  });
}

}  // namespace tenwinters::cli
