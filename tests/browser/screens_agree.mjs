// Asks the second browser engine what the native one has answered, and compares the bytes.
//
//   node screens_agree.mjs ENGINE.wasm < LINES
//
// LINES: catalogue, office, seasons and words, then by turns a request and the native answer, one a line.
// Prints 'N passed, N failed'; exit status 1 unless all passed.
import {readFileSync} from 'node:fs';

const exported = (await WebAssembly.instantiate(readFileSync(process.argv[2]), {
  wasi_snapshot_preview1: new Proxy({}, {get: (_, name) => () => { throw new Error(`the engine called ${String(name)}`); }}),
})).instance.exports;
exported._initialize();
const put = (text) => {
  const bytes = Buffer.from(text), at = exported.tw_alloc(bytes.length);
  new Uint8Array(exported.memory.buffer, at, bytes.length).set(bytes);
  return [at, bytes.length];
};
const answer = (request) => {
  const at = exported.tw_answer(...put(request));  // before the buffer is taken: an answer may make the memory grow
  return Buffer.from(exported.memory.buffer, at, exported.tw_size()).toString();
};

const lines = readFileSync(0, 'utf8').split('\n').slice(0, -1);
let passed = 0, failed = 0;
const check = (right, what) => { if (right) ++passed; else { ++failed; console.log(`FAILED ${what}`); } };
check(answer('{}') === '{"error":"load","found":""}', 'before loading');
const [catalog, office, seasons, words] = lines.splice(0, 4);
check(exported.tw_load(...put(catalog), ...put(office), ...put(seasons), ...put('[]')) === 0, 'words that are none');
check(exported.tw_load(...put(catalog), ...put(office), ...put(seasons), ...put(words)) === 1, 'loading');
for (let i = 0; i + 1 < lines.length; i += 2) {
  const started = performance.now(), told = answer(lines[i]), took = performance.now() - started;
  check(told === lines[i + 1], `${lines[i].slice(0, 160)}\n  native ${lines[i + 1].slice(0, 200)}\n  browser ${told.slice(0, 200)}`);
  if (took > 2000) console.log(`  ${took.toFixed(0)} ms: ${lines[i].slice(0, 120)}`);
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 10 ? 0 : 1);
