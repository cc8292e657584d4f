#include "wire/text.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

using wire::Text;

constexpr int kShareDecimals = 3, kFigureDecimals = 2, kPercentDecimals = 1;

template <class All, class One>
void list(Text& text, const All& all, One one) {
  text.open('[');
  for (const auto& item : all) one(text, item);
  text.close(']');
}

void put(Text& text, std::string_view key, std::string_view value) {
  text.key(key);
  text.string(value);
}
void put(Text& text, std::string_view key, int value) {
  text.key(key);
  text.whole(value);
}
void put(Text& text, std::string_view key, double value, int decimals) {
  text.key(key);
  text.decimal(value, decimals);
}
void put(Text& text, std::string_view key, const Interval& interval, int decimals) {
  text.key(key);
  text.open('{');
  put(text, "best", interval.best, decimals);
  put(text, "low", interval.low, decimals);
  put(text, "high", interval.high, decimals);
  text.close('}');
}

void write_id(Text& text, const std::string& id) { text.string(id); }

void write_arg(Text& text, const Arg& arg) {
  text.open('{');
  put(text, "name", arg.name);
  put(text, "kind", name_of(arg.kind));
  if (arg.id.empty()) put(text, "number", arg.number, kFigureDecimals);
  else put(text, "id", arg.id);
  text.close('}');
}

void write_reason(Text& text, const Reason& reason) {
  text.open('{');
  put(text, "id", reason.id);
  text.key("args");
  list(text, reason.args, write_arg);
  text.close('}');
}

void write_limit(Text& text, const Limit& limit) {
  text.open('{');
  put(text, "id", limit.id);
  put(text, "verdict", name_of(limit.verdict));
  put(text, "chance", limit.chance, kShareDecimals);
  text.key("reason");
  write_reason(text, limit.reason);
  text.close('}');
}

void write_contribution(Text& text, const Contribution& one) {
  text.open('{');
  put(text, "criterion", one.criterion);
  put(text, "points", one.points);
  put(text, "of", one.of);
  text.key("reason");
  write_reason(text, one.reason);
  text.close('}');
}

void write_prospect(Text& text, const Prospect& prospect) {
  text.open('{');
  put(text, "alive_at_ten", prospect.alive_at_ten, kShareDecimals);
  put(text, "good_harvests", prospect.good_harvests, kFigureDecimals);
  put(text, "work_nights", prospect.work_nights, kFigureDecimals);
  put(text, "crops_lost", prospect.crops_lost, kFigureDecimals);
  put(text, "ripe_from_month", prospect.ripe_from_month);
  put(text, "ripe_to_month", prospect.ripe_to_month);
  text.close('}');
}

void write_candidate(Text& text, const Candidate& candidate) {
  text.open('{');
  put(text, "cultivar", candidate.cultivar);
  put(text, "rootstock", candidate.rootstock);
  put(text, "protection", candidate.protection);
  put(text, "shelf", name_of(candidate.shelf));
  put(text, "points", candidate.points);
  text.key("prospect");
  write_prospect(text, candidate.prospect);
  text.key("contributions");
  list(text, candidate.contributions, write_contribution);
  text.key("limits");
  list(text, candidate.limits, write_limit);
  text.key("notes");
  list(text, candidate.notes, write_reason);
  text.key("cautions");
  list(text, candidate.cautions, write_id);
  text.close('}');
}

// What is known of the yard, the same of an advice and of a ranking.
template <class T>
void write_yard(Text& text, const T& told) {
  put(text, "place", told.place);
  text.key("answers");
  text.open('{');
  for (const auto& [question, answer] : told.answers) put(text, question, answer);
  text.close('}');
  text.key("unanswered");
  list(text, told.unanswered, write_id);
}

}  // namespace

std::string order_to_json(const Ranking& ranking) {
  Text text;
  text.open('{');
  write_yard(text, ranking);
  text.key("candidates");
  list(text, ranking.trees, [](Text& out, const RankedTree& tree) {
    out.open('{');
    put(out, "cultivar", tree.cultivar);
    put(out, "shelf", name_of(tree.shelf));
    put(out, "points", tree.points);
    put(out, "good_harvests", tree.good_harvests, kFigureDecimals);
    out.close('}');
  });
  text.close('}');
  return text.take();
}

std::string advice_to_json(const Advice& advice) {
  Text text;
  text.open('{');
  write_yard(text, advice);
  text.key("yard");
  list(text, advice.yard, write_limit);
  text.key("candidates");
  list(text, advice.candidates, write_candidate);
  text.key("notes");
  list(text, advice.notes, write_reason);
  text.close('}');
  return text.take();
}

std::string ranking_to_json(const Advice& advice, const Certainty& certainty) {
  std::string text = advice_to_json(advice);
  text.pop_back();
  return text + ",\"certainty\":" + certainty_to_json(certainty) + "}";
}

std::string certainty_to_json(const Certainty& certainty) {
  Text text;
  text.open('{');
  put(text, "scenarios", kScenarios);
  text.key("trees");
  list(text, certainty.trees, [](Text& out, const TreeCertainty& tree) {
    out.open('{');
    put(out, "cultivar", tree.cultivar);
    put(out, "first", tree.first, kPercentDecimals);
    put(out, "best_three", tree.best_three, kPercentDecimals);
    out.close('}');
  });
  put(text, "none", certainty.none, kPercentDecimals);
  text.key("drivers");
  list(text, certainty.drivers, [](Text& out, const Driver& driver) {
    out.open('{');
    put(out, "kind", name_of(driver.kind));
    put(out, "id", driver.id);
    put(out, "bits", driver.bits, kShareDecimals);
    out.close('}');
  });
  text.key("questions");
  list(text, certainty.questions, [](Text& out, const QuestionWorth& question) {
    out.open('{');
    put(out, "question", question.question);
    put(out, "bits", question.bits, kShareDecimals);
    out.close('}');
  });
  put(text, "change", certainty.change, kPercentDecimals);
  put(text, "next_question", certainty.next_question);
  text.close('}');
  return text.take();
}

namespace {

void write_change(Text& text, const Change& change) {
  text.open('{');
  put(text, "question", change.question);
  put(text, "answer", change.answer);
  text.close('}');
}

void write_way(Text& text, const WayIn& way) {
  text.open('{');
  text.key("changes");
  list(text, way.changes, write_change);
  put(text, "shelf", name_of(way.shelf));
  put(text, "points", way.points);
  put(text, "place", way.place);
  text.close('}');
}

}  // namespace

std::string least_change_to_json(const LeastChange& least) {
  Text text;
  text.open('{');
  put(text, "cultivar", least.cultivar);
  put(text, "aim", name_of(least.aim));
  put(text, "reached", least.reached ? 1 : 0);
  text.key("ways");
  list(text, least.ways, write_way);
  text.key("barred");
  list(text, least.barred, write_id);
  text.close('}');
  return text.take();
}

std::string comparison_to_json(const Comparison& two) {
  Text text;
  text.open('{');
  text.key("first");
  write_candidate(text, two.first);
  text.key("second");
  write_candidate(text, two.second);
  put(text, "first_leads", two.first_leads ? 1 : 0);
  put(text, "lead", two.lead);
  put(text, "usual_low_c", two.usual_low_c, kFigureDecimals);
  text.key("turns");
  list(text, two.turns, [](Text& out, const Turn& turn) {
    out.open('{');
    put(out, "question", turn.change.question);
    put(out, "answer", turn.change.answer);
    put(out, "first_leads", turn.first_leads ? 1 : 0);
    put(out, "lead", turn.lead);
    out.close('}');
  });
  text.key("cold");
  text.open('[');
  if (two.cold) {
    text.open('{');
    put(text, "warmer_c", two.cold->warmer_c, kFigureDecimals);
    put(text, "usual_low_c", two.cold->usual_low_c, kFigureDecimals);
    put(text, "ruled_out", two.cold->ruled_out ? 1 : 0);
    text.close('}');
  }
  text.close(']');
  text.close('}');
  return text.take();
}

std::string key_to_json(const PaperKey& key) {
  Text text;
  text.open('{');
  put(text, "place", key.place);
  put(text, "steps", kKeySteps);
  put(text, "yards", key.yards);
  put(text, "agrees_fitted", key.agrees_fitted, kPercentDecimals);
  put(text, "agrees_fresh", key.agrees_fresh, kPercentDecimals);
  put(text, "planted_fresh", key.planted_fresh, kPercentDecimals);
  text.key("nodes");
  list(text, key.nodes, [](Text& out, const KeyNode& node) {
    out.open('{');
    if (node.question.empty()) {
      out.key("trees");
      list(out, node.trees, write_id);
    } else {
      put(out, "question", node.question);
      out.key("answers");
      list(out, node.answers, write_id);
      put(out, "yes", node.yes);
      put(out, "no", node.no);
    }
    put(out, "yards", node.yards);
    put(out, "agrees", node.agrees, kPercentDecimals);
    out.close('}');
  });
  text.close('}');
  return text.take();
}

}  // namespace tenwinters
