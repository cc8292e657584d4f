// The picker: whole journeys by mouse and by keyboard, wide and narrow, from file:// and over http, with
// and without JavaScript.
import assert from 'node:assert/strict';
import {assertQuiet, fileUrl, listPages, openPage, serve} from './tools.mjs';
import {findings} from './test_access.mjs';

const settled = (page) => page.waitForFunction(() => !document.getElementById('results').hasAttribute('aria-busy'));
const ready = async (page) => {
  await page.waitForSelector('html[data-ready]');
  await settled(page);
};
const question = (page) => page.textContent('#ask-title');

// Answers questions until none is left; `press` chooses the nth choice. Returns the questions asked.
async function answerAll(page, press) {
  const asked = [];
  for (let i = 0; i < 40; ++i) {
    const ask = await question(page);
    const choices = await page.$$('#ask .choice');
    if (choices.length === 0) return asked;
    assert.ok(!asked.includes(ask), `"${ask}" is asked once`);
    asked.push(ask);
    await press(choices, asked.length);
    await page.waitForFunction((before) => document.getElementById('ask-title').textContent !== before, ask);
    await settled(page);
  }
  throw new Error(`the interview does not end: ${asked.length} questions`);
}

// Past the point where the best three are settled, to the very last question. Returns all that were asked.
async function answerOn(page, asked, press, goOn) {
  const total = (await page.evaluate(() => window.tenwintersWords.questions)).length;
  assert.ok(asked.length >= 2 && asked.length < total, `settled after ${asked.length} of ${total} questions`);
  await goOn(await page.$('#ask-rest'));
  await page.waitForSelector('#ask .choice');
  return [...asked, ...await answerAll(page, press)];
}

async function checkCertainty(page) {
  const lines = await page.$$eval('#sure-text p', (list) => list.map((p) => p.textContent));
  assert.ok(lines.length >= 2, 'it says how sure it is');
  for (const line of lines) assert.doesNotMatch(line, /[{}[\]]|undefined|NaN/);
  const shares = (lines[0].match(/\d+/g) ?? []).map(Number);
  assert.ok(shares.length >= 3 && shares.every((share) => share >= 0 && share <= 100), lines[0]);
}

async function checkResults(page) {
  const shelves = await page.$$eval('#results .shelf', (list) => list.map((s) => s.className));
  assert.deepEqual(shelves, ['shelf will_do', 'shelf with_work', 'shelf not_here']);
  assert.ok((await page.$$('#results article')).length > 5, 'kinds are listed');
  const sums = await page.$$eval('#results article details', (list) => list.map((d) => { d.open = true; return d; }).length);
  assert.ok(sums > 0, 'each kind says why');
  await page.waitForSelector('#results table.why');
  const tables = await page.$$eval('#results article', (list) => list.flatMap((a) => {
    const table = a.querySelector('table.why');
    if (!table) return [];
    const said = Number(/\d+/.exec(a.querySelector('summary').textContent)[0]);
    return [[said, [...table.querySelectorAll('.n')].reduce((sum, cell) => sum + parseInt(cell.textContent, 10), 0)]];
  }));
  assert.ok(tables.length > 0);
  for (const [said, sum] of tables) assert.equal(sum, said, 'the why bar adds up to the score shown');
}

export default async function run({site, browser, test}) {
  const host = await serve(site);
  const languages = (await listPages(site)).map((path) => /^([a-z]{2})\/index\.html$/.exec(path)?.[1]).filter(Boolean);
  await test('languages', () => assert.ok(languages.includes('en')));
  const bases = [['file', fileUrl(site, '')], ['http', host.url]];
  for (const language of languages) {
    for (const [scheme, base] of bases) {
      for (const width of [360, 1280]) {
        const name = `${language}, ${scheme}, ${width} px`;
        await test(`by mouse: ${name}`, async () => {
          const page = await openPage(browser, {viewport: {width, height: 800}});
          await page.goto(`${base}${language}/index.html`);
          await ready(page);
          const box = await page.locator('#ask .choice').first().boundingBox();
          assert.ok(box.y + box.height < 800, 'the first question is on the first screen');
          const press = (choices) => choices[0].click();
          const settledAfter = await answerAll(page, press);
          await checkCertainty(page);
          const asked = await answerOn(page, settledAfter, press, (button) => button.click());
          assert.ok(asked.length >= 10, `${asked.length} questions`);
          await checkResults(page);
          assertQuiet(page, base);
          if (scheme === 'file') assert.deepEqual(await findings(page), []);
          await page.context().close();
        });
        await test(`by keyboard: ${name}`, async () => {
          const page = await openPage(browser, {viewport: {width, height: 800}});
          await page.goto(`${base}${language}/index.html`);
          await ready(page);
          // From the top: Tab to the first choice; after an answer the focus waits at the next question.
          for (let i = 0; i < 30 && !(await page.evaluate(() => document.activeElement.classList.contains('choice'))); ++i) await page.keyboard.press('Tab');
          let first = true;
          const press = async (choices, number) => {
            if (!first) {
              await page.waitForFunction(() => document.activeElement.id === 'ask-title');
              await page.keyboard.press('Tab');
            }
            first = false;
            assert.ok(await page.evaluate(() => document.activeElement.classList.contains('choice')), 'Tab leads to the first choice');
            if (number % 3 === 0) await page.keyboard.press('Tab');
            await page.keyboard.press('Enter');
          };
          const asked = await answerOn(page, await answerAll(page, press), press, async () => {
            await page.waitForFunction(() => document.activeElement.id === 'ask-title');
            await page.keyboard.press('Tab');
            assert.equal(await page.evaluate(() => document.activeElement.id), 'ask-rest');
            await page.keyboard.press('Enter');
          });
          assert.ok(asked.length >= 10, `${asked.length} questions`);
          await checkResults(page);
          assertQuiet(page, base);
          await page.context().close();
        });
      }
    }
  }

  const page = await openPage(browser, {viewport: {width: 1280, height: 800}});
  const start = `${host.url}en/index.html`;
  await test('the address reopens the same result; back and forward work', async () => {
    await page.goto(start);
    await ready(page);
    await page.click('#ask .choice >> nth=1');
    await page.click('#ask .choice >> nth=0');
    await settled(page);
    const asked = await question(page), results = await page.innerHTML('#results'), address = page.url();
    assert.match(address, /#place=[a-z_]+&sun=full$/);
    await page.goBack();
    await page.waitForFunction((before) => document.getElementById('ask-title').textContent !== before, asked);
    assert.doesNotMatch(page.url(), /sun=/);
    await page.goForward();
    await page.waitForFunction((text) => document.getElementById('ask-title').textContent === text, asked);
    await settled(page);
    assert.equal(await page.innerHTML('#results'), results);
    const other = await openPage(browser);
    await other.goto(address);
    await ready(other);
    assert.equal(await other.innerHTML('#results'), results);
    assert.equal(await question(other), asked);
    await other.context().close();
  });
  await test('an answer can be changed in place', async () => {
    await page.goto('about:blank');
    await page.goto(`${start}#place=gannet_quay&sun=little`);
    await ready(page);
    assert.ok((await page.$$('#results > .no')).length > 0, 'too little sun is a no, first');
    assert.equal((await page.$$('#results .will_do article')).length, 0);
    await page.click('#answer-list div >> nth=1 >> button');
    assert.equal(await page.getAttribute('#ask .choice >> nth=3', 'aria-pressed'), 'true');
    await page.click('#ask .choice >> nth=0');
    await page.waitForFunction(() => location.hash.includes('sun=full'));
    await settled(page);
    assert.ok((await page.$$('#results .shelf:not(.not_here) article')).length > 0);
  });
  await test('a yard for which nothing is left says so, and why', async () => {
    await page.goto('about:blank');
    await page.goto(`${start}#place=burdock_hollow&sun=full&drainage=slow&planting=pot_small&indoors=stays_out&winter_work=no_work`);
    await ready(page);
    assert.equal((await page.$$('#results .shelf:not(.not_here) article')).length, 0);
    assert.ok((await page.$$('#results .not_here article .no')).length > 5, 'each kind says what is against it');
    assert.equal((await page.$$('#short-list li a')).length, 0);
  });
  await test('"don\'t know" is an answer', async () => {
    await page.goto('about:blank');
    await page.goto(`${start}#place=gannet_quay`);
    await ready(page);
    const before = await page.innerHTML('#results'), ask = await question(page);
    await page.click('#ask .choice.unsure');
    await page.waitForFunction((text) => document.getElementById('ask-title').textContent !== text, ask);
    await settled(page);
    assert.equal(await page.innerHTML('#results'), before, 'it leaves the ranking as it was');
  });
  await test('units switch and keep the answers', async () => {
    await page.goto('about:blank');
    await page.goto(`${start}#place=gannet_quay&sun=little`);
    await ready(page);
    await page.click('#units');
    await page.waitForFunction(() => location.hash.includes('units=metric'));
    await page.click('#answer-list div >> nth=1 >> button');
    assert.match(page.url(), /sun=little/);
  });
  await test('the language switch keeps the answers', async () => {
    if (languages.length < 2) return assert.equal(languages.length, 1);
    await page.goto('about:blank');
    await page.goto(`${start}#place=gannet_quay&sun=full`);
    await ready(page);
    await page.click('[data-keep-answers]');
    await page.waitForURL(/\/es\/index\.html#place=gannet_quay&sun=full$/);
  });
  await test('a strange address does no harm', async () => {
    for (const hash of ['#place=nowhere', '#place=gannet_quay&sun=%3Cimg%20src%3Dx%3E', '#%', '#sun=full', '#place=gannet_quay&place=x&units=zz']) {
      await page.goto('about:blank');
      await page.goto(start + hash);
      await ready(page);
      assert.ok((await page.$$('#ask .choice')).length > 1, hash);
    }
    assertQuiet(page, host.url);
  });
  await test('nothing is stored', async () => {
    assert.deepEqual(await page.evaluate(() => [localStorage.length, sessionStorage.length, document.cookie]), [0, 0, '']);
    assert.deepEqual(await page.context().cookies(), []);
  });
  await page.context().close();

  await test('without JavaScript the first screen leads to answers worked out ahead', async () => {
    const plain = await openPage(browser, {javaScriptEnabled: false, viewport: {width: 360, height: 800}});
    await plain.goto(fileUrl(site, 'en/index.html'));
    const box = await plain.locator('#ask .choice').first().boundingBox();
    assert.ok(box.y + box.height < 800);
    await plain.click('#ask .choice >> nth=0');
    await plain.click('.ready-list a >> nth=0');
    await plain.waitForLoadState();  // a click waits for the next page to begin, not to end
    assert.ok((await plain.$$('.shelf article')).length > 5, 'a ranked page');
    await plain.click('.shelf article h3 a >> nth=0');
    await plain.waitForLoadState();
    assert.ok((await plain.$$('table.facts')).length > 0, 'a page about the kind');
    assertQuiet(plain, fileUrl(site, ''));
    await plain.context().close();
  });
  await test('the pre-ranked page and the picker agree', async () => {
    const view = await openPage(browser);
    const yards = (await listPages(site)).filter((path) => /^en\/yards\/.+-.+\.html$/.test(path));
    assert.ok(yards.length >= 8, `${yards.length} pre-ranked pages`);
    const read = () => [...document.querySelectorAll('.shelf')].map((shelf) => [shelf.className, [...shelf.querySelectorAll('article')].map((a) => [
      a.id, a.querySelector('.best').textContent.trim().replace(/\s+/g, ' '), [...a.querySelectorAll('.figures dd')].map((d) => d.textContent.trim().replace(/\s+/g, ' ')),
      [...a.querySelectorAll('.no, .open')].map((p) => p.textContent.trim().replace(/\s+/g, ' '))])]);
    for (const path of yards) {
      await view.goto(fileUrl(site, path));
      const printed = await view.evaluate(read);
      await view.click('a[href*="index.html#place="]');
      await ready(view);
      for (const closed of await view.$$('.shelf > details')) await closed.evaluate((element) => { element.open = true; });
      await view.waitForFunction(() => [...document.querySelectorAll('.shelf > details')].every((d) => d.querySelector('article')));
      assert.deepEqual(await view.evaluate(read), printed, path);
    }
    await view.context().close();
  });
  await test('the host was asked for nothing that is not there', () => assert.deepEqual(host.strays, []));
  host.close();
}
