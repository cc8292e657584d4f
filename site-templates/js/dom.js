// Elements, made by hand: el('p', {class: 'no'}, 'text', otherElement). Text is never read as HTML.

export function el(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === 'click') element.addEventListener('click', value);
    else if (value !== false && value !== null) element.setAttribute(name, value === true ? '' : value);
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

// What the engine drew; its drawings hold nothing that a visitor wrote.
export function drawn(svg) { return new DOMParser().parseFromString(svg, 'text/html').body.firstElementChild; }

const unfilled = new Set();
// A disclosure whose inside is made when it is first opened, or before printing.
export function disclosure(summary, context, fill) {
  const details = el('details', {}, el('summary', {}, summary, el('span', {class: 'off-screen'}, `: ${context}`)));
  const make = () => {
    if (!unfilled.delete(make)) return;
    details.append(...fill());
  };
  unfilled.add(make);
  details.addEventListener('toggle', make);
  return details;
}
export function fillAll() { for (const make of [...unfilled]) make(); }
export function forgetUnfilled() { unfilled.clear(); }

// The answers stand in the address after '#': a link to a caution further down must not disturb them.
export function keepAnswersInAddress() {
  document.addEventListener('click', (event) => {
    const inside = event.target.closest('[data-inside]');
    if (!inside) return;
    event.preventDefault();
    const target = document.getElementById(inside.getAttribute('href').slice(1));
    target.scrollIntoView();
    target.focus();
  });
}
