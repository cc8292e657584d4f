// node browser.mjs SITE_DIR [PLACE]: what the picker weighs and how quick it is, in real Chromium, each figure beside its limit.
import {readFile} from 'node:fs/promises';
import {join, resolve} from 'node:path';
import {gzipSync} from 'node:zlib';
import {listPages, openBrowser, openPage, serve} from '../browser/tools.mjs';
import {keepFigure} from './figures.mjs';

if (!process.argv[2]) {
  console.error('usage: node browser.mjs SITE_DIR');
  process.exit(2);
}
const site = resolve(process.argv[2]), browser = await openBrowser(), host = await serve(site);
const place = process.argv[3] ?? 'gannet_quay';
const tell = (what, figure, limit, unit) => {
  if (limit) keepFigure(`${place}: ${what.replace(/:.*| of \d+$/, '')}`, figure, limit, unit, 'limit');
  console.log(`${what.padEnd(52)} ${figure.toFixed(1).padStart(8)} ${unit}${limit ? `  ${(figure / limit).toFixed(2)} of ${limit} ${unit}` : ''}`);
};
const packed = async (path) => {
  const bytes = await readFile(path);
  return (/\.woff2$/.test(path) ? bytes.length : gzipSync(bytes, {level: 9}).length) / 1024;
};

{
  const page = await openPage(browser);
  await page.goto(`${host.url}en/index.html#place=${place}`);
  await page.waitForSelector('html[data-ready]');
  const sizes = [];
  for (const path of new Set(page.requests.map((url) => new URL(url).pathname.slice('/some/where/'.length))))
    sizes.push([path.split('/').at(-1), await packed(join(site, path))]);
  tell('picker and everything it needs, compressed', sizes.reduce((sum, [, size]) => sum + size, 0), 150, 'KB');
  for (const [name, size] of sizes.sort((a, b) => b[1] - a[1])) tell(`  ${name}`, size, 0, 'KB');
  await page.context().close();
}
{
  let largest = ['', 0];
  for (const path of await listPages(site)) {
    const size = await packed(join(site, path));
    if (size > largest[1]) largest = [path, size];
  }
  tell(`largest page, compressed: ${largest[0]}`, largest[1], 100, 'KB');
}
{
  const page = await openPage(browser, {viewport: {width: 360, height: 800}});
  const client = await page.context().newCDPSession(page);
  await client.send('Emulation.setCPUThrottlingRate', {rate: 4});
  await page.goto(`${host.url}en/index.html#place=${place}`);
  await page.waitForSelector('html[data-ready]');
  const [paint, answer] = await page.evaluate(() => [performance.getEntriesByName('first-contentful-paint')[0].startTime, performance.getEntriesByName('first-answer')[0].startTime]);
  tell("first paint, at a quarter of the machine's speed", paint, 0, 'ms');
  tell("first answer, at a quarter of the machine's speed", answer, 0, 'ms');
  await page.context().close();
}
{
  // From the click until the short list is up to date.
  const page = await openPage(browser, {viewport: {width: 1280, height: 800}});
  await page.goto(`${host.url}en/index.html#place=${place}`);
  await page.waitForSelector('html[data-ready]');
  await page.waitForFunction(() => !document.getElementById('results').hasAttribute('aria-busy'));
  const times = await page.evaluate(async () => {
    const out = [];
    for (let i = 0; i < 30; ++i) {
      const choice = document.querySelectorAll('#ask .choice')[i % 2];
      if (!choice) break;
      const started = performance.now();
      choice.click();
      document.getElementById('short-list').getBoundingClientRect();  // laid out, too
      out.push(performance.now() - started);
      do await new Promise((done) => setTimeout(done, 20)); while (document.getElementById('results').hasAttribute('aria-busy'));
    }
    return out;
  });
  times.sort((a, b) => a - b);
  tell(`answer to updated list, median of ${times.length}`, times[times.length >> 1], 16, 'ms');
  tell('answer to updated list, slowest', times.at(-1), 0, 'ms');
  await page.context().close();
}
host.close();
await browser.close();
