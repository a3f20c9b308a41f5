import { basename, extname } from 'node:path';
import { refuse } from '../../core/problems/problem.js';
import { dottedPlaces } from '../../core/reading/located.js';
import { checkShape } from '../../core/reading/shape.js';
import { readYaml } from '../../core/reading/yaml.js';
import { gradingSvg } from '../../core/report/grading-svg.js';
import { idOf, materialRow, nearestQuartzSand } from '../../core/sieve/material-row.js';
import { readSieve, readSieveCsv, type SieveSample, sieveSchema } from '../../core/sieve/read-sieve.js';
import { type Sand, sandOfMaterial, sandOfSample } from '../../core/sieve/sand.js';
import { sieveResult } from '../../core/sieve/sieve-result.js';
import type { CURVES, TargetAsked } from '../../core/sieve/target.js';
import { parseQuantity } from '../../core/units/quantity.js';
import { createText, readText, writeText } from '../files.js';
import { readAs } from '../kind-of-file.js';
import { openShop } from '../load.js';
import { renderSieve } from '../render/sieve.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { printJson, printSheet, viewOf } from './view.js';

const MOST_SANDS = 6;

interface Options {
  readonly with?: string[];
  readonly materials?: string[];
  readonly curve?: (typeof CURVES)[number];
  readonly exponent?: string;
  readonly smallest?: string;
  readonly largest?: string;
  readonly svg?: string;
  readonly row?: string;
  readonly like?: string;
  readonly json?: boolean;
}

/** Sieve weights in; grading, fineness modulus, envelope, mix, plot and a material row out. */
export async function sieveVerb(call: Call): Promise<ExitCode> {
  const options = call.options as Options;
  const samples: SieveSample[] = [];
  for (const file of call.operands) samples.push(...(await readSamples(file, call)));
  const { table, shop } = await openShop({ shop: null, materials: options.materials }, call.io);
  const sands = [...samples.map(sandOfSample), ...(options.with ?? []).map((word) => sandOfMaterial(table.get(word)))];
  if (sands.length === 0 || sands.length > MOST_SANDS) {
    refuse({
      code: 'option-invalid',
      where: { path: 'sands' },
      found: String(sands.length),
      expected: `1 to ${MOST_SANDS} sands: sieve weights in files, or sands of the shelf with --with`,
    });
  }
  const { system } = viewOf(call, shop).wording;
  const result = sieveResult(
    sands,
    asked(options),
    samples.some((s) => s.invented),
  );
  if (options.svg !== undefined) {
    requireName(options.svg, /\.svg$/i, '--svg', 'a file name that ends in .svg');
    writeText(options.svg, `${gradingSvg(result, system).html}\n`);
    call.io.err(`pourwright: wrote ${options.svg}\n`);
  }
  if (options.row !== undefined) {
    requireName(options.row, /\.ya?ml$/i, '--row', 'a file name that ends in .yaml');
    const sand = oneSieved(sands);
    const like = options.like === undefined ? nearestQuartzSand(sand, table.materials) : table.get(options.like);
    if (like === undefined) refuse({ code: 'material-unknown', found: 'no quartz sand on the shelf' });
    const id = idOf(sand.name);
    createText(options.row, materialRow(sand, like, id));
    call.io.err(
      `pourwright: wrote ${options.row}: “${id}”, all but its grading as “${like.name}” until you weigh it; name the file under materials in your shop\n`,
    );
  }
  if (options.json === true) printJson(call.io, result);
  else printSheet(call.io, (page) => renderSieve(page, result, system));
  return 0;
}

async function readSamples(file: string, call: Call): Promise<SieveSample[]> {
  const read = await readText(file, call.io.stdin);
  const { text, file: name } = read;
  // Standard input has no name to tell: YAML names its sieves in a group of that name.
  const isYaml = /\.ya?ml$/i.test(file) || (extname(file) !== '.csv' && /^sieves\s*:/m.test(text));
  const title = basename(name, extname(name));
  const named = (sample: SieveSample): SieveSample => (sample.name === name ? { ...sample, name: title } : sample);
  return readAs(['sieve'], read, () => {
    if (!isYaml) return readSieveCsv(text, name).map(named);
    const located = readYaml(text, name);
    return [named(readSieve(checkShape(sieveSchema, located), name, dottedPlaces(located)))];
  });
}

function asked(options: Options): TargetAsked {
  const size = (word: string | undefined, path: string): number | undefined =>
    word === undefined ? undefined : 10 * parseQuantity(word, 'length', { path }, { assume: 'mm', positive: true });
  const { curve, exponent } = options;
  const smallest = size(options.smallest, '--smallest');
  const largest = size(options.largest, '--largest');
  const q = exponent === undefined ? undefined : Number(exponent);
  if (q !== undefined && !(q > 0.05 && q <= 1)) {
    refuse({
      code: 'option-invalid',
      where: { path: '--exponent' },
      found: exponent!,
      expected: 'a number from 0.05 to 1',
    });
  }
  if (smallest !== undefined && largest !== undefined && smallest >= largest) {
    refuse({
      code: 'option-invalid',
      where: { path: '--smallest' },
      found: `${smallest} mm`,
      expected: `less than --largest, ${largest} mm`,
    });
  }
  return {
    ...(curve === undefined ? {} : { curve }),
    ...(q === undefined ? {} : { q }),
    ...(smallest === undefined ? {} : { smallest }),
    ...(largest === undefined ? {} : { largest }),
  };
}

function oneSieved(sands: readonly Sand[]): Sand {
  const sieved = sands.filter((s) => s.material === null);
  if (sieved.length === 1) return sieved[0]!;
  const expected = 'one sand of your own sieving; name its file alone';
  return refuse({ code: 'option-invalid', where: { path: '--row' }, found: `${sieved.length} sieved sands`, expected });
}

/** A mistyped name must not replace something else. */
function requireName(file: string, pattern: RegExp, path: string, expected: string): void {
  if (!pattern.test(file)) refuse({ code: 'option-invalid', where: { path }, found: file, expected });
}
