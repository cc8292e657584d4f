// The W3C Nu checker has nothing to say about any page, style sheet or drawing. Pages come over http from
// this machine, as a host would send them: read from a file, 'self' in a page's policy has no meaning, and
// the checker says so of every page.
import assert from 'node:assert/strict';
import {execFile} from 'node:child_process';
import {createRequire} from 'node:module';
import {join} from 'node:path';
import {listFiles, serve} from './tools.mjs';

const jar = createRequire(import.meta.url).resolve('vnu-jar/build/dist/vnu.jar');

function check(what) {
  const args = ['-Xss2m', '-Dnu.validator.servlet.allow-forbidden-hosts=true', '-jar', jar, '--format', 'json', '--exit-zero-always', '--stdout', ...what];
  return new Promise((done, fail) => execFile('java', args, {maxBuffer: 1 << 26}, (error, stdout, stderr) => {
    if (error) fail(new Error(`${error.message}\n${stderr}`));
    else done(JSON.parse(stdout).messages);
  }));
}

function assertNothing(messages) {
  assert.deepEqual([...new Set(messages.map((m) => `${m.url?.split('/').slice(-3).join('/')}:${m.lastLine}: ${m.type}: ${m.message}`))], []);
}

export default async function run({site, test}) {
  const files = await listFiles(site), ending = (end) => files.filter((path) => path.endsWith(end));
  await test('style sheets', async () => assertNothing(await check(['--css', ...ending('.css').map((path) => join(site, path))])));
  await test('drawings', async () => assertNothing(await check(['--svg', ...ending('.svg').map((path) => join(site, path))])));
  const host = await serve(site), pages = ending('.html'), batch = Math.ceil(pages.length / 2);
  for (let i = 0; i < pages.length; i += batch) {
    const part = pages.slice(i, i + batch);
    await test(`${part[0]} and ${part.length - 1} more`, async () => assertNothing(await check(part.map((path) => host.url + path))));
  }
  await test('every page was fetched', () => assert.deepEqual(host.strays, []));
  host.close();
}
