// How long the browser's engine replays the winters for one yard: all candidates, everything answered, nothing
// remembered. Never a test; prints figures beside the goal of 16 ms.
//
//   node browser_replay.mjs ENGINE.wasm INPUTS.json      INPUTS: as TENWINTERS_BENCH_DUMP writes them
//
// The replay is the first order for a yard less the same order given again, when every winter is remembered and
// only reading, ranking and writing are left. That again, and the next question of a yard half of whose answers are
// open, stand beside their own goals. In Chromium twice: in a page that has just opened, as a visitor finds
// it, and once the browser has compiled the engine to the full.
import {readFileSync} from 'node:fs';
import {openBrowser} from '../browser/tools.mjs';
import {keepFigure} from './figures.mjs';

const kGoal = 16, kOrderGoal = 2, kRounds = 3, kWork = ['no_work', 'few_nights', 'many_nights'];
const [enginePath, inputsPath] = process.argv.slice(2);
if (!inputsPath) {
  console.error('usage: node browser_replay.mjs ENGINE.wasm INPUTS.json');
  process.exit(2);
}
const inputs = JSON.parse(readFileSync(inputsPath, 'utf8'));
const given = {engine: readFileSync(enginePath).toString('base64'), catalog: JSON.stringify(inputs.catalog), office: JSON.stringify(inputs.office),
               yards: yards(inputs)};

// The yards that differ in what a winter does to them, at every place.
function yards({catalog, office}) {
  const answers = Object.fromEntries(catalog.questions.map((question) => [question.id, question.answers[0].id]));
  const all = [];
  for (const {id: place} of office.places)
    for (const spot of ['open', 'low_pocket', 'south_wall'])
      for (const winter_work of kWork)
        for (const pot of [{planting: 'ground'}, {planting: 'pot_small', indoors: 'carried_in'}, {planting: 'pot_large', indoors: 'stays_out'}]) {
          const yard = {...answers, spot, winter_work, ...pot};
          if (pot.planting === 'ground') delete yard.indoors;
          all.push(JSON.stringify({place, answers: yard}));
        }
  return all;
}

// Runs in the page: `rounds` times every yard, each from an engine that remembers nothing. Milliseconds [first, again].
async function measure({engine, catalog, office, yards, rounds}) {
  const bytes = Uint8Array.from(atob(engine), (c) => c.charCodeAt(0));
  const imports = {wasi_snapshot_preview1: new Proxy({}, {get: (_, name) => () => { throw new Error(`the engine called ${String(name)}`); }})};
  const exported = (await WebAssembly.instantiate(bytes, imports)).instance.exports;
  exported._initialize();
  const put = (text) => {
    const raw = new TextEncoder().encode(text), at = exported.tw_alloc(raw.length);
    new Uint8Array(exported.memory.buffer, at, raw.length).set(raw);
    return [at, raw.length];
  };
  const timed = (yard) => {
    const request = put(yard), started = performance.now();
    exported.tw_advise(...request);
    return performance.now() - started;
  };
  const out = [];
  for (let round = 0; round < rounds; ++round)
    for (const yard of yards) {
      // Loading again forgets every winter.
      if (exported.tw_load(...put(catalog), ...put(office)) !== 1) throw new Error('the engine did not understand the inputs');
      const told = (tell, leave = 1) => {
        const {place, answers} = JSON.parse(yard), kept = Object.entries(answers).filter((_, i) => i % leave === 0);
        return JSON.stringify({place, tell, answers: Object.fromEntries(kept)});
      };
      const times = [timed(told('order')), timed(told('order'))], half = told('certainty', 2);
      timed(half);
      out.push([...times, timed(half)]);
      await new Promise((done) => setTimeout(done, 0));
    }
  return out;
}

const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
function print(name, samples) {
  const line = (what, times, goal = kGoal) => {
    const sorted = times.sort((a, b) => a - b), median = at(sorted, 0.5), p95 = at(sorted, 0.95);
    if (name.endsWith('warm')) {
      keepFigure(`browser, ${what}, median`, median, goal, 'ms', 'limit');
      keepFigure(`browser, ${what}, p95`, p95, goal, 'ms', 'limit');
    }
    return `median ${median.toFixed(1)} ms, p95 ${p95.toFixed(1)} ms; ${(median / goal).toFixed(2)} and ${(p95 / goal).toFixed(2)} of ${goal} ms`;
  };
  console.log(`${name}, ${samples.length} yards`);
  const replay = (what, some) => line(what, some.map(([first, again]) => Math.max(0, first - again)));
  console.log(`  replay alone: ${replay('replay', samples)}`);
  // More nights of work are more ways of care to choose among, each replayed.
  for (const work of kWork) {
    const some = samples.filter((_, i) => given.yards[i % given.yards.length].includes(`"${work}"`));
    console.log(`    ${work}: ${replay(`replay, ${work}`, some)}`);
  }
  console.log(`  order of all trees, nothing remembered: ${line('order, nothing remembered', samples.map(([first]) => first))}`);
  console.log(`  the same, winters remembered: ${line('order', samples.map(([, again]) => again), kOrderGoal)}`);
  console.log(`  how sure and what to ask next, half the answers open, winters remembered: ${line('how sure and what next', samples.map(([, , next]) => next))}`);
}

const browser = await openBrowser();
const inPage = async (yards, rounds) => {
  const page = await (await browser.newContext()).newPage();
  const samples = await page.evaluate(measure, {...given, yards, rounds});
  await page.context().close();
  return samples;
};
const fresh = [];
for (const yard of given.yards) fresh.push(...await inPage([yard], 1));
print('Chromium, the first answer of a page', fresh);
print('Chromium, warm', (await inPage(given.yards, kRounds + 1)).slice(given.yards.length));
await browser.close();
