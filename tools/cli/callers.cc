#include "cli/callers.h"

#include <fmt/core.h>

#include <cstdio>
#include <cstdlib>

#include "cli/table_input.h"

namespace tenwinters::cli {
namespace {

// "%20" and "+" as a browser writes them in an address.
std::string unescaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%' && i + 2 < text.size() && std::isxdigit(static_cast<unsigned char>(text[i + 1])) && std::isxdigit(static_cast<unsigned char>(text[i + 2]))) {
      out += static_cast<char>(std::strtol(std::string(text.substr(i + 1, 2)).c_str(), nullptr, 16));
      i += 2;
    } else {
      out += text[i] == '+' ? ' ' : text[i];
    }
  }
  return out;
}

// The answers of the site's address as the options that say the same. False if it holds none.
bool take_link(const std::string& link, YardOptions& options) {
  const std::size_t hash = link.find('#');
  if (hash == std::string::npos) return false;
  std::string_view rest = std::string_view(link).substr(hash + 1);
  bool any = false;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find('&'), rest.size());
    const std::string pair = unescaped(rest.substr(0, end));
    rest.remove_prefix(std::min(end + 1, rest.size()));
    if (pair.empty() || pair.starts_with("units=")) continue;  // how figures are shown is for --units to say
    options.answers.push_back(pair);
    any = true;
  }
  return any;
}

std::size_t index_of(const Loaded& loaded, const Place& place) { return static_cast<std::size_t>(&place - loaded.office.places.data()); }

// The answer of a question that a cell names by its id or its words in any language; "" if none.
std::string answer_named(const Loaded& loaded, const Question& question, const std::string& text) {
  const std::string wanted = folded(text);
  if (wanted == folded(kDontKnow) || wanted == "?") return std::string(kDontKnow);
  for (const Answer& answer : question.answers) {
    if (wanted == folded(answer.id)) return answer.id;
    for (const Language& language : loaded.languages)
      if (wanted == folded(language.say("questions." + question.id + ".answers." + answer.id))) return answer.id;
  }
  return "";
}

std::string nearest_text(const std::string& found, const std::vector<std::string_view>& known) {
  const std::string_view nearest = nearest_name(found, known);
  std::string all;
  for (const std::string_view name : known) all += (all.empty() ? "" : ", ") + std::string(name);
  return "expected one of " + all + (nearest.empty() ? "" : "; did you mean \"" + std::string(nearest) + "\"?");
}

class Batch {
 public:
  explicit Batch(const Loaded& loaded) : loaded_(loaded) {}

  int read(const CallerOptions& options, const std::string& usual_place, std::vector<Household>& households) {
    std::vector<ColumnName> columns = {{"name", {"caller", "who", "nombre", "quien"}, false}, {"place", {"where", "lugar"}, false}, {"link", {"address", "url", "enlace", "direccion"}, false}};
    for (const Question& question : loaded_.catalog.questions) columns.push_back({question.id, {}, false});
    InputTable table;
    if (const int status = table.read(options.batch, columns)) return status;
    std::vector<Diagnostic> faults = table.warnings();
    for (std::size_t row = 0; row < table.rows(); ++row) {
      const std::size_t before = faults.size();
      Household household = read_row(table, row, usual_place, faults);
      if (faults.size() == before) households.push_back(std::move(household));
    }
    for (const Diagnostic& fault : faults) fmt::print(stderr, "{}\n", to_text(fault));
    const std::size_t left_out = table.rows() - households.size();
    if (options.strict && !faults.empty()) {
      complain("nothing was made, because of what is said above (--strict)");
      return kMisuse;
    }
    if (table.rows() == 0) complain(options.batch + ": no callers below the first line");
    if (left_out > 0) complain(fmt::format("{} of {} callers left out; the others are made", left_out, table.rows()));
    return left_out > 0 || table.rows() == 0 ? kFindings : kDone;
  }

 private:
  Household read_row(const InputTable& table, std::size_t row, const std::string& usual_place, std::vector<Diagnostic>& faults) const {
    Household household;
    household.name = table.cell(row, "name");
    std::string place_id = usual_place;
    if (const std::string link = table.cell(row, "link"); !link.empty()) {
      YardOptions from_link;
      if (!take_link(link, from_link)) faults.push_back(table.fault(row, "link", "the address holds no answers; they stand after its #"));
      for (const std::string& pair : from_link.answers) {
        const std::size_t equals = std::min(pair.find('='), pair.size());
        const std::string question = pair.substr(0, equals), answer = pair.substr(std::min(equals + 1, pair.size()));
        if (question == "place") place_id = answer;
        else household.answers[question] = answer;
      }
      for (const AnswerFault& wrong : check_answers(loaded_.catalog, household.answers))
        faults.push_back(table.fault(row, "link", wrong.question_unknown ? "the address asks \"" + wrong.question + "\", which is no question here"
                                                                          : "question \"" + wrong.question + "\" has no answer \"" + wrong.answer + "\""));
    }
    if (const std::string place = table.cell(row, "place"); !place.empty()) place_id = place;
    household.place = find_place_named(table, row, place_id, faults);
    for (const Question& question : loaded_.catalog.questions) {
      const std::string text = table.cell(row, question.id);
      if (text.empty()) continue;
      const std::string answer = answer_named(loaded_, question, text);
      if (answer.empty()) {
        std::vector<std::string_view> ids;
        for (const Answer& known : question.answers) ids.push_back(known.id);
        ids.push_back(kDontKnow);
        faults.push_back(table.fault(row, question.id, "found \"" + text + "\" under \"" + question.id + "\", " + nearest_text(text, ids)));
      } else {
        household.answers[question.id] = answer;
      }
    }
    return household;
  }

  // By id, or by name in any language.
  std::size_t find_place_named(const InputTable& table, std::size_t row, const std::string& text, std::vector<Diagnostic>& faults) const {
    if (text.empty()) return 0;
    std::vector<std::string_view> ids;
    for (std::size_t p = 0; p < loaded_.office.places.size(); ++p) {
      const Place& place = loaded_.office.places[p];
      ids.push_back(place.id);
      if (folded(text) == folded(place.id)) return p;
      for (const auto& [language, name] : place.name)
        if (folded(text) == folded(name)) return p;
    }
    faults.push_back(table.fault(row, "place", "found place \"" + text + "\", " + nearest_text(text, ids)));
    return 0;
  }

  const Loaded& loaded_;
};

}  // namespace

void add_caller_options(const Command& command, CallerOptions& options) {
  command.add_option("--link", options.link, "The answers as the site's address, with its #").type_name("ADDRESS");
  command.add_option("--name", options.name, "Whom the sheet is for").type_name("TEXT");
  command.add_option("--batch", options.batch, "Table of callers: name, place, link, and a column for each question").type_name("FILE.csv");
  command.add_flag("--together", options.together, "All callers in one document, with bookmarks");
  command.add_flag("--strict", options.strict, "Make nothing if one row is at fault");
}

int read_households(const YardOptions& yard, const CallerOptions& options, const Loaded& loaded, std::vector<Household>& households) {
  const bool single = !yard.answers.empty() || !yard.answers_file.empty() || !options.link.empty();
  if (!options.batch.empty()) {
    if (single) {
      complain("--batch and answers for one household say two things; give one of them");
      return kMisuse;
    }
    return Batch(loaded).read(options, yard.place, households);
  }
  YardOptions all = yard;
  if (!options.link.empty()) {
    const std::vector<std::string> given = all.answers;  // options win over the address
    all.answers.clear();
    if (!take_link(options.link, all)) {
      complain("--link \"" + options.link + "\" holds no answers; they stand after the # of the site's address");
      return kMisuse;
    }
    all.answers.insert(all.answers.end(), given.begin(), given.end());
  }
  Household household;
  household.name = options.name;
  const Place* place = nullptr;
  if (const int status = read_yard(all, loaded, household.answers, place)) return status;
  household.place = index_of(loaded, *place);
  households.push_back(std::move(household));
  return kDone;
}

}  // namespace tenwinters::cli
