import { propertyById } from '../blend/properties/index.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { propertyValue } from '../blend/property.js';
import { type BlendState, stateOf } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import { marginOf } from '../blend/target.js';
import { dot, type World } from '../blend/world.js';
import { AS_NEAR, asNear } from './as-near.js';
import { type BlendProgram, blendProgram, columnsOf, steadyRows } from './blend-program.js';
import { broken, heldRows, pastWindows } from './held-rows.js';
import { gramsAt, inSteps, type Knob, scaleKnobs } from './knobs.js';
import { solveMilp } from './lp/milp.js';
import type { LinearProgram } from './lp/types.js';
import { better, missOf, missOfOne } from './miss.js';
import { beyondSides, mouldSides } from './mould-sides.js';
import { nearestProgram } from './nearest.js';
import { merit, type Sought, soughtProgram, soughtValue } from './objective.js';
import { perMould } from './per-mould.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { mended, neighbouring, resized, type Turning, type Weighed } from './rounding-neighbours.js';
import { limitsIn } from './standing-limits.js';
import type { BinderSystem } from './systems.js';
import { neighbourhood } from './tangent.js';

/** What will be weighed: grams per batch on the scale's steps, and what that makes of one piece. */
export interface Weighable {
  readonly batchGrams: readonly number[];
  /** One mould full of what is weighed. */
  readonly pieceGrams: readonly number[];
  /** Of that mould full. */
  readonly state: BlendState;
  /** Moulds that the batch fills, waste included. */
  readonly fills: number;
  /** Sum of misses in shares of each limit, 0 when all hold. */
  readonly miss: number;
}

export interface RoundingOptions {
  /** What is measured out in whole steps; default: each ingredient on the scale. */
  readonly knobs?: (batchGrams: readonly number[]) => readonly Knob[];
  /** Steps that a knob may be turned from the exact blend, each way; default 8. */
  readonly reach?: number;
}

/**
 * What is rounded and to what; `filled`: the most that the volume may be off by for the steps, as a share of the mould;
 * `strict`: dose windows and shares do not give way to the steps.
 */
interface Within {
  readonly limits: readonly Target[];
  /** State of the blend before rounding. */
  readonly exact: BlendState;
  readonly knobs: readonly Knob[];
  /** Portions in the batch. */
  readonly times: number;
  readonly reach: number;
  readonly filled: number;
  readonly strict: boolean;
  /** Whether the batch may be made larger for nearer parts: not of what is measured in parts. */
  readonly sized: boolean;
}

const REACH = 8;
const NODES = 400;
/** A rounding this close to the best of the rows will do: a step of the scale is a coarser thing. */
const GAP = 5e-4;
/** Rounds in which limits that curve away from their rows are held back by what they were missed by. */
const ROUNDS = 4;
/** Only the dust of arithmetic is forgiven, as in the verdicts. */
const STRICT = 1e-9;

/** Share of the mould by which a portion may be short or over where any rounding comes so near: what waste makes up for. Ours. */
const WELL_FILLED = 0.02;

/** Share of the objective that a rounding within every dose window may cost. Ours. */
const AS_GOOD = 0.01;

/**
 * Rounds a blend to what the scale can tell apart so that every limit holds, where any rounding near it does; within two
 * hundredths of the mould's volume if that can be, else as near as the steps allow. Limits and what is sought are judged on
 * a mould full. Of a blend that misses limits nothing else is missed, where some rounding misses as little in all.
 */
export function roundToScale(
  question: Question,
  world: World,
  system: BinderSystem,
  grams: readonly number[],
  aim: Sought,
  options: RoundingOptions = {},
): Weighable {
  const times = portions(question.batch, world.conditions.waste);
  const batch = grams.map((g) => g * times);
  const knobs = options.knobs?.(batch) ?? scaleKnobs(question, batch);
  const reach = options.reach ?? REACH;
  const sized = options.knobs === undefined;
  const exact = stateOf(world, grams);
  const limits = limitsIn(question, system);
  const rounded = (filled: number, strict = false): Weighed =>
    roundWithin(question, world, system, aim, { limits, exact, knobs, times, reach, filled, strict, sized });
  const filledTo = (filled: number): Weighed => {
    const found = rounded(filled);
    if (!found.past) return found;
    // Half a step past a window is as near as the scale can tell; rather not, where a rounding within is as good.
    const within = rounded(filled, true);
    return within.miss === 0 && merit(aim, within.value) - merit(aim, found.value) <= AS_GOOD ? within : found;
  };
  if (missOf(limits, world, exact) === 0) {
    const well = filledTo(WELL_FILLED);
    return well.miss === 0 ? well : filledTo(Number.POSITIVE_INFINITY);
  }
  // What misses its limits as it is can leave none of them for a better filled mould.
  const least = rounded(Number.POSITIVE_INFINITY);
  if (least.miss === 0) return least;
  // The least of all misses together may be bought with a new one: not where what is missed anyhow will do instead.
  const near = asNear(question, world, exact);
  const kept = {
    limits: limitsIn(near, system),
    exact,
    knobs,
    times,
    reach,
    filled: WELL_FILLED,
    strict: false,
    sized,
  };
  const found = roundWithin(near, world, system, aim, kept);
  const miss = missOf(limits, world, found.state, STRICT);
  return found.miss === 0 && miss <= (1 + AS_NEAR) * least.miss ? { ...found, miss } : least;
}

/**
 * Plain rounding comes first, mended by a step or two where it misses a limit by a hair. Where that does not do, branch
 * and bound over whole steps looks on the rows at the blend for the best rounding that keeps them all (equalities, the
 * mould's volume among them, within half a step of each ingredient), the forward model judges it, it is mended likewise,
 * and limits that curve away from their rows are held back and searched again.
 * Where the rows leave none, the rounding that misses least is taken and its neighbours are tried one by one with the
 * forward model. Deterministic, and bounded in nodes and tries.
 */
function roundWithin(
  question: Question,
  world: World,
  system: BinderSystem,
  aim: Sought,
  { limits, exact, knobs, times, reach, filled, strict: tight, sized }: Within,
): Weighed {
  const { grams } = exact;
  const { volume } = question.conditions;
  const columns = columnsOf(question, world, system);
  // They hold whole steps as well as grams.
  const steady: LinearProgram = {
    columns,
    rows: steadyRows(question, world, system),
    sense: 'min',
    objective: columns.map(() => 0),
  };
  const fixed = inSteps(steady, knobs, grams.length, times, reach);
  const held = heldRows(fixed.rows, tight);
  const sides = (over = 0) => mouldSides(world, knobs, exact.air, times, filled, over);
  const filledBy = (state: BlendState): number => propertyValue(freshVolume, world, state).value ?? 0;
  const weighing =
    (inOrder: readonly Target[], mould = sides()) =>
    (steps: readonly number[], enough = Number.POSITIVE_INFINITY): Weighed => {
      const batchGrams = gramsAt(knobs, steps, grams.length);
      const portion = batchGrams.map((g) => g / times);
      const filling = filledBy(stateOf(world, portion));
      // Nothing at all fills no mould, however much of it there is.
      const full = filling > 0 ? volume / filling : 1;
      const pieceGrams = portion.map((g) => g * full);
      const state = stateOf(world, pieceGrams);
      // The mould is judged by the forward model too: a dose that rounds away can take its air with it.
      const beside = broken(held, steps) + beyondSides(mould, filling);
      const miss = beside + missOf(inOrder, world, state, STRICT, enough - beside);
      return {
        steps,
        batchGrams,
        pieceGrams,
        state,
        fills: (times * filling) / volume,
        miss,
        past: miss === 0 && pastWindows(held, steps),
        value: miss > enough ? null : soughtValue(aim, world, state),
      };
    };
  const plain = weighing(limits)(knobs.map((k) => Math.min(k.most, Math.max(k.least, Math.round(k.exact)))));
  const sought = soughtValue(aim, world, exact);
  const close = (found: Weighed, to: number | null, within: number): boolean =>
    found.miss === 0 && merit(aim, found.value) - merit(aim, to) <= within;
  if (close(plain, sought, AS_GOOD)) return plain;
  // What the plain rounding misses its neighbours are likeliest to miss, and need be asked no further.
  const missed = new Map(limits.map((limit) => [limit, missOfOne(limit, world, plain.state, STRICT)]));
  const inOrder = [...limits].sort((a, b) => missed.get(b)! - missed.get(a)!);
  const weigh = weighing(inOrder);
  const turning: Turning = { knobs, weigh, aim };
  let best = mended(plain, turning);
  // No rounding is much better than the exact blend: a neighbour that comes so near to it needs no search.
  if (close(best, sought, GAP)) return best;

  const hood = neighbourhood(
    world,
    grams,
    grams.map((g) => g > 0),
    exact,
  );
  const rowsAt = (tighten?: ReadonlyMap<string, number>) =>
    blendProgram(question, world, hood, system, columns, tighten);
  const strict = rowsAt();
  const search = (linear: LinearProgram): readonly number[] | null => {
    const inWhole = inSteps(perMould(linear, grams), knobs, grams.length, times, reach, filled);
    const answer = solveMilp(inWhole, { nodeLimit: NODES, gap: GAP });
    const found = answer.status === 'optimal' ? answer : answer.status === 'stopped' ? answer.best : undefined;
    return found === undefined ? null : found.x.slice(0, knobs.length);
  };

  const tighten = new Map<string, number>();
  let astray = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const steps = search(soughtProgram(aim, filledMore(rowsAt(tighten), astray), world, hood));
    if (steps === null) break;
    const found = weigh(steps);
    const near = mended(found, turning);
    if (better(near, best, aim)) best = near;
    // A neighbour that holds will do too where it is as close to the best of the rows.
    if (close(best, found.value, GAP)) return best;
    holdBack(tighten, limits, world, found.state);
    astray = dot(strict.rows[0]!.coefficients, found.pieceGrams) - volume;
  }
  const sound = missOf(limits, world, exact) === 0;
  if (sized && sound && !close(best, sought, AS_GOOD)) {
    // A batch that leaves a little over may come nearer to the blend's parts.
    const bySize = { ...turning, weigh: weighing(inOrder, sides(WELL_FILLED)) };
    const other = mended(resized(best, WELL_FILLED, bySize), bySize);
    if (better(other, best, aim)) best = other;
  }
  if (best.miss === 0) return best;
  const nearest = search(nearestProgram(strict));
  if (nearest !== null) {
    const found = weigh(nearest);
    if (better(found, best, aim)) best = found;
  }
  // What is far from holding holds in no neighbour either.
  return best.miss === 0 || !sound ? best : neighbouring(best, turning);
}

/** The rows with so much more (cm³) asked of the mould's, the first: what its row was off by at a rounding. */
const filledMore = (program: BlendProgram, more: number): BlendProgram => {
  const [mould, ...others] = program.rows;
  return { ...program, rows: [{ ...mould!, low: mould!.low! + more, high: mould!.high! + more }, ...others] };
};

/** Adds what each missed side was missed by, and half as much again. */
function holdBack(tighten: Map<string, number>, limits: readonly Target[], world: World, state: BlendState): void {
  for (const limit of limits) {
    const { value } = propertyValue(propertyById(limit.property)!, world, state);
    if (value === null) continue;
    for (const side of ['min', 'max'] as const) {
      const at = limit[side];
      if (at === undefined) continue;
      const one: Target =
        side === 'max' ? { property: limit.property, max: at } : { property: limit.property, min: at };
      const missed = -marginOf(one, value);
      if (missed <= 0) continue;
      const key = `${limit.property} ${side}`;
      tighten.set(key, (tighten.get(key) ?? 0) + 1.5 * missed + STRICT * Math.abs(at));
    }
  }
}
