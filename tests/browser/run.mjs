// node run.mjs SITE_DIR [NAME...]: runs test_*.mjs against a generated site; exit 1 when anything fails.
import {readdir} from 'node:fs/promises';
import {resolve} from 'node:path';
import {fileURLToPath} from 'node:url';
import {openBrowser} from './tools.mjs';

const [site, ...wanted] = process.argv.slice(2);
if (!site) {
  console.error('usage: node run.mjs SITE_DIR [NAME...]');
  process.exit(2);
}
const folder = fileURLToPath(new URL('.', import.meta.url));
const files = (await readdir(folder)).filter((name) => /^test_.*\.mjs$/.test(name)).sort();
const chosen = wanted.length === 0 ? files : files.filter((name) => wanted.some((start) => name.startsWith(`test_${start}`)));
if (chosen.length === 0) {
  console.error(`no test file begins with ${wanted.join(', ')}; there are ${files.join(', ')}`);
  process.exit(2);
}

const browser = await openBrowser();
const started = Date.now();
let passed = 0, failed = 0;

// A test passes when its function ends without throwing.
async function runFile(file) {
  const began = Date.now(), count = {passed: 0, failed: 0};
  const test = async (name, run) => {
    try {
      await run();
      ++count.passed;
    } catch (error) {
      ++count.failed;
      console.log(`FAILED ${file}: ${name}\n  ${String(error?.message ?? error).split('\n').slice(0, 25).join('\n  ')}`);
    }
  };
  const {default: run} = await import(`./${file}`);
  await test('as a whole', () => run({site: resolve(site), browser, test}));
  if (count.passed + count.failed < 2) {
    ++count.failed;
    console.log(`FAILED ${file}: it holds no tests`);
  }
  console.log(`${file}: ${count.passed + count.failed} tests, ${((Date.now() - began) / 1000).toFixed(1)} s`);
  passed += count.passed;
  failed += count.failed;
}

await Promise.all(chosen.map(runFile));
await browser.close();
console.log(`${passed} passed, ${failed} failed, ${((Date.now() - started) / 1000).toFixed(0)} s`);
process.exit(failed === 0 ? 0 : 1);
