// The picker: one question at a time, the answers so far, and what fits, live.
import {el, fillAll, keepAnswersInAddress} from './dom.js';
import {beside, startModule} from './engine.js';
import {readAddress, addressOf} from './address.js';
import {groupByKind, headline, leaders, showResults} from './results.js';
import {say, count, names, number, useUnits, currentUnits, placeName, cultivarName, typeOf} from './say.js';

const at = (id) => document.getElementById(id);
const firstTitle = at('headline').textContent, firstLede = at('lede').textContent;
let engine = null;       // once it runs
let reopened = '';       // a question opened again to change its answer; 'place' for the place
let moveFocus = false;   // after an answer the next question takes the focus; not after back or forward
let askOn = false;       // go on asking although the best three are settled
let restDue = 0;         // a timer: the next question and the shelves follow once the short list is up to date

const tell = ({place, answers}, what) => engine.call('tw_advise', {place, answers, tell: what});

// At once: to set location.hash would have the page wait for a turn of the browser's.
function show(state) {
  const next = addressOf(state);
  if (location.hash !== next && (location.hash !== '' || next !== '#')) history.pushState(null, '', next);
  update();
}

function go(state) {
  moveFocus = true;
  show(state);
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

function ask(id, state, note) {
  const question = names().questions.find((known) => known.id === id), given = state.answers[id];
  const choices = question.answers.map((one) => choice(say(`questions.${id}.answers.${one}`), one === given, false, () => answer(id, one)));
  choices.push(choice(say('ui.dont_know'), given === 'dont_know', true, () => answer(id, 'dont_know')));
  showQuestion(say(`questions.${id}.ask`), say(`questions.${id}.why`), choices, note);
}

function showDone(open) {
  at('ask-title').textContent = say('ui.done_title');
  const more = () => { askOn = moveFocus = true; update(); };
  at('ask').replaceChildren(at('ask-title'), ...(open.length > 0 ? [el('p', {}, say('certainty.settled', {n: 5}))] : []), el('p', {}, say('ui.done_text')),
    ...(open.length > 0 ? [el('p', {class: 'tools'}, el('button', {type: 'button', id: 'ask-rest', click: more}, count('ui.ask_rest', open.length)))] : []));
}

function driverText(driver) {
  const fills = {
    question: () => ({question: say(`questions.${driver.id}.ask`)}), weight: () => ({criterion: say(`criteria.${driver.id}`)}),
    hardiness: () => ({tree: cultivarName(driver.id)}), figures: () => ({tree: cultivarName(driver.id)}), winters: () => ({}),
  };
  return say(`certainty.drivers.${driver.kind}`, fills[driver.kind]());
}

// How sure the order is: of the first three of all, as the engine ranks them.
function showCertainty(order, sure) {
  const best = order.candidates.filter((one) => one.shelf !== 'not_here').slice(0, 3), whole = (n) => number(n, 0);
  const lines = best.map((one, i) => {
    const told = sure.trees.find((tree) => tree.cultivar === one.cultivar) ?? {first: 0, best_three: 0};
    return say(i === 0 ? 'certainty.leads' : 'certainty.also', {tree: cultivarName(one.cultivar), first: whole(told.first), three: whole(told.best_three)});
  });
  if (sure.none > 0) lines.push(say('certainty.none', {n: whole(sure.none)}));
  if (best.length > 0 && sure.drivers.length > 0)
    lines.push(say('certainty.hangs_on', {tree: cultivarName(best[0].cultivar), what: driverText(sure.drivers[0])}));
  lines.push(say('certainty.sampled', {n: sure.scenarios}));
  at('sure-text').replaceChildren(...lines.map((line) => el('p', {}, line)));
}

// Which question comes next, or that none need come.
function showNext(state, open, sure) {
  const next = sure.next_question || (askOn ? open[0] : '');
  if (next) ask(next, state, say('certainty.change', {n: number(sure.change, 0)}));
  else showDone(open);
}

function showAnswers(state, order) {
  const row = (id, question, text, open) => el('div', {}, el('dt', {}, question), el('dd', {class: open ? 'open' : null}, text),
    el('dd', {}, el('button', {type: 'button', class: 'link', 'aria-label': say('ui.change_what', {what: question}), click: () => reopen(id)}, say('ui.change'))));
  const rows = [row('place', say('ui.place'), placeName(state.place), false)];
  for (const question of names().questions) {
    const given = state.answers[question.id], understood = order.answers[question.id];
    if (understood) rows.push(row(question.id, say(`questions.${question.id}.ask`), say(`questions.${question.id}.answers.${understood}`), false));
    else if (given && order.unanswered.includes(question.id)) rows.push(row(question.id, say(`questions.${question.id}.ask`), say('ui.not_known'), true));
  }
  at('answer-list').replaceChildren(...rows);
}

function showShort(shelves) {
  const best = leaders(shelves, 5);
  at('short-list').replaceChildren(...best.map((one) => el('li', {},
    el('a', {href: `cultivars/${one.cultivar}.html`}, cultivarName(one.cultivar)), el('span', {class: 'share'}, number(one.good_harvests, 1)),
    el('span', {class: 'under'}, `${say(`types.${typeOf(one.cultivar)}.name`)}, ${say('ui.fig_harvests')}`))));
  const trees = best.slice(0, 4).map((one) => one.cultivar).join(',');
  for (const link of document.querySelectorAll('[data-with-trees]')) link.href = `${link.href.split('#')[0]}${location.hash}&trees=${trees}`;
  if (best.length === 0) at('short-list').append(el('li', {}, el('span', {}, say('ui.short_empty'))));
}

function keepAnswersInLinks() {
  for (const link of document.querySelectorAll('[data-keep-answers]')) link.href = link.href.split('#')[0] + location.hash;
}

function focusOnQuestion() {
  if (moveFocus) {
    at('ask-title').focus();
    at('ask').scrollIntoView({block: 'nearest'});
  }
  moveFocus = false;
}

// What takes longer than a frame: how sure it is, what to ask next, then the reasons and the shelves.
function showRestSoon(state, order) {
  at('results').setAttribute('aria-busy', 'true');
  restDue = setTimeout(() => {
    const open = order.unanswered.filter((id) => !state.answers[id]), sure = tell(state, 'certainty');
    if (!reopened) showNext(state, open, sure);
    showCertainty(order, sure);
    focusOnQuestion();
    restDue = setTimeout(() => {
      const advice = tell(state, 'advice');
      showResults(at('results'), advice, groupByKind(advice), (...row) => engine.drawing('tw_why_bar', ...row));
      at('results').removeAttribute('aria-busy');
    });
  });
}

function failed() {
  at('no-script').hidden = false;
  at('no-script').textContent = say('ui.engine_failed');
}

// At once where the winters of the place are there, else as soon as they are.
function update() {
  clearTimeout(restDue);
  const state = readAddress();
  if (state.place !== '' && !engine.knows(state.place)) return engine.learn(names().places.find((place) => place.id === state.place)).then(update, failed);
  useUnits(state.units);
  at('units').textContent = say(currentUnits() === 'us' ? 'ui.units_metric' : 'ui.units_us');
  keepAnswersInLinks();
  const started = state.place !== '';
  at('side').hidden = at('results').hidden = !started;
  at('ready').hidden = started;
  at('desk').classList.toggle('live', started);
  if (!started) {
    reopened = '';
    askOn = false;
    at('headline').textContent = firstTitle;
    at('lede').textContent = firstLede;
    askPlace(state);
  } else {
    const order = tell(state, 'order'), shelves = groupByKind(order);
    const title = headline(shelves), first = leaders(shelves, 1)[0];
    at('headline').textContent = title;
    at('lede').textContent = names().places.find((place) => place.id === state.place).record;
    if (reopened === 'place') askPlace(state);
    else if (reopened) ask(reopened, state, '');
    showShort(shelves);
    showAnswers(state, order);
    showRestSoon(state, order);
    at('status').textContent = first ? say('ui.status', {headline: title, leader: cultivarName(first.cultivar)}) : title;
  }
  if (!started || reopened) focusOnQuestion();
}

keepAnswersInAddress();
at('start-over').addEventListener('click', () => go({place: '', answers: {}, units: readAddress().units}));
at('units').addEventListener('click', () => {
  const state = readAddress();
  state.units = currentUnits() === 'us' ? 'metric' : 'us';
  show(state);
});
at('print').addEventListener('click', () => window.print());
window.addEventListener('beforeprint', fillAll);
window.addEventListener('hashchange', () => { reopened = ''; update(); });

startModule(window.tenwintersEngine, window.tenwintersData, []).then((ready) => {
  engine = ready;
  at('no-script').hidden = true;
  return update();
}).then(() => {
  performance.mark('first-answer');
  document.documentElement.dataset.ready = 'yes';
}, failed);

// A copy for when there is no network; the page is the same without it.
if (/^https?:$/.test(location.protocol)) navigator.serviceWorker?.register(new URL('../worker.js', beside)).catch(() => {});
