// Tonight's freeze: the night, and up to eight trees. In the address a tree is one entry
// t1=owari.carrizo.3.good.57.open.heavy.cover+bank_trunk : tree, stock, winters, health, litres, spot, crop, what is done.
import {el} from './dom.js';
import {say, names, currentUnits, number, rootstockName, typeOf} from './say.js';
import {choose, cultivarOptions, measure, placeField, press, tick} from './screen_form.js';

const mostTrees = 8, pots = ['19', '57', '95'];
const fresh = {id: 'satsuma', stock: '', age: '5', health: 'good', litres: '0', spot: 'open', crop: 'light', done: []};
const treeKeys = Array.from({length: mostTrees}, (_, i) => `t${i + 1}`);
const protectionIds = () => Object.keys(names().words).map((key) => /^protections\.(\w+)\.name$/.exec(key)?.[1]).filter((id) => id && id !== 'none');
const wordsOf = (start) => Object.keys(names().words).filter((key) => key.startsWith(start)).map((key) => key.slice(start.length));

// Litres as a pot's usual name.
const potSize = (litres) => (currentUnits() === 'us' ? say('units.gallons', {v: number(litres / 3.785411784, 0)}) : say('units.litres', {v: number(litres, 0)}));

function readTree(text) {
  const [id, stock, age, health, litres, spot, crop, done] = text.split('.');
  return {...fresh, id: id || fresh.id, stock: stock ?? '', age: /^[1-9][0-9]?$/.test(age) ? age : fresh.age, health: health || fresh.health,
          litres: pots.includes(litres) ? litres : '0', spot: spot || fresh.spot, crop: crop === 'heavy' ? 'heavy' : 'light',
          done: (done ?? '').split(' ').flatMap((one) => one.split('+')).filter((one) => protectionIds().includes(one))};
}
const writeTree = (t) => [t.id, t.stock, t.age, t.health, t.litres, t.spot, t.crop, t.done.join('+')].join('.');

// Those of the address; else the trees that were chosen elsewhere; else one to begin with.
function treesOf(state) {
  const told = treeKeys.filter((key) => state.own[key]).map((key) => readTree(state.own[key]));
  if (told.length > 0) return told;
  return state.trees.length > 0 ? state.trees.slice(0, mostTrees).map((id) => ({...fresh, id})) : [fresh];
}

function kindOptions() {
  return cultivarOptions([]).map(([kind, list]) => {
    const type = typeOf(list[0][0]);
    return [kind, [[type, say('screens.night.any_of_kind', {kind})], ...list]];
  });
}

function treeFields(tree, i, all, set) {
  const change = (part) => set(all.map((one, k) => (k === i ? {...one, ...part} : one)));
  const id = (what) => `t${i + 1}-${what}`, n = i + 1;
  const options = (list, start) => list.map((one) => [one, say(start + one)]);
  const fields = [
    choose(id('kind'), say('screens.night.kind'), kindOptions(), tree.id, (value) => change({id: value})),
    choose(id('stock'), say('screens.night.stock'), [['', say('screens.night.stock_unsaid')], ...Object.keys(names().rootstocks).map((one) => [one, rootstockName(one)])], tree.stock, (stock) => change({stock})),
    measure(id('age'), say('screens.night.age'), tree.age, {least: 1, most: 99}, (age) => change({age: String(age)})),
    choose(id('health'), say('screens.night.health'), options(['good', 'fair', 'poor'], 'screens.night.healths.'), tree.health, (health) => change({health})),
    choose(id('where'), say('screens.night.where'), [['0', say('screens.night.where_ground')], ...pots.map((one) => [one, say('screens.night.where_pot', {size: potSize(Number(one))})])], tree.litres, (litres) => change({litres})),
    choose(id('spot'), say('screens.night.spot'), options(wordsOf('spots.'), 'spots.'), tree.spot, (spot) => change({spot})),
    tick(id('crop'), say('screens.night.crop'), tree.crop === 'heavy', (heavy) => change({crop: heavy ? 'heavy' : 'light'})),
    el('fieldset', {}, el('legend', {}, say('screens.night.done')), ...protectionIds().filter((one) => one !== 'carry_in' || tree.litres !== '0').map((one) =>
      tick(id(one), say(`protections.${one}.name`), tree.done.includes(one), (on) => change({done: on ? [...tree.done, one] : tree.done.filter((d) => d !== one)})))),
  ];
  if (all.length > 1)
    fields.push(el('p', {class: 'tools'}, press(id('less'), say('screens.remove'), () => set(all.filter((_, k) => k !== i)), say('screens.night.tree', {n}))));
  return el('fieldset', {class: 'tree'}, el('legend', {}, say('screens.night.tree', {n})), ...fields);
}

export const nightScreen = {
  own: ['low', 'hours', 'before', 'month', 'windy', ...treeKeys],
  low: (state) => (/^-?\d{1,2}(\.\d+)?$/.test(state.own.low ?? '') && Number(state.own.low) >= -40 && Number(state.own.low) <= 5 ? Number(state.own.low) : -4),
  hours: (state) => (/^[1-9][0-9]?$/.test(state.own.hours ?? '') && Number(state.own.hours) <= 72 ? Number(state.own.hours) : 4),
  month: (state) => (/^([0-9]|1[0-2])$/.test(state.own.month ?? '') ? Number(state.own.month) : new Date().getMonth() + 1),
  form(state, go) {
    const own = (change) => go({own: {...state.own, ...change}});
    const us = currentUnits() === 'us', celsius = this.low(state), all = treesOf(state);
    const set = (trees) => {
      const change = Object.fromEntries(treeKeys.map((key, i) => [key, trees[i] ? writeTree(trees[i]) : '']));
      go({own: {...state.own, ...change}, trees: []});
    };
    const befores = wordsOf('screens.night.befores.').sort((a, b) => (a === 'unsaid') - (b === 'unsaid'));
    return [
      measure('low', say('screens.night.low'), us ? Math.round(celsius * 9 / 5 + 32) : Math.round(celsius * 10) / 10,
              us ? {least: -40, most: 41, unit: '°F'} : {least: -40, most: 5, step: 0.5, unit: '°C'},
              (low) => own({low: String(us ? Math.round((low - 32) * 50 / 9) / 10 : low)})),
      measure('hours', say('screens.night.hours'), this.hours(state), {least: 1, most: 72}, (hours) => own({hours: String(hours)})),
      choose('before', say('screens.night.before'), befores.map((one) => [one, say(`screens.night.befores.${one}`)]), state.own.before ?? 'unsaid', (before) => own({before})),
      tick('windy', say('screens.night.windy'), state.own.windy === 'yes', (windy) => own({windy: windy ? 'yes' : ''})),
      choose('month', say('screens.night.month'), Array.from({length: 12}, (_, i) => [String(i + 1), say(`language.months.${i + 1}`)]), String(this.month(state)), (month) => own({month})),
      placeField(state, go),
      ...all.map((tree, i) => treeFields(tree, i, all, set)),
      ...(all.length < mostTrees ? [el('p', {class: 'tools'}, press('more', say('screens.add_tree'), () => set([...all, {...fresh, id: all.at(-1).id}])))] : []),
    ];
  },
  request(state) {
    return {screen: 'night', low_c: this.low(state), hours: this.hours(state), before: state.own.before ?? 'unsaid', windy: state.own.windy === 'yes', month: this.month(state),
            trees: treesOf(state).map((t) => ({id: t.id, rootstock: t.stock, age: Number(t.age), health: t.health, container_l: Number(t.litres),
                                               heavy_crop: t.crop === 'heavy', spot: t.spot, protections: t.done}))};
  },
};
