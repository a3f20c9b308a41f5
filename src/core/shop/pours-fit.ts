import type { FigureKey } from '../blend/figure-keys.js';
import type { Reading } from '../blend/numbers.js';
import { figureAt, type Together } from '../blend/sampling.js';
import type { Figure } from '../materials/figure.js';
import { backward, cholesky, forward, inverseOf } from './linear-algebra.js';
import { middleOf } from './pours-marginal.js';

/** What was measured at one pour, and what the model says it should be under a reading of the figures. */
export interface Measured {
  /** Numbers as observed: grams, or logarithms of times. */
  readonly observed: readonly number[];
  /** Covariance of the errors of observing them. */
  readonly covariance: readonly (readonly number[])[];
  readonly predict: (read: Reading) => readonly number[];
}

/** A figure before and after the pours. */
export interface FittedFigure {
  readonly key: FigureKey;
  readonly before: Figure;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Standard deviations left, of 1 before: how much the pours have narrowed it. */
  readonly left: number;
  /** Standard deviations the value has moved. */
  readonly moved: number;
}

/**
 * Misfit above which a pour, or all of them together, contradicts the model: a slip of the pen or another mould rather than
 * a figure to be learned. Ours: for errors of the size allowed for, a pour lies above 3 once in many thousands.
 */
const MOST_MISFIT = { pour: 4, together: 2.5 } as const;

/** Pours that contradict the model; when there are any, nothing of the fit should be used. */
export function contradicting(fit: Fit): readonly number[] {
  const above = fit.byPour.flatMap((misfit, i) => (misfit > MOST_MISFIT.pour ? [i] : []));
  if (above.length > 0 || fit.misfit.after <= MOST_MISFIT.together) return above;
  const worst = Math.max(...fit.byPour);
  return fit.byPour.flatMap((misfit, i) => (misfit === worst ? [i] : []));
}

export interface Fit {
  /** Every figure the measurements speak of, most narrowed first. */
  readonly figures: readonly FittedFigure[];
  readonly together: Together;
  /** Root mean square of the weighted residuals: about 1 when model and noise fit what was seen; before and after. */
  readonly misfit: { readonly before: number; readonly after: number };
  /** The same for each pour by itself, in the order given: one far above the others hides a slip. */
  readonly byPour: readonly number[];
  readonly measurements: number;
  /** False: the steps did not come to rest; the answer is the best point met. */
  readonly settled: boolean;
}

/** Half the width over which a slope is taken, in standard deviations: wide enough to smooth the kink at the median. */
const REACH = 0.1;
/** A figure that one standard deviation moves by less than this share of the noise is left alone. */
const LEAST_EFFECT = 0.05;
const MOST_ROUNDS = 12;
/** Steps taken on one set of slopes; they cost far more than a step. */
const MOST_STEPS = 6;
/** Largest move, in standard deviations, at which slopes still hold and steps have come to rest. */
const SLOPES_HOLD = 0.02;
const AT_REST = 1e-3;
/** Rounds after which slopes are damped. */
const TO_AND_FRO = 4;

/**
 * Bayesian update of the figures by measurements: maximum a posteriori by Gauss-Newton, spread by the curvature there.
 *
 * Every figure is standard normal in z before (figureAt: two-piece normal over the table's low, value, high), so with
 * whitened residuals r(z) and slopes J = dr/dz the posterior is
 *
 *   minimise |r(z)|^2 + |z|^2,   covariance = (I + J'J)^-1
 *
 * All uncertain figures that the measurements speak of take part, so that a density not known is not mistaken for air.
 * Source: Gauss-Newton and the Laplace approximation (from memory). Deterministic.
 */
export function fitFigures(measured: readonly Measured[]): Fit {
  const pours = measured.map(whitened);
  const priors = new Map(pours.flatMap((p) => [...p.figures]));
  const { keys, slopes: first } = speaking(priors, pours);
  const model = modelOf(keys, pours);

  let at = model.point(keys.map(() => 0));
  const before = rms(at.r.flat());
  let curve = curvature(first);
  let settled = false;
  for (let round = 0; round < MOST_ROUNDS && !settled; round++) {
    if (round > 0) {
      const slopes = model.slopes(at.z);
      // Two sides of a kink can send the steps to and fro; a mean of their slopes brings them to rest between.
      curve = curvature(round > TO_AND_FRO ? between(curve.slopes, slopes) : slopes);
    }
    const start = at;
    at = walk(model, curve, at);
    // The slopes taken over a whole standard deviation on the first round never decide the spread.
    settled = round > 0 && furthest(start.z, at.z) < SLOPES_HOLD;
  }
  const covariance = inverseOf(curve.factor);
  const order = keys.map((_k, i) => i).sort((a, b) => covariance[a]![a]! - covariance[b]![b]!);
  const figures = order.map((i) => fitted(keys[i]!, priors.get(keys[i]!)!, at.z[i]!, Math.sqrt(covariance[i]![i]!)));
  return {
    figures,
    together: togetherOf(order, keys, covariance),
    misfit: { before, after: rms(at.r.flat()) },
    byPour: at.r.map(rms),
    measurements: at.r.flat().length,
    settled,
  };
}

/** Residuals of one pour, scaled so that their errors are independent with unit spread: L^-1 (observed - predicted). */
interface Whitened {
  readonly size: number;
  readonly residual: (read: Reading) => number[];
  /** Every figure with a range that its prediction reads. */
  readonly figures: ReadonlyMap<FigureKey, Figure>;
}

function whitened(m: Measured): Whitened {
  const factor = cholesky(m.covariance);
  if (factor === undefined) throw new RangeError('a covariance of measurements is not positive definite');
  const figures = new Map<FigureKey, Figure>();
  m.predict((key, figure) => {
    if (figure.low < figure.high) figures.set(key, figure);
    return figure.value;
  });
  const residual = (read: Reading): number[] => {
    const predicted = m.predict(read);
    return forward(
      factor,
      m.observed.map((v, i) => v - predicted[i]!),
    );
  };
  return { size: m.observed.length, residual, figures };
}

/** Slopes of all residuals, one row a key; residuals of pours that do not read the key stay zero. */
type Slopes = readonly (readonly number[])[];

/** Residuals pour by pour at one setting of the figures. */
interface Point {
  readonly z: readonly number[];
  readonly r: readonly (readonly number[])[];
}

interface Model {
  readonly point: (z: readonly number[]) => Point;
  readonly slopes: (z: readonly number[]) => Slopes;
}

const readingOf =
  (z: ReadonlyMap<FigureKey, number>): Reading =>
  (key, figure) => {
    const at = z.get(key);
    return at === undefined ? figure.value : figureAt(figure, at);
  };

function modelOf(keys: readonly FigureKey[], pours: readonly Whitened[]): Model {
  const residuals = (z: readonly number[]) => {
    const read = readingOf(new Map(keys.map((key, i) => [key, z[i]!])));
    return pours.map((p) => p.residual(read));
  };
  return {
    point: (z) => ({ z, r: residuals(z) }),
    slopes: (z) => {
      const held = new Map(keys.map((key, i) => [key, z[i]!]));
      return keys.map((key, i) => slopesOf(pours, key, held, z[i]! - REACH, z[i]! + REACH));
    },
  };
}

/** Mean slope of the residuals as one figure goes from low to high in z, the others held. */
function slopesOf(
  pours: readonly Whitened[],
  key: FigureKey,
  held: ReadonlyMap<FigureKey, number>,
  low: number,
  high: number,
): number[] {
  const at = (z: number) => readingOf(new Map([...held, [key, z]]));
  const [below, above] = [at(low), at(high)];
  return pours.flatMap((p) => {
    if (!p.figures.has(key)) return new Array<number>(p.size).fill(0);
    const up = p.residual(above);
    const down = p.residual(below);
    return up.map((v, j) => (v - down[j]!) / (high - low));
  });
}

/** The figures that move some prediction by a share of its noise that is worth a column, in one order always. */
function speaking(
  priors: ReadonlyMap<FigureKey, Figure>,
  pours: readonly Whitened[],
): { keys: FigureKey[]; slopes: Slopes } {
  const all = [...priors.keys()].sort().map((key) => ({ key, slopes: slopesOf(pours, key, new Map(), -1, 1) }));
  const loud = all.filter(({ slopes }) => slopes.some((slope) => Math.abs(slope) > LEAST_EFFECT));
  return { keys: loud.map(({ key }) => key), slopes: loud.map(({ slopes }) => slopes) };
}

const between = (a: Slopes, b: Slopes): Slopes => a.map((row, i) => row.map((v, j) => (v + b[i]![j]!) / 2));

interface Curvature {
  readonly slopes: Slopes;
  /** Factor of I + J'J. */
  readonly factor: readonly (readonly number[])[];
}

function curvature(slopes: Slopes): Curvature {
  const matrix = slopes.map((row, a) => slopes.map((other, b) => (a === b ? 1 : 0) + dot(row, other)));
  return { slopes, factor: cholesky(matrix)! };
}

const objective = ({ z, r }: Point): number => r.reduce((s, part) => s + square(part), 0) + square(z);

/** Steps on one set of slopes, each halved until the objective falls, until they come to rest. */
function walk(model: Model, { slopes, factor }: Curvature, from: Point): Point {
  let at = from;
  for (let step = 0; step < MOST_STEPS; step++) {
    const residuals = at.r.flat();
    const downhill = slopes.map((row, a) => -(dot(row, residuals) + at.z[a]!));
    const direction = backward(factor, forward(factor, downhill));
    let next: Point | undefined;
    for (let share = 1; share > 1e-3 && next === undefined; share /= 2) {
      const there = model.point(at.z.map((v, i) => v + share * direction[i]!));
      if (objective(there) < objective(at)) next = there;
    }
    if (next === undefined) return at;
    const moved = furthest(at.z, next.z);
    at = next;
    if (moved < AT_REST) return at;
  }
  return at;
}

const furthest = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((most, v, i) => Math.max(most, Math.abs(v - b[i]!)), 0);

function fitted(key: FigureKey, before: Figure, z: number, spread: number): FittedFigure {
  const { low, high } = middleOf(before, z, spread, REACH);
  const [from, value, to] = [low, z, high].map((at) => figureAt(before, at));
  return { key, before, value: value!, low: from!, high: to!, left: spread, moved: z };
}

function togetherOf(
  order: readonly number[],
  keys: readonly FigureKey[],
  covariance: readonly (readonly number[])[],
): Together {
  const spread = order.map((i) => Math.sqrt(covariance[i]![i]!));
  const correlation = order.map((i, a) =>
    order.map((k, b) => (a === b ? 1 : covariance[i]![k]! / (spread[a]! * spread[b]!))),
  );
  return { keys: order.map((i) => keys[i]!), factor: cholesky(correlation) ?? order.map((_k, i) => unitRow(i)) };
}

const unitRow = (i: number): number[] => Array.from({ length: i + 1 }, (_v, k) => (k === i ? 1 : 0));

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

const square = (v: readonly number[]): number => dot(v, v);
const rms = (v: readonly number[]): number => (v.length === 0 ? 0 : Math.sqrt(square(v) / v.length));
