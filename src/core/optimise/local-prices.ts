import { propertyById } from '../blend/properties/index.js';
import { type Form, type Link, ratioOf } from '../blend/property.js';
import { stateOf } from '../blend/state/state.js';
import { dot, type Grams, type World } from '../blend/world.js';
import { type BlendProgram, blendProgram, columnsOf, type RowOrigin } from './blend-program.js';
import { solveLp } from './lp/solve.js';
import type { Column } from './lp/types.js';
import { missOf } from './miss.js';
import { type Aim, soughtProgram } from './objective.js';
import type { Question } from './question.js';
import type { Settled } from './settled.js';
import { limitsIn } from './standing-limits.js';
import type { BinderSystem } from './systems.js';
import { neighbourhood, tangentForm } from './tangent.js';

/** What the objective's property changes by at a settled blend, when something else is given up by a little. */
export interface LocalPrices {
  /** Per unit of a limit (in its property's unit) moved upwards; 0 where it does not bind. */
  readonly perLimit: (property: string, side: 'min' | 'max') => number;
  /** Per gram of the right side of a row that is no limit on a property: doses, shares. */
  readonly perRow: (name: string) => number;
  /** Per gram of each material put in beyond what it is held to, all limits kept: by none of it, or by the stock. */
  readonly perGram: readonly number[];
}

/** Share of its mass that the blend may move while prices are taken: beyond the dust of settling, below curvature. */
const REACH = 2e-3;
/** For what is dosed: share of its own mass. */
const OWN_REACH = 0.02;
const ROUNDS = 4;

/**
 * Dual prices at a settled blend: the rows there, linearised, are solved within a small box. Where the optimum runs into
 * a corner of the model, the rows as they look from there are added and it is solved again, so that a price may come from
 * both faces of the corner. Null where the program could not be certified.
 */
export function localPrices(
  question: Question,
  world: World,
  system: BinderSystem,
  answer: Settled,
  aim: Aim,
): LocalPrices | null {
  const columns = columnsOf(question, world, system);
  const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);
  const limits = limitsIn(question, system);
  const box = boxAround(columns, answer.grams);
  const hood = neighbourhood(world, answer.grams, open);
  const program = blendProgram(question, world, hood, system, box);
  let rows = program.rows;
  let origins = program.origins;
  for (let round = 0; ; round++) {
    const solved = solveLp(soughtProgram(aim, { columns: box, rows, origins }, world, hood));
    if (solved.status !== 'optimal') return null;
    const missed = missOf(limits, world, stateOf(world, solved.x)) > answer.miss;
    if (missed && round < ROUNDS) {
      const there = limitRows(blendProgram(question, world, neighbourhood(world, solved.x, open), system, box));
      rows = [...rows, ...there.rows];
      origins = [...origins, ...there.origins];
      continue;
    }
    const perUnit = valuePerUnit(tangentForm(aim.property, world, hood), answer.grams);
    const priceOf = (mine: (origin: RowOrigin, name: string) => boolean): number =>
      rows.reduce((s, row, r) => (mine(origins[r]!, row.name) ? s + perUnit * solved.rowPrices[r]! : s), 0);
    return {
      perLimit: (id, side) => {
        const limit = limits.find((t) => t.property === id)?.[side];
        const price = priceOf((o) => o.kind !== 'fixed' && o.target.property === id && o.side === side);
        if (limit === undefined || price === 0) return 0;
        return price * rowPerLimit(tangentForm(propertyById(id)!, world, hood), limit, answer.grams);
      },
      perRow: (name) => priceOf((o, n) => o.kind === 'fixed' && n === name),
      perGram: solved.reducedCosts.map((d) => perUnit * d),
    };
  }
}

/** The blend's own materials may move a little; the others stay out, and are priced from outside. */
function boxAround(columns: readonly Column[], grams: Grams): Column[] {
  const total = grams.reduce((s, g) => s + g, 0);
  return columns.map((column, i) => {
    const g = grams[i]!;
    const far = Math.min(REACH * total, OWN_REACH * g);
    const upper = Math.min(column.upper ?? Number.POSITIVE_INFINITY, g + far);
    return { ...column, lower: Math.max(column.lower ?? 0, g - far), upper };
  });
}

function limitRows({ rows, origins }: BlendProgram): Pick<BlendProgram, 'rows' | 'origins'> {
  const limit = (_r: unknown, i: number) => origins[i]!.kind !== 'fixed';
  return { rows: rows.filter(limit), origins: origins.filter(limit) };
}

/** d(property) / d(linear objective): by the link's slope; the objective of a ratio is N - ratio D, D times the ratio. */
function valuePerUnit(form: Form, grams: Grams): number {
  const ratio = ratioOf(form, grams);
  const denominator = form.denominator === null ? 1 : dot(form.denominator, grams);
  return linkSlope(form.link, ratio) / denominator;
}

/** d(a row's side) / d(limit): N - inverse(limit) D = 0 moves as the inverse does, times D. */
function rowPerLimit(form: Form, limit: number, grams: Grams): number {
  const denominator = form.denominator === null ? 1 : dot(form.denominator, grams);
  return denominator / linkSlope(form.link, form.link.inverse(limit));
}

/** d(value) / d(ratio), by central differences: links are smooth and are given as functions only. */
function linkSlope(link: Link, ratio: number): number {
  const step = 1e-5 * Math.max(1e-3, Math.abs(ratio));
  return (link.of(ratio + step) - link.of(ratio - step)) / (2 * step);
}
