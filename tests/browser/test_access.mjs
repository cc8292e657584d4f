// The accessibility checker finds nothing: on every page at 1280 px, on one of each kind at 360 px, and
// in every state of the picker.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import {createRequire} from 'node:module';
import {fileUrl, listPages, onePageOfEach, openPage} from './tools.mjs';

const axeSource = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// Best practices and contrast at the stricter level are part of the promise.
const options = {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], resultTypes: ['violations']};

export async function findings(page) {
  await page.evaluate(axeSource);
  const {violations} = await page.evaluate((given) => window.axe.run(document, given), options);
  return violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' | ')}`);
}

export default async function run({site, browser, test}) {
  const pages = (await listPages(site)).filter((path) => path !== 'index.html');
  const views = [[1280, pages], [360, onePageOfEach(pages)]];
  for (const [width, list] of views) {
    const page = await openPage(browser, {viewport: {width, height: 800}});
    for (const path of list) {
      await test(`axe, ${path} at ${width} px`, async () => {
        await page.goto(fileUrl(site, path));
        if (path.split('/').length === 2 && path.endsWith('/index.html')) await page.waitForSelector('html[data-ready]');
        for (const closed of await page.$$('details:not([open])')) await closed.evaluate((element) => { element.open = true; });
        assert.deepEqual(await findings(page), []);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(wide <= 0, `no sideways scrolling: ${wide} px too wide`);
      });
    }
    await page.context().close();
  }
  // Body text keeps a contrast of 7 to 1.
  const page = await openPage(browser);
  for (const path of onePageOfEach(pages)) {
    await test(`contrast of body text, ${path}`, async () => {
      await page.goto(fileUrl(site, path));
      await page.evaluate(axeSource);
      const {violations} = await page.evaluate(() => window.axe.run(document, {runOnly: ['color-contrast-enhanced'], rules: {'color-contrast-enhanced': {enabled: true}}}));
      const text = violations.flatMap((v) => v.nodes).map((n) => n.html.slice(0, 100)).filter((html) => /^<(p|li|td|dd|div)/.test(html));
      assert.deepEqual(text, []);
    });
  }
  await page.context().close();
}
