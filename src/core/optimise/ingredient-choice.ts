import type { World } from '../blend/world.js';
import { blendProgram, columnsOf } from './blend-program.js';
import { isDosed } from './bulk.js';
import { type Flagged, flagsUp, mostOfEach, withFlags } from './flags.js';
import { heldIn, isDry, leastDose, NO_LIMITS } from './least-dose.js';
import { likeliest } from './likeliest.js';
import { solveMilp } from './lp/milp.js';
import { openColumns } from './lp/open-columns.js';
import type { LinearProgram } from './lp/types.js';
import { AGREE, better } from './miss.js';
import { nearestProgram } from './nearest.js';
import { type Sought, soughtProgram } from './objective.js';
import { portions } from './portions.js';
import type { Question } from './question.js';
import { settle, settleNear } from './settle.js';
import type { Bound, Settled } from './settled.js';
import type { BinderSystem } from './systems.js';
import { neighbourhood } from './tangent.js';

const NODES = 400;
const NEAREST_NODES = 60;
/** Pivots of one search, some tenths of a second. */
const PIVOTS = 8000;
/** A blend that misses so many times as much as the one without limits is looked for once more. */
const FARTHER = 1.5;
/** Other ingredients that are tried in place of one that is too little to weigh. */
const MOST_SWAPS = 20;

/** A set of ingredients that branch and bound chose. */
interface Found {
  /** Materials used, water apart. */
  readonly set: readonly number[];
  readonly grams: readonly number[];
  /** The program it is the optimum of, without its flags. */
  readonly program: LinearProgram;
  readonly objective: number;
  /** False for the nearest point, where none keeps the rows or none was found. */
  readonly keeps: boolean;
}

/**
 * Which ingredients a blend may be made of: at most so many, each at its least dose or more. Sets are chosen by branch and
 * bound over the rows at a blend, or by a swap, and settled by the forward model.
 */
export function ingredientChoice(question: Question, world: World, system: BinderSystem, aim: Sought) {
  const { ingredients } = question.limits ?? NO_LIMITS;
  const least = leastDose(question) / portions(question.batch, question.conditions.waste);
  const asked = new Set(question.doses.map((d) => d.material));
  const choosable = world.materials.flatMap((m, i) => (m.kind === 'water' ? [] : [i]));
  const leastOf = (i: number): number => (asked.has(world.materials[i]!.id) ? 0 : least);
  const columns = columnsOf(question, world, system);
  const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);
  const enough = (i: number): boolean => (columns[i]!.upper ?? Number.POSITIVE_INFINITY) >= leastOf(i);

  /** Only these ingredients, each at its least or more, and water. */
  const boundsOf = (set: readonly number[]): Bound[] =>
    world.materials.map((m, i): Bound => {
      if (m.kind === 'water') return { lower: 0, upper: Number.POSITIVE_INFINITY };
      return set.includes(i) ? { lower: leastOf(i), upper: Number.POSITIVE_INFINITY } : { lower: 0, upper: 0 };
    });

  const rowsAt = (at: readonly number[]) => {
    const hood = neighbourhood(world, at, open);
    const whole = blendProgram(question, world, hood, system, columns);
    const most = mostOfEach(whole, world);
    const flagged = choosable.map(
      (i): Flagged => ({
        material: i,
        least: leastOf(i),
        most: most[i]!,
        counted: isDry(question, i),
        kept: asked.has(world.materials[i]!.id),
      }),
    );
    // What cannot be used at all needs no flag, and of a long shelf only the likeliest get one.
    const usable = likeliest(
      flagged.filter((f) => f.kept || (f.most > 0 && f.most >= f.least)),
      soughtProgram(aim, whole, world, hood),
      at,
    );
    const barred = new Set(choosable.filter((i) => !usable.some((f) => f.material === i)));
    const program = { ...whole, columns: columns.map((c, i) => (barred.has(i) ? { ...c, upper: 0 } : c)) };
    return { hood, program, flagged: usable };
  };
  const solved = (
    linear: LinearProgram,
    whole: LinearProgram,
    flagged: readonly Flagged[],
    keeps: boolean,
    times = 1,
  ): Found | null => {
    const { program, widen } = openColumns(whole);
    const answer = solveMilp(program, {
      nodeLimit: (keeps ? NODES : NEAREST_NODES) * times,
      pivotLimit: PIVOTS * times,
      gap: keeps ? 1e-5 : 1e-2,
    });
    const best = answer.status === 'optimal' ? answer : answer.status === 'stopped' ? answer.best : undefined;
    if (best === undefined) return null;
    const x = widen(best.x);
    const set = flagsUp(x, linear.columns.length, flagged);
    return { set, grams: x.slice(0, columns.length), program: linear, objective: best.objective, keeps };
  };

  return {
    boundsOf,
    /**
     * The best blend of what a blend has enough of, by itself or with one more ingredient of a kind it has too little of;
     * null: none, or more than the limits allow. So a strong retarder gives way to a weaker one that can be weighed, and
     * a blend that fillers thin takes more binder where its least of an accelerator would be too much.
     */
    swapped({ grams, miss }: Settled): Settled | null {
      const used = heldIn(world, grams);
      const set = used.filter((i) => grams[i]! >= leastOf(i));
      const kinds = new Set(used.filter((i) => !set.includes(i)).map((i) => world.materials[i]!.kind));
      // Of what it has, but too little, only a dose: that much of anything else would be another blend.
      const another = (i: number): boolean => !used.includes(i) || isDosed(question.materials[i]!);
      const others = choosable.filter(
        (i) => open[i]! && enough(i) && !set.includes(i) && another(i) && kinds.has(world.materials[i]!.kind),
      );
      let best: Settled | null = null;
      let bounds: Bound[] = [];
      for (const more of [[], ...others.slice(0, MOST_SWAPS).map((i) => [i])]) {
        const one = set.concat(more);
        if (ingredients !== null && one.filter((i) => isDry(question, i)).length > ingredients) continue;
        const within = boundsOf(one);
        // The least of such a dose may be far from the blend.
        const answer = more.some((i) => used.includes(i))
          ? settle(question, world, system, { aim, bounds: within })
          : settleNear(question, world, system, { aim, start: grams, bounds: within });
        if (answer === null || !this.keeps(answer.grams)) continue;
        if (best !== null && !better(answer, best, aim)) continue;
        best = answer;
        bounds = within;
      }
      // What is left of a pair that worked against each other may have done all it can, and shows no way back.
      if (best === null || best.miss <= FARTHER * miss) return best;
      const afresh = settle(question, world, system, { aim, bounds });
      return afresh !== null && better(afresh, best, aim) ? afresh : best;
    },
    /** Whether a blend keeps the limits. */
    keeps(grams: readonly number[]): boolean {
      const used = heldIn(world, grams);
      if (ingredients !== null && used.filter((i) => isDry(question, i)).length > ingredients) return false;
      return used.every((i) => grams[i]! >= leastOf(i) * (1 - AGREE));
    },
    /**
     * The best set by the rows at a blend, or, if asked for, the set that comes nearest; null when there is neither.
     * `times`: how many times as long it may be looked for.
     */
    best(at: readonly number[], tried: readonly (readonly number[])[], nearest: boolean, times: number): Found | null {
      const { hood, program, flagged } = rowsAt(at);
      const first = (linear: LinearProgram, keeps: boolean) =>
        solved(linear, withFlags(linear, flagged, ingredients, tried), flagged, keeps, times);
      const found = first(soughtProgram(aim, program, world, hood), true);
      return found ?? (nearest ? first(nearestProgram(program), false) : null);
    },
    /** The blend of a set by the forward model, settled with each of its ingredients at its least or more. */
    settled: ({ set, grams }: Pick<Found, 'set' | 'grams'>): Settled | null =>
      settle(question, world, system, {
        aim,
        start: grams,
        bounds: boundsOf(set),
      }) ?? settle(question, world, system, { aim, bounds: boundsOf(set) }),
    /** How many dry ingredients keep everything at the least, if a blend of so many really does; else null. */
    fewest(at: readonly number[]): number | null {
      const { program, flagged } = rowsAt(at);
      const linear: LinearProgram = { ...program, sense: 'min', objective: program.columns.map(() => 0) };
      const whole = withFlags(linear, flagged, null, []);
      const objective = whole.columns.map((_c, j) => Number(flagged[j - linear.columns.length]?.counted ?? false));
      const found = solved(linear, { ...whole, objective }, flagged, true);
      if (found === null || this.settled(found)?.feasible !== true) return null;
      return found.set.filter((i) => isDry(question, i)).length;
    },
  };
}
