// A figure for the table of RESULTS.md: see figures.py.
import {appendFileSync} from 'node:fs';

// `ours` beside `beside`, both in `unit`; the less the better. `what` names the peer or the limit.
export function keepFigure(name, ours, beside, unit, what) {
  const path = process.env.TENWINTERS_FIGURES;
  if (path) appendFileSync(path, `${[name, ours.toPrecision(6), beside.toPrecision(6), unit, what].join('\t')}\n`);
}
