// The yard plan: the plot, how many trees, what stands there.
import {el} from './dom.js';
import {say, count, names, currentUnits} from './say.js';
import {choose, measure, placeField, tick, treesField, yardField} from './screen_form.js';

const sides = ['north', 'east', 'south', 'west'], mostPlanned = 8;
const whole = (text, least, most, otherwise) => (/^\d{1,5}$/.test(text ?? '') && Number(text) >= least && Number(text) <= most ? Number(text) : otherwise);
const listed = (text, known) => [...new Set((text ?? '').split(','))].filter(known);

export const planScreen = {
  slow: true,
  own: ['width', 'length', 'n', 'stands', 'walls', 'lines', 'carry'],
  // Centimetres, as the address has them.
  width: (state) => whole(state.own.width, 50, 12000, 914),
  length: (state) => whole(state.own.length, 50, 12000, 1219),
  sides: (state, key) => listed(state.own[key], (side) => sides.includes(side)),
  stands: (state) => listed(state.own.stands, (id) => Object.hasOwn(names().cultivars, id)).slice(0, mostPlanned),
  form(state, go, address) {
    const own = (change) => go({own: {...state.own, ...change}});
    const us = currentUnits() === 'us', cm = us ? 30.48 : 100;
    const range = us ? {least: 2, most: 393, unit: say('screens.plan.feet')} : {least: 0.5, most: 120, step: 0.1, unit: say('screens.plan.metres')};
    const shown = (value) => (us ? Math.round(value / cm) : Math.round(value / 10) / 10);
    const length = (key) => measure(key, say(`screens.plan.${key}`), shown(this[key](state)), range, (value) => own({[key]: String(Math.round(value * cm))}));
    const along = (key) => el('fieldset', {class: 'sides'}, el('legend', {}, say(`screens.plan.${key}`)), ...sides.map((side) => {
      const now = this.sides(state, key);
      return tick(`${key}-${side}`, say(`screens.plan.sides.${side}`), now.includes(side), (on) => own({[key]: sides.filter((one) => (one === side ? on : now.includes(one))).join(',')}));
    }));
    const carries = [['', say('screens.plan.carry_any')], ...[0, 1, 2, 3].map((n) => [String(n), count('screens.plan.carry_most', n)])];
    return [
      placeField(state, go), yardField(state, address), length('width'), length('length'),
      measure('n', say('screens.plan.count'), whole(state.own.n, 1, mostPlanned, 3), {least: 1, most: mostPlanned}, (n) => own({n: String(n)})),
      treesField(say('screens.plan.existing'), this.stands(state), mostPlanned, (stands) => own({stands: stands.join(',')}), say('screens.plan.add_existing')),
      along('walls'), along('lines'),
      choose('carry', say('screens.plan.carry'), carries, state.own.carry ?? '', (carry) => own({carry})),
    ];
  },
  request(state) {
    return {screen: 'plan', width_cm: this.width(state), length_cm: this.length(state), trees_at_most: whole(state.own.n, 1, mostPlanned, 3), existing: this.stands(state),
            walls: this.sides(state, 'walls'), lines: this.sides(state, 'lines'), ...(whole(state.own.carry, 0, 8, -1) >= 0 ? {carry: Number(state.own.carry)} : {})};
  },
};
