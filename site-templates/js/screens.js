// A page with a form whose answer the second engine works out: compare, yard plan, tonight's freeze, calendar.
import {el, keepAnswersInAddress} from './dom.js';
import {startModule} from './engine.js';
import {say, names, useUnits, currentUnits} from './say.js';
import {readState, addressOf} from './screen_state.js';
import {showBlocks} from './screen_show.js';
import {press} from './screen_form.js';
import {calendarScreen} from './screen_calendar.js';
import {compareScreen} from './screen_compare.js';
import {nightScreen} from './screen_night.js';
import {planScreen} from './screen_plan.js';

const at = (id) => document.getElementById(id);
const kind = at('screen').dataset.screen;
const screen = {calendar: calendarScreen, compare: compareScreen, night: nightScreen, plan: planScreen}[kind];
let engine = null;   // once it runs
let due = 0;         // a timer: the answer follows once the form is up to date

function go(change) {
  const next = addressOf({...readState(screen.own), ...change});
  if (location.hash === next) update();
  else location.hash = next;
}

// The form is made anew; whoever stood in it stands there again.
function showForm(state) {
  const stood = at('form').contains(document.activeElement) ? document.activeElement.id : '';
  at('form').replaceChildren(...screen.form(state, go, addressOf(state)));
  if (stood) (at(stood) ?? at('form').querySelector('#add-tree, select, input'))?.focus({preventScroll: true});
}

async function copyLink() {
  let said = say('screens.copied');
  try {
    await navigator.clipboard.writeText(location.href);
  } catch {
    said = say('screens.copy_by_hand');
  }
  at('status').textContent = at('copy-said').textContent = said;
}

function toolRow(shown, state) {
  const units = press('units', say(currentUnits() === 'us' ? 'ui.units_metric' : 'ui.units_us'), () => go({units: currentUnits() === 'us' ? 'metric' : 'us'}));
  const tools = [...(screen.tools?.(shown, state) ?? []), press('copy', say('screens.copy_link'), copyLink), press('print', say('ui.print'), () => window.print()), units];
  return [el('p', {class: 'tools'}, ...tools.flatMap((one) => [one, ' '])), el('p', {class: 'aside', id: 'copy-said'}, screen.note?.() ?? '')];
}

function showAnswer(state) {
  const asked = screen.request(state);
  if (!asked) {
    at('shown').replaceChildren(el('p', {class: 'aside'}, screen.nothing()));
    at('status').textContent = screen.nothing();
    return;
  }
  const shown = engine.call('tw_answer', {...asked, place: state.place, units: currentUnits(), answers: state.answers});
  if (shown.error) {
    at('shown').replaceChildren(el('p', {class: 'no'}, say('screens.wrong', {what: `${shown.error}: ${shown.found}`})));
    at('status').textContent = at('shown').textContent;
    return;
  }
  showBlocks(at('shown'), shown.blocks);
  at('shown').prepend(el('h2', {id: 'shown-title'}, shown.title), ...toolRow(shown, state));
  at('status').textContent = shown.status;
}

function failed() {
  at('no-script').hidden = false;
  at('no-script').firstElementChild.textContent = say('screens.failed');
}

// At once where the winters of the place are there, else as soon as they are.
function update() {
  clearTimeout(due);
  const state = readState(screen.own);
  if (!engine.knows(state.place)) return engine.learn(names().places.find((place) => place.id === state.place)).then(update, failed);
  useUnits(state.units);
  for (const link of document.querySelectorAll('[data-keep-answers]')) link.href = link.href.split('#')[0] + location.hash;
  // Standing on a tool of the answer, as on the switch of units, one stands there afterwards too.
  const stood = at('shown').contains(document.activeElement) ? document.activeElement.id : '';
  showForm(state);
  at('shown').setAttribute('aria-busy', 'true');
  if (screen.slow) at('status').textContent = say('screens.working');
  due = setTimeout(() => {
    showAnswer(state);
    at('shown').removeAttribute('aria-busy');
    at('shown').dataset.of = location.hash;  // for whoever waits for this very answer
    if (stood) at(stood)?.focus({preventScroll: true});
  }, screen.slow ? 30 : 0);
}

keepAnswersInAddress();
window.addEventListener('hashchange', update);
window.addEventListener('beforeprint', () => { for (const closed of at('shown').querySelectorAll('details')) closed.open = true; });

startModule(window.tenwintersEngine, window.tenwintersData, [window.tenwintersSeasons, JSON.stringify(names().words)]).then((ready) => {
  engine = ready;
  return update();
}).then(() => {
  at('no-script').hidden = true;
  at('screen').hidden = false;
  document.documentElement.dataset.ready = 'yes';
}, failed);
