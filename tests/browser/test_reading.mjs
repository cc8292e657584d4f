// The pages to be read: search by any name and near spelling, the reckoner, and how calls, guides and the pollen
// table stand up to zoom, chosen colours, stilled motion and paper. Also what programs read of every page.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import {join} from 'node:path';
import {assertQuiet, fileUrl, listPages, openPage, serve} from './tools.mjs';
import {findings} from './test_access.mjs';

const found = (page) => page.$$eval('#found a', (list) => list.map((a) => a.textContent));
const says = (page) => page.textContent('#found-says');

async function openSearch(browser, base, language, options = {}) {
  const page = await openPage(browser, options);
  await page.goto(`${base}${language}/search.html`);
  await page.waitForSelector('html[data-ready]');
  return page;
}
async function seek(page, text) {
  await page.fill('#sought', text);
  await page.press('#sought', 'Enter');
}

const kinds = ['calls/index.html', 'calls/few-fruit.html', 'calls/small-fruit-falls.html', 'calls/pick-tonight.html', 'pollen.html',
               'before-you-buy.html', 'planting-and-care.html', 'search.html'];

export default async function run({site, browser, test}) {
  const base = fileUrl(site, ''), pages = await listPages(site);
  const languages = [...new Set(pages.filter((path) => path.includes('/')).map((path) => path.split('/')[0]))];

  await test('search finds names, other names, misspellings and near spellings, in both languages', async () => {
    // What is typed, and a name among the first three that answer.
    const asked = {en: [['owari', 'Owari'], ['Owary', 'Owari'], ['satsma', 'Satsumas'], ['bergamotte', 'Bergamot'], ['limon persa', 'Tahiti limes'], ['yellow leaves', 'The leaves are turning yellow. What does it need?'],
                        ['hole test', 'Water and the hole test'], ['flying dragn', 'Flying Dragon'], ['naranja agria', 'Sour oranges']],
                   es: [['toronja', 'Toronjas'], ['limon amarillo', 'Limones amarillos'], ['LIMÓN persa', 'Limones persas'], ['grapefruit', 'Toronjas'], ['polen', 'Tabla de polen'], ['minneola', 'Minneola'], ['satsumma', 'Satsumas']]};
    for (const language of languages) {
      const page = await openSearch(browser, base, language);
      for (const [text, name] of asked[language] ?? []) {
        await seek(page, text);
        const names = (await found(page)).slice(0, 3);
        assert.ok(names.includes(name), `${language} "${text}": ${names.join(', ')}`);
        assert.match(await says(page), /\d/, 'the number found is told');
        assert.doesNotMatch(await page.textContent('#found'), /\[|\{|undefined/);
      }
      await seek(page, 'xyzzyxyzzy');
      assert.deepEqual(await found(page), []);
      assert.doesNotMatch(await says(page), /\d/);
      await seek(page, '');
      assert.ok(await page.isVisible('#az'), 'with nothing sought the list from A to Z is back');
      assertQuiet(page, base);
      await page.context().close();
    }
  });

  await test('search by keyboard alone, and its address reopens it', async () => {
    const page = await openSearch(browser, base, 'en', {viewport: {width: 360, height: 700}});
    for (let i = 0; i < 40 && await page.evaluate(() => document.activeElement.id) !== 'sought'; ++i) await page.keyboard.press('Tab');
    await page.keyboard.type('minneolla');
    await page.waitForFunction(() => document.querySelector('#found a'));
    await page.keyboard.press('Enter');
    assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Minneola', 'Enter moves to the first entry');
    assert.match(page.url(), /#q=minneolla$/);
    assert.deepEqual(await findings(page), []);
    await page.keyboard.press('Enter');
    await page.waitForURL(/cultivars\/minneola\.html$/);
    await page.goBack();
    await page.waitForSelector('html[data-ready]');
    assert.equal((await found(page))[0], 'Minneola', 'coming back shows it again');
    await page.context().close();
  });

  await test('search over http loads nothing but its own, and works offline once open', async () => {
    const host = await serve(site);
    const page = await openSearch(browser, host.url, 'es');
    assertQuiet(page, host.url);
    const before = page.requests.length;
    await page.context().setOffline(true);
    await seek(page, 'kumkuat');
    assert.ok((await found(page)).some((name) => /kumquat/i.test(name)), String(await found(page)));
    // The browser itself asks for the icon again when the address changes.
    assert.deepEqual(page.requests.slice(before).filter((url) => !url.includes('/assets/icon-')), []);
    assert.deepEqual(host.strays, []);
    await page.context().close();
    host.close();
  });

  await test('without JavaScript: every name from A to Z, the tables, no dead form', async () => {
    for (const language of languages) {
      const page = await openPage(browser, {javaScriptEnabled: false});
      await page.goto(`${base}${language}/search.html`);
      assert.ok(!await page.isVisible('#find'));
      const links = await page.locator('#az ul.columns a').count();
      const cultivars = pages.filter((path) => path.startsWith(`${language}/cultivars/`) && !path.endsWith('index.html')).length;
      assert.ok(cultivars > 50 && links > cultivars, `${links} links`);
      await page.goto(`${base}${language}/calls/few-fruit.html`);
      assert.ok(!await page.isVisible('#reckon'));
      assert.equal(await page.locator('.local table tbody tr').count(), 4);
      await page.context().close();
    }
  });

  await test('the reckoner agrees with the table under it', async () => {
    const page = await openPage(browser);
    await page.goto(`${base}en/calls/few-fruit.html`);
    await page.waitForSelector('html[data-ready]');
    for (const row of await page.$$eval('.local table tbody tr', (rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent)))) {
      await page.fill('#flowers', row[0]);
      const text = await page.textContent('#reckoned'), [low, high] = row[2].split(' to ');
      assert.deepEqual(text.match(/[\d,]+/g).map((n) => n.replace(/,$/, '')), [row[1], low, high], text);
    }
    for (const wrong of ['many', '-3', '', '1e9', '99999999']) {
      await page.fill('#flowers', wrong);
      assert.equal(await page.getAttribute('#flowers', 'aria-invalid'), 'true', wrong);
    }
    await page.press('#flowers', 'Enter');
    assert.match(page.url(), /few-fruit\.html$/, 'nothing is sent');
    assertQuiet(page, base);
    await page.context().close();
  });

  await test('at 200 and 400 percent nothing is cut off sideways', async () => {
    for (const width of [640, 320]) {  // of 1280 px
      const page = await openPage(browser, {viewport: {width, height: 400}});
      for (const language of languages)
        for (const path of kinds) {
          await page.goto(`${base}${language}/${path}`);
          await page.evaluate(() => { for (const closed of document.querySelectorAll('details')) closed.open = true; });
          const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
          assert.ok(over <= 0, `${language}/${path} at ${width} px: ${over} px too wide`);
        }
      await page.context().close();
    }
  });

  await test('text of twice the size still fits', async () => {
    const page = await openPage(browser, {viewport: {width: 360, height: 700}});
    for (const path of kinds) {
      await page.goto(`${base}en/${path}`);
      await page.evaluate(() => { document.documentElement.style.setProperty('font-size', '32px'); });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(over <= 0, `${path}: ${over} px too wide`);
    }
    await page.context().close();
  });

  await test('with colours chosen by the reader every mark of a drawing is drawn in them', async () => {
    const page = await openPage(browser, {forcedColors: 'active'});
    for (const path of ['pollen.html', 'calls/small-fruit-falls.html']) {
      await page.goto(`${base}en/${path}`);
      const [text, own] = await page.evaluate(() => {
        const svg = [...document.querySelectorAll('figure svg')].find((one) => getComputedStyle(one).display !== 'none');
        const label = getComputedStyle(svg.querySelector('text')).fill, body = getComputedStyle(document.body).color;
        return [label, body];
      });
      assert.equal(text, own, path);
      const leaf = await page.evaluate(() => getComputedStyle([...document.querySelectorAll('figure svg.wide .f-leaf')][0]).fill);
      assert.equal(leaf, own, `${path}: the solid mark`);
    }
    await page.context().close();
  });

  await test('motion is stilled for those who ask, and paper has no forms', async () => {
    const page = await openPage(browser, {reducedMotion: 'reduce'});
    for (const path of kinds) {
      await page.goto(`${base}en/${path}`);
      assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), 'auto');
      await page.emulateMedia({media: 'print'});
      const seen = await page.evaluate(() => [...document.querySelectorAll('form, .top nav, .letters, .contents')].filter((one) => getComputedStyle(one).display !== 'none').map((one) => one.className));
      assert.deepEqual(seen, [], path);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(over <= 0, path);
      await page.emulateMedia({media: null});
    }
    await page.context().close();
  });

  await test('what programs read: address, languages, structure', async () => {
    for (const path of pages.filter((one) => one.includes('/'))) {
      const html = await readFile(join(site, path), 'utf8'), inside = path.split('/').slice(1).join('/');
      const canonical = /<link rel="canonical" href="([^"]+)"/.exec(html)?.[1];
      if (!canonical) return;  // the office states no address
      assert.ok(canonical.endsWith(`/${path}`), canonical);
      const home = canonical.slice(0, -path.length);
      const alternates = [...html.matchAll(/<link rel="alternate" hreflang="([^"]+)" href="([^"]+)"/g)].map(([, code, href]) => [code, href]);
      assert.deepEqual(new Map(alternates), new Map([...languages.map((code) => [code, `${home}${code}/${inside}`]), ['x-default', home]]), path);
      // As HTML has it: the properties of an item are those inside it and inside no item between.
      const kind = /<body [^>]*itemtype="https:\/\/schema\.org\/(\w+)"/.exec(html)[1];
      for (const [property, value] of [['name', null], ['description', null], ['inLanguage', path.split('/')[0]]]) {
        const said = new RegExp(`<meta itemprop="${property}" content="([^"]+)"`).exec(html)?.[1];
        assert.ok(said && (value === null || said === value), `${path}: ${property}`);
      }
      assert.ok(html.includes(`<link itemprop="url" href="${canonical}">`), path);
      const asks = inside.startsWith('calls/') && !inside.endsWith('index.html');
      assert.equal(kind, asks ? 'FAQPage' : 'WebPage', path);
      if (asks) assert.match(html, /schema\.org\/Question">\s*<h1 itemprop="name">[^<]+<\/h1>\s*<div itemprop="acceptedAnswer" itemscope itemtype="https:\/\/schema\.org\/Answer">\s*<div itemprop="text">\s*<p class="lede">[^<]+/, path);
      if (/^(types|cultivars)\/(?!index)/.test(inside)) assert.match(html, /schema\.org\/Taxon"><meta itemprop="name" content="[^"]+"><meta itemprop="alternateName" content="Citrus [^"]+"/, path);
      for (const property of ['og:title', 'og:description', 'og:url', 'og:type', 'og:site_name']) assert.match(html, new RegExp(`<meta property="${property}" content="[^"]+"`), path);
    }
  });
}
