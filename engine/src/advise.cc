#include "tenwinters/advise.h"

#include "chooser.h"
#include "tenwinters/prospect.h"

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

}  // namespace tenwinters
