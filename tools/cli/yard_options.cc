#include "cli/yard_options.h"

#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <cmath>

#include "wire/wire.h"

namespace tenwinters::cli {
namespace {

std::vector<std::string_view> question_ids(const Catalog& catalog) {
  std::vector<std::string_view> ids{"place"};
  for (const Question& question : catalog.questions) ids.push_back(question.id);
  return ids;
}

std::string joined(const std::vector<std::string_view>& names) {
  std::string out;
  for (std::string_view name : names) {
    if (!out.empty()) out += ", ";
    out += name;
  }
  return out;
}

// Replaces {name} by a value in a text of the words files.
std::string fill(std::string text, const std::string& name, const std::string& value) {
  const std::string key = "{" + name + "}";
  for (std::size_t at = text.find(key); at != std::string::npos; at = text.find(key, at + value.size()))
    text.replace(at, key.size(), value);
  return text;
}

class Printer {
 public:
  Printer(const Session& session, const Loaded& loaded, const YardOptions& options)
      : words_(loaded.language(session.language)), loaded_(loaded), options_(options) {}

  void print(const Place& place, const Advice& advice) const {
    const std::string name = say(place.name) + ", " + say(loaded_.office.name);
    fmt::print("{}\n{}\n", name,
               fill(words_.say("terminal.record"), "n", std::to_string(place.winters.winters.size())) +
                   (place.winters.invented ? " " + words_.say("terminal.invented") : ""));
    for (const Limit& limit : advice.yard) print_limit(limit, 0);
    for (const Reason& note : advice.notes) print_hanging("- ", reason(note));
    for (std::size_t shelf = 0; shelf < names_of<Shelf>().size(); ++shelf)
      print_shelf(advice, static_cast<Shelf>(shelf));
    if (!advice.unanswered.empty()) {
      fmt::print("\n{}\n", words_.say("terminal.open"));
      std::string list;
      for (const std::string& id : advice.unanswered) list += (list.empty() ? "" : ", ") + id;
      fmt::print("{}\n", wrap(list, 2));
    }
  }

 private:
  std::string say(const Words& text) const {
    const auto found = text.find(words_.code);
    return found != text.end() ? found->second : text.empty() ? std::string() : text.begin()->second;
  }
  std::string reason(const Reason& r) const {
    return say_reason(words_, loaded_.catalog, loaded_.office, r, loaded_.units);
  }
  // The text beside a prefix in ASCII, later lines indented to its width.
  static void print_hanging(const std::string& prefix, const std::string& text) {
    fmt::print("{}{}\n", prefix, wrap(text, prefix.size()).substr(prefix.size()));
  }
  void print_limit(const Limit& limit, std::size_t indent) const {
    if (limit.verdict == Verdict::pass) return;
    fmt::print("{}\n", wrap(words_.say(limit.verdict == Verdict::fail ? "terminal.no" : "terminal.find_out") + " " +
                                reason(limit.reason), indent));
  }
  void print_shelf(const Advice& advice, Shelf shelf) const {
    std::vector<const Candidate*> on_shelf;
    for (const Candidate& candidate : advice.candidates)
      if (candidate.shelf == shelf) on_shelf.push_back(&candidate);
    fmt::print("\n{} ({})\n", words_.say("shelves." + std::string(name_of(shelf))), on_shelf.size());
    constexpr std::size_t kShown = 5;
    std::size_t shown = 0;
    for (const Candidate* candidate : on_shelf) {
      if (shown == kShown && !options_.all) {
        fmt::print("  {}\n", fill(words_.say("terminal.more"), "n", std::to_string(on_shelf.size() - kShown)));
        break;
      }
      ++shown;
      shelf == Shelf::not_here ? print_refused(*candidate) : print_candidate(*candidate, shown);
    }
  }
  std::string title(const Candidate& candidate) const {
    const Cultivar* cultivar = find_cultivar(loaded_.catalog, candidate.cultivar);
    const Rootstock* rootstock = find_rootstock(loaded_.catalog, candidate.rootstock);
    std::string text = cultivar->name + ", " + words_.say("types." + cultivar->type + ".name");
    return rootstock == nullptr ? text : fill(fill(words_.say("terminal.on_stock"), "tree", text), "stock", rootstock->name);
  }
  void print_candidate(const Candidate& candidate, std::size_t rank) const {
    fmt::print("{:>3}. {}  {}\n", rank, title(candidate),
               fill(words_.say("terminal.points"), "n", std::to_string(candidate.points)));
    const Prospect& p = candidate.prospect;
    std::string line = words_.say("terminal.headline");
    line = fill(line, "harvests", fmt::format("{:.1f}", p.good_harvests.best));
    line = fill(line, "harvests_low", fmt::format("{:.1f}", p.good_harvests.low));
    line = fill(line, "harvests_high", fmt::format("{:.1f}", p.good_harvests.high));
    line = fill(line, "alive", fmt::format("{}", static_cast<int>(std::lround(p.alive_at_ten.best * 100))));
    line = fill(line, "nights", fmt::format("{:.1f}", p.work_nights.best));
    fmt::print("{}\n", wrap(line, 5));
    if (options_.why)
      for (const Contribution& c : candidate.contributions)
        print_hanging(fmt::format("{:>7}/{:<2}  ", c.points, c.of), words_.say("criteria." + c.criterion) + ": " + reason(c.reason));
    for (const Limit& limit : candidate.limits) print_limit(limit, 5);
    for (const Reason& note : candidate.notes) print_hanging("     - ", reason(note));
    for (const std::string& caution : candidate.cautions)
      if (const Caution* c = find_caution(loaded_.catalog, caution); c != nullptr && (options_.why || c->severity == Severity::high))
        print_hanging("     ! ", words_.say("cautions." + caution + ".sign"));
  }
  void print_refused(const Candidate& candidate) const {
    const Cultivar* cultivar = find_cultivar(loaded_.catalog, candidate.cultivar);
    fmt::print("   - {}, {}\n", cultivar->name, words_.say("types." + cultivar->type + ".name"));
    for (const Limit& limit : candidate.limits)
      if (limit.verdict == Verdict::fail) fmt::print("{}\n", wrap(reason(limit.reason), 5));
  }

  const Language& words_;
  const Loaded& loaded_;
  const YardOptions& options_;
};

}  // namespace

void add_yard_options(CLI::App& command, YardOptions& options) {
  command.add_option("--answers", options.answers_file, "YAML file of answers, `question: answer` a line")->type_name("FILE");
  command.add_option("--answer", options.answers, "One answer; may be given again and again")->type_name("QUESTION=ANSWER")->take_all();
  command.add_option("--place", options.place, "A place of the office (default: its first)")->type_name("ID");
  command.add_flag("--json", options.json, "The ranking as JSON");
  command.add_flag("--all", options.all, "Every candidate, not only the best of each shelf");
  command.add_flag("--why", options.why, "What each answer gave to each score");
}

int read_yard(const YardOptions& options, const Loaded& loaded, Answers& answers, const Place*& place) {
  std::string place_id;
  if (!options.answers_file.empty()) {
    const DiskReader disk;
    LoadedAnswers file = load_answers(disk, options.answers_file, loaded.catalog, loaded.office);
    bool failed = false;
    for (const Diagnostic& fault : file.faults) {
      fmt::print(stderr, "{}\n", to_text(fault));
      failed = failed || !fault.warning;
    }
    if (failed) return kMisuse;
    answers = std::move(file.answers);
    place_id = file.place;
  }
  for (const std::string& pair : options.answers) {
    const std::size_t equals = pair.find('=');
    if (equals == std::string::npos || equals == 0) {
      complain("--answer \"" + pair + "\": expected QUESTION=ANSWER, such as sun=full");
      return kMisuse;
    }
    const std::string question = pair.substr(0, equals), answer = pair.substr(equals + 1);
    if (question == "place") place_id = answer;
    else answers[question] = answer;
  }
  if (!options.place.empty()) place_id = options.place;
  int status = kDone;
  for (const AnswerFault& fault : check_answers(loaded.catalog, answers)) {
    status = kMisuse;
    if (fault.question_unknown) {
      complain("unknown question \"" + fault.question + "\"", fault.nearest);
      if (fault.nearest.empty()) fmt::print(stderr, "The questions are: {}\n", joined(question_ids(loaded.catalog)));
      continue;
    }
    complain("question \"" + fault.question + "\" has no answer \"" + fault.answer + "\"", fault.nearest);
    const Question* question = find_question(loaded.catalog, fault.question);
    std::vector<std::string_view> ids;
    for (const Answer& answer : question->answers) ids.push_back(answer.id);
    ids.push_back(kDontKnow);
    fmt::print(stderr, "Its answers are: {}\n", joined(ids));
  }
  place = find_place(loaded.office, place_id);
  if (place == nullptr) {
    std::vector<std::string_view> ids;
    for (const Place& p : loaded.office.places) ids.push_back(p.id);
    complain("no place \"" + place_id + "\" in this office", std::string(nearest_name(place_id, ids)));
    fmt::print(stderr, "Its places are: {}\n", joined(ids));
    status = kMisuse;
  }
  return status;
}

void print_advice(const Session& session, const Loaded& loaded, const Place& place, const Advice& advice,
                  const YardOptions& options) {
  if (options.json) {
    fmt::print("{}\n", advice_to_json(advice));
    return;
  }
  Printer(session, loaded, options).print(place, advice);
}

}  // namespace tenwinters::cli
