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

class Printer {
 public:
  Printer(const Session& session, const Loaded& loaded, const YardOptions& options)
      : words_(loaded.language(session.language)), loaded_(loaded), options_(options) {}

  void print(const Place& place, const Advice& advice, const Certainty& sure) const {
    const std::string name = say(place.name) + ", " + say(loaded_.office.name);
    fmt::print("{}\n{}\n", name,
               say_phrase(words_, {"terminal.record", {{"n", std::to_string(place.winters.winters.size())}}}) +
                   (place.winters.invented ? " " + words_.say("terminal.invented") : ""));
    for (const Limit& limit : advice.yard) print_limit(limit, 0);
    for (const Reason& note : advice.notes) print_hanging("- ", reason(note));
    for (std::size_t shelf = 0; shelf < names_of<Shelf>().size(); ++shelf)
      print_shelf(advice, static_cast<Shelf>(shelf));
    print_certainty(advice, sure);
    if (!advice.unanswered.empty()) {
      fmt::print("\n{}\n", words_.say("terminal.open"));
      std::string list;
      for (const std::string& id : advice.unanswered) list += (list.empty() ? "" : ", ") + id;
      fmt::print("{}\n", wrap(list, 2));
    }
  }
  void print_one(const Candidate& candidate) const {
    fmt::print("{}  {}\n", title(candidate), candidate.shelf == Shelf::not_here ? words_.say("shelves.not_here") : fill(words_.say("terminal.points"), "n", std::to_string(candidate.points)));
    print_details(candidate);
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
    print_details(candidate);
  }
  void print_details(const Candidate& candidate) const {
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

  static std::string whole(double percent) { return std::to_string(std::lround(percent)); }
  std::string name_of_tree(const std::string& id) const {
    const Cultivar* cultivar = find_cultivar(loaded_.catalog, id);
    return cultivar == nullptr ? id : cultivar->name;
  }
  std::string driver_in_words(const Driver& driver) const {
    const std::string text = words_.say("certainty.drivers." + std::string(name_of(driver.kind)));
    switch (driver.kind) {
      case DriverKind::question: return fill(text, "question", words_.say("questions." + driver.id + ".ask"));
      case DriverKind::weight: return fill(text, "criterion", words_.say("criteria." + driver.id));
      case DriverKind::hardiness:
      case DriverKind::figures: return fill(text, "tree", name_of_tree(driver.id));
      case DriverKind::winters: break;
    }
    return text;
  }
  // How sure the first three of the list are, what the first place hangs on, and what to find out.
  void print_certainty(const Advice& advice, const Certainty& sure) const {
    fmt::print("\n{}\n", words_.say("ui.sure_title"));
    constexpr std::size_t kTold = 3;
    for (std::size_t i = 0; i < advice.candidates.size() && i < kTold; ++i) {
      const Candidate& candidate = advice.candidates[i];
      if (candidate.shelf == Shelf::not_here) break;
      TreeCertainty told;
      for (const TreeCertainty& tree : sure.trees)
        if (tree.cultivar == candidate.cultivar) told = tree;
      std::string line = fill(words_.say(i == 0 ? "certainty.leads" : "certainty.also"), "tree", name_of_tree(candidate.cultivar));
      line = fill(fill(line, "first", whole(told.first)), "three", whole(told.best_three));
      fmt::print("{}\n", wrap(line, 2));
    }
    if (sure.none > 0) fmt::print("{}\n", wrap(fill(words_.say("certainty.none"), "n", whole(sure.none)), 2));
    if (!sure.drivers.empty() && !sure.trees.empty()) {
      const std::string line = fill(words_.say("certainty.hangs_on"), "tree", name_of_tree(advice.candidates.front().cultivar));
      fmt::print("{}\n", wrap(fill(line, "what", driver_in_words(sure.drivers.front())), 2));
    }
    if (sure.change >= kSettledPercent) {
      fmt::print("{}\n", wrap(fill(words_.say("certainty.change"), "n", whole(sure.change)), 2));
    } else if (!sure.questions.empty()) {
      fmt::print("{}\n", wrap(fill(words_.say("certainty.settled"), "n", whole(kSettledPercent)), 2));
    }
    if (!sure.next_question.empty())
      fmt::print("{}\n", wrap(fill(words_.say("certainty.next"), "question", words_.say("questions." + sure.next_question + ".ask")), 2));
    fmt::print("{}\n", wrap(fill(words_.say("certainty.sampled"), "n", std::to_string(kScenarios)), 2));
  }

  const Language& words_;
  const Loaded& loaded_;
  const YardOptions& options_;
};

}  // namespace

std::string fill(std::string text, const std::string& name, const std::string& value) {
  const std::string key = "{" + name + "}";
  for (std::size_t at = text.find(key); at != std::string::npos; at = text.find(key, at + value.size()))
    text.replace(at, key.size(), value);
  return text;
}

void add_yard_options(CLI::App& command, YardOptions& options, bool listed) {
  command.add_option("--answers", options.answers_file, "YAML file of answers, `question: answer` a line")->type_name("FILE");
  command.add_option("--answer", options.answers, "One answer; may be given again and again")->type_name("QUESTION=ANSWER")->take_all();
  command.add_option("--place", options.place, "A place of the office (default: its first)")->type_name("ID");
  command.add_flag("--json", options.json, "The answer as JSON");
  if (!listed) return;
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

void print_tree(const Session& session, const Loaded& loaded, const Candidate& candidate) {
  YardOptions options;
  options.why = true;
  Printer(session, loaded, options).print_one(candidate);
}

void print_ranking(const Session& session, Ground& ground, const Answers& answers, const YardOptions& options) {
  const Loaded& loaded = ground.loaded;
  const Advice advice = ground.advise(answers);
  const Certainty sure = ground.how_sure(answers);
  if (options.json) {
    fmt::print("{}\n", ranking_to_json(advice, sure));
    return;
  }
  Printer(session, loaded, options).print(ground.place, advice, sure);
}

}  // namespace tenwinters::cli
