import { propertyById } from '../blend/properties/index.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { propertyValue } from '../blend/property.js';
import { type BlendState, stateOf } from '../blend/state/state.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import { type BlendProgram, blendProgram, columnsOf, steadyRows } from './blend-program.js';
import { faceOf, reaches } from './faces.js';
import type { Candidate, Face, Fence, Learnt } from './ground.js';
import type { Column } from './lp/types.js';
import { mendingProgram } from './mend.js';
import { better, missOf } from './miss.js';
import { soughtValue } from './objective.js';
import type { Question } from './question.js';
import { beyond, outOfBounds, outOfRows } from './row-misses.js';
import { rowsOf } from './rows.js';
import type { Bound, Settled, SettleOptions } from './settled.js';
import { bestBlend, blendOf } from './solved-blend.js';
import { limitsIn } from './standing-limits.js';
import type { BinderSystem } from './systems.js';
import { frozenAt, type Neighbourhood, neighbourhood, withoutNeighbours } from './tangent.js';

/** The rows as they look from a blend; `only`: the materials whose slopes were looked at. */
interface View {
  readonly at: readonly number[];
  readonly only: readonly boolean[] | null;
  hood: Neighbourhood;
  readonly program: BlendProgram;
}

const VIEWS = 3;

/** The ground a search walks on: steps, mends and judgements of one question in one binder system. */
export function searchOf(question: Question, world: World, system: BinderSystem, options: SettleOptions) {
  const { aim } = options;
  const tighten = options.tighten ?? new Map<string, number>();
  const columns = narrowed(columnsOf(question, world, system), options.bounds);
  const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);
  const steady = steadyRows(question, world, system);
  const limits = limitsIn(question, system).map((t) => tightened(t, tighten));
  // A step that is refused is tried again from the same blend, and one that was brought back is walked on from; a jump is
  // not. No more are kept: views are large, and what lives on is copied about by the garbage collector.
  const recent: View[] = [];
  // A search looks from what it has judged.
  const judged = new WeakMap<readonly number[], BlendState>();
  const viewFrom = (at: readonly number[], only: readonly boolean[] | null, once = false): View => {
    const before = recent.find((v) => v.at === at && v.only === only);
    if (before !== undefined) return before;
    const hood = neighbourhood(world, at, both(open, only), judged.get(at));
    const view = { at, only, hood, program: blendProgram(question, world, hood, system, columns, tighten, steady) };
    if (!once) {
      recent.unshift(view);
      recent.splice(VIEWS);
    }
    return view;
  };

  return {
    columns,
    /** Grams of the optimum of the rows at a blend, or of its nearest blend; null when neither could be certified. */
    step(
      at: readonly number[],
      reach: number | null,
      only: readonly boolean[] | null,
      learnt: Learnt = { fences: [], faces: [] },
    ): number[] | null {
      const view = viewFrom(at, only, reach === null);
      const { hood, program } = view;
      const some = only === null ? columns : barring(columns, only);
      const held = reach === null ? some : columnsWithin(some, at, reach, hood.base.amounts.binder, question);
      const within = fenced({ ...program, columns: held }, learnt.fences);
      const grams = bestBlend(within, aim, world, hood, reach !== null, learnt.faces);
      view.hood = withoutNeighbours(hood);
      return grams === null ? null : filling(world, grams, question.conditions.volume);
    },
    mend(at: readonly number[], only: readonly boolean[] | null, kept: readonly Fence[]) {
      const view = viewFrom(at, only).program;
      const program = only === null ? view : { ...view, columns: barring(columns, only) };
      const fences = program.rows.flatMap((row, r): Fence[] => {
        const origin = program.origins[r]!;
        // What looks the same from everywhere is in every program already.
        const straight = origin.kind === 'fixed' || propertyById(origin.target.property)!.stateless === true;
        const idle = beyond(row, at) < -IDLE * (row.scale ?? 1);
        return straight || idle ? [] : [{ row, origin }];
      });
      const grams = blendOf(program, mendingProgram(fenced(program, kept), at));
      return { grams: Array.isArray(grams) ? filling(world, grams, question.conditions.volume) : null, fences };
    },
    better: (a: Candidate, b: Candidate): boolean => better(a, b, aim),
    allows({ row, origin }: Fence, at: Candidate): boolean {
      if (origin.kind === 'fixed') return true;
      const { target, side } = origin;
      const limit = limits.find((l) => l.property === target.property)?.[side];
      if (limit === undefined) return false;
      const here = rowsOf(
        propertyById(target.property)!,
        { property: target.property, [side]: limit },
        world,
        frozenAt(at.state),
      );
      const own = here.reduce((most, r) => Math.max(most, beyond(r, at.grams)), 0);
      return beyond(row, at.grams) <= own + HOLDS * (row.scale ?? 1);
    },
    judge(grams: readonly number[]): Candidate {
      const state = stateOf(world, grams);
      judged.set(grams, state);
      const miss = missOf(limits, world, state) + outOfBounds(columns, grams) + outOfRows(steady, grams);
      return { grams, state, miss, value: soughtValue(aim, world, state) };
    },
    face(at: readonly number[], only: readonly boolean[] | null): Face | null {
      return faceOf(aim, world, viewFrom(at, only).hood);
    },
    reaches: (face: Face, at: Candidate): boolean => reaches(aim, world, face, at),
    finish(best: Candidate, still: boolean, solves: number): Settled {
      let program: BlendProgram | undefined;
      return {
        ...best,
        // Few ask for it, and it costs as much as a step.
        get program() {
          program ??= viewFrom(best.grams, null).program;
          return program;
        },
        feasible: best.miss === 0,
        still,
        solves,
      };
    },
  };
}

/** A limit that holds by more than this share of its row is no fence. */
const IDLE = 0.1;
/** A fence this far short of its side (in shares of it) still holds. */
const HOLDS = 1e-6;

const fenced = (program: BlendProgram, fences: readonly Fence[]): BlendProgram =>
  fences.length === 0
    ? program
    : {
        ...program,
        rows: [...program.rows, ...fences.map((f) => f.row)],
        origins: [...program.origins, ...fences.map((f) => f.origin)],
      };

const both = (a: readonly boolean[], b: readonly boolean[] | null): readonly boolean[] =>
  b === null ? a : a.map((x, i) => x && b[i]!);

const barring = (columns: readonly Column[], only: readonly boolean[]): Column[] =>
  columns.map((c, i) => (only[i]! ? c : { name: c.name, lower: c.lower, upper: 0 }));

const narrowed = (columns: readonly Column[], bounds: readonly Bound[] | undefined): readonly Column[] =>
  bounds === undefined
    ? columns
    : columns.map((column, i) => {
        const upper = Math.min(column.upper ?? Number.POSITIVE_INFINITY, bounds[i]!.upper);
        return { name: column.name, lower: Math.min(upper, bounds[i]!.lower), upper };
      });

/** Scales a blend to fill the mould just so: ratios stay, and the next step starts from where its volume row holds. */
export function filling(world: World, grams: readonly number[], volume: number): number[] {
  const { value } = propertyValue(freshVolume, world, stateOf(world, grams));
  const factor = value === null || value <= 0 ? 1 : volume / value;
  return grams.map((g) => g * factor);
}

const tightened = (target: Target, tighten: ReadonlyMap<string, number>): Target => ({
  ...target,
  ...(target.max === undefined ? {} : { max: target.max - (tighten.get(`${target.property} max`) ?? 0) }),
  ...(target.min === undefined ? {} : { min: target.min + (tighten.get(`${target.property} min`) ?? 0) }),
});

/** Columns held near the blend: within a share of its mass, and for what is dosed within that share of its usual dose. */
function columnsWithin(
  columns: readonly Column[],
  at: readonly number[],
  reach: number,
  binder: number,
  question: Question,
): Column[] {
  const total = at.reduce((s, g) => s + g, 0);
  return columns.map((column, i) => {
    const usual = question.materials[i]!.dose?.usual.value;
    const far = reach * (usual === undefined ? total : Math.max(at[i]!, (usual / 100) * binder));
    const upper = Math.min(column.upper ?? Number.POSITIVE_INFINITY, at[i]! + far);
    const lower = Math.max(column.lower ?? 0, at[i]! - far);
    // A blend scaled to its mould may lie a hair outside its own bounds.
    return {
      name: column.name,
      lower: Math.min(lower, column.upper ?? lower),
      upper: Math.max(upper, column.lower ?? upper),
    };
  });
}

export const distance = (a: readonly number[], b: readonly number[]): number => {
  let worst = 0;
  let total = 0;
  for (let i = 0; i < a.length; i++) {
    worst = Math.max(worst, Math.abs(a[i]! - b[i]!));
    total += a[i]!;
  }
  return worst / Math.max(1e-9, total);
};
