// The W3C Nu checker has nothing to say about any page or style sheet.
import assert from 'node:assert/strict';
import {execFile} from 'node:child_process';
import {createRequire} from 'node:module';
import {join} from 'node:path';
import {listFiles} from './tools.mjs';

const jar = createRequire(import.meta.url).resolve('vnu-jar/build/dist/vnu.jar');

function check(files) {
  const args = ['-Xss2m', '-jar', jar, '--format', 'json', '--exit-zero-always', '--stdout', '--also-check-css', '--also-check-svg', ...files];
  return new Promise((done, fail) => execFile('java', args, {maxBuffer: 1 << 26}, (error, stdout, stderr) => {
    if (error) fail(new Error(`${error.message}\n${stderr}`));
    else done(JSON.parse(stdout).messages);
  }));
}

export default async function run({site, test}) {
  const files = (await listFiles(site)).filter((path) => /\.(html|css|svg)$/.test(path));
  const batch = 60;
  for (let i = 0; i < files.length; i += batch) {
    const part = files.slice(i, i + batch);
    await test(`Nu checker, ${part[0]} and ${part.length - 1} more`, async () => {
      const messages = await check(part.map((path) => join(site, path)));
      const said = messages.map((m) => `${m.url?.split('/').slice(-3).join('/')}:${m.lastLine}: ${m.type}: ${m.message}`);
      assert.deepEqual([...new Set(said)], []);
    });
  }
}
