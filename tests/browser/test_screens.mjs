// Compare, yard plan, tonight's freeze and calendar: whole journeys by mouse and by keyboard, wide and narrow,
// from file:// and over http, in every language; the calendar file read by an outside library.
import assert from 'node:assert/strict';
import {readFile} from 'node:fs/promises';
import ICAL from 'ical.js';
import {assertQuiet, fileUrl, listPages, openPage, serve} from './tools.mjs';
import {findings} from './test_access.mjs';

const screens = ['calendar', 'compare', 'night', 'plan'];
const settled = (page) => page.waitForFunction(() => document.documentElement.dataset.ready && document.getElementById('shown').dataset.of === location.hash);
const hashHas = (page, text) => page.waitForFunction((part) => location.hash.includes(part), text);
async function open(page, url) {
  await page.goto('about:blank');
  await page.goto(url);
  await settled(page);
}

// Tab from where the focus is until it stands on what is wanted.
async function tabTo(page, selector) {
  for (let i = 0; i < 120; ++i) {
    if (await page.evaluate((wanted) => document.activeElement.matches(wanted), selector)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never comes to ${selector}`);
}
async function typeInto(page, selector, text) {
  await tabTo(page, selector);
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
  await page.keyboard.press('Tab');
}

const byMouse = {
  add: async (page, id) => { await page.selectOption('#add-tree', id); await page.click('#add-go'); await hashHas(page, id); },
  fill: async (page, selector, text) => { await page.fill(selector, text); await page.dispatchEvent(selector, 'change'); },
  tick: (page, selector) => page.click(selector),
  press: (page, selector) => page.click(selector),
  choose: (page, selector, value) => page.selectOption(selector, value),
};
const byKeyboard = {
  // The list is walked with the arrows; nothing is added on the way.
  add: async (page, id) => {
    await tabTo(page, '#add-tree');
    const before = page.url(), steps = await page.evaluate((wanted) => [...document.getElementById('add-tree').options].findIndex((one) => one.value === wanted), id);
    for (let i = 0; i < steps; ++i) await page.keyboard.press('ArrowDown');
    assert.equal(page.url(), before, 'walking through the list changes nothing');
    assert.equal(await page.inputValue('#add-tree'), id);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await hashHas(page, id);
  },
  fill: typeInto,
  tick: async (page, selector) => { await tabTo(page, selector); await page.keyboard.press('Space'); },
  press: async (page, selector) => { await tabTo(page, selector); await page.keyboard.press('Enter'); },
  choose: async (page, selector, value) => {
    await tabTo(page, selector);
    const [from, to] = await page.evaluate(([at, wanted]) => { const list = document.querySelector(at); return [list.selectedIndex, [...list.options].findIndex((one) => one.value === wanted)]; }, [selector, value]);
    for (let i = from; i < to; ++i) { await page.keyboard.press('ArrowDown'); await settled(page); }
    for (let i = from; i > to; --i) { await page.keyboard.press('ArrowUp'); await settled(page); }
    await page.waitForFunction(([at, wanted]) => document.activeElement.matches(at) && document.activeElement.value === wanted, [selector, value]);
  },
};

// Dates of an event as [first day, last day], by the outside library.
function days(event) {
  assert.ok(event.startDate.isDate && event.endDate.isDate, 'whole days');
  assert.equal(event.startDate.zone.tzid, 'floating', 'without a time zone');
  const last = event.endDate.clone();
  last.adjust(-1, 0, 0, 0);
  return [event.startDate.toString(), last.toString()];
}
export function readCalendar(text) {
  for (const line of text.split('\r\n')) assert.ok(Buffer.byteLength(line) <= 75, `a line of ${Buffer.byteLength(line)} octets`);
  assert.ok(text.endsWith('END:VCALENDAR\r\n') && !/[^\r]\n/.test(text));
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
}

async function checkCalendar(page, press) {
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, '#download')]);
  assert.match(download.suggestedFilename(), /^tenwinters-gannet_quay\.ics$/);
  const text = await readFile(await download.path(), 'utf8');
  assert.match(text.replaceAll('\r\n ', ''), /\r\nNAME;LANGUAGE=\w+:.*Gannet Quay/);
  const events = readCalendar(text), uids = events.map((event) => event.uid);
  assert.equal(new Set(uids).size, uids.length);
  assert.equal(events.length, (await page.$$('#shown .event')).length, 'as many as are listed');
  const byUid = new Map(events.map((event) => [event.uid, event]));
  // catalog/types/satsuma.yaml: bloom March to April; catalog/seasons.yaml: the Gulf's drop, 20 April to 31 May.
  assert.deepEqual(days(byUid.get('bloom-owari-gannet_quay-demo@tenwinters')), ['2027-03-01', '2027-04-30']);
  assert.deepEqual(days(byUid.get('fruit_drop-owari-gannet_quay-demo@tenwinters')), ['2027-04-20', '2027-05-31']);
  // catalog/cultivars/meiwa.yaml: bloom May to September, which has no drop of its own in the sources.
  assert.deepEqual(days(byUid.get('bloom-meiwa-gannet_quay-demo@tenwinters')), ['2027-05-01', '2027-09-30']);
  assert.ok(!byUid.has('fruit_drop-meiwa-gannet_quay-demo@tenwinters'));
  for (const event of events) {
    assert.ok(event.isRecurring() && event.component.getFirstPropertyValue('rrule').freq === 'YEARLY');
    assert.ok(event.summary && !/[[{]/.test(event.summary + event.description));
    assert.match(event.description, /Quillback/, 'whose calendar it is');
    const next = event.iterator();
    next.next();
    assert.equal(next.next().toString().slice(0, 4), '2028', 'again the next year');
    const alarm = event.component.getFirstSubcomponent('valarm');
    assert.equal(alarm.getFirstPropertyValue('trigger').toString(), '-P3D');
  }
  return text;
}

const journeys = {
  async calendar(page, base, hand) {
    await open(page, `${base}calendar.html#place=gannet_quay&year=2027`);
    assert.equal((await page.$$('#shown figure')).length, 0, 'no trees yet');
    await hand.add(page, 'owari');
    await settled(page);
    await hand.add(page, 'meiwa');
    await settled(page);
    await hand.choose(page, '#remind', '3');
    await settled(page);
    assert.equal((await page.$$('#shown figure')).length, 2, 'a strip for each tree');
    await checkCalendar(page, hand.press);
    await hand.press(page, '#less-meiwa');
    await page.waitForFunction(() => !location.hash.includes('meiwa'));
    await settled(page);
    assert.ok(await page.evaluate(() => document.getElementById('form').contains(document.activeElement)), 'the focus stays in the form');
  },
  async compare(page, base, hand) {
    await open(page, `${base}compare.html#place=gannet_quay&sun=full&trees=owari`);
    assert.equal((await page.$$('#shown article')).length, 0, 'one tree is no comparison');
    await hand.add(page, 'meyer');
    await settled(page);
    await hand.add(page, 'minneola');
    await settled(page);
    assert.equal((await page.$$('#shown .side-by-side article')).length, 3);
    assert.equal((await page.$$('#shown figure')).length, 2);
    assert.equal((await page.$$('#shown .against')).length, 2, 'the leader beside each of the others');
    assert.match(await page.textContent('#status'), /\w/);
  },
  async night(page, base, hand) {
    await open(page, `${base}night.html#place=gannet_quay&month=1&t1=owari..2.good.0.open.light.`);
    const mild = await page.textContent('#shown article .no, #shown article .fine');
    await hand.fill(page, '#low', '14');
    await hashHas(page, 'low=-10');
    await settled(page);
    assert.notEqual(await page.textContent('#shown article .no'), mild, 'a colder night does more');
    assert.ok((await page.$$('#shown .steps > li')).length > 0, 'says what helps');
    await hand.choose(page, '#t1-where', '57');
    await hand.tick(page, '#t1-cover');
    await hashHas(page, 'cover');
    await settled(page);
    const signs = await page.$$eval('#shown .care > div', (list) => list.map((one) => one.id));
    for (const caution of ['care-carbon_monoxide', 'care-electric_freeze_protection']) assert.ok(signs.includes(caution), `${caution} among ${signs}`);
    await hand.press(page, '#more');
    await hashHas(page, 't2=');
    await settled(page);
    assert.equal((await page.$$('#shown article')).length, 2);
  },
  async plan(page, base, hand) {
    await open(page, `${base}plan.html#place=gannet_quay&sun=full&planting=ground&n=2`);
    const first = await page.innerHTML('#shown');
    assert.ok((await page.$$('#shown .plan')).length >= 1);
    await hand.fill(page, '#width', '20');
    await hashHas(page, 'width=610');
    await settled(page);
    assert.notEqual(await page.innerHTML('#shown'), first);
    await hand.tick(page, '#walls-north');
    await hashHas(page, 'walls=north');
    await settled(page);
    assert.ok((await page.$$('#shown figure svg .free')).length >= 2, 'what is kept free is drawn');
    const crowns = await page.$$eval('#shown figure', (list) => list.map((one) => [one.querySelectorAll('svg.wide .crown').length, one.querySelectorAll('tbody tr').length]));
    for (const [drawn, listed] of crowns) assert.ok(drawn > 0 && drawn === listed, `${drawn} crowns, ${listed} rows`);
  },
};

export default async function run({site, browser, test}) {
  const host = await serve(site);
  const languages = (await listPages(site)).map((path) => /^([a-z]{2})\/calendar\.html$/.exec(path)?.[1]).filter(Boolean);
  await test('languages', () => assert.ok(languages.includes('en') && languages.includes('es')));
  for (const language of languages)
    for (const [scheme, base] of [['file', fileUrl(site, '')], ['http', host.url]])
      for (const width of [360, 1280])
        for (const [how, hand] of [['mouse', byMouse], ['keyboard', byKeyboard]]) {
          // Over http, which differs in how a page is fetched alone, each hand has one width.
          if (scheme === 'http' && (how === 'mouse') !== (width === 360)) continue;
          for (const screen of screens)
            await test(`${screen} by ${how}: ${language}, ${scheme}, ${width} px`, async () => {
              const page = await openPage(browser, {viewport: {width, height: 800}, acceptDownloads: true});
              await journeys[screen](page, `${base}${language}/`, hand);
              const text = await page.textContent('#screen');
              assert.doesNotMatch(text, /\[[a-z_]+(\.[a-z_0-9-]+)+\]|\{[a-z_]+\}|undefined|NaN/, 'every word is said');
              const [view, content] = await page.evaluate(() => [document.documentElement.clientWidth, document.documentElement.scrollWidth]);
              assert.ok(content <= view, `no sideways scrolling: ${content - view} px too wide`);
              if (scheme === 'file' && how === 'mouse') {
                await page.evaluate(() => { for (const closed of document.querySelectorAll('details')) closed.open = true; });
                assert.deepEqual(await findings(page), []);
              }
              assertQuiet(page, base);
              await page.context().close();
            });
        }

  const page = await openPage(browser, {viewport: {width: 1280, height: 800}});
  await test('from the picker with its answers and its leading trees, and back', async () => {
    await page.goto(`${host.url}en/index.html#place=burdock_hollow&sun=full`);
    await page.waitForFunction(() => document.documentElement.dataset.ready && !document.getElementById('results').hasAttribute('aria-busy'));
    await page.click('#onward a >> nth=0');
    await settled(page);
    assert.match(page.url(), /compare\.html#place=burdock_hollow&sun=full&trees=\w+,\w+/);
    assert.ok((await page.$$('#shown .side-by-side article')).length >= 2);
    await page.click('#form a[href^="index.html#"]');
    await page.waitForURL(/index\.html#place=burdock_hollow&sun=full/);
  });
  await test('the address reopens the same screen; back and forward work', async () => {
    await open(page, `${host.url}en/calendar.html#place=gannet_quay&trees=owari&year=2027`);
    const before = await page.innerHTML('#shown'), url = page.url();
    await page.selectOption('#place', 'burdock_hollow');
    await hashHas(page, 'burdock');
    await settled(page);
    assert.notEqual(await page.innerHTML('#shown'), before);
    await page.goBack();
    await page.waitForURL(url);
    await settled(page);
    assert.equal(await page.innerHTML('#shown'), before);
    await page.goForward();
    await hashHas(page, 'burdock');
    const other = await openPage(browser);
    await open(other, url);
    assert.equal(await other.innerHTML('#shown'), before);
    await other.context().close();
  });
  await test('units and language keep the place, the trees and the answers', async () => {
    await open(page, `${host.url}en/night.html#place=gannet_quay&t1=meyer..3.good.0.open.light.&low=-4`);
    await page.click('#units');
    await hashHas(page, 'units=metric');
    await settled(page);
    assert.equal(await page.inputValue('#low'), '-4');
    await page.click('.language [data-keep-answers]');
    await page.waitForURL(/\/es\/night\.html#.*t1=meyer/);
    await settled(page);
    assert.equal(await page.inputValue('#t1-kind'), 'meyer');
  });
  await test('a strange address does no harm', async () => {
    for (const screen of screens)
      for (const hash of ['#place=nowhere&trees=oak', '#%', '#t1=%3Cimg%20src%3Dx%3E.....&low=hot&hours=1e9', '#trees=owari,owari,,meyer&year=99999&alarm=x&once=%22', '#width=-1&length=x&n=900&stands=oak&walls=up&carry=99&units=zz']) {
        await open(page, `${host.url}en/${screen}.html${hash}`);
        assert.ok((await page.$$('#form select')).length > 0, screen + hash);
        assert.equal(await page.evaluate(() => document.querySelectorAll('#screen img').length), 0);
      }
    assertQuiet(page, host.url);
  });
  await test('nothing is stored', async () => {
    assert.deepEqual(await page.evaluate(() => [localStorage.length, sessionStorage.length, document.cookie]), [0, 0, '']);
  });
  await page.context().close();
  await test('without JavaScript each says what it does and leads to pages worked out ahead', async () => {
    const plain = await openPage(browser, {javaScriptEnabled: false});
    for (const screen of screens) {
      await plain.goto(fileUrl(site, `en/${screen}.html`));
      assert.ok((await plain.textContent('.lede')).length > 40);
      await plain.click('#no-script a');
      await plain.waitForURL(/yards\/index\.html$/);
    }
    await plain.context().close();
  });
  await test('the host was asked for nothing that is not there', () => assert.deepEqual(host.strays, []));
  host.close();
}
