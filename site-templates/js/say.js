// Words and figures for the reader, as tools/lib/texts.h says them on the generated pages.

const data = window.tenwintersWords;
let units = data.units;

// {a: {b: 'text'}} -> {'a.b': 'text'}
function flat(section, start = '', all = {}) {
  for (const [name, inside] of Object.entries(section))
    if (typeof inside === 'string') all[start + name] = inside;
    else flat(inside, `${start}${name}.`, all);
  return all;
}
data.words = flat(data.words);

export function names() { return data; }
export function currentUnits() { return units; }
export function useUnits(chosen) { units = chosen === 'us' || chosen === 'metric' ? chosen : data.units; }

export function has(key) { return Object.hasOwn(data.words, key); }
export function say(key, fills = {}) {
  if (!has(key)) console.error(`no words for ${key}`);
  const text = has(key) ? data.words[key] : `[${key}]`;
  // One pass, and no string as a replacement: what is filled in is never read as a text to be filled, or as a pattern.
  return text.replace(/\{(\w+)\}/g, (whole, name) => Object.hasOwn(fills, name) ? fills[name] : whole);
}
// The form of a text for a number as it is shown: KEY, else KEY.one or KEY.other.
function form(key, shown) {
  if (has(key)) return key;
  return shown === '1' && has(`${key}.one`) ? `${key}.one` : `${key}.other`;
}
function measureIn(unit, shown) { return say(form(`units.${unit}`, shown), {v: shown}); }
export function count(key, n, fills = {}) { return say(`${key}.${n === 1 ? 'one' : 'other'}`, {...fills, n}); }

export function number(value, digits) {
  const text = Math.abs(value).toFixed(digits);
  return (value < 0 && /[1-9]/.test(text) ? '\u2212' : '') + text.replace('.', say('language.decimal'));
}
// As few digits as the figure has, at most one.
function plain(value) { return number(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1); }

const us = {
  celsius: ['fahrenheit', (v) => number(v * 9 / 5 + 32, 0)],
  celsius_difference: ['fahrenheit_difference', (v) => plain(v * 9 / 5)],
  metres: ['feet', (v) => number(v / 0.3048, 0)],
  litres: ['gallons', (v) => number(v / 3.785411784, 0)],
};
const metric = {
  celsius: ['celsius', (v) => number(v, 0)],
  celsius_difference: ['celsius_difference', plain],
  metres: ['metres', (v) => number(v, 1)],
  litres: ['litres', (v) => number(v, 0)],
};

export function months(code) {
  const from = Math.floor(code / 100), to = code % 100;
  const first = say(`language.months.${from}`);
  return from === to ? first : say('units.month_range', {from: first, to: say(`language.months.${to}`)});
}

export function placeName(id) { return data.places.find((place) => place.id === id)?.name ?? id; }
export function cultivarName(id) { return data.cultivars[id]?.[0] ?? id; }
export function typeOf(id) { return data.cultivars[id]?.[1] ?? ''; }
export function rootstockName(id) { return data.rootstocks[id] ?? id; }

function sayArg(arg) {
  const measure = (units === 'us' ? us : metric)[arg.kind];
  if (measure) return measureIn(measure[0], measure[1](arg.number));
  switch (arg.kind) {
    case 'count': return plain(arg.number);
    case 'hours':
    case 'years': return measureIn(arg.kind, plain(arg.number));
    case 'percent': return measureIn('percent', number(arg.number, 0));
    case 'months': return months(arg.number);
    case 'word': return say(`enums.${arg.id}`);
    case 'cultivar': return cultivarName(arg.id);
    case 'type': return say(`types.${arg.id}.name`);
    case 'rootstock': return rootstockName(arg.id);
    case 'question': return say(`questions.${arg.id}.ask`);
    case 'answer': return say(`questions.${arg.id.replace('.', '.answers.')}`);
    case 'place': return placeName(arg.id);
    case 'protection': return say(`protections.${arg.id}.name`);
    default: return (arg.name === 'rule' && data.rules?.[arg.id]?.[0]) || arg.id;
  }
}

export function sayReason(reason) {
  const fills = {};
  for (const arg of reason.args) fills[arg.name] = sayArg(arg);
  return say(form(`reasons.${reason.id}`, fills.n), fills);
}

export function chance(share) {
  const hundredths = Math.round(share * 100);
  if (share > 0 && hundredths === 0) return say('ui.chance_under', {n: 1});
  if (share < 1 && hundredths === 100) return say('ui.chance_over', {n: 99});
  return say('ui.chance', {n: hundredths});
}

export function nights(value) {
  const whole = Math.round(value);
  if (whole === 0) return say(value >= 0.05 ? 'ui.nights_rare' : 'ui.nights_none');
  return count('ui.nights', whole);
}
