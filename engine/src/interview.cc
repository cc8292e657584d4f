#include "interview.h"

#include <algorithm>

#include "tenwinters/advise.h"

namespace tenwinters {
namespace {

int index_of_answer(const Question& question, std::string_view id) {
  for (std::size_t i = 0; i < question.answers.size(); ++i)
    if (question.answers[i].id == id) return static_cast<int>(i);
  return -1;
}

void apply(const Answer& answer, Yard& yard) {
  for (const auto& [variable, text] : answer.sets) set_variable(yard, variable, text);
}

}  // namespace

Interview::Interview(const Catalog& catalog, const Answers& answers) {
  items_.reserve(catalog.questions.size());
  std::vector<int> chosen;
  for (const Question& question : catalog.questions) {
    Item item;
    item.question = &question;
    for (const Answer& answer : question.answers) {
      item.sum += answer.prior;
      for (const auto& [variable, text] : answer.sets) item.sets |= reads({variable});
    }
    for (std::size_t i = 0; i < items_.size(); ++i)
      if (items_[i].question->id == question.asked_if_question) item.condition = static_cast<int>(i);
    if (const auto given = answers.find(question.id); given != answers.end()) {
      item.given = index_of_answer(question, given->second);
      item.declined = given->second == kDontKnow;
    }

    // Settled conditions decide now; open ones are left to cases().
    const bool open_condition = condition_open(item);
    item.may_apply = open_condition || applies(item, chosen);
    item.settled = !item.may_apply || (item.given != kNone && !open_condition) || question.answers.empty();
    if (!item.may_apply) item.given = kNone;
    if (item.given != kNone) {
      const Answer& answer = question.answers[static_cast<std::size_t>(item.given)];
      understood_.emplace(question.id, answer.id);
      if (item.settled) apply(answer, known_);
    }
    chosen.push_back(item.settled ? item.given : kNone);
    items_.push_back(item);
  }
}

bool Interview::condition_open(const Item& item) const {
  return item.condition != kNone && !items_[static_cast<std::size_t>(item.condition)].settled;
}

bool Interview::applies(const Item& item, const std::vector<int>& chosen) const {
  if (item.condition == kNone) return true;
  const int answer = chosen[static_cast<std::size_t>(item.condition)];
  if (answer == kNone) return false;
  const std::vector<std::string>& wanted = item.question->asked_if_answers;
  const Question& condition = *items_[static_cast<std::size_t>(item.condition)].question;
  return std::find(wanted.begin(), wanted.end(), condition.answers[static_cast<std::size_t>(answer)].id) != wanted.end();
}

std::vector<std::string> Interview::unanswered() const {
  std::vector<std::string> ids;
  for (const Item& item : items_)
    if (item.may_apply && item.given == kNone) ids.push_back(item.question->id);
  return ids;
}

template <class Pick>
Yard Interview::completed(std::vector<int>& chosen, const Pick& pick) const {
  Yard yard = known_;
  chosen.assign(items_.size(), kNone);
  for (std::size_t i = 0; i < items_.size(); ++i) {
    const Item& item = items_[i];
    if (item.settled) {
      chosen[i] = item.given;
      continue;
    }
    if (!applies(item, chosen)) continue;
    chosen[i] = item.given != kNone ? item.given : pick(i);
    apply(item.question->answers[static_cast<std::size_t>(chosen[i])], yard);
  }
  return yard;
}

Yard Interview::likeliest() const {
  std::vector<int> chosen;
  return completed(chosen, [&](std::size_t i) {
    const std::vector<Answer>& answers = items_[i].question->answers;
    const auto best = std::max_element(answers.begin(), answers.end(), [](const Answer& a, const Answer& b) { return a.prior < b.prior; });
    return static_cast<int>(best - answers.begin());
  });
}

Yard Interview::drawn(const std::vector<double>& at, std::vector<int>& chosen) const {
  return completed(chosen, [&](std::size_t i) {
    const std::vector<Answer>& answers = items_[i].question->answers;
    const double sum = items_[i].sum, sought = at[i] * (sum > 0 ? sum : static_cast<double>(answers.size()));
    double passed = 0;
    int picked = kNone;
    for (std::size_t a = 0; a < answers.size(); ++a) {
      const double prior = sum > 0 ? answers[a].prior : 1;
      if (prior <= 0) continue;
      picked = static_cast<int>(a);  // the last with a share, if rounding carries past the end
      passed += prior;
      if (sought < passed) break;
    }
    return picked;
  });
}

std::vector<std::size_t> Interview::bearing_on(Reads what) const {
  std::vector<bool> wanted(items_.size(), false);
  // From the last question up, so that conditions of conditions are reached.
  for (std::size_t i = items_.size(); i-- > 0;) {
    const Item& item = items_[i];
    if (item.settled || (!wanted[i] && (item.sets & what) == 0)) continue;
    wanted[i] = true;
    if (condition_open(item)) wanted[static_cast<std::size_t>(item.condition)] = true;
  }
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < items_.size(); ++i)
    if (wanted[i]) order.push_back(i);
  return order;
}

void Interview::walk(const std::vector<std::size_t>& order, std::size_t at, double share, const Yard& yard, std::vector<int>& chosen,
                     std::vector<Case>& out) const {
  if (at == order.size()) {
    out.push_back({share, yard});
    return;
  }
  const std::size_t index = order[at];
  const Item& item = items_[index];
  const std::vector<Answer>& answers = item.question->answers;
  if (!applies(item, chosen)) {
    chosen[index] = kNone;
    walk(order, at + 1, share, yard, chosen, out);
    return;
  }
  for (std::size_t i = 0; i < answers.size(); ++i) {
    if (item.given != kNone && item.given != static_cast<int>(i)) continue;
    // A question whose priors are all nothing leaves every answer as likely as the next.
    const double prior = item.given != kNone ? 1
                         : item.sum > 0      ? answers[i].prior / item.sum
                                             : 1 / static_cast<double>(answers.size());
    if (prior <= 0) continue;
    Yard next = yard;
    apply(answers[i], next);
    chosen[index] = static_cast<int>(i);
    walk(order, at + 1, share * prior, next, chosen, out);
  }
  chosen[index] = kNone;
}

std::vector<Case> Interview::cases(Reads what) const {
  std::vector<Case> out;
  std::vector<int> chosen(items_.size(), kNone);
  for (std::size_t i = 0; i < items_.size(); ++i)
    if (items_[i].settled) chosen[i] = items_[i].given;
  walk(bearing_on(what), 0, 1, known_, chosen, out);
  return out;
}

std::string_view Interview::first_open(Reads what) const {
  for (const Item& item : items_)
    if (item.may_apply && item.given == kNone && (item.sets & what) != 0) return item.question->id;
  return {};
}

std::vector<std::size_t> Interview::askable() const {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < items_.size(); ++i)
    if (items_[i].may_apply && items_[i].given == kNone && !items_[i].settled && !items_[i].declined && !condition_open(items_[i])) out.push_back(i);
  return out;
}

bool Interview::any_declined() const {
  return std::any_of(items_.begin(), items_.end(), [](const Item& item) { return item.declined && item.may_apply; });
}

std::vector<std::string> open_questions(const Catalog& catalog, const Answers& answers) {
  return Interview(catalog, answers).unanswered();
}

std::vector<AnswerFault> check_answers(const Catalog& catalog, const Answers& answers) {
  std::vector<std::string_view> questions;
  for (const Question& question : catalog.questions) questions.push_back(question.id);
  std::vector<AnswerFault> faults;
  for (const auto& [id, answer] : answers) {
    const Question* question = find_question(catalog, id);
    if (question == nullptr) {
      faults.push_back({id, answer, std::string(nearest_name(id, questions)), true});
    } else if (answer != kDontKnow && index_of_answer(*question, answer) < 0) {
      std::vector<std::string_view> names;
      for (const Answer& one : question->answers) names.push_back(one.id);
      names.push_back(kDontKnow);
      faults.push_back({id, answer, std::string(nearest_name(answer, names)), false});
    }
  }
  return faults;
}

}  // namespace tenwinters
