import * as z from 'zod/mini';
import type { At } from '../brief/at.js';
import { type Gather, gather } from '../problems/gather.js';
import type { Where } from '../problems/problem.js';
import { readCsv } from '../reading/csv.js';
import { told } from '../reading/told.js';
import type { SieveWeight } from '../science/grading.js';
import { parseQuantity } from '../units/quantity.js';
import { NUMBERED_SIEVES, numberedSieve } from './sieve-sizes.js';

const quantity = z.union([z.string(), z.number()]);

export const sieveSchema = z.strictObject({
  sand: told(z.optional(z.string()), 'what you call it'),
  invented: told(z.optional(z.boolean()), 'true for a made-up example'),
  sample: told(z.optional(quantity), 'weight before sieving, to tell what was lost'),
  density: told(z.optional(quantity), 'of the grains'),
  'bulk-density': told(z.optional(quantity), 'loose, as scooped'),
  sieves: told(
    z.record(z.string(), quantity),
    'what stayed on each sieve: { 4.75 mm: 0 g, ..., pan: 3 g }; sieves in mm, um, inches or No. 8',
  ),
});

export type WrittenSieve = z.infer<typeof sieveSchema>;

/** One sand with the grams that stayed on each sieve. */
export interface SieveSample {
  readonly name: string;
  readonly invented: boolean;
  readonly weights: readonly SieveWeight[];
  /** g before sieving; null when not told. */
  readonly sample: number | null;
  /** g/cm3; null when not told. */
  readonly density: number | null;
  readonly bulkDensity: number | null;
}

const FEWEST_SIEVES = 3;
const EXPECTED = `a sieve such as “0.6 mm”, “600 um”, “1/4 in”, “No. 30”, or “pan”`;

/** Opening in mm; 0 for the pan. */
function opening(text: string, where: Where, all: Gather): number | null {
  const word = text.trim();
  if (/^pan$/i.test(word)) return 0;
  if (/^(no\b|#)/i.test(word)) {
    const size = numberedSieve(word);
    if (size !== undefined) return size;
    all.add({
      code: 'field-out-of-range',
      severity: 'error',
      where,
      found: word,
      expected: `a sieve number: ${Object.keys(NUMBERED_SIEVES).join(', ')}`,
    });
    return null;
  }
  const read = all.attempt(() => parseQuantity(word, 'length', where, { assume: 'mm' }));
  if (read === undefined) return null;
  const mm = 10 * read;
  if (mm > 0 && mm <= 150) return mm;
  if (mm === 0) return 0;
  all.add({ code: 'field-out-of-range', severity: 'error', where, found: word, expected: `${EXPECTED}, up to 150 mm` });
  return null;
}

const grams = (text: unknown, where: Where, all: Gather, positive = false): number | null =>
  all.attempt(() => parseQuantity(text, 'mass', where, { assume: 'g', positive })) ?? null;

/** Problems of the weights together: sieves twice, too few, nothing weighed. */
function checkWeights(weights: readonly SieveWeight[], where: Where, all: Gather): void {
  const seen = new Set<number>();
  for (const { sieve } of weights) {
    if (seen.has(sieve)) {
      const found = sieve === 0 ? 'pan' : `${sieve} mm`;
      all.add({ code: 'field-duplicate', severity: 'error', where, found });
    }
    seen.add(sieve);
  }
  if (weights.filter((w) => w.sieve > 0).length < FEWEST_SIEVES) {
    const found = `${weights.filter((w) => w.sieve > 0).length} sieves`;
    all.add({ code: 'field-missing', severity: 'error', where, found, expected: `at least ${FEWEST_SIEVES} sieves` });
  }
  if (weights.length > 0 && weights.every((w) => w.grams === 0)) {
    all.add({ code: 'amount-not-positive', severity: 'error', where, found: 'no weight on any sieve' });
  }
}

/** Reads one sand from YAML that has the shape of `sieveSchema`. Throws InputProblems with every problem. */
export function readSieve(written: WrittenSieve, file: string, at: At): SieveSample {
  const all = gather();
  const weights = Object.entries(written.sieves).flatMap(([name, weight]): SieveWeight[] => {
    const where = at(`sieves.${name}`);
    const sieve = opening(name, where, all);
    const mass = grams(weight, where, all);
    return sieve === null || mass === null ? [] : [{ sieve, grams: mass }];
  });
  const density = (text: unknown, path: string): number | null =>
    text === undefined
      ? null
      : (all.attempt(() => parseQuantity(text, 'density', at(path), { positive: true })) ?? null);
  const sample = written.sample === undefined ? null : grams(written.sample, at('sample'), all, true);
  const particle = density(written.density, 'density');
  const bulk = density(written['bulk-density'], 'bulk-density');
  if (particle !== null && bulk !== null && bulk >= particle) {
    all.add({
      code: 'field-out-of-range',
      severity: 'error',
      where: at('bulk-density'),
      found: `${bulk} g/cm3`,
      expected: `less than the grains’ own density, ${particle} g/cm3`,
    });
  }
  checkWeights(weights, at('sieves'), all);
  all.finish();
  return {
    name: written.sand ?? file,
    invented: written.invented === true,
    weights,
    sample,
    density: particle,
    bulkDensity: bulk,
  };
}

/** Lines that begin with a numbered sieve ("#30,137") told apart from remarks, which begin with # too. */
const withNumberedSieves = (text: string): string =>
  text.replace(/^([ \t]*"?)#[ \t]*(?=\d{1,3}[ \t]*"?[ \t]*[,;\t])/gm, '$1No. ');

export const SIEVE_RULES = {
  sand: { also: ['material', 'name'] },
  sieve: { also: ['opening', 'size', 'mm'], required: true },
  grams: { also: ['retained', 'weight', 'mass', 'g', 'grams retained'], required: true },
};

/**
 * Reads sands from CSV with the columns sieve and grams, and a column sand where one file holds several. Throws
 * InputProblems with every problem.
 */
export function readSieveCsv(text: string, file: string): SieveSample[] {
  const table = readCsv(withNumberedSieves(text), file, SIEVE_RULES);
  const all = gather();
  const bySand = new Map<string, SieveWeight[]>();
  for (const row of table.rows) {
    const sieve = opening(row.cells.sieve, table.where(row, 'sieve'), all);
    const mass = grams(row.cells.grams, table.where(row, 'grams'), all);
    const name = row.cells.sand === '' ? file : row.cells.sand;
    const own = bySand.get(name) ?? [];
    bySand.set(name, own);
    if (sieve !== null && mass !== null) own.push({ sieve, grams: mass });
  }
  if (bySand.size === 0) all.add({ code: 'file-empty', severity: 'error', where: { file } });
  for (const weights of bySand.values()) checkWeights(weights, { file }, all);
  all.finish();
  return [...bySand].map(([name, weights]) => ({
    name,
    invented: false,
    weights,
    sample: null,
    density: null,
    bulkDensity: null,
  }));
}
