// The answers live in the page's address after '#', and nowhere else: #place=...&sun=full&units=metric
import {names} from './say.js';

// What the address says, without anything this page does not know.
export function readAddress() {
  const given = new URLSearchParams(location.hash.slice(1));
  const place = given.get('place');
  const state = {place: names().places.some((known) => known.id === place) ? place : '', answers: {}, units: given.get('units') ?? ''};
  for (const question of names().questions) {
    const answer = given.get(question.id);
    if (answer === 'dont_know' || question.answers.includes(answer)) state.answers[question.id] = answer;
  }
  return state;
}

// Questions in the order of the interview, so that one yard has one address.
export function addressOf(state) {
  const out = new URLSearchParams();
  if (state.place) out.set('place', state.place);
  for (const question of names().questions)
    if (state.answers[question.id]) out.set(question.id, state.answers[question.id]);
  if (state.units) out.set('units', state.units);
  return '#' + out.toString();
}
