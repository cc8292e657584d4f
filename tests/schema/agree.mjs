// node agree.mjs CASES_DIR: every case of cases.json, judged by the schemas alone and set beside what the loader
// said of it. Exit 1 when the two differ on any, or when the catalogue's own files do not satisfy their schemas.
import {readdirSync, readFileSync} from 'node:fs';
import {dirname, join} from 'node:path';
import {fileURLToPath} from 'node:url';
import Ajv from 'ajv';
import {parseDocument} from 'yaml';

const [folder] = process.argv.slice(2);
if (!folder) {
  console.error('usage: node agree.mjs CASES_DIR');
  process.exit(2);
}
const catalog = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'catalog');

const ajv = new Ajv({allErrors: true, strictTypes: false});
const validators = new Map();
for (const name of readdirSync(join(catalog, 'schema')))
  validators.set(name, ajv.compile(JSON.parse(readFileSync(join(catalog, 'schema', name), 'utf8'))));

// The faults that the schema finds; a file that is no YAML has one.
function judge(text, schema) {
  const document = parseDocument(text, {uniqueKeys: true});
  if (document.errors.length > 0) return [document.errors[0].message];
  const valid = validators.get(schema);
  return valid(document.toJS()) ? [] : valid.errors.map((error) => `${error.instancePath} ${error.message}`);
}

const {sound, cases} = JSON.parse(readFileSync(join(folder, 'cases.json'), 'utf8'));
let wrong = 0;
for (const {file, schema} of sound) {
  const faults = judge(readFileSync(join(catalog, file), 'utf8'), schema);
  if (faults.length === 0) continue;
  ++wrong;
  console.log(`FAILED ${file} as it stands: ${faults.slice(0, 3).join('; ')}`);
}
let refused = 0;
for (const {text, schema, file, change, loader} of cases) {
  const faults = judge(readFileSync(join(folder, text), 'utf8'), schema);
  if (faults.length > 0) ++refused;
  if ((faults.length > 0) === (loader !== '')) continue;
  ++wrong;
  console.log(`FAILED ${text} (${file}, ${change})\n  loader: ${loader || 'sound'}\n  schema: ${faults.slice(0, 3).join('; ') || 'sound'}`);
}
console.log(`${sound.length} files as they stand; ${cases.length} changed ones, ${refused} refused by both; ${wrong} differ`);
process.exit(wrong === 0 && cases.length >= 300 ? 0 : 1);
