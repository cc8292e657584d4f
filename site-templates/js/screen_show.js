// Lays out what the engine says, block by block; see view.h for the blocks.
import {drawn, el} from './dom.js';

const cells = (row, first) => [el('th', {scope: 'row'}, first), ...row.map((cell) => el('td', {}, cell))];

function table(block, css) {
  const head = el('tr', {}, el('td', {}), ...block.head.map((text) => el('th', {scope: 'col'}, text)));
  return el('table', {class: css}, block.caption ? el('caption', {}, block.caption) : null, el('thead', {}, head),
            el('tbody', {}, ...block.rows.map(([label, ...rest]) => el('tr', {}, ...cells(rest, label)))));
}

const make = {
  heading: (b) => el(`h${b.level}`, {id: b.id || null}, b.text),
  text: (b) => el('p', {class: b.css || null}, b.text),
  limit: (b) => el('p', {class: b.css}, el('b', {}, b.title), ` ${b.text}`),
  list: (b) => el(b.element, {class: b.css || null}, ...b.items.map((item) => el('li', {}, item))),
  figures: (b) => el('dl', {class: 'figures'}, ...b.rows.map(([label, value, beside]) =>
    el('div', {}, el('dt', {}, label), el('dd', {}, value, beside ? ' ' : '', beside ? el('small', {}, beside) : '')))),
  drawing: (b) => el('figure', {}, el('figcaption', {}, b.title, b.note ? el('small', {}, b.note) : ''), drawn(b.wide), drawn(b.slim),
    el('details', {}, el('summary', {}, b.as_table, el('span', {class: 'off-screen'}, `: ${b.title}`)), table(b, 'grid'))),
  table: (b) => el('div', {class: 'scroll', tabindex: '0', role: 'group', 'aria-label': b.caption}, table(b, 'grid')),
  why: (b) => el('details', {}, el('summary', {}, b.title, el('span', {class: 'off-screen'}, `: ${b.of}`)),
    el('table', {class: 'why'}, el('thead', {class: 'off-screen'}, el('tr', {}, ...b.head.map((text) => el('th', {scope: 'col'}, text)))),
       el('tbody', {}, ...b.rows.map(([label, points, bar, reason]) => el('tr', {}, el('th', {scope: 'row'}, label),
         el('td', {class: 'n'}, points), el('td', {class: 'b'}, drawn(bar)), el('td', {class: 's'}, reason)))))),
  signs: (b) => el('ul', {class: 'signs', 'aria-label': b.label}, ...b.rows.map(([id, sign]) =>
    el('li', {}, el('a', {href: `#care-${id}`, 'data-inside': true}, sign)))),
  cautions: (b) => el('section', {class: 'care', 'aria-labelledby': 'care'}, el('h2', {id: 'care'}, b.title), el('p', {}, b.lede),
    ...b.rows.map(([id, css, sign, text]) => el('div', {id: `care-${id}`, class: css || null, tabindex: '-1'}, el('h3', {}, sign), el('p', {}, text)))),
};

export function showBlocks(into, blocks) {
  const parts = [], open = [];
  const add = (element) => (open.length > 0 ? open.at(-1).append(element) : parts.push(element));
  for (const block of blocks) {
    if (block.is === 'open') {
      const element = el(block.element, {class: block.css || null, 'aria-labelledby': block.label || null});
      add(element);
      open.push(element);
    } else if (block.is === 'close') {
      open.pop();
    } else {
      add(make[block.is](block));
    }
  }
  into.replaceChildren(...parts);
}
