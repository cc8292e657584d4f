// Every page, opened once at 360 px: nothing on its console, no request outside the site, no sideways
// scrolling, no finding of the accessibility checker on how it is built, with all disclosures open.
//
// What the checker measures (contrast, size of targets, links told from text) is measured on some: no page
// may style itself, as its policy forbids it, so that what stands in one class looks alike on all. These
// pages together hold every kind of page and every element of every class in each language; they are
// checked by every rule at 360 and at 1280 px, and for a contrast of 7 to 1 in body text.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import {join} from 'node:path';
import {createRequire} from 'node:module';
import {assertQuiet, fileUrl, listPages, onePageOfEach, openPage, share} from './tools.mjs';

const axeSource = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// Best practices are part of the promise. Without preloading: it would fetch the style sheet a second time,
// which the pages' policy forbids, for a rule on the orientation of screens that the style sheet does not ask about.
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const options = {runOnly: tags, resultTypes: ['violations'], preload: false};
const measured = ['color-contrast', 'target-size', 'link-in-text-block', 'scrollable-region-focusable'];
const built = {...options, rules: Object.fromEntries(measured.map((rule) => [rule, {enabled: false}]))};
const strict = {runOnly: ['color-contrast-enhanced'], rules: {'color-contrast-enhanced': {enabled: true}}, resultTypes: ['violations'], preload: false};

// What is off the screen is laid out only when scrolled to; the checker measures, so it must all be laid out.
const layOut = () => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync('* { content-visibility: visible !important }');
  document.adoptedStyleSheets = [sheet];
};

async function violations(page, given) {
  await page.evaluate(layOut);
  if (!await page.evaluate(() => Boolean(window.axe))) await page.evaluate(axeSource);
  return (await page.evaluate((chosen) => window.axe.run(document, chosen), given)).violations;
}

export async function findings(page, given = options) {
  return (await violations(page, given)).map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' | ')}`);
}

// One page of each kind, and more until every element of every class is among them, language by language.
async function pagesToLookAtClosely(site, pages) {
  const chosen = new Set(onePageOfEach(pages)), seen = new Set();
  const marks = async (path) => [...(await readFile(join(site, path), 'utf8')).matchAll(/<([a-z0-9]+)[^>]*? class="([^"]+)"/g)]
      .flatMap(([, tag, names]) => names.split(' ').map((name) => `${path.split('/')[0]} ${tag}.${name}`));
  for (const path of chosen) for (const mark of await marks(path)) seen.add(mark);
  for (const path of pages) {
    const fresh = (await marks(path)).filter((mark) => !seen.has(mark));
    if (fresh.length > 0) chosen.add(path);
    for (const mark of fresh) seen.add(mark);
  }
  return chosen;
}

async function assertFits(page) {
  const [view, content] = await page.evaluate(() => [document.documentElement.clientWidth, document.documentElement.scrollWidth]);
  assert.ok(content <= view, `no sideways scrolling: ${content - view} px too wide at ${view} px`);
}

const wide = {width: 1280, height: 800}, narrow = {width: 360, height: 800};

export default async function run({site, browser, test}) {
  const pages = await listPages(site), closely = await pagesToLookAtClosely(site, pages);
  console.log(`  ${pages.length} pages, ${closely.size} of them looked at closely`);
  const open = async () => {
    const page = await openPage(browser, {viewport: narrow});
    await page.addInitScript({content: axeSource});
    return page;
  };
  await share(pages, 2, open, (page, path) => test(path, async () => {
    page.troubles.length = page.requests.length = 0;
    await page.goto(fileUrl(site, path));
    if (path === 'index.html') return page.waitForURL(/\/[a-z]{2}\/index\.html$/);
    if (await page.$('script[src]')) await page.waitForSelector('html[data-ready]');
    await page.evaluate(() => { for (const closed of document.querySelectorAll('details')) closed.open = true; });
    await assertFits(page);
    assert.deepEqual(await findings(page, closely.has(path) ? options : built), []);
    assertQuiet(page, fileUrl(site, ''));
    if (!closely.has(path)) return;
    await page.setViewportSize(wide);
    await assertFits(page);
    assert.deepEqual(await findings(page), [], 'at 1280 px');
    const text = (await violations(page, strict)).flatMap((v) => v.nodes).map((n) => n.html.slice(0, 100)).filter((html) => /^<(p|li|td|dd|div)/.test(html));
    assert.deepEqual(text, [], 'contrast of body text');
    await page.setViewportSize(narrow);
  }));
}
