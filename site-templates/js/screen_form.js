// The parts of a screen's form. Each is given its present value and what to do with a new one.
import {el} from './dom.js';
import {say, count, names, cultivarName, typeOf} from './say.js';

const field = (id, label, control, under) =>
  el('p', {class: 'field'}, el('label', {for: id}, label), control, under ? el('span', {class: 'under', id: `${id}-under`}, under) : null);

// options: [[value, text], ...], or [[group, [[value, text], ...]], ...]
export function choose(id, label, options, value, changed) {
  const option = ([one, text]) => {
    const made = el('option', {value: one}, text);
    made.selected = one === value;
    return made;
  };
  const control = el('select', {id}, ...options.map((one) => (Array.isArray(one[1]) ? el('optgroup', {label: one[0]}, ...one[1].map(option)) : option(one))));
  control.addEventListener('change', () => changed(control.value));
  return field(id, label, control);
}

export function measure(id, label, value, {least, most, step = 1, unit = ''}, changed) {
  const control = el('input', {id, type: 'number', inputmode: step < 1 || least < 0 ? null : 'numeric', min: least, max: most, step, value});
  control.addEventListener('change', () => { if (control.value !== '' && control.checkValidity()) changed(Number(control.value)); else control.reportValidity(); });
  return el('p', {class: 'field'}, el('label', {for: id}, label), el('span', {class: 'measure'}, control, unit ? el('span', {}, unit) : null));
}

export function tick(id, label, value, changed) {
  const control = el('input', {id, type: 'checkbox'});
  control.checked = value;
  control.addEventListener('change', () => changed(control.checked));
  return el('p', {class: 'field tick'}, control, el('label', {for: id}, label));
}

export function press(id, text, click, about) { return el('button', {type: 'button', id, 'aria-label': about ? `${text}: ${about}` : null, click}, text); }

export function placeField(state, go) {
  return choose('place', say('screens.place'), names().places.map((place) => [place.id, place.name]), state.place, (place) => go({place}));
}

// How many of the picker's questions are answered, and the way to them.
export function yardField(state, address) {
  const n = Object.values(state.answers).filter((answer) => answer !== 'dont_know').length;
  return el('p', {class: 'field'}, el('span', {class: 'label'}, say('screens.your_yard')),
            el('span', {}, `${count('screens.answers_given', n)}: `, el('a', {href: `index.html${address}`}, say('screens.answers_change'))));
}

// Every cultivar, by kind, less those in `without`.
export function cultivarOptions(without) {
  const kinds = new Map();
  for (const id of Object.keys(names().cultivars)) {
    if (without.includes(id)) continue;
    const kind = say(`types.${typeOf(id)}.name`);
    if (!kinds.has(kind)) kinds.set(kind, []);
    kinds.get(kind).push([id, cultivarName(id)]);
  }
  return [...kinds].sort(([a], [b]) => a.localeCompare(b, names().words['language.code']))
      .map(([kind, list]) => [kind, list.sort(([, a], [, b]) => a.localeCompare(b, names().words['language.code']))]);
}

// The chosen trees, each to be taken away, and one more to be added.
export function treesField(label, trees, most, changed, more = say('screens.add_tree')) {
  const list = el('ul', {class: 'chosen'}, ...trees.map((id) => el('li', {}, el('span', {}, `${cultivarName(id)} `, el('span', {class: 'under'}, say(`types.${typeOf(id)}.name`))),
    el('button', {type: 'button', class: 'link', id: `less-${id}`, 'aria-label': say('screens.remove_what', {what: cultivarName(id)}),
                  click: () => changed(trees.filter((one) => one !== id))}, say('screens.remove')))));
  const parts = [el('legend', {}, label)];
  if (trees.length > 0) parts.push(list);
  if (trees.length < most) {
    const choice = choose('add-tree', more, [['', say('screens.choose_tree')], ...cultivarOptions(trees)], '', () => {});
    // By a button of its own: whoever walks through the list with the keyboard must not add each tree on the way.
    const add = press('add-go', say('screens.add'), () => { const id = choice.querySelector('select').value; if (id) changed([...trees, id]); });
    parts.push(choice, el('p', {class: 'tools'}, add));
  }
  return el('fieldset', {}, ...parts);
}
