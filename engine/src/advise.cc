#include "tenwinters/advise.h"

#include "chooser.h"
#include "tenwinters/prospect.h"
#include "tenwinters/rank.h"

namespace tenwinters {

Advice advise(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers) {
  ReplayMemo memo;
  return advise(catalog, office, place, answers, make_replay(place.winters, catalog.cold_model), memo);
}

Advice advise(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers, const Replay& replay,
              ReplayMemo& memo) {
  const Setting setting{catalog, office, place};
  const Interview interview(catalog, answers);

  Advice advice;
  advice.place = place.id;
  advice.answers = interview.understood();
  advice.unanswered = interview.unanswered();
  advice.yard = yard_limits(interview);
  advice.notes = yard_notes(interview, place);

  const Chooser chooser(setting, interview, replay, memo);
  for (const Standing& one : chooser.judge_all()) advice.candidates.push_back(chooser.tell(one));
  return advice;
}

Ranking rank_trees(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers, const Replay& replay,
                   ReplayMemo& memo) {
  const Setting setting{catalog, office, place};
  const Interview interview(catalog, answers);
  Ranking ranking{place.id, interview.understood(), interview.unanswered(), {}};
  for (const Standing& one : Chooser(setting, interview, replay, memo).judge_all())
    ranking.trees.push_back({one.tree.cultivar->id, one.shelf, one.points, one.good_harvests});
  return ranking;
}

}  // namespace tenwinters
