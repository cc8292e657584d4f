// node watch.mjs PROGRAM: an open page follows `tenwinters site --watch` by itself; exit 1 when it does not.
// See tests/watch/README.md for what is tested without a browser.
import assert from 'node:assert/strict';
import {spawn} from 'node:child_process';
import {cp, mkdtemp, readFile, rm, writeFile} from 'node:fs/promises';
import {tmpdir} from 'node:os';
import {join, resolve} from 'node:path';
import {fileURLToPath} from 'node:url';
import {openBrowser, openPage} from './tools.mjs';

const program = process.argv[2];
if (!program) {
  console.error('usage: node watch.mjs PROGRAM [FOLDER_FOR_PICTURES]');
  process.exit(2);
}
const pictures = process.argv[3];
const kLong = 60000;  // far longer than any step takes
const source = fileURLToPath(new URL('../../', import.meta.url));
const folder = await mkdtemp(join(tmpdir(), 'tenwinters-watch-'));
for (const name of ['catalog', 'site-templates']) await cp(join(source, name), join(folder, name), {recursive: true});
const words = join(folder, 'catalog/words/en.yaml');
const edit = async (from, to) => {
  const text = await readFile(words, 'utf8');
  assert.ok(text.includes(from), `the words hold "${from}"`);
  await writeFile(words, text.replace(from, to));
};

const watch = spawn(resolve(program), ['--today', '2026-12-01', 'site', '--out', 'out', '--watch'], {cwd: folder});
let log = '';
const ended = new Promise((done) => watch.on('exit', done));
const address = new Promise((done, fail) => {
  watch.stdout.on('data', (text) => {
    log += text;
    const found = log.match(/http:\/\/127\.0\.0\.1:\d+\//);
    if (found) done(found[0]);
  });
  watch.on('exit', () => fail(new Error(`the watch has ended: ${log}`)));
});
watch.stderr.on('data', (text) => { log += text; });

let failed = 0;
const browser = await openBrowser();
try {
  const base = await address, page = await openPage(browser, {viewport: {width: 360, height: 800}});
  const shows = (text) => page.waitForFunction((wanted) => document.querySelector('header .title')?.textContent.includes(wanted), text, {timeout: kLong});
  const faults = page.locator('#live-faults');

  await page.goto(`${base}en/sources.html`);  // perhaps while the first build is under way
  await shows('Which citrus for your yard');
  await edit('site_title: "Which citrus for your yard', 'site_title: "Which citrus for this yard');
  await shows('Which citrus for this yard');
  assert.equal(await page.title().then((title) => title.includes('for this yard')), true);
  assert.equal(await faults.count(), 0);

  await edit('site_title: "Which', 'site_title: "{ <b>Which</b>');
  await faults.waitFor({timeout: kLong});
  assert.match(await faults.textContent(), /catalog\/words\/en\.yaml:\d+:\d+: /, 'the fault is shown on the open page');
  assert.equal(await faults.locator('b').count(), 0, 'as text');
  await shows('Which citrus for this yard');
  if (pictures) {
    await page.screenshot({path: join(pictures, 'watch-fault-360.png')});
    await page.setViewportSize({width: 1280, height: 800});
    await page.screenshot({path: join(pictures, 'watch-fault-1280.png')});
  }
  await edit('site_title: "{ <b>Which</b>', 'site_title: "Which other');
  await shows('Which other citrus for this yard');
  assert.equal(await faults.count(), 0, 'and gone when it is mended');

  // The picker, whose page has scripts of its own, works under the opened policy; no worker keeps its files.
  await page.goto(`${base}en/index.html`);
  await page.waitForSelector('html[data-ready]', {timeout: kLong});
  await page.waitForFunction(async () => (await navigator.serviceWorker.getRegistrations()).length === 0, undefined, {timeout: kLong});
  assert.deepEqual(page.troubles.filter((text) => !/status of 503/.test(text)), [], 'the console stays empty');
  assert.deepEqual(page.requests.filter((url) => !url.startsWith(base)), [], 'every request stays on this machine');
} catch (error) {
  console.log(`FAILED watch.mjs: ${error?.stack ?? error}\n${log}`);
  ++failed;
}
await browser.close();
watch.kill('SIGINT');
const status = await ended;
if (status !== 0) {
  console.log(`FAILED watch.mjs: the watch ended with ${status}`);
  ++failed;
}
await rm(folder, {recursive: true, force: true});
console.log(failed === 0 ? 'watch.mjs: the open page follows' : 'watch.mjs: failed');
process.exit(failed === 0 ? 0 : 1);
