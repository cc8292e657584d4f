// Asks the browser engine what the native one has answered, and compares the bytes.
//
//   node engine_agree.mjs ENGINE.wasm < LINES
//
// LINES: the catalogue, the office, then by turns a request and the native answer, one a line.
// Prints 'N passed, N failed'; exit status 1 unless all passed.
import {readFileSync} from 'node:fs';

const exported = (await WebAssembly.instantiate(readFileSync(process.argv[2]), {
  // The C++ library imports these for a console that does not exist here; the engine never calls them.
  wasi_snapshot_preview1: new Proxy({}, {get: (_, name) => () => { throw new Error(`the engine called ${String(name)}`); }}),
})).instance.exports;
exported._initialize();

function put(bytes) {
  const at = exported.tw_alloc(bytes.length);
  if (at === 0) throw new Error('no room in the engine');
  new Uint8Array(exported.memory.buffer, at, bytes.length).set(bytes);
  return [at, bytes.length];
}

function advise(request) {
  const at = exported.tw_advise(...put(request));
  return Buffer.from(exported.memory.buffer, at, exported.tw_size());
}

async function* lines(stream) {
  let parts = [];
  for await (const chunk of stream) {
    let from = 0;
    for (let at; (at = chunk.indexOf(10, from)) !== -1; from = at + 1) {
      parts.push(chunk.subarray(from, at));
      yield Buffer.concat(parts);
      parts = [];
    }
    parts.push(chunk.subarray(from));
  }
}

let passed = 0, failed = 0, milliseconds = 0, slowest = 0;
const input = lines(process.stdin);
const next = async () => (await input.next()).value;

if (advise(Buffer.from('{}')).toString() !== '{"error":"load","found":"","nearest":""}') ++failed;
const catalog = await next(), office = await next();
if (exported.tw_load(...put(Buffer.from('{}')), ...put(office)) !== 0) ++failed;
if (exported.tw_load(...put(catalog), ...put(office)) !== 1) {
  console.log('the engine did not understand the catalogue or the office');
  process.exit(1);
}
for (let request; (request = await next()) !== undefined;) {
  const native = await next();
  const start = performance.now();
  const answer = advise(request);
  const took = performance.now() - start;
  milliseconds += took;
  slowest = Math.max(slowest, took);
  if (native !== undefined && answer.equals(native)) {
    ++passed;
    continue;
  }
  ++failed;
  if (failed > 3) continue;
  let at = 0;
  while (at < answer.length && answer[at] === native?.[at]) ++at;
  console.log(`request ${request}\n  native  ...${native?.subarray(Math.max(0, at - 60), at + 60)}\n  browser ...${answer.subarray(Math.max(0, at - 60), at + 60)}`);
}
// A request too long for the engine is refused by tw_alloc or answered with an error, never a trap.
if (exported.tw_alloc(0x7fffffff) !== 0) ++failed;
console.log(`${passed} passed, ${failed} failed; ${(milliseconds / Math.max(1, passed + failed)).toFixed(2)} ms a request, slowest ${slowest.toFixed(1)} ms`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
