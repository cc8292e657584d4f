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

let passed = 0, failed = 0;
const browser = await openBrowser();
const context = {site: resolve(site), browser};
// A test passes when its function ends without throwing.
context.test = async (name, run) => {
  try {
    await run();
    ++passed;
  } catch (error) {
    ++failed;
    console.log(`FAILED ${name}\n  ${String(error?.message ?? error).split('\n').slice(0, 25).join('\n  ')}`);
  }
};
for (const file of chosen) {
  const started = Date.now(), before = passed + failed;
  const {default: run} = await import(`./${file}`);
  await context.test(`${file} as a whole`, () => run(context));
  if (passed + failed - before < 2) {
    ++failed;
    console.log(`FAILED ${file}: it holds no tests`);
  }
  console.log(`${file}: ${passed + failed - before} tests, ${((Date.now() - started) / 1000).toFixed(1)} s`);
}
await browser.close();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
