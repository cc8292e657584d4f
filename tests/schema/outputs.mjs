// node outputs.mjs PROGRAM: every command that has --json is run in several ways, and what it prints is held to the
// schema of its output in tools/cli/schema. Exit 1 when an output breaks its schema, when a schema names a key that
// none of these runs ever prints, when a command with --json has no schema, or when a schema lets a stray key pass.
import {execFileSync, spawnSync} from 'node:child_process';
import {mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {dirname, join, resolve} from 'node:path';
import {fileURLToPath} from 'node:url';
import Ajv from 'ajv';

const [given] = process.argv.slice(2);
if (!given) {
  console.error('usage: node outputs.mjs PROGRAM');
  process.exit(2);
}
const program = resolve(given);
const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const folder = join(root, 'tools', 'cli', 'schema');
const schemas = new Map(readdirSync(folder).map((file) => [file.replace(/\.json$/, ''), JSON.parse(readFileSync(join(folder, file), 'utf8'))]));
const ajv = new Ajv({allErrors: true, strictTypes: false, schemas: [...schemas.values()]});
const scratch = mkdtempSync(join(tmpdir(), 'outputs-'));
const record = (name) => join(root, 'tests', 'published', 'data', 'records', name);
const demo = join(root, 'catalog', 'offices', 'demo');

let wrong = 0;
const fail = (text) => { ++wrong; console.log(`FAILED ${text}`); };

// What a spoilt catalogue makes `check` print: faults.
writeFileSync(join(scratch, 'office.yaml'), readFileSync(join(demo, 'office.yaml'), 'utf8').replace('units: us', 'units: furlongs'));
// Hours of one day under a header that says what the coldest hours are (fields as EPW has them; all invented).
writeFileSync(join(scratch, 'hours.epw'), ['LOCATION,Invented Field,Nowhere,Nowhere,made up,000000,30.5,-90.5,-6.0,12.0',
  'DESIGN CONDITIONS,1,made up,,Heating,1,3.6,Cooling,8,7.9,Extremes,8.1,7.2,6.3,30.4,-0.7,35,3,0.8,-2.8,35.6,-4.5,36.1,-6.2,36.5,-8.3,37.1',
  ...Array(6).fill('HEADER'), ...Array.from({length: 24}, (_, hour) => `1996,1,9,${hour + 1},0,flags,${hour === 5 ? -1.7 : 4.5},2,80`), ''].join('\n'));
writeFileSync(join(scratch, 'trees.csv'), 'tree,rootstock,age,container\nowari,carrizo,3,\nmeyer,,5,15gal\n');

const sun = ['--answer', 'sun=full', '--answer', 'drainage=good'];
const runs = [
  ['rank', ['rank']],
  ['rank', ['rank', ...sun, '--all', '--lang', 'es', '--units', 'metric']],
  ['rank', ['rank', '--place', 'burdock_hollow', '--answer', 'sun=little']],
  ['ask', ['ask'], '1\n1\n'],
  ['explain', ['explain', 'owari']],
  ['explain', ['explain', 'owari', ...sun]],
  ['explain', ['explain', 'minneola', '--place', 'burdock_hollow', ...sun]],
  ['explain', ['explain', 'meyer', '--answer', 'sun=little']],
  ['explain_against', ['explain', 'owari', '--against', 'meyer', ...sun]],
  ['explain_against', ['explain', 'meiwa', '--against', 'nagami', '--answer', 'sun=full']],
  ['explain_against', ['explain', 'changsha', '--against', 'owari', '--answer', 'winter_work=few_nights']],
  ['key', ['key']],
  ['key', ['key', '--place', 'burdock_hollow', ...sun]],
  ['calendar', ['calendar', '--tree', 'owari', '--tree', 'meyer', '--answer', 'winter_work=few_nights', '--year', '2027']],
  ['calendar', ['calendar', '--place', 'burdock_hollow', '--lang', 'es', '--tree', 'minneola']],
  ['climate', ['climate', join(demo, 'gannet_quay.csv')]],
  ['climate', ['climate', join(demo, 'burdock_hollow.csv'), '--south', '--lang', 'es']],
  ...['traps.csv', 'by_element.csv', 'hourly.csv', 'two_stations.csv', 'fixed_columns.dly', 'three_columns_of_date.csv'].map((name) => ['climate', ['climate', record(name)]]),
  ['climate', ['climate', join(scratch, 'hours.epw')]],
  ['night', ['night', '--low', '20F', '--hours', '6', '--before', 'gradual', '--month', '12', '--tree', 'owari', '--tree', 'lemon']],
  ['night', ['night', '--low', '-9C', '--hours', '9', '--before', 'sudden', '--windy', '--trees', join(scratch, 'trees.csv')]],
  ['yard', ['yard', '--width-ft', '30', '--length-ft', '40', '--wall', 'north', ...sun]],
  ['yard', ['yard', '--width-m', '5', '--length-m', '5', '--existing', 'orlando', '--existing', 'owari', '--carry', '1']],
  ['yard', ['yard', '--width-ft', '30', '--length-ft', '40', '--answer', 'sun=little']],
  ['evidence', ['evidence']],
  ['evidence', ['evidence', 'owari']],
  ['check', ['check']],
  ['check', ['--office', join(scratch, 'office.yaml'), 'check']],
  ['check_evidence', ['check', '--evidence', '--yards', '4']],
];

// Every place in a schema that a run reached, by its properties.
const reached = new Set();
function walk(value, schema, file) {
  if (schema.$ref) {
    const [name, pointer = ''] = schema.$ref.split('#');
    const at = name === '' ? file : name.replace(/\.json$/, '');
    let to = schemas.get(at);
    for (const part of pointer.split('/').filter(Boolean)) to = to[part];
    return walk(value, to, at);
  }
  for (const one of schema.anyOf ?? []) if (ajv.validate({...one, $id: undefined, definitions: schemas.get(file).definitions}, value)) walk(value, one, file);
  if (Array.isArray(value) && schema.items) for (const item of value) walk(item, schema.items, file);
  if (value !== null && typeof value === 'object' && !Array.isArray(value)) {
    for (const [key, inner] of Object.entries(value)) {
      const property = schema.properties?.[key] ?? Object.entries(schema.patternProperties ?? {}).find(([pattern]) => new RegExp(pattern).test(key))?.[1];
      if (!property) continue;
      reached.add(property);
      walk(inner, property, file);
    }
  }
}

// All objects within a value, to put a stray key into each.
function objects(value, found = []) {
  if (value !== null && typeof value === 'object') {
    if (!Array.isArray(value)) found.push(value);
    Object.values(value).forEach((inner) => objects(inner, found));
  }
  return found;
}

let strays = 0;
for (const [name, words, input = ''] of runs) {
  const said = spawnSync(program, ['--today', '2026-12-01', ...words, '--json'], {cwd: root, encoding: 'utf8', input, maxBuffer: 1 << 28});
  const told = `tenwinters ${words.join(' ')} --json`;
  let value;
  try { value = JSON.parse(said.stdout); } catch (error) { fail(`${told}: no JSON: ${error.message}\n  ${said.stderr.slice(0, 300)}`); continue; }
  const validate = ajv.getSchema(`${name}.json`);
  if (!validate(value)) {
    fail(`${told}: ${validate.errors.length} faults\n  ${validate.errors.slice(0, 5).map((error) => `${error.instancePath} ${error.message} ${JSON.stringify(error.params)}`).join('\n  ')}`);
    continue;
  }
  walk(value, schemas.get(name), name);
  // Each kind of object once: those at a path, without its numbers.
  for (const object of objects(value).slice(0, 40)) {
    ++strays;
    object['Stray key'] = 1;
    if (validate(value)) fail(`${told}: the schema lets a stray key pass beside ${Object.keys(object).slice(0, 3).join(', ')}`);
    delete object['Stray key'];
  }
}

// Nothing is documented that is never printed.
function unseen(schema, path) {
  for (const [key, property] of Object.entries(schema.properties ?? {})) {
    if (!reached.has(property)) fail(`${path}.${key} is in the schema, and no run printed it`);
    else unseen(property, `${path}.${key}`);
  }
  for (const inner of [schema.items, ...(schema.anyOf ?? []), ...Object.values(schema.patternProperties ?? {}), ...Object.values(schema.definitions ?? {})])
    if (inner) unseen(inner, `${path}[]`);
}
for (const [name, schema] of schemas) unseen(schema, name);

// Every command whose help knows --json is among the runs.
const help = (...words) => execFileSync(program, [...words, '--help'], {cwd: root, encoding: 'utf8'});
const commands = [...help().split(/^Subcommands:$/m)[1].matchAll(/^ {2}([a-z]+)/gm)].map((match) => match[1]);
for (const command of commands)
  if (/^ +--json\b/m.test(help(command)) && !runs.some(([, words]) => words.includes(command))) fail(`tenwinters ${command} --json has no schema`);

rmSync(scratch, {recursive: true});
console.log(`${runs.length} outputs of ${commands.length} commands held to ${schemas.size} schemas; ${strays} stray keys refused; ${wrong} faults`);
process.exit(wrong === 0 && commands.length > 10 ? 0 : 1);
