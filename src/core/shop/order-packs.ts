import { solveMilp } from '../optimise/lp/milp.js';
import type { Column, LinearProgram, Row } from '../optimise/lp/types.js';
import type { Day } from './order-calendar.js';
import type { Pack } from './price-packs.js';
import { Sum, sum } from './sums.js';

/** What an order takes of one material. */
export interface Need {
  /** g used on each day, in the order of the days. */
  readonly uses: readonly { readonly day: Day; readonly grams: number }[];
  /** g on the shelf. */
  readonly stock: number;
  readonly packs: readonly Pack[];
  /** Days an opened pack keeps; null: longer than the order runs. What is on the shelf counts as opened at the start. */
  readonly keeps: number | null;
}

export interface Bought {
  readonly pack: Pack;
  readonly count: number;
}

export interface PackPlan {
  readonly buy: readonly Bought[];
  /** Exact. */
  readonly cost: Sum;
  /** g that must be bought: need less what the shelf gives. */
  readonly needed: number;
  /** g left of what was bought, once the order is poured. */
  readonly leftover: number;
  /** g of the leftover in packs that are opened and no longer keep. 0 without `keeps`. */
  readonly spoilt: number;
  /** True: no cheaper set of whole packs exists (proven by branch and bound). */
  readonly proven: boolean;
}

/** Stretches the uses are gathered into when opened packs do not keep; finer ones only slow the search. */
const MOST_STRETCHES = 8;
const SLACK = 1e-9;

interface Stretch {
  readonly from: Day;
  readonly to: Day;
  readonly grams: number;
}

/**
 * The cheapest whole packs that cover a need, and of equally cheap ones those that leave least. Throws a RangeError when
 * something must be bought and there is no pack.
 *
 *   min sum(price n)   sum(grams n) + stock >= need,   n whole
 *
 * Where an opened pack keeps for less than the order runs, each pack is opened in a stretch of days and serves only the
 * uses within its life; what is left then is spoilt. A stretch counts as opened on its first day and used on its last,
 * so the plan is on the safe side.
 */
export function packsFor(need: Need): PackPlan {
  const stretches = gathered(need);
  const amount = stretches.reduce((s, u) => s + u.grams, 0);
  const short = shortfall(stretches, need);
  if (short <= SLACK * Math.max(1, amount)) return nothing();
  if (need.packs.length === 0) throw new RangeError('no pack to buy');
  const program = packProgram(stretches, need);
  const first = solveMilp(program, { nodeLimit: 4000 });
  const found = first.status === 'optimal' ? first : first.status === 'stopped' ? first.best : undefined;
  if (found === undefined) return plan(byTheGram(need, stretches), short, 0, false);
  const counts = packCounts(found.x, need);
  const cost = costOf(counts, need);
  const lean = leanest(program, need, cost);
  const chosen = lean !== undefined && costOf(lean, need).lte(cost) ? lean : counts;
  return plan(bought(chosen, need), short, spoiltOf(chosen, stretches, need, short), first.status === 'optimal');
}

const nothing = (): PackPlan => ({ buy: [], cost: new Sum(0), needed: 0, leftover: 0, spoilt: 0, proven: true });

/** Uses in stretches: one when packs keep for the whole order, else a few, each well within a pack's life. */
function gathered(need: Need): Stretch[] {
  const { uses, keeps } = need;
  const used = uses.filter((u) => u.grams > 0);
  if (used.length === 0) return [];
  const [first, last] = [used[0]!.day, used.at(-1)!.day];
  const whole = keeps === null || last - first <= keeps;
  const few = used.length <= MOST_STRETCHES;
  const length = whole ? last - first + 1 : few ? 1 : Math.ceil((last - first + 1) / MOST_STRETCHES);
  const stretches: Stretch[] = [];
  for (const { day, grams } of used) {
    const open = stretches.at(-1);
    if (open !== undefined && day < open.from + length) {
      stretches[stretches.length - 1] = { from: open.from, to: day, grams: open.grams + grams };
    } else stretches.push({ from: day, to: day, grams });
  }
  return stretches;
}

/** Whether a pack opened for stretch a still keeps at the end of stretch b. Within one stretch it always does. */
const serves = (a: Stretch, b: Stretch, keeps: number | null): boolean =>
  b.from >= a.from && (a === b || keeps === null || b.to - a.from <= keeps);

/** g of the uses that the shelf cannot give: what lies on it is used first, as long as it keeps. */
function shortfall(stretches: readonly Stretch[], need: Need): number {
  let stock = need.stock;
  let short = 0;
  for (const stretch of stretches) {
    const given = serves(stretches[0]!, stretch, need.keeps) ? Math.min(stock, stretch.grams) : 0;
    stock -= given;
    short += stretch.grams - given;
  }
  return short;
}

/**
 * Columns: packs opened in each stretch (whole numbers), then grams passed from the packs of a stretch to the uses of
 * another, then grams from the shelf to each use.
 */
function packProgram(stretches: readonly Stretch[], need: Need): LinearProgram {
  const { packs, keeps } = need;
  const columns: Column[] = [];
  const objective: number[] = [];
  const entries: { row: number; column: number; value: number }[] = [];
  const opened = (t: number) => t;
  const usedIn = (u: number) => stretches.length + u;
  const shelf = 2 * stretches.length;
  const add = (column: Column, cost: number, at: readonly (readonly [number, number])[]): void => {
    for (const [row, value] of at) entries.push({ row, column: columns.length, value });
    columns.push(column);
    objective.push(cost);
  };
  stretches.forEach((stretch, t) => {
    const reach = stretches.reduce((s, u) => s + (serves(stretch, u, keeps) ? u.grams : 0), 0);
    for (const pack of packs) {
      const most = Math.ceil(reach / pack.grams + SLACK);
      const column = { name: `${pack.text} opened in ${t}`, upper: most, integer: true };
      add(column, Number(pack.amount), [[opened(t), -pack.grams]]);
    }
  });
  stretches.forEach((from, t) => {
    stretches.forEach((to, u) => {
      if (!serves(from, to, keeps)) return;
      add({ name: `grams from ${t} to ${u}` }, 0, [
        [opened(t), 1],
        [usedIn(u), 1],
      ]);
    });
  });
  stretches.forEach((to, u) => {
    if (!serves(stretches[0]!, to, keeps)) return;
    add({ name: `grams from the shelf to ${u}` }, 0, [
      [usedIn(u), 1],
      [shelf, 1],
    ]);
  });
  const coefficients = Array.from({ length: shelf + 1 }, () => new Array<number>(columns.length).fill(0));
  for (const { row, column, value } of entries) coefficients[row]![column] = value;
  const rows: Row[] = coefficients.map((line, i): Row => {
    if (i === shelf) return { name: 'on the shelf', coefficients: line, high: need.stock };
    if (i < stretches.length) return { name: `opened in ${i}`, coefficients: line, high: 0, scale: 1000 };
    const { grams } = stretches[i - stretches.length]!;
    return { name: `used in ${i - stretches.length}`, coefficients: line, low: grams * (1 - SLACK) };
  });
  return { columns, rows, sense: 'min', objective };
}

/** Packs of each sort in an answer, over all stretches: count[stretch x sort]. */
function packCounts(x: readonly number[], need: Need): number[] {
  const packs = need.packs.length;
  const stretches = gathered(need).length;
  return Array.from({ length: packs * stretches }, (_v, i) => Math.round(x[i]!));
}

const bought = (counts: readonly number[], need: Need): Bought[] =>
  need.packs
    .map((pack, p) => ({ pack, count: counts.reduce((s, n, i) => s + (i % need.packs.length === p ? n : 0), 0) }))
    .filter((b) => b.count > 0);

const costOf = (counts: readonly number[], need: Need): Sum => sumOf(bought(counts, need));

const sumOf = (buy: readonly Bought[]): Sum => sum(buy.map((b) => new Sum(b.pack.amount).times(b.count)));

/** Among the sets that cost no more, the one that weighs least. */
function leanest(program: LinearProgram, need: Need, cost: Sum): number[] | undefined {
  const priced = program.objective;
  const row: Row = { name: 'no dearer', coefficients: priced, high: cost.toNumber() * (1 + SLACK) + SLACK };
  const packs = need.packs.length;
  const weights = program.columns.map((c, i) => (c.integer === true ? need.packs[i % packs]!.grams : 0));
  const again = solveMilp({ ...program, rows: [...program.rows, row], objective: weights }, { nodeLimit: 4000 });
  return again.status === 'optimal' ? packCounts(again.x, need) : undefined;
}

/** Enough of the pack that is cheapest by the gram; only where the search gave nothing. */
function byTheGram(need: Need, stretches: readonly Stretch[]): Bought[] {
  const pack = [...need.packs].sort((a, b) => Number(a.amount) / a.grams - Number(b.amount) / b.grams)[0]!;
  const count = stretches.reduce((s, u) => s + Math.ceil(u.grams / pack.grams - SLACK), 0);
  return [{ pack, count }];
}

function plan(buy: readonly Bought[], needed: number, spoilt: number, proven: boolean): PackPlan {
  const grams = buy.reduce((s, b) => s + b.count * b.pack.grams, 0);
  return { buy, cost: sumOf(buy), needed, leftover: Math.max(0, grams - needed), spoilt, proven };
}

/** g left in packs whose life ends before the order does; they are used oldest first. */
function spoiltOf(counts: readonly number[], stretches: readonly Stretch[], need: Need, short: number): number {
  const { keeps, packs } = need;
  if (keeps === null || stretches.length < 2 || short <= 0) return 0;
  const left = stretches.map((_s, t) =>
    packs.reduce((s, pack, p) => s + pack.grams * counts[t * packs.length + p]!, 0),
  );
  let shelf = need.stock;
  stretches.forEach((to, u) => {
    let wanted = to.grams;
    if (serves(stretches[0]!, to, keeps)) {
      const given = Math.min(shelf, wanted);
      shelf -= given;
      wanted -= given;
    }
    for (let t = 0; t <= u; t++) {
      if (!serves(stretches[t]!, to, keeps)) continue;
      const given = Math.min(left[t]!, wanted);
      left[t]! -= given;
      wanted -= given;
    }
  });
  const end = stretches.at(-1)!;
  return left.reduce((s, grams, t) => s + (serves(stretches[t]!, end, keeps) ? 0 : grams), 0);
}
