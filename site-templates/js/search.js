// The search page. What is sought lives in the address after '#', so that coming back shows it again.
import {el} from './dom.js';
import {find} from './nearest.js';

const {entries, kinds, words} = window.tenwintersIndex;
const most = 25;
const at = (id) => document.getElementById(id);
const form = at('find'), box = at('sought'), list = at('found'), says = at('found-says'), az = at('az');
let due = 0;

function count(key, n) { return words[`${key}.${n === 1 ? 'one' : 'other'}`].replace('{n}', n); }

function show() {
  const text = box.value.trim();
  const found = find(entries, text, most);
  list.replaceChildren(...found.entries.map(({name, address, kind, by}) => el('li', {}, el('a', {href: address}, name), ' ',
      el('span', {class: 'under'}, kinds[kind] + (by && by.length < 60 ? `, ${words.search_also.replace('{name}', by)}` : '')))));
  list.hidden = found.entries.length === 0;
  az.hidden = text !== '';
  says.textContent = text === '' ? '' : found.entries.length === 0 ? words.search_nothing : count(found.near ? 'search_near' : 'search_found', found.entries.length);
}

function remember() {
  const hash = box.value.trim() === '' ? '' : `#q=${encodeURIComponent(box.value.trim())}`;
  if (hash !== location.hash) history.replaceState(null, '', hash === '' ? location.pathname + location.search : hash);
}

function recall() {
  const asked = /^#q=(.*)$/.exec(location.hash);
  if (!asked) return;
  try {
    box.value = decodeURIComponent(asked[1]);
  } catch {
    box.value = asked[1];
  }
  show();
}

box.addEventListener('input', () => {
  clearTimeout(due);
  due = setTimeout(() => { show(); remember(); }, 120);
});
form.addEventListener('submit', (event) => {
  event.preventDefault();
  clearTimeout(due);
  show();
  remember();
  list.querySelector('a')?.focus();
});
window.addEventListener('hashchange', recall);
form.hidden = false;
recall();
document.documentElement.dataset.ready = 'yes';
