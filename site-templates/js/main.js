// The picker: one question at a time, the answers so far, and what fits, live.
import {el, fillAll} from './dom.js';
import {startEngine} from './engine.js';
import {readAddress, addressOf} from './address.js';
import {groupByKind, headline, leaders, showResults} from './results.js';
import {say, count, names, number, useUnits, currentUnits, placeName, cultivarName, typeOf} from './say.js';

const at = (id) => document.getElementById(id);
const firstTitle = at('headline').textContent, firstLede = at('lede').textContent;
let advise = null;       // set once the engine runs
let reopened = '';       // a question opened again to change its answer; 'place' for the place
let moveFocus = false;   // after an answer the next question takes the focus; not after back or forward
let shelvesDue = 0;      // a timer: the shelves follow once question and short list are up to date

function go(state) {
  const next = addressOf(state);
  moveFocus = true;
  if (location.hash === next || (location.hash === '' && next === '#')) update();
  else location.hash = next;
}

function answer(id, value) {
  const state = readAddress();
  reopened = '';
  if (id === 'place') state.place = value;
  else state.answers[id] = value;
  go(state);
}

function reopen(id) {
  reopened = id;
  moveFocus = true;
  update();
}

function choice(text, pressed, unsure, click) {
  return el('li', {}, el('button', {type: 'button', class: unsure ? 'choice unsure' : 'choice', 'aria-pressed': pressed ? 'true' : null, click},
                         text, pressed ? el('small', {}, say('ui.chosen')) : ''));
}

function showQuestion(ask, why, choices, note) {
  at('ask-title').textContent = ask;
  const parts = [at('ask-title'), el('p', {}, why), el('ul', {class: 'choices'}, ...choices)];
  if (note) parts.push(el('p', {class: 'aside'}, note));
  if (reopened) parts.push(el('p', {class: 'aside'}, el('button', {type: 'button', class: 'link', click: () => reopen('')}, say('ui.back_to_next'))));
  at('ask').replaceChildren(...parts);
}

function askPlace(state) {
  showQuestion(say('ui.ask_place'), say('ui.why_place'),
               names().places.map((place) => choice(place.name, place.id === state.place, false, () => answer('place', place.id))), '');
}

function ask(id, state, left) {
  const question = names().questions.find((known) => known.id === id), given = state.answers[id];
  const choices = question.answers.map((one) => choice(say(`questions.${id}.answers.${one}`), one === given, false, () => answer(id, one)));
  choices.push(choice(say('ui.dont_know'), given === 'dont_know', true, () => answer(id, 'dont_know')));
  const asked = Object.keys(state.answers).length + 1;
  const note = reopened ? '' : left > 0 ? say('ui.question_n', {n: asked, left}) : say('ui.question_last');
  showQuestion(say(`questions.${id}.ask`), say(`questions.${id}.why`), choices, note);
}

function showDone() {
  at('ask-title').textContent = say('ui.done_title');
  at('ask').replaceChildren(at('ask-title'), el('p', {}, say('ui.done_text')));
}

function showAnswers(state, advice) {
  const row = (id, question, text, open) => el('div', {}, el('dt', {}, question), el('dd', {class: open ? 'open' : null}, text),
    el('dd', {}, el('button', {type: 'button', class: 'link', 'aria-label': say('ui.change_what', {what: question}), click: () => reopen(id)}, say('ui.change'))));
  const rows = [row('place', say('ui.place'), placeName(state.place), false)];
  for (const question of names().questions) {
    const given = state.answers[question.id], understood = advice.answers[question.id];
    if (understood) rows.push(row(question.id, say(`questions.${question.id}.ask`), say(`questions.${question.id}.answers.${understood}`), false));
    else if (given && advice.unanswered.includes(question.id)) rows.push(row(question.id, say(`questions.${question.id}.ask`), say('ui.not_known'), true));
  }
  at('answer-list').replaceChildren(...rows);
}

function showShort(shelves) {
  const best = leaders(shelves, 5);
  at('short-list').replaceChildren(...best.map((one) => el('li', {},
    el('a', {href: `cultivars/${one.cultivar}.html`}, cultivarName(one.cultivar)), el('span', {class: 'share'}, number(one.prospect.good_harvests.best, 1)),
    el('span', {class: 'under'}, `${say(`types.${typeOf(one.cultivar)}.name`)}, ${say('ui.fig_harvests')}`))));
  if (best.length === 0) at('short-list').append(el('li', {}, el('span', {}, say('ui.short_empty'))));
}

function keepAnswersInLinks() {
  for (const link of document.querySelectorAll('[data-keep-answers]')) link.href = link.href.split('#')[0] + location.hash;
}

function showShelvesSoon(advice, shelves) {
  at('results').setAttribute('aria-busy', 'true');
  shelvesDue = setTimeout(() => {
    showResults(at('results'), advice, shelves);
    at('results').removeAttribute('aria-busy');
  });
}

function update() {
  clearTimeout(shelvesDue);
  const state = readAddress();
  useUnits(state.units);
  at('units').textContent = say(currentUnits() === 'us' ? 'ui.units_metric' : 'ui.units_us');
  keepAnswersInLinks();
  const started = state.place !== '';
  at('side').hidden = at('results').hidden = !started;
  at('ready').hidden = started;
  at('desk').classList.toggle('live', started);
  if (!started) {
    reopened = '';
    at('headline').textContent = firstTitle;
    at('lede').textContent = firstLede;
    askPlace(state);
  } else {
    const advice = advise(state.place, state.answers), shelves = groupByKind(advice);
    const open = advice.unanswered.filter((id) => !state.answers[id]);
    const title = headline(shelves), first = leaders(shelves, 1)[0];
    at('headline').textContent = title;
    at('lede').textContent = names().places.find((place) => place.id === state.place).record;
    if (reopened === 'place') askPlace(state);
    else if (reopened) ask(reopened, state, 0);
    else if (open.length > 0) ask(open[0], state, open.length - 1);
    else showDone();
    showShort(shelves);
    showAnswers(state, advice);
    showShelvesSoon(advice, shelves);
    at('status').textContent = first ? say('ui.status', {headline: title, leader: cultivarName(first.cultivar)}) : title;
  }
  if (moveFocus) {
    at('ask-title').focus();
    at('ask').scrollIntoView({block: 'nearest'});
  }
  moveFocus = false;
}

// Links to a caution further down must not disturb the answers in the address.
document.addEventListener('click', (event) => {
  const inside = event.target.closest('[data-inside]');
  if (!inside) return;
  event.preventDefault();
  const target = at(inside.getAttribute('href').slice(1));
  target.scrollIntoView();
  target.focus();
});
at('start-over').addEventListener('click', () => go({place: '', answers: {}, units: readAddress().units}));
at('units').addEventListener('click', () => {
  const state = readAddress();
  state.units = currentUnits() === 'us' ? 'metric' : 'us';
  location.hash = addressOf(state);
});
at('print').addEventListener('click', () => window.print());
window.addEventListener('beforeprint', fillAll);
window.addEventListener('hashchange', () => { if (!moveFocus) reopened = ''; update(); });

startEngine(window.tenwintersEngine, window.tenwintersData).then((ready) => {
  advise = ready;
  at('no-script').hidden = true;
  update();
  performance.mark('first-answer');
  document.documentElement.dataset.ready = 'yes';
}, () => { at('no-script').textContent = say('ui.engine_failed'); });
