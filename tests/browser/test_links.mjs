// Every page: every link, fragment and asset resolves; no id twice; no word left unfilled.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import {join, posix} from 'node:path';
import {listFiles, listPages} from './tools.mjs';

function attributes(html, names) {
  const found = [];
  for (const match of html.matchAll(new RegExp(`\\s(${names})="([^"]*)"`, 'g'))) found.push(match[2].replaceAll('&amp;', '&').replaceAll('&#39;', "'"));
  return found;
}

export default async function run({site, test}) {
  const pages = await listPages(site), files = new Set(await listFiles(site));
  await test('there is a site', () => assert.ok(pages.length > 50, `${pages.length} pages`));
  const texts = new Map(), ids = new Map();
  for (const path of pages) {
    const html = await readFile(join(site, path), 'utf8');
    texts.set(path, html);
    ids.set(path, attributes(html, 'id'));
  }
  const linked = new Set(['index.html']);
  for (const path of pages) {
    const html = texts.get(path);
    await test(`links of ${path}`, () => {
      const seen = ids.get(path);
      assert.equal(new Set(seen).size, seen.length, `ids are unique: ${seen.filter((id, i) => seen.indexOf(id) !== i)}`);
      for (const link of attributes(html, 'href|src')) {
        if (/^(https?:|data:|mailto:|tel:)/.test(link)) continue;
        const [target, fragment] = link.split('#');
        const file = target === '' ? path : posix.normalize(posix.join(posix.dirname(path), target));
        assert.ok(!file.startsWith('..'), `${link} stays in the site`);
        assert.ok(files.has(file), `${link} leads to a file`);
        linked.add(file);
        if (fragment && !fragment.includes('=')) assert.ok(ids.get(file).includes(fragment), `${link} has its fragment`);
      }
      for (const label of attributes(html, 'aria-labelledby').flatMap((list) => list.split(' ')))
        assert.ok(seen.includes(label), `aria-labelledby ${label}`);
    });
    await test(`words of ${path}`, () => {
      const text = html.replace(/<[^>]*>/g, ' ');
      assert.doesNotMatch(text, /\[[a-z_]+(\.[a-z_0-9-]+)+\]/, 'no word is missing');
      assert.doesNotMatch(text, /\{[a-z_]+\}/, 'no argument is left unfilled');
      assert.doesNotMatch(text, /\b(nan|inf|undefined|null)\b/, 'no figure is missing');
      assert.match(html, /http-equiv="Content-Security-Policy"/);
      assert.match(html, /<html lang="[a-z]{2}">/);
    });
  }
  await test('every page can be reached', () => assert.deepEqual(pages.filter((path) => !linked.has(path)), []));
}
