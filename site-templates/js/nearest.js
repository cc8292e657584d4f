// Names by what was typed: accents and case do not matter, other names count, and a near spelling will do.

export function fold(text) {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, ' ').trim();
}

// Letters to change, leave out, put in or swap with their neighbor until a becomes b; `most` + 1 when more.
export function steps(a, b, most) {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before = [], last = Array.from({length: b.length + 1}, (_, j) => j);
  for (let i = 1; i <= a.length; ++i) {
    const row = [i];
    for (let j = 1; j <= b.length; ++j) {
      row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) row[j] = Math.min(row[j], before[j - 2] + 1);
    }
    if (Math.min(...row) > most) return most + 1;
    before = last;
    last = row;
  }
  return last[b.length];
}

// Faults that a word of so many letters may hold.
function pardoned(length) { return length < 4 ? 0 : length < 7 ? 1 : 2; }

// How well a folded name answers a folded question, 0 (not at all) to 100.
function fits(name, sought, words) {
  if (name === sought) return 100;
  if (name.startsWith(sought)) return 90;
  const parts = name.split(' ');
  if (words.every((word) => parts.some((part) => part.startsWith(word)))) return 80;
  return sought.length > 2 && name.includes(sought) ? 60 : 0;
}
function near(name, sought, words) {
  const parts = name.split(' ');
  const whole = pardoned(sought.length);
  if (whole > 0 && steps(name, sought, whole) <= whole) return 50;
  return words.every((word) => parts.some((part) => steps(part, word, pardoned(word.length)) <= pardoned(word.length))) ? 40 : 0;
}

// {near, entries}: entries of the index that answer, best first, each with the other name that did; `near` when
// nothing is spelled so. An entry is [name, address, kind, other names].
export function find(index, text, most) {
  const sought = fold(text), words = sought.split(' ');
  if (sought === '') return {near: false, entries: []};
  for (const judge of [fits, near]) {
    const hits = [];
    for (const [name, address, kind, also] of index) {
      let best = judge(fold(name), sought, words), by = '';
      for (const other of also) {
        const value = judge(fold(other), sought, words) - 5;
        if (value > best) [best, by] = [value, other];
      }
      if (best > 0) hits.push({name, address, kind, by, best});
    }
    hits.sort((a, b) => b.best - a.best || a.kind - b.kind || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
    if (hits.length > 0) return {near: judge === near, entries: hits.slice(0, most)};
  }
  return {near: false, entries: []};
}
