import type { World } from '../blend/world.js';
import { blendProgram, columnsOf } from './blend-program.js';
import { isBulk } from './bulk.js';
import type { Knob } from './knobs.js';
import { scaleKnobs } from './knobs.js';
import { isDry } from './least-dose.js';
import type { Column, LinearProgram, Row } from './lp/types.js';
import { better } from './miss.js';
import { nearestProgram } from './nearest.js';
import { type Sought, soughtProgram } from './objective.js';
import type { PartsAsked, Question } from './question.js';
import { bestParts, type InParts, type PartsFound } from './ratio-search.js';
import { settle } from './settle.js';
import type { Bound, Settled } from './settled.js';
import type { BinderSystem } from './systems.js';
import { neighbourhood } from './tangent.js';

/** A blend whose bulk is measured out in whole-number parts. */
export interface PartsBlend {
  readonly by: PartsAsked['by'];
  /** Material index and parts, largest first; whole numbers without a common divisor. */
  readonly parts: readonly { readonly material: number; readonly parts: number }[];
  /** The blend with just these parts, before the size of a part is rounded. */
  readonly answer: Settled;
  /** The binder system with the parts among its rows. */
  readonly system: BinderSystem;
  /** What is measured out in whole steps: parts all together, the rest on the scale. */
  readonly knobs: (batchGrams: readonly number[]) => readonly Knob[];
  /** g (by mass) or cm³ (by scoop) that one part of a batch holds. */
  readonly partOf: (batchGrams: readonly number[]) => number;
}

/** Blends in parts that are settled and judged by the forward model. */
const KEEP = 6;
/** Losses this close (shares, or tolerances) are the same: the smaller numbers win. */
const SAME = 1e-4;
/** cm³ that the size of a part by scoop is told to. */
const PART_STEP = 1;

/** The blend in whole-number parts that loses the least against a settled blend, as `blendsInParts`; null where there is none. */
export const inWholeParts = (...of: Parameters<typeof blendsInParts>): PartsBlend | null =>
  blendsInParts(...of)[0] ?? null;

/**
 * Blends in whole-number parts that lose the least against a settled blend, best first: its bulk (binders, pozzolans, fillers,
 * sands and light aggregates) in parts, water, liquids and doses as they come. Candidates come from the rows at the
 * blend; each is settled again with its parts held, and the forward model ranks them. None where the blend has no bulk
 * that can be counted out, or no candidate settles.
 */
export function blendsInParts(
  question: Question,
  world: World,
  system: BinderSystem,
  exact: Settled,
  aim: Sought,
  asked: PartsAsked,
): PartsBlend[] {
  const doses = new Set(question.doses.map((d) => d.material));
  const unit = (i: number): number | null => (asked.by === 'mass' ? 1 : world.materials[i]!.bulkDensity);
  const loose = (i: number): number => exact.grams[i]! / unit(i)!;
  const bulk = world.materials
    .flatMap((m, i) =>
      exact.grams[i]! > 0 && isDry(question, i) && isBulk(m) && !doses.has(m.id) && unit(i) !== null ? [i] : [],
    )
    .sort((a, b) => loose(b) - loose(a));

  const used = exact.grams.map((g) => g > 0);
  const columns = columnsOf(question, world, system).map((c, i): Column => (used[i] ? c : { ...c, upper: 0 }));
  const hood = neighbourhood(world, exact.grams, used);
  const program = blendProgram(question, world, hood, system, columns);
  const inParts = bulk.map((i): InParts => ({ column: i, unit: unit(i)! }));
  // Rows are straight, and the best by them may fail in the forward model: smaller numbers, which are fewer, among them.
  const search = (linear: LinearProgram) =>
    distinct(halvings(asked.most).flatMap((most) => bestParts(linear, inParts, most, KEEP)));
  const kept = search(soughtProgram(aim, program, world, hood));
  const found = kept.length > 0 ? kept : search(nearestProgram(program));

  const settled: Counted[] = [];
  for (const { parts, x } of found) {
    const held = holding(system, inParts, parts);
    const bounds = world.materials.map((_m, i): Bound => {
      const out = !used[i] || parts[bulk.indexOf(i)] === 0;
      return { lower: 0, upper: out ? 0 : Number.POSITIVE_INFINITY };
    });
    const answer = settle(question, world, held, { aim, bounds, start: x.slice(0, columns.length) });
    if (answer !== null) settled.push({ parts, answer, system: held });
  }
  settled.sort((a, b) => (gains(a.answer, a.parts, b, aim) ? -1 : 1));
  return settled.map((counted) => told(question, counted, bulk, unit, asked));
}

/** Parts that were settled, one number for each material of the bulk. */
interface Counted {
  readonly parts: readonly number[];
  readonly answer: Settled;
  readonly system: BinderSystem;
}

function told(
  question: Question,
  chosen: Counted,
  bulk: readonly number[],
  unit: (material: number) => number | null,
  asked: PartsAsked,
): PartsBlend {
  const parts = bulk
    .map((material, place) => ({ material, parts: chosen.parts[place]! }))
    .filter((p) => p.parts > 0)
    .sort((a, b) => b.parts - a.parts);
  const gramsOfPart = parts.map((p) => [p.material, p.parts * unit(p.material)!] as const);
  const lead = gramsOfPart[0]!;
  const partOf = (batchGrams: readonly number[]): number => batchGrams[lead[0]]! / lead[1];
  return {
    by: asked.by,
    parts,
    answer: chosen.answer,
    system: chosen.system,
    partOf,
    knobs: (batchGrams) => {
      const part = partOf(batchGrams);
      const step = asked.by === 'mass' ? question.batch.step : PART_STEP;
      const together: Knob = {
        perStep: gramsOfPart.map(([material, grams]) => [material, grams * step] as const),
        exact: part / step,
        least: 1,
        most: Number.MAX_SAFE_INTEGER,
      };
      const rest = batchGrams.map((g, i) => (parts.some((p) => p.material === i) ? 0 : g));
      return [together, ...scaleKnobs(question, rest)];
    },
  };
}

/** A number, the half of it, and so on down to one. */
const halvings = (most: number): number[] => (most <= 1 ? [most] : [most, ...halvings(Math.floor(most / 2))]);

const distinct = (found: readonly PartsFound[]): PartsFound[] => [
  ...new Map(found.map((one) => [one.parts.join(':'), one])).values(),
];

type Judged = Pick<Settled, 'feasible' | 'miss' | 'value'>;

/** Less missed, then less lost, then smaller numbers. */
export function gains(
  answer: Judged,
  parts: readonly number[],
  best: { readonly parts: readonly number[]; readonly answer: Judged },
  aim: Sought,
): boolean {
  const total = (list: readonly number[]): number => list.reduce((s, p) => s + p, 0);
  const [a, b] = [answer.value ?? 0, best.answer.value ?? 0];
  const alike = answer.feasible === best.answer.feasible && Math.abs(a - b) <= SAME * Math.max(1, Math.abs(b));
  return alike ? total(parts) < total(best.parts) : better(answer, best.answer, aim);
}

/** The binder system with rows that hold the parts: k of the first to p of each other. */
function holding(system: BinderSystem, columns: readonly InParts[], parts: readonly number[]): BinderSystem {
  const [first, ...others] = columns;
  const k = parts[0]!;
  const rows = (world: World): Row[] =>
    others.flatMap((other, i): Row[] => {
      const p = parts[i + 1]!;
      if (p === 0) return [];
      const coefficients = world.materials.map((_m, j) =>
        j === other.column ? k / other.unit : j === first!.column ? -p / first!.unit : 0,
      );
      return [{ name: `parts of ${world.materials[other.column]!.id}`, coefficients, low: 0, high: 0, scale: 1 }];
    });
  return { ...system, rows: (world) => [...system.rows(world), ...rows(world)] };
}
