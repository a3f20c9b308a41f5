import * as z from 'zod/mini';
import {
  type FigureKey,
  type FigureTables,
  figureByKey,
  shortTitle,
  titleOfKey,
  withFigures,
} from '../blend/figure-keys.js';
import { reachOf, type Together } from '../blend/sampling.js';
import type { LearnedShelf } from '../brief/shelf.js';
import type { Figure } from '../materials/figure.js';
import { FIGURE_UNITS } from '../materials/words.js';
import { gather } from '../problems/gather.js';
import { unmarked } from '../problems/marks.js';
import { nearestWord } from '../problems/nearest.js';
import type { Problem, Where } from '../problems/problem.js';
import { told } from '../reading/told.js';
import { learnable, WASTE_REACH } from './learnable.js';
import { cholesky } from './linear-algebra.js';
import type { Fit, FittedFigure } from './pours-fit.js';
import { WASTE_KEY } from './pours-measured.js';

const range = { value: z.number(), low: z.number(), high: z.number() };

/** The file `pours fit` writes beside the shop. It may be deleted at any time: then the table's figures count again. */
export const learnedSchema = z.strictObject({
  format: z.literal('pourwright.learned/1'),
  from: z.strictObject({
    file: z.string(),
    pours: z.int(),
    measurements: z.int(),
    fitted: z.string(),
  }),
  figures: z.record(
    z.string(),
    z.strictObject({
      title: told(z.string(), 'for people; the key decides'),
      ...range,
      unit: z.enum(FIGURE_UNITS),
      before: told(z.strictObject(range), 'what the table said when this was fitted'),
    }),
  ),
  together: told(
    z.array(z.array(z.number())),
    'how the figures hang together: the lower triangle of their correlations, in the order of the figures',
  ),
});

export type LearnedFile = z.infer<typeof learnedSchema>;

/** Figures worth keeping: those the pours have narrowed by a thirtieth or moved by a seventh of their spread. */
export const isLearned = (f: FittedFigure): boolean => f.left < 0.97 || Math.abs(f.moved) > 0.15;

/** Figures worth naming to a maker. */
export const isNotable = (f: FittedFigure): boolean => f.left < 0.9 || Math.abs(f.moved) > 0.3;

const rounded = (value: number): number => Number(value.toPrecision(6));

/** What a fit has taught, as a file to write. */
export function learnedFile(
  fit: Fit,
  tables: FigureTables,
  from: Omit<LearnedFile['from'], 'measurements'>,
): LearnedFile {
  const kept = fit.figures.map((f, i) => ({ f, i })).filter(({ f }) => isLearned(f));
  const row = (i: number) => fit.together.factor[i]!;
  const correlation = (a: number, b: number): number => {
    let sum = 0;
    for (let k = 0; k <= Math.min(a, b); k++) sum += row(a)[k]! * row(b)[k]!;
    return sum;
  };
  return {
    format: 'pourwright.learned/1',
    from: { ...from, measurements: fit.measurements },
    figures: Object.fromEntries(
      kept.map(({ f }) => [
        f.key,
        {
          title: f.key === WASTE_KEY ? WASTE_TITLE : unmarked(titleOfKey(tables, f.key)),
          value: rounded(f.value),
          low: rounded(Math.min(f.low, f.value)),
          high: rounded(Math.max(f.high, f.value)),
          unit: f.before.unit,
          before: { value: f.before.value, low: f.before.low, high: f.before.high },
        },
      ]),
    ),
    together: kept.map(({ i }, n) => kept.slice(0, n + 1).map((other) => Number(correlation(i, other.i).toFixed(5)))),
  };
}

export const WASTE_TITLE = 'waste, share of what is mixed';

export interface LearnedOverlay<T extends FigureTables> {
  readonly tables: T;
  /** Share of what is mixed that is not cast; null: not learned. */
  readonly waste: number | null;
  readonly shelf: LearnedShelf;
  readonly problems: readonly Problem[];
}

/**
 * Lays what pours have taught over the tables.
 *
 * Throws InputProblems `field-unknown` for a figure the tables do not have, `field-out-of-range` for a range that is upside
 * down or further off than pours can move it, `unit-wrong-kind` for another unit. A table that has changed since the fit is
 * a warning: run `pours fit` again.
 */
export function overlayLearned<T extends FigureTables>(
  learned: LearnedFile,
  tables: T,
  file: string,
  at: (path: string) => Where = () => ({ file }),
): LearnedOverlay<T> {
  const all = gather();
  const replaced = new Map<FigureKey, Figure>();
  let waste: number | null = null;
  const changed: string[] = [];
  for (const [key, own] of Object.entries(learned.figures)) {
    const path = `figures.${key}`;
    if (key === WASTE_KEY) {
      waste = all.attempt(() => learnable(own, WASTE_REACH, path, at).value) ?? null;
      continue;
    }
    const table = figureByKey(tables, key);
    if (table === undefined) {
      const nearest = nearestWord(
        key,
        Object.keys(tables.figures).map((id) => `model.${id}`),
      );
      all.add({
        code: 'field-unknown',
        severity: 'error',
        where: { ...at(path), path },
        found: key,
        ...(nearest !== undefined && { nearest }),
      });
      continue;
    }
    const reach = { unit: table.unit, ...reachOf(table) };
    if (all.attempt(() => learnable(own, reach, path, at)) === undefined) continue;
    if (table.value !== own.before.value || table.low !== own.before.low || table.high !== own.before.high)
      changed.push(key);
    replaced.set(key, {
      value: own.value,
      low: own.low,
      high: own.high,
      unit: own.unit,
      source: 'your-pours',
      where: `${learned.from.file}, ${learned.from.pours} pours, fitted ${learned.from.fitted}`,
      status: 'computed',
    });
  }
  if (changed.length > 0) {
    all.add({
      code: 'figures-outdated',
      severity: 'warning',
      where: at('figures'),
      found: changed.join(', '),
      hint: 'the table has changed since your pours were fitted; run pours fit again',
    });
  }
  const problems = all.finish();
  const titles = [...replaced.keys()].map((key) => [key, shortTitle(tables, key)] as const);
  return {
    tables: withFigures(tables, replaced),
    waste,
    shelf: {
      file,
      together: togetherOf(learned),
      titles: new Map([...titles, ...(waste === null ? [] : [[WASTE_KEY, 'waste'] as const])]),
      waste: waste !== null,
    },
    problems,
  };
}

/** Rounding to five decimals could make a tight set of correlations impossible; this much nearer to none it never is. */
const ROUNDED = 0.9995;

/** The correlations as a factor; figures that a hand has edited apart are drawn each by itself. */
function togetherOf(learned: LearnedFile): Together {
  const keys = Object.keys(learned.figures);
  const { together } = learned;
  const whole = together.length === keys.length && together.every((row, i) => row.length === i + 1 && row[i] === 1);
  const at = (i: number, j: number) => (i >= j ? together[i]?.[j] : together[j]?.[i]) ?? Number.NaN;
  const full = keys.map((_k, i) => keys.map((_l, j) => (i === j ? 1 : ROUNDED * at(i, j))));
  const factor = whole ? cholesky(full) : undefined;
  return factor === undefined ? { keys: [], factor: [] } : { keys, factor };
}
