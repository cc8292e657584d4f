// The three shelves, as shelves.mustache shows them on the generated pages.
import {el, drawn, disclosure, forgetUnfilled} from './dom.js';
import {say, count, number, months, chance, nights, sayReason, cultivarName, typeOf, rootstockName, names} from './say.js';

const shelfIds = ['will_do', 'with_work', 'not_here'];
const shownAtOnce = 6;
let whyBar;  // (points, of, most): the engine's drawing

// [{id, kinds: [{type, candidates}]}], kinds and candidates best first.
export function groupByKind(advice) {
  const shelves = shelfIds.map((id) => ({id, kinds: []}));
  for (const candidate of advice.candidates) {
    const kinds = shelves[shelfIds.indexOf(candidate.shelf)].kinds, type = typeOf(candidate.cultivar);
    let kind = kinds.find((known) => known.type === type);
    if (!kind) kinds.push(kind = {type, candidates: []});
    kind.candidates.push(candidate);
  }
  return shelves;
}

export function headline(shelves) {
  const seen = new Set();
  const fresh = (kinds) => kinds.filter((kind) => !seen.has(kind.type) && seen.add(kind.type)).length;
  const will = fresh(shelves[0].kinds), work = fresh(shelves[1].kinds);
  if (will > 0 && work > 0) return count('ui.headline_both', will, {more: work});
  if (will > 0) return count('ui.headline_will', will);
  if (work > 0) return count('ui.headline_work', work);
  return say('ui.headline_none');
}

// The best of the first kinds on the two good shelves.
export function leaders(shelves, most) {
  return shelves.slice(0, 2).flatMap((shelf) => shelf.kinds.map((kind) => kind.candidates[0])).slice(0, most);
}

function limitText(limit) {
  const text = sayReason(limit.reason);
  const rule = limit.reason.args.find((arg) => arg.name === 'rule');
  const words = rule && names().rules?.[rule.id];
  return words ? `${text} ${say('ui.rule_says', {says: words[0], ask: words[1]})}` : text;
}

function limits(list) {
  return list.filter((limit) => limit.verdict !== 'pass').map((limit) => {
    const fails = limit.verdict === 'fail', title = say(`limits.${limit.id}`);
    return el('p', {class: fails ? 'no' : 'open'}, el('b', {}, fails ? `${title}.` : `${say('ui.find_out')} ${title}.`), ` ${limitText(limit)}`);
  });
}

function figures(prospect) {
  const cell = (label, value, range) => el('div', {}, el('dt', {}, say(label)), el('dd', {}, value, range ? ' ' : '', range ? el('small', {}, range) : ''));
  const {good_harvests: harvests, alive_at_ten: alive, work_nights: work} = prospect;
  const low = number(harvests.low, 1), high = number(harvests.high, 1);
  return el('dl', {class: 'figures'},
            cell('ui.fig_harvests', number(harvests.best, 1), low === high ? '' : say('ui.range', {low, high})),
            cell('ui.fig_alive', chance(alive.best), ''), cell('ui.fig_nights', nights(work.best), ''),
            cell('ui.fig_ripe', prospect.ripe_from_month ? months(prospect.ripe_from_month * 100 + prospect.ripe_to_month) : say('ui.never'), ''));
}

function why(candidate) {
  const most = Math.max(...candidate.contributions.map((one) => one.of));
  const rows = candidate.contributions.map((one) => el('tr', {}, el('th', {scope: 'row'}, say(`criteria.${one.criterion}`)),
    el('td', {class: 'n'}, `${one.points} / ${one.of}`), el('td', {class: 'b'}, drawn(whyBar(one.points, one.of, most))),
    el('td', {class: 's'}, sayReason(one.reason))));
  const heads = ['ui.why_criterion', 'ui.why_of', 'ui.why_bar', 'ui.why_reason'].map((key) => el('th', {scope: 'col'}, say(key)));
  const parts = [el('table', {class: 'why'}, el('thead', {class: 'off-screen'}, el('tr', {}, ...heads)), el('tbody', {}, ...rows))];
  if (candidate.notes.length > 0)
    parts.push(el('h4', {}, say('ui.notes_title')), el('ul', {class: 'notes'}, ...candidate.notes.map((note) => el('li', {}, sayReason(note)))));
  return parts;
}

function others(candidates, label) {
  const heads = ['ui.col_name', 'ui.col_harvests', 'ui.col_alive', 'ui.col_nights', 'ui.col_points'].map((key) => el('th', {scope: 'col'}, say(key)));
  const rows = candidates.map((one) => el('tr', {},
    el('th', {scope: 'row'}, el('a', {href: `cultivars/${one.cultivar}.html`}, cultivarName(one.cultivar))),
    el('td', {}, number(one.prospect.good_harvests.best, 1)), el('td', {}, chance(one.prospect.alive_at_ten.best)),
    el('td', {}, nights(one.prospect.work_nights.best)), el('td', {}, String(one.points))));
  return [el('div', {class: 'scroll', tabindex: '0', role: 'group', 'aria-label': label},
             el('table', {class: 'grid'}, el('thead', {}, el('tr', {}, ...heads)), el('tbody', {}, ...rows)))];
}

export function stockLine(candidate) {
  const stock = rootstockName(candidate.rootstock);
  if (!candidate.protection || candidate.protection === 'none') return say('ui.on_stock', {stock});
  return say('ui.on_stock_with', {stock, care: say(`protections.${candidate.protection}.name`)});
}

function signs(ids, label) {
  return el('ul', {class: 'signs', 'aria-label': label},
            ...ids.map((id) => el('li', {}, el('a', {href: `#care-${id}`, 'data-inside': true}, say(`cautions.${id}.sign`)))));
}

// Cautions that hold for the best of every kind on a shelf of two or more: said once, above them.
function commonCautions(shelf) {
  if (shelf.id === 'not_here' || shelf.kinds.length < 2) return [];
  const all = shelf.kinds.map((kind) => kind.candidates[0].cautions);
  return all[0].filter((id) => all.every((own) => own.includes(id)));
}

function article(kind, shelf, said) {
  const best = kind.candidates[0], name = say(`types.${kind.type}.name`), here = shelf.id !== 'not_here';
  const out = el('article', {id: `${shelf.id}-${kind.type}`}, el('h3', {}, el('a', {href: `types/${kind.type}.html`}, name)));
  if (here) {
    out.append(el('p', {class: 'best'}, say('ui.best'), ' ', el('a', {href: `cultivars/${best.cultivar}.html`}, el('b', {}, cultivarName(best.cultivar))),
                  `, ${stockLine(best)}`), figures(best.prospect));
  } else {
    out.append(el('p', {class: 'best'}, say(`types.${kind.type}.line`)));
  }
  out.append(...limits(best.limits));
  if (here) {
    const own = best.cautions.filter((id) => !said.includes(id));
    if (own.length > 0) out.append(signs(own, say('ui.cautions_title')));
    out.append(disclosure(say('ui.why_points', {n: best.points}), name, () => why(best)));
  }
  if (kind.candidates.length > 1) {
    const label = count('ui.others', kind.candidates.length - 1);
    out.append(disclosure(label, name, () => others(kind.candidates.slice(1), `${label}: ${name}`)));
  }
  return out;
}

function cautionSection(shelves) {
  const ids = new Set(shelves.slice(0, 2).flatMap((shelf) => shelf.kinds.flatMap((kind) => kind.candidates.flatMap((one) => one.cautions))));
  if (ids.size === 0) return null;
  const grave = ['high', 'medium', 'low'], severity = (id) => grave.indexOf(names().cautions[id]);
  return el('section', {class: 'care', 'aria-labelledby': 'care'}, el('h2', {id: 'care'}, say('ui.cautions_title')), el('p', {}, say('ui.cautions_lede')),
            ...[...ids].sort().sort((a, b) => severity(a) - severity(b)).map((id) => el('div', {id: `care-${id}`, class: severity(id) === 0 ? 'grave' : null, tabindex: '-1'},
              el('h3', {}, say(`cautions.${id}.sign`)), el('p', {}, say(`cautions.${id}.text`)))));
}

export function showResults(into, advice, shelves, drawBar) {
  whyBar = drawBar;
  forgetUnfilled();
  const parts = advice.yard.length > 0 ? limits(advice.yard.map((limit) => limit)) : [];
  if (advice.notes.length > 0) parts.push(el('ul', {class: 'notes'}, ...advice.notes.map((note) => el('li', {}, sayReason(note)))));
  for (const shelf of shelves) {
    const section = el('section', {class: `shelf ${shelf.id}`, 'aria-labelledby': `shelf-${shelf.id}`},
      el('h2', {id: `shelf-${shelf.id}`}, say(`shelves.${shelf.id}`), ' ', el('span', {class: 'count'}, count('ui.kinds', shelf.kinds.length))));
    if (shelf.kinds.length === 0) section.append(el('p', {class: 'none'}, say('ui.shelf_empty')));
    const said = commonCautions(shelf);
    if (said.length > 0) section.append(el('p', {class: 'for-all'}, say('ui.cautions_for_all')), signs(said, say('ui.cautions_for_all')));
    section.append(...shelf.kinds.slice(0, shownAtOnce).map((kind) => article(kind, shelf, said)));
    const rest = shelf.kinds.slice(shownAtOnce);
    if (rest.length > 0)
      section.append(disclosure(count('ui.show_rest', rest.length), say(`shelves.${shelf.id}`), () => rest.map((kind) => article(kind, shelf, said))));
    parts.push(section);
  }
  into.replaceChildren(...parts, cautionSection(shelves) ?? '');
}
