// node hostile.mjs FOLDER: opens what tests/hostile left in FOLDER (site/ and handouts/), with an alarm for any
// script that came in with a text; exit 1 when anything fails.
//
// The pages' own policy is switched off here: it would stop such a script, and with it hide that it got in.
import assert from 'node:assert/strict';
import {join} from 'node:path';
import {fileUrl, listPages, onePageOfEach, openBrowser, openPage} from './tools.mjs';

const [folder] = process.argv.slice(2);
if (!folder) {
  console.error('usage: node hostile.mjs FOLDER');
  process.exit(2);
}
const browser = await openBrowser();
let passed = 0, failed = 0;
async function test(name, run) {
  try {
    await run();
    ++passed;
  } catch (error) {
    ++failed;
    console.log(`FAILED ${name}\n  ${String(error?.message ?? error).split('\n').slice(0, 25).join('\n  ')}`);
  }
}

// Runs in the page: what no text may have made.
const strays = () => {
  const found = [];
  const tell = (element, why) => found.push(`${why}: ${element.outerHTML.slice(0, 160)}`);
  for (const element of document.querySelectorAll('*')) {
    for (const {name, value} of element.attributes) {
      if (name.startsWith('on') || name === 'style' || name === 'srcdoc') tell(element, name);
      if (['href', 'src', 'action', 'xlink:href'].includes(name) && /^\s*(javascript|vbscript|data:text)/i.test(value)) tell(element, name);
    }
    if (['IFRAME', 'OBJECT', 'EMBED', 'IMG', 'BASE'].includes(element.tagName)) tell(element, 'element');
    if (element.tagName === 'SCRIPT' && !/^file:.*\/site\/assets\/[a-z0-9_.-]+\.js$/i.test(element.src)) tell(element, 'script');
    if (element.tagName === 'STYLE') tell(element, 'style');
  }
  return {found, alarms: window.alarms, text: document.body.textContent};
};

async function open(width = 360) {
  const page = await openPage(browser, {bypassCSP: true, viewport: {width, height: 800}});
  await page.addInitScript(() => {
    window.alarms = [];
    window.alarm = (...what) => window.alarms.push(what.join(' ') || 'alarm');
    for (const name of ['alert', 'confirm', 'prompt']) window[name] = window.alarm;
  });
  return page;
}

async function assertHarmless(page) {
  const {found, alarms, text} = await page.evaluate(strays);
  assert.deepEqual(alarms, [], 'no script ran');
  assert.deepEqual(found.slice(0, 5), [], 'nothing was made by a text');
  const outside = page.requests.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'));
  assert.deepEqual(outside, [], 'nothing was asked for outside');
  return text;
}

// The alarm itself must ring, or nothing below means anything.
await test('the alarm rings', async () => {
  const page = await open();
  await page.goto(fileUrl(join(folder, 'site'), 'en/sources.html'));
  await page.evaluate(() => { document.body.insertAdjacentHTML('beforeend', '<img src=x onerror=alarm()>'); });
  await page.waitForFunction(() => window.alarms.length > 0);
  assert.equal((await page.evaluate(strays)).found.length, 2);
  await page.context().close();
});

const seen = new Set();
for (const [part, path] of [['site', ''], ['handouts', '']]) {
  const root = join(folder, part), pages = await listPages(root);
  await test(`there are pages in ${part}`, () => assert.ok(pages.length > 2));
  const closely = new Set(onePageOfEach(pages)), page = await open();
  for (const name of pages) {
    await test(`${part}/${name}`, async () => {
      page.requests.length = 0;
      await page.goto(fileUrl(root, name));
      if (name === 'index.html') await page.waitForURL(/\/[a-z]{2}\/index\.html$/);
      if (await page.$('script[src]')) await page.waitForSelector('html[data-ready]');
      await page.evaluate(() => { for (const closed of document.querySelectorAll('details')) closed.open = true; });
      const text = await assertHarmless(page);
      for (const [mark] of text.matchAll(/hq\d+q/g)) seen.add(mark);
      // A sheet for print has the width of its paper.
      if (part === 'site' && closely.has(name) && !name.includes('/print/')) {
        const [view, content] = await page.evaluate(() => [document.documentElement.clientWidth, document.documentElement.scrollWidth]);
        assert.ok(content <= view, `a very long word makes ${name} ${content - view} px too wide at ${view} px`);
      }
    });
  }
  await page.context().close();
}
await test('the texts are there to be read', () => assert.ok(seen.size > 1500, `${seen.size} marks seen`));

// The page that runs the engine: every question answered, everything opened.
for (const language of ['en', 'es']) {
  await test(`the picker, ${language}`, async () => {
    const page = await open();
    await page.goto(fileUrl(join(folder, 'site'), `${language}/index.html`));
    await page.waitForSelector('html[data-ready]');
    for (let step = 0; step < 40; ++step) {
      const choice = await page.$('#ask .choices .choice');
      if (!choice || !await choice.isVisible()) break;
      await choice.click();
      await page.waitForTimeout(80);
      await assertHarmless(page);
    }
    await page.waitForSelector('#results .shelf');
    await page.evaluate(() => { for (const closed of document.querySelectorAll('details')) closed.open = true; });
    await page.waitForTimeout(200);
    await page.evaluate(() => { for (const closed of document.querySelectorAll('details')) closed.open = true; });
    const text = await assertHarmless(page);
    assert.match(text, /hq\d+q/);
    await page.context().close();
  });
}

// What somebody else put into the address.
const tricks = ['"><img src=x onerror=alarm()>', "javascript:alarm()", '<script>alarm()</script>', '__proto__', 'constructor', '%', '%E0%A4%A', '\u202E', 'x'.repeat(50000), '../../', '\u0000'];
await test('a hostile address', async () => {
  const page = await open(), start = fileUrl(join(folder, 'site'), 'en/index.html');
  for (const trick of tricks)
    for (const key of ['place', 'sun', 'units', 'yard', trick]) {
      page.troubles.length = 0;
      await page.goto('about:blank');
      await page.goto(`${start}#place=gannet_quay&${encodeURIComponent(key)}=${trick.startsWith('%') ? trick : encodeURIComponent(trick)}`);
      await page.waitForSelector('html[data-ready]');
      await assertHarmless(page);
      assert.deepEqual(page.troubles.filter((trouble) => !/net::|Content Security/.test(trouble)), [], `${key}=${trick.slice(0, 40)}`);
    }
  await page.context().close();
});

await browser.close();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
