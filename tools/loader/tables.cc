// The files that hold one list: sources, questions, the value model, spots, protections, cautions.
#include <algorithm>
#include <cmath>

#include "loader/reading.h"
#include "tenwinters/advise.h"
#include "tenwinters/yard.h"

namespace tenwinters {
namespace {

// Every name of a closed list must have its row.
void tell_missing_rows(YamlFile& file, std::string_view key, std::span<const std::string_view> names,
                       const Ids& seen) {
  if (file.root().partial) return;
  for (std::string_view name : names) {
    const Node* list = file.root().find(key);
    if (list == nullptr || list->kind != Node::Kind::list || list->partial) return;
    if (!seen.contains(name)) file.fault_at_key(*list, "no row for " + quoted(name));
  }
}

Answer read_answer(YamlFile& file, const Node& row, Ids& seen) {
  Answer answer;
  MapReader map(file, &row);
  const Node* id = map.take("id");
  answer.id = read_id(file, id);
  if (id != nullptr && answer.id == kDontKnow) {
    file.fault(*id, "the program adds " + quoted(kDontKnow) + " to every question itself; choose another id");
  } else if (id != nullptr) {
    is_new(file, *id, answer.id, seen);
  }
  answer.prior = read_number(file, map.take("prior"), 0, 1, "");
  const Node* sets = as_map(file, map.take("sets"));
  if (sets != nullptr) {
    Yard yard;
    for (const Node& set : sets->children) {
      const auto variable = parse<Variable>(set.key);
      if (!variable) {
        file.fault_at_key(set, "unknown variable" + did_you_mean(set.key, names_of<Variable>()) +
                                   " Variables: " + joined(names_of<Variable>()));
        continue;
      }
      if (set.kind == Node::Kind::broken) continue;
      std::string expected;
      if (set.kind != Node::Kind::scalar) {
        (void)read_text(file, &set);
      } else if (!set_variable(yard, *variable, set.text, &expected)) {
        file.fault(set, "found " + quoted(set.text) + ", expected " + expected);
      }
      answer.sets.emplace_back(*variable, std::string(set.text));
    }
  }
  if (const Node* reach = map.take_if("within_reach")) answer.within_reach = read_bool(file, reach);
  map.finish();
  return answer;
}

// Ids of answers of a question, in a list.
std::vector<std::string> read_answer_ids(YamlFile& file, const Node& list, const Question& of) {
  std::vector<std::string> ids = read_ids(file, &list);
  if (list.kind != Node::Kind::list) return ids;
  if (list.children.empty()) file.fault(list, "an empty list, expected at least one answer");
  std::vector<std::string_view> names;
  for (const Answer& a : of.answers) names.push_back(a.id);
  for (const Node& item : list.children)
    if (is_id(item.text) && std::find(names.begin(), names.end(), item.text) == names.end())
      file.fault(item, "the question " + quoted(of.id) + " has no answer " + quoted(item.text) + did_you_mean(item.text, names));
  return ids;
}

void read_asked_if(YamlFile& file, const Node* node, const std::vector<Question>& above, Question& question) {
  MapReader map(file, node);
  const Node* on = map.take("question");
  const Node* answers = map.take("answers");
  map.finish();
  question.asked_if_question = read_id(file, on);
  const auto found =
      std::find_if(above.begin(), above.end(), [&](const Question& q) { return q.id == question.asked_if_question; });
  if (found != above.end()) {
    if (answers != nullptr) question.asked_if_answers = read_answer_ids(file, *answers, *found);
    return;
  }
  if (answers != nullptr) question.asked_if_answers = read_ids(file, answers);
  if (question.asked_if_question.empty()) return;
  std::vector<std::string_view> names;
  for (const Question& q : above) names.push_back(q.id);
  file.fault(*on, "no question further up has the id " + quoted(on->text) + did_you_mean(on->text, names));
}

}  // namespace

YamlFile* open_table(Reading& reading, const std::string& name, std::string_view key, std::span<const Node>& rows) {
  YamlFile* file = reading.open(reading.root + "/" + name);
  reading.not_whole.emplace_back(key);
  if (file == nullptr || file->root().kind == Node::Kind::broken) return nullptr;
  MapReader map(*file, &file->root());
  const Node* list = map.take(key);
  map.finish();
  if (list != nullptr && list->kind == Node::Kind::list && !list->partial) reading.not_whole.pop_back();
  rows = items(*file, list);
  if (list != nullptr && list->kind == Node::Kind::list && rows.empty())
    file->fault(*list, "an empty list, expected at least one row");
  return file;
}

bool is_new(YamlFile& file, const Node& at, const std::string& id, Ids& seen) {
  if (id.empty()) return false;
  const bool fresh = seen.insert(id).second;
  if (!fresh) file.fault(at, quoted(id) + " stands here a second time");
  return fresh;
}

bool take_new_id(YamlFile& file, MapReader& map, Ids& seen, std::string& id) {
  const Node* node = map.take("id");
  id = read_id(file, node);
  return node != nullptr && is_new(file, *node, id, seen);
}

bool has_table(const Reading& reading, std::string_view name) {
  const std::vector<std::string> there = reading.disk.list(reading.root);
  return std::find(there.begin(), there.end(), name) != there.end();
}

void read_sources(Reading& reading) {
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "sources.yaml", "sources", rows);
  for (const Node& row : rows) {
    Source source;
    MapReader map(*file, &row);
    const bool fresh = take_new_id(*file, map, reading.source_ids, source.id);
    source.publisher = read_text(*file, map.take("publisher"));
    source.title = read_text(*file, map.take("title"));
    if (const Node* number = map.take_if("number")) source.number = read_text_or_number(*file, number);
    source.year = read_text_or_number(*file, map.take("year"));
    if (const Node* url = map.take_if("url")) {
      source.url = read_text(*file, url);
      const bool web = source.url.starts_with("https://") || source.url.starts_with("http://");
      if (!source.url.empty() && (!web || source.url.find_first_of(" \"<>\\") != std::string::npos)) {
        file->fault(
            *url, "found " + quoted(source.url) + ", expected an address that begins with https:// and has no blanks");
      }
    }
    constexpr std::string_view kSeen[] = {"read", "memory"};
    const Node* seen = map.take("seen");
    source.read = read_word_index(*file, seen, kSeen) == 0;
    map.finish();
    if (fresh) reading.catalog.sources.push_back(std::move(source));
  }
  sort_by_id(reading.catalog.sources);
}

void read_questions(Reading& reading) {
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "questions.yaml", "questions", rows);
  for (const Node& row : rows) {
    Question question;
    MapReader map(*file, &row);
    const Node* id = map.take("id");
    question.id = read_id(*file, id);
    if (id != nullptr) is_new(*file, *id, question.id, reading.question_ids);
    if (id != nullptr && question.id == "place")
      file->fault(*id, "the program asks for the place itself; choose another id");
    MapReader prior(*file, map.take("prior"));
    if (prior.node() != nullptr) {
      (void)read_evidence(reading, prior);
      prior.finish();
    }
    if (const Node* asked_if = map.take_if("asked_if"))
      read_asked_if(*file, asked_if, reading.catalog.questions, question);
    const Node* splits = map.take_if("splits");
    const Node* answers = map.take("answers");
    Ids seen_answers;
    const std::size_t faults = file->faults().size();
    double sum = 0;
    for (const Node& answer : items(*file, answers)) {
      question.answers.push_back(read_answer(*file, answer, seen_answers));
      sum += question.answers.back().prior;
    }
    if (answers != nullptr && faults == file->faults().size()) {
      if (question.answers.size() < 2) {
        file->fault_at_key(*answers, "expected at least two answers");
      } else if (std::abs(sum - 1) > 0.001) {
        file->fault_at_key(*answers,
                           "the priors add up to " + number_text(std::round(sum * 1e6) / 1e6) + ", expected 1");
      }
    }
    // After the answers, whose ids they name.
    if (splits != nullptr)
      for (const Node& split : items(*file, splits)) question.splits.push_back(read_answer_ids(*file, split, question));
    map.finish();
    reading.catalog.questions.push_back(std::move(question));
  }
}

void read_model(Reading& reading) {
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "model.yaml", "criteria", rows);
  if (file == nullptr) return;
  Ids seen;
  int sum = 0;
  for (const Node& row : rows) {
    Criterion criterion;
    MapReader map(*file, &row);
    const Node* id = map.take("id");
    const int index = read_word_index(*file, id, kCriteria);
    if (index >= 0 && is_new(*file, *id, std::string(id->text), seen)) criterion.id = id->text;
    criterion.weight = read_whole(*file, map.take("weight"), 0, 100);
    sum += criterion.weight;
    (void)read_evidence(reading, map);
    map.finish();
    if (!criterion.id.empty()) reading.catalog.criteria.push_back(std::move(criterion));
  }
  tell_missing_rows(*file, "criteria", kCriteria, seen);
  if (file->faults().empty() && sum != 100) {
    file->fault_at_key(*file->root().find("criteria"),
                       "the weights add up to " + std::to_string(sum) + ", expected 100");
  }
}

// [[x, y], ...], x rising.
static void read_points(YamlFile& file, const Node* list, ValueCurve& curve) {
  for (const Node& point : items(file, list)) {
    if (point.kind != Node::Kind::list || point.children.size() != 2) {
      file.fault(point, "expected a point of two numbers, such as [2, 0.2]");
      continue;
    }
    const double x = read_number(file, &point.children[0], 0, 1000, ""), y = read_number(file, &point.children[1], 0, 1, "");
    if (!curve.points.empty() && x <= curve.points.back().first)
      file.fault(point.children[0], "expected more than " + number_text(curve.points.back().first) + ", the point before it");
    curve.points.emplace_back(x, y);
  }
  if (list != nullptr && list->kind == Node::Kind::list && list->children.empty()) file.fault(*list, "an empty list, expected at least one point");
}

void read_curves(Reading& reading) {
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "curves.yaml", "curves", rows);
  if (file == nullptr) return;
  Ids seen;
  for (const Node& row : rows) {
    MapReader map(*file, &row);
    const Node* id = map.take("id");
    const int index = read_word_index(*file, id, names_of<CurveId>());
    ValueCurve curve;
    read_points(*file, map.take("points"), curve);
    (void)read_evidence(reading, map);
    map.finish();
    if (index >= 0 && is_new(*file, *id, std::string(id->text), seen)) reading.catalog.curves[static_cast<std::size_t>(index)] = std::move(curve);
  }
  tell_missing_rows(*file, "curves", names_of<CurveId>(), seen);
}

void read_microclimates(Reading& reading) {
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "microclimates.yaml", "microclimates", rows);
  if (file == nullptr) return;
  Ids seen;
  for (const Node& row : rows) {
    Microclimate spot;
    MapReader map(*file, &row);
    const Node* name = map.take("spot");
    const int index = read_word_index(*file, name, names_of<Spot>());
    if (const Node* warmer = map.take("warmer_c")) spot.warmer_c = read_fact(reading, *file, warmer, "C", -8, 8);
    map.finish();
    if (index < 0 || !is_new(*file, *name, std::string(name->text), seen)) continue;
    spot.spot = static_cast<Spot>(index);
    reading.catalog.microclimates.push_back(std::move(spot));
  }
  auto& all = reading.catalog.microclimates;
  std::sort(all.begin(), all.end(), [](const Microclimate& a, const Microclimate& b) { return a.spot < b.spot; });
  tell_missing_rows(*file, "microclimates", names_of<Spot>(), seen);
}

void read_protections(Reading& reading) {
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "protections.yaml", "protections", rows);
  if (file == nullptr) return;
  for (const Node& row : rows) {
    Protection protection;
    MapReader map(*file, &row);
    const Node* id = map.take("id");
    protection.id = read_id(*file, id);
    const bool fresh = id != nullptr && is_new(*file, *id, protection.id, reading.protection_ids);
    if (const Node* gain = map.take("gain_c")) protection.gain_c = read_fact(reading, *file, gain, "C", 0, 40);
    if (const Node* gain = map.take("windy_gain_c"))
      protection.windy_gain_c = read_fact(reading, *file, gain, "C", 0, 40);
    if (const Node* covers = map.take("covers")) {
      for (Tissue tissue : read_words<Tissue>(*file, covers))
        protection.covers[static_cast<std::size_t>(tissue)] = true;
    }
    if (const Node* minutes = map.take("minutes_per_night")) {
      protection.minutes_per_night = read_fact(reading, *file, minutes, "minutes", 0, 600);
    }
    if (const Node* hours = map.take_if("ready_hours")) protection.ready_hours = read_whole(*file, hours, 0, 96);
    protection.container_only = read_bool(*file, map.take("container_only"));
    protection.fits_tall_trees = read_bool(*file, map.take("fits_tall_trees"));
    if (const Node* cautions = map.take("cautions"))
      protection.cautions = reading.link_all(*file, cautions, Kin::caution);
    map.finish();
    if (protection.id == "none" &&
        (protection.gain_c.high != 0 || protection.windy_gain_c.high != 0 || protection.minutes_per_night.high != 0)) {
      file->fault(*id, "\"none\" is doing nothing: its gains and minutes must be 0");
    }
    if (fresh) reading.catalog.protections.push_back(std::move(protection));
  }
  constexpr std::string_view kNone[] = {"none"};
  tell_missing_rows(*file, "protections", kNone, reading.protection_ids);
  sort_by_id(reading.catalog.protections);
}

void read_cautions(Reading& reading) {
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, "cautions.yaml", "cautions", rows);
  for (const Node& row : rows) {
    Caution caution;
    MapReader map(*file, &row);
    const bool fresh = take_new_id(*file, map, reading.caution_ids, caution.id);
    caution.severity = read_word<Severity>(*file, map.take("severity"));
    const Node* when = map.take("when");
    if (when != nullptr) caution.when = read_words<Situation>(*file, when);
    if (when != nullptr && when->kind == Node::Kind::list && when->children.empty()) {
      file->fault(*when, "an empty list, expected at least one situation");
    }
    const Node* defer_to = map.take("defer_to");
    caution.defer_to = read_id(*file, defer_to);
    reading.link(*file, defer_to, Kin::whom_to_ask);
    caution.evidence = read_evidence(reading, map);
    map.finish();
    if (fresh) reading.catalog.cautions.push_back(std::move(caution));
  }
  sort_by_id(reading.catalog.cautions);
}

}  // namespace tenwinters
