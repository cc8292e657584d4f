// node site_peer.mjs MODELS TEMPLATES OURS OUT: the pages of the site once more, by mustache and commonmark from npm.
//
// MODELS is what tenwinters_models prints, TEMPLATES the folder of the templates, OURS the site as the program built it.
// Prints as JSON how long rendering alone took, the best of several rounds, and the whole once: reading, rendering,
// writing to OUT. Every page must be ours to the byte; exit status 1 if one is not.
import {mkdirSync, readFileSync, writeFileSync} from 'node:fs';
import {dirname, join} from 'node:path';
import * as commonmark from 'commonmark';
import Mustache from 'mustache';

const [modelsPath, templatesFolder, ours, out] = process.argv.slice(2);
if (!out) {
  console.error('usage: node site_peer.mjs MODELS TEMPLATES OURS OUT');
  process.exit(2);
}
const kRounds = 5;
const now = () => performance.now();

function read(name, files) {
  if (!files.has(name)) files.set(name, readFileSync(join(templatesFolder, name), 'utf8'));
  return files.get(name);
}
// A template with its parts put in; indentation, blank lines and comments taken out, as the program does it.
function inline(name, files, out = {text: '', lineBegins: true}) {
  const text = read(name, files);
  let at = 0;
  for (const tag of text.matchAll(/\{\{\{[^}]*\}\}\}|\{\{[^}]*\}\}/g)) {
    copy(text.slice(at, tag.index), out);
    at = tag.index + tag[0].length;
    const inside = tag[0].slice(2, -2).trim();
    if (inside.startsWith('>')) inline(`${inside.slice(1).trim()}.mustache`, files, out);
    else if (!inside.startsWith('!')) {
      out.text += tag[0];
      out.lineBegins = false;
    }
  }
  copy(text.slice(at), out);
  return out;
}
function copy(text, out) {
  for (const c of text) {
    if (out.lineBegins && (c === ' ' || c === '\t' || c === '\n')) continue;
    out.text += c;
    out.lineBegins = c === '\n';
  }
}

const escapes = {'&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;'};
const escape = (text) => String(text).replace(/[&<>"']/g, (c) => escapes[c]);

const parser = new commonmark.Parser({smart: true});
const renderer = new commonmark.HtmlRenderer({smart: true, safe: true});
function html(markdown) {
  const document = parser.parse(markdown);
  for (let node = document.firstChild; node; node = node.next)
    if (node.type === 'heading') node.level = Math.min(6, node.level + 2);
  return renderer.render(document);
}

function tree(words) {
  const root = {};
  for (const [key, text] of Object.entries(words)) {
    const path = key.split('.');
    let at = root;
    for (const part of path.slice(0, -1)) at = at[part] ??= {};
    at[path.at(-1)] = text;
  }
  return root;
}

function load() {
  const data = JSON.parse(readFileSync(modelsPath, 'utf8'));
  const languages = new Map();
  for (const [code, {words, prose}] of Object.entries(data.languages)) languages.set(code, {words: new Mustache.Context(tree(words)), prose});
  // A place for prose becomes a function, which is called when the page is rendered.
  const revive = (value, prose) => {
    if (Array.isArray(value)) return value.map((item) => revive(item, prose));
    if (value === null || typeof value !== 'object') return value;
    if ('$prose' in value) return () => prose[value.$prose] === undefined ? '' : html(prose[value.$prose]);
    for (const key of Object.keys(value)) value[key] = revive(value[key], prose);
    return value;
  };
  const files = new Map(), forms = new Map();
  const pages = data.pages.map(({path, form, language, model}) => {
    if (!forms.has(form)) forms.set(form, inline(form, files).text);
    return {path, template: forms.get(form), language: languages.get(language), model: revive(model, languages.get(language).prose)};
  });
  return pages;
}

const writer = new Mustache.Writer();
const render = (page) => writer.render(page.template, page.language.words.push(page.model), undefined, {escape});

const began = now();
const pages = load();
const loaded = now();
const texts = pages.map(render);
const rendered = now();
for (const [i, page] of pages.entries()) {
  const path = join(out, page.path);
  mkdirSync(dirname(path), {recursive: true});
  writeFileSync(path, texts[i]);
}
const written = now();
let best = rendered - loaded;
for (let round = 1; round < kRounds; ++round) {
  const start = now();
  pages.map(render);
  best = Math.min(best, now() - start);
}
const differing = pages.filter((page, i) => texts[i] !== readFileSync(join(ours, page.path), 'utf8')).map((page) => page.path);
console.log(JSON.stringify({pages: pages.length, bytes: texts.reduce((sum, text) => sum + Buffer.byteLength(text), 0), load: loaded - began, first: rendered - loaded,
                            best, write: written - rendered, whole: written - began, differing: differing.length}));
if (differing.length > 0) {
  console.error(`${differing.length} pages differ, the first is ${differing[0]}`);
  process.exit(1);
}
