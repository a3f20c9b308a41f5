import { type FigureTables, titleOfKey } from '../blend/figure-keys.js';
import type { Problem } from '../problems/problem.js';
import { isLearned, isNotable, WASTE_TITLE } from '../shop/learned.js';
import { isoDate } from '../shop/order-calendar.js';
import { atConstantWeight, type Curve } from '../shop/pours-curve.js';
import { contradicting, type Fit } from '../shop/pours-fit.js';
import { WASTE_KEY } from '../shop/pours-measured.js';
import type { Pour } from '../shop/pours-record.js';
import { inBoth } from '../units/marked.js';
import type { FitResult, PoursResult, ShownPour } from './pours-schema.js';
import { problemResult } from './problem-result.js';
import { NEVER_DRY, toldHours } from './told-figures.js';

/** A pour with the curve fitted to it, or why there is none. */
export interface CurvedPour {
  readonly pour: Pour;
  readonly curve: Curve | null;
  readonly why: string | null;
}

const POINTS = 48;
/** Hours a curve is drawn over when nothing else says so. */
const LEAST_SPAN = 72;

export const poursResult = (file: string, shown: readonly CurvedPour[], problems: readonly Problem[]): PoursResult => ({
  format: 'pourwright.pours/1',
  file,
  pours: shown.map(shownPour),
  warnings: problems.map(problemResult),
});

function shownPour({ pour, curve, why }: CurvedPour): ShownPour {
  const { name, date, where: _where, weights, ...rest } = pour;
  const { verdict, first, last, change } = atConstantWeight(weights);
  return {
    pour: name,
    date: date === null ? null : isoDate(date),
    ...rest,
    weights: weights.map((w) => ({ ...w })),
    constantWeight: { verdict, change, apartHours: first === null || last === null ? null : last.hours - first.hours },
    curve: curve === null ? null : curveOf(curve, weights),
    why,
  };
}

function curveOf(curve: Curve, weights: Pour['weights']): NonNullable<ShownPour['curve']> {
  const { value: dryAfterHours, why } = toldHours(curve.dryAfter, NEVER_DRY);
  const until = Math.max(LEAST_SPAN, weights.at(-1)?.hours ?? 0, dryAfterHours ?? 0) * 1.05;
  const points = Array.from({ length: POINTS + 1 }, (_v, i) => {
    const hours = (until * i) / POINTS;
    return { hours, grams: curve.at(hours) };
  });
  return { points, dryGrams: curve.dry, dryAfterHours, why };
}

export interface FitReport {
  readonly file: string;
  readonly used: readonly Pour[];
  readonly left: FitResult['left'];
  readonly written: string | null;
  readonly named: boolean;
  readonly problems: readonly Problem[];
}

export function fitResult(fit: Fit, tables: FigureTables, report: FitReport): FitResult {
  const bad = contradicting(fit);
  return {
    format: 'pourwright.fit/1',
    file: report.file,
    used: report.used.map((p, i) => ({
      pour: p.name,
      misfit: fit.byPour[i]!,
      contradicts: bad.includes(i),
    })),
    left: report.left.map((l) => ({ ...l })),
    measurements: fit.measurements,
    misfit: { ...fit.misfit },
    settled: fit.settled,
    figures: fit.figures.map((f) =>
      inBoth(
        {
          figure: f.key,
          unit: f.before.unit,
          before: { value: f.before.value, low: f.before.low, high: f.before.high },
          after: { value: f.value, low: f.low, high: f.high },
          left: f.left,
          moved: f.moved,
          kept: isLearned(f),
          notable: isNotable(f),
        },
        { title: f.key === WASTE_KEY ? WASTE_TITLE : titleOfKey(tables, f.key) },
      ),
    ),
    trusted: bad.length === 0,
    written: report.written,
    named: report.named,
    warnings: report.problems.map(problemResult),
  };
}
