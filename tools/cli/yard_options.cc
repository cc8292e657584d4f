#include "cli/yard_options.h"

#include <fmt/core.h>

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
      : voice_(loaded.voice(session)), loaded_(loaded), options_(options) {}

  void print(const Place& place, const Advice& advice, const Certainty& sure) const {
    const std::string name = voice_.of(place.name) + ", " + voice_.of(loaded_.office.name);
    fmt::print("{}\n{}\n", name,
               voice_.say("terminal.record", {{"n", std::to_string(place.winters.winters.size())}}) +
                   (place.winters.invented ? " " + voice_.say("terminal.invented") : ""));
    for (const Limit& limit : advice.yard) print_limit(limit, 0);
    for (const Reason& note : advice.notes) print_hanging("- ", reason(note));
    for (std::size_t shelf = 0; shelf < names_of<Shelf>().size(); ++shelf)
      print_shelf(advice, static_cast<Shelf>(shelf));
    print_certainty(advice, sure);
    if (!advice.unanswered.empty()) {
      fmt::print("\n{}\n", voice_.say("terminal.open"));
      std::string list;
      for (const std::string& id : advice.unanswered) list += (list.empty() ? "" : ", ") + id;
      fmt::print("{}\n", wrap(list, 2));
    }
  }
  void print_one(const Candidate& candidate) const {
    fmt::print("{}  {}\n", title(candidate), candidate.shelf == Shelf::not_here ? voice_.say("shelves.not_here") : points(candidate));
    print_details(candidate);
  }

 private:
  [[nodiscard]] std::string reason(const Reason& said) const {
    return say_reason(voice_.language, voice_.catalog, voice_.office, said, voice_.units);
  }
  // The text beside a prefix in ASCII, later lines indented to its width.
  static void print_hanging(const std::string& prefix, const std::string& text) {
    fmt::print("{}{}\n", prefix, wrap(text, prefix.size()).substr(prefix.size()));
  }
  void print_limit(const Limit& limit, std::size_t indent) const {
    if (limit.verdict == Verdict::pass) return;
    fmt::print("{}\n", wrap(voice_.say(limit.verdict == Verdict::fail ? "terminal.no" : "terminal.find_out") + " " +
                                reason(limit.reason), indent));
  }
  void print_shelf(const Advice& advice, Shelf shelf) const {
    std::vector<const Candidate*> on_shelf;
    for (const Candidate& candidate : advice.candidates)
      if (candidate.shelf == shelf) on_shelf.push_back(&candidate);
    fmt::print("\n{} ({})\n", voice_.say("shelves." + std::string(name_of(shelf))), on_shelf.size());
    constexpr std::size_t kShown = 5;
    std::size_t shown = 0;
    for (const Candidate* candidate : on_shelf) {
      if (shown == kShown && !options_.all) {
        fmt::print("  {}\n", voice_.say("terminal.more", {{"n", std::to_string(on_shelf.size() - kShown)}}));
        break;
      }
      ++shown;
      shelf == Shelf::not_here ? print_refused(*candidate) : print_candidate(*candidate, shown);
    }
  }
  std::string named(const Candidate& candidate) const {
    const Cultivar* cultivar = find_cultivar(loaded_.catalog, candidate.cultivar);
    return cultivar->name + ", " + voice_.type_name(cultivar->type);
  }
  std::string title(const Candidate& candidate) const {
    const Rootstock* rootstock = find_rootstock(loaded_.catalog, candidate.rootstock);
    return rootstock == nullptr ? named(candidate)
                                : voice_.say("terminal.on_stock", {{"tree", named(candidate)}, {"stock", rootstock->name}});
  }
  std::string points(const Candidate& candidate) const { return voice_.say("terminal.points", {{"n", std::to_string(candidate.points)}}); }
  void print_candidate(const Candidate& candidate, std::size_t rank) const {
    fmt::print("{:>3}. {}  {}\n", rank, title(candidate), points(candidate));
    print_details(candidate);
  }
  void print_details(const Candidate& candidate) const {
    const Prospect& p = candidate.prospect;
    const std::string line = voice_.say("terminal.headline", {{"harvests", fmt::format("{:.1f}", p.good_harvests.best)},
                                                              {"harvests_low", fmt::format("{:.1f}", p.good_harvests.low)},
                                                              {"harvests_high", fmt::format("{:.1f}", p.good_harvests.high)},
                                                              {"alive", std::to_string(std::lround(p.alive_at_ten.best * 100))},
                                                              {"nights", fmt::format("{:.1f}", p.work_nights.best)}});
    fmt::print("{}\n", wrap(line, 5));
    if (options_.why)
      for (const Contribution& c : candidate.contributions)
        print_hanging(fmt::format("{:>7}/{:<2}  ", c.points, c.of), voice_.say("criteria." + c.criterion) + ": " + reason(c.reason));
    for (const Limit& limit : candidate.limits) print_limit(limit, 5);
    for (const Reason& note : candidate.notes) print_hanging("     - ", reason(note));
    for (const std::string& caution : candidate.cautions)
      if (const Caution* c = find_caution(loaded_.catalog, caution); c != nullptr && (options_.why || c->severity == Severity::high))
        print_hanging("     ! ", voice_.say("cautions." + caution + ".sign"));
  }
  void print_refused(const Candidate& candidate) const {
    fmt::print("   - {}\n", named(candidate));
    for (const Limit& limit : candidate.limits)
      if (limit.verdict == Verdict::fail) fmt::print("{}\n", wrap(reason(limit.reason), 5));
  }

  void print_line(std::string_view key, Voice::Fills fills = {}) const { fmt::print("{}\n", wrap(voice_.say(key, fills), 2)); }
  static std::string whole(double percent) { return std::to_string(std::lround(percent)); }
  std::string asked(const std::string& question) const { return voice_.say("questions." + question + ".ask"); }
  std::string driver_in_words(const Driver& driver) const {
    const std::string key = "certainty.drivers." + std::string(name_of(driver.kind));
    switch (driver.kind) {
      case DriverKind::question: return voice_.say(key, {{"question", asked(driver.id)}});
      case DriverKind::weight: return voice_.say(key, {{"criterion", voice_.say("criteria." + driver.id)}});
      case DriverKind::hardiness:
      case DriverKind::figures: return voice_.say(key, {{"tree", voice_.cultivar_name(driver.id)}});
      case DriverKind::winters: break;
    }
    return voice_.say(key);
  }
  // How sure the first three of the list are, what the first place hangs on, and what to find out.
  void print_certainty(const Advice& advice, const Certainty& sure) const {
    fmt::print("\n{}\n", voice_.say("ui.sure_title"));
    constexpr std::size_t kTold = 3;
    for (std::size_t i = 0; i < advice.candidates.size() && i < kTold; ++i) {
      const Candidate& candidate = advice.candidates[i];
      if (candidate.shelf == Shelf::not_here) break;
      TreeCertainty told;
      for (const TreeCertainty& tree : sure.trees)
        if (tree.cultivar == candidate.cultivar) told = tree;
      print_line(i == 0 ? "certainty.leads" : "certainty.also",
                 {{"tree", voice_.cultivar_name(candidate.cultivar)}, {"first", whole(told.first)}, {"three", whole(told.best_three)}});
    }
    if (sure.none > 0) print_line("certainty.none", {{"n", whole(sure.none)}});
    if (!sure.drivers.empty() && !sure.trees.empty())
      print_line("certainty.hangs_on", {{"tree", voice_.cultivar_name(advice.candidates.front().cultivar)}, {"what", driver_in_words(sure.drivers.front())}});
    if (sure.change >= kSettledPercent) print_line("certainty.change", {{"n", whole(sure.change)}});
    else if (!sure.questions.empty()) print_line("certainty.settled", {{"n", whole(kSettledPercent)}});
    if (!sure.next_question.empty()) print_line("certainty.next", {{"question", asked(sure.next_question)}});
    print_line("certainty.sampled", {{"n", std::to_string(kScenarios)}});
  }

  const Voice voice_;
  const Loaded& loaded_;
  const YardOptions& options_;
};

}  // namespace

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

void add_answer_options(const Command& command, YardOptions& options) {
  command.add_option("--answers", options.answers_file, "YAML file of answers, `question: answer` a line").type_name("FILE");
  command.add_option("--answer", options.answers, "One answer; may be given again and again").type_name("QUESTION=ANSWER").take_all();
  command.add_option("--place", options.place, "A place of the office (default: its first)").type_name("ID");
}

void add_yard_options(const Command& command, YardOptions& options, bool listed) {
  add_answer_options(command, options);
  command.add_flag("--json", options.json, "The answer as JSON");
  if (!listed) return;
  command.add_flag("--all", options.all, "Every candidate, not only the best of each shelf");
  command.add_flag("--why", options.why, "What each answer gave to each score");
}

int run_on_yard(const Session& session, const YardOptions& options, const YardWork& work) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  Answers answers;
  const Place* place = nullptr;
  if (const int status = read_yard(options, loaded, answers, place)) return status;
  return work(loaded, *place, std::move(answers));
}

void on_yard(const Command& command, Session& session, std::shared_ptr<const YardOptions> options, YardWork work) {
  command.does(session, [&session, options = std::move(options), work = std::move(work)] { return run_on_yard(session, *options, work); });
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
