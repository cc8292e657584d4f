// node address.mjs [SECONDS]: the pages' own reading of the address after '#', with addresses made up from a fixed
// seed. What comes out is known to the page, and written and read once more it is the same. Exit 1 if not.
import {readFileSync} from 'node:fs';
import {fileURLToPath} from 'node:url';

const seconds = Number(process.argv[2] ?? 20);
// The modules as they are, from text: their folder does not say that they are modules.
const js = (name) => readFileSync(fileURLToPath(new URL(`../../site-templates/js/${name}.js`, import.meta.url)), 'utf8');
const asModule = (text) => `data:text/javascript;base64,${Buffer.from(text).toString('base64')}`;

// As a page has them; ids that are keys of every object besides.
const known = {
  units: 'us', words: {}, rootstocks: {},
  places: [{id: 'quay', name: 'Quay'}, {id: 'hollow', name: 'Hollow'}],
  cultivars: {owari: ['Owari', 'satsuma'], meyer: ['Meyer', 'lemon']},
  questions: [{id: 'sun', answers: ['full', 'little']}, {id: 'taste', answers: ['sweet', 'sour']}, {id: 'constructor', answers: ['toString']}],
};
globalThis.window = {tenwintersWords: known};
globalThis.location = {hash: ''};
const say = asModule(js('say'));
const load = (name) => import(asModule(js(name).replaceAll("'./say.js'", `'${say}'`)));
const picker = await load('address'), screens = await load('screen_state');
const ownKeys = ['year', 'low', 'width'];

let seed = 20261126;
const random = (below) => {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  return Math.floor(seed / 4294967296 * below);
};
const pick = (list) => list[random(list.length)];
const atoms = ['place', 'quay', 'hollow', 'sun', 'full', 'little', 'taste', 'dont_know', 'units', 'us', 'metric', 'furlongs', 'trees', 'owari', 'meyer', 'owari,meyer',
  ...ownKeys, '=', '=', '=', '&', '&', '&', ',', '#', '%', '%2', '%00', '%26', '%3D', '%C3%A9', '%E2%80%AE', '%FF', '+', ';', '__proto__', 'constructor', 'toString',
  '<script>', '"', "'", '\\', '../', '\u202E', '\uD800', 'é', ' ', '-1', '1e999', '9'.repeat(30), 'x'.repeat(2000)];

let tried = 0;
function expect(true_, what, hash) {
  if (true_) return;
  console.log(`FAILED ${what}: #${JSON.stringify(hash.slice(0, 300))} (address ${tried})`);
  process.exit(1);
}
function check(hash) {
  location.hash = '#' + hash;
  const state = picker.readAddress(), screen = screens.readState(ownKeys);
  for (const one of [state, screen]) {
    expect(one.place === '' || known.places.some((place) => place.id === one.place), 'an unknown place', hash);
    for (const [question, answer] of Object.entries(one.answers))
      expect(answer === 'dont_know' || known.questions.find((q) => q.id === question)?.answers.includes(answer), 'an unknown answer', hash);
    expect(Object.getPrototypeOf(one.answers) === Object.prototype && typeof {}.polluted === 'undefined', 'an object changed', hash);
  }
  expect(screen.trees.every((id) => Object.hasOwn(known.cultivars, id)), 'an unknown tree', hash);
  expect(Object.keys(screen.own).every((key) => ownKeys.includes(key)), 'an unknown key', hash);
  for (const [write, read, first] of [[picker.addressOf, picker.readAddress, state], [screens.addressOf, () => screens.readState(ownKeys), screen]]) {
    location.hash = write(first);
    const again = read();
    // An empty text of a screen's own is not written.
    if (first.own) first.own = Object.fromEntries(Object.entries(first.own).filter(([, value]) => value !== ''));
    expect(JSON.stringify(sorted(again)) === JSON.stringify(sorted(first)), 'it does not come back as it went out', hash);
  }
}
function sorted(value) {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  return Object.fromEntries(Object.keys(value).sort().map((key) => [key, sorted(value[key])]));
}

const until = Date.now() + seconds * 1000;
while (Date.now() < until) {
  for (let i = 0; i < 200; ++i, ++tried) check(Array.from({length: random(24)}, () => random(4) ? pick(atoms) : String.fromCharCode(random(0x300))).join(''));
}
console.log(`${tried} addresses`);
process.exit(tried > 1000 ? 0 : 1);
