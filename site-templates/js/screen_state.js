// What a screen goes by lives in the address after '#', as the picker has it, and nowhere else. Besides the
// picker's place, answers and units: trees=owari,meyer and what each screen keeps for itself.
import {names} from './say.js';

export function readState(ownKeys) {
  const given = new URLSearchParams(location.hash.slice(1));
  const place = given.get('place');
  const state = {place: names().places.some((known) => known.id === place) ? place : names().places[0].id, answers: {}, units: given.get('units') ?? '',
                 trees: [...new Set((given.get('trees') ?? '').split(','))].filter((id) => Object.hasOwn(names().cultivars, id)), own: {}};
  for (const question of names().questions) {
    const answer = given.get(question.id);
    if (answer === 'dont_know' || question.answers.includes(answer)) state.answers[question.id] = answer;
  }
  for (const key of ownKeys) if (given.has(key)) state.own[key] = given.get(key);
  return state;
}

// Always in one order, so that one screen has one address.
export function addressOf(state) {
  const out = new URLSearchParams();
  out.set('place', state.place);
  for (const question of names().questions)
    if (state.answers[question.id]) out.set(question.id, state.answers[question.id]);
  if (state.units) out.set('units', state.units);
  if (state.trees.length > 0) out.set('trees', state.trees.join(','));
  for (const key of Object.keys(state.own).sort()) if (state.own[key] !== '') out.set(key, state.own[key]);
  return '#' + out.toString().replaceAll('%2C', ',');
}
