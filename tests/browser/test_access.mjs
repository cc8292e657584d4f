// Every page, opened once: nothing on its console, no request outside the site, no finding of the
// accessibility checker with every disclosure open, no sideways scrolling wide or narrow. One page of
// each kind is checked at 360 px too, and for a contrast of 7 to 1 in body text.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import {createRequire} from 'node:module';
import {assertQuiet, fileUrl, listPages, onePageOfEach, openPage, share} from './tools.mjs';

const axeSource = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// Best practices are part of the promise. Without preloading: it would fetch the style sheet a second time,
// which the pages' policy forbids, for a rule on the orientation of screens that the style sheet does not ask about.
const options = {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], resultTypes: ['violations'], preload: false};
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

export async function findings(page) {
  return (await violations(page, options)).map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' | ')}`);
}

async function assertFits(page) {
  const [view, content] = await page.evaluate(() => [document.documentElement.clientWidth, document.documentElement.scrollWidth]);
  assert.ok(content <= view, `no sideways scrolling: ${content - view} px too wide at ${view} px`);
}

const wide = {width: 1280, height: 800}, narrow = {width: 360, height: 800};

export default async function run({site, browser, test}) {
  const pages = await listPages(site), closer = new Set(onePageOfEach(pages));
  await share(pages, 2, async () => {
    const page = await openPage(browser, {viewport: wide});
    await page.addInitScript({content: axeSource});
    return page;
  }, (page, path) => test(path, async () => {
    page.troubles.length = page.requests.length = 0;
    await page.goto(fileUrl(site, path));
    if (path === 'index.html') return page.waitForURL(/\/[a-z]{2}\/index\.html$/);
    if (/^[a-z]{2}\/index\.html$/.test(path)) await page.waitForSelector('html[data-ready]');
    await page.evaluate(() => { for (const closed of document.querySelectorAll('details:not([open])')) closed.open = true; });
    await assertFits(page);
    assert.deepEqual(await findings(page), []);
    if (closer.has(path)) {
      const text = (await violations(page, strict)).flatMap((v) => v.nodes).map((n) => n.html.slice(0, 100)).filter((html) => /^<(p|li|td|dd|div)/.test(html));
      assert.deepEqual(text, [], 'contrast of body text');
    }
    await page.setViewportSize(narrow);
    await assertFits(page);
    if (closer.has(path)) assert.deepEqual(await findings(page), [], 'at 360 px');
    await page.setViewportSize(wide);
    assertQuiet(page, fileUrl(site, ''));
  }));
}
