import { propertyById } from '../blend/properties/index.js';
import { type World, worldOf } from '../blend/world.js';
import type { Material } from '../materials/schema.js';
import { blendProgram, columnsOf } from './blend-program.js';
import { anyFit, bestFit, type Fit } from './fitting.js';
import { DUST } from './least-dose.js';
import { solveLp } from './lp/solve.js';
import { nearestProgram } from './nearest.js';
import { AIMS } from './objective.js';
import type { Question } from './question.js';
import { settle } from './settle.js';
import { openSystems } from './systems.js';
import { neighbourhood } from './tangent.js';

/** A material that is not in play today and with which the brief can be met. */
export interface MissingMaterial {
  readonly material: string;
  readonly system: string;
  /** False: no price is known, it was reckoned as free. */
  readonly priced: boolean;
  /** Where it has no price and the brief limits cost: most it may cost per gram and still do. */
  readonly mostPrice: number | null;
}

export interface MissingMaterials {
  /** Each by itself would do. */
  readonly single: readonly MissingMaterial[];
  /** Only together would these do; empty where one does, or where none of the shelf helps. */
  readonly together: readonly string[];
}

/** Candidates settled one by one, at most, the likeliest first. */
const MOST_TRIED = 16;
/** The same where all of them together did not do: one by itself may still, but seldom. */
const FEW_TRIED = 5;

/**
 * Which materials of the shelf that are not in play would let the brief be met: binders that a blend of
 * all of them uses, those whose reduced cost in the nearest program promises to lessen the miss, then what else that blend
 * uses, each tried by itself.
 */
export function missingMaterials(question: Question, shelf: readonly Material[]): MissingMaterials {
  const extra = shelf.filter((m) => !question.materials.some((own) => own.id === m.id));
  const aim = AIMS[question.objective];
  const fitWith = (more: readonly Material[], guess?: string): Fit | null => {
    const wide = withMaterials(question, more);
    return anyFit(wide, worldOf(wide), aim, guess);
  };
  const whole = fitWith(extra);
  const first = whole?.system.id;
  const grams = whole?.answer.grams ?? [];
  const total = grams.reduce((s, g) => s + g, 0);
  const used = extra.filter((_m, k) => grams[question.materials.length + k]! > DUST * total);
  const binders = used.filter((m) => m.binder !== undefined);
  const most = whole === null ? FEW_TRIED : MOST_TRIED;
  const likely = [...new Set([...binders, ...promising(question, extra), ...used])].slice(0, most);
  const single = likely.flatMap((material): MissingMaterial[] => {
    const fit = fitWith([material], first);
    if (fit === null) return [];
    const priced = question.prices.has(material.id);
    const mostPrice = priced ? null : dearest(question, material);
    return [{ material: material.id, system: fit.system.id, priced, mostPrice }];
  });
  if (single.length > 0) return { single, together: [] };
  let needed = used;
  for (const material of used) {
    const fewer = needed.filter((m) => m !== material);
    if (fitWith(fewer, first) !== null) needed = fewer;
  }
  return { single: [], together: needed.map((m) => m.id) };
}

/** The question with more materials; those that have no price are reckoned as free, so that cost can be told. */
const withMaterials = (question: Question, more: readonly Material[]): Question => ({
  ...question,
  materials: [...question.materials, ...more],
  prices: new Map([...more.map((m) => [m.id, 0] as const), ...question.prices]),
});

/** What lessens the miss of the nearest blend of some system, the most for its mass first; binders of new systems too. */
function promising(question: Question, extra: readonly Material[]): Material[] {
  const wide = withMaterials(question, extra);
  const world = worldOf(wide);
  const own = openSystems(question, worldOf(question));
  const promise = new Map<Material, number>();
  for (const system of openSystems(wide, world)) {
    const columns = columnsOf(wide, world, system);
    const opens = !own.includes(system);
    const grams = opens ? null : nearestGrams(question, wide, system);
    const costs = grams === null ? null : reducedMiss(wide, world, system, columns, grams, question.materials.length);
    extra.forEach((material, k) => {
      const i = question.materials.length + k;
      if ((columns[i]!.upper ?? Number.POSITIVE_INFINITY) <= 0) return;
      const gain = opens && material.binder !== undefined ? Number.POSITIVE_INFINITY : -(costs?.[i] ?? 0);
      if (gain > (promise.get(material) ?? 1e-9)) promise.set(material, gain);
    });
  }
  return [...promise].sort((a, b) => b[1] - a[1]).map(([material]) => material);
}

function nearestGrams(question: Question, wide: Question, system: Fit['system']): number[] | null {
  const answer = settle(question, worldOf(question), system, { aim: AIMS[question.objective] });
  if (answer === null) return null;
  return wide.materials.map((_m, i) => answer.grams[i] ?? 0);
}

/** Reduced cost of each column in the program of the least miss at the nearest blend, newcomers priced from outside. */
function reducedMiss(
  question: Question,
  world: World,
  system: Fit['system'],
  columns: ReturnType<typeof columnsOf>,
  grams: readonly number[],
  known: number,
): readonly number[] | null {
  const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);
  const shut = columns.map((c, i) => (i < known ? c : { ...c, upper: 0 }));
  const program = blendProgram(question, world, neighbourhood(world, grams, open), system, shut);
  const solved = solveLp(nearestProgram(program));
  return solved.status === 'optimal' ? solved.reducedCosts : null;
}

/** Most that a gram of a material without a price may cost with the brief still met; null where the brief does not ask. */
function dearest(question: Question, material: Material): number | null {
  const limit = question.targets.find((t) => t.property === 'cost')?.max;
  if (limit === undefined) return null;
  const wide = withMaterials(question, [material]);
  const fit = bestFit(wide, worldOf(wide), { property: propertyById('cost')!, sense: 'min' });
  if (fit === null) return null;
  const grams = fit.answer.grams.at(-1)!;
  if (grams <= 0) return null;
  // A blend that keeps a limit on cost has a cost.
  return ((limit - fit.answer.value!) * (1 - question.conditions.waste)) / grams;
}
