import { solveLp } from './lp/solve.js';
import type { LinearProgram, Row } from './lp/types.js';

/** Columns that are to stand in whole-number parts to each other; `unit` is what one part of each holds. */
export interface InParts {
  readonly column: number;
  readonly unit: number;
}

export interface PartsFound {
  /** Whole numbers without a common divisor, in the order asked; the first is never 0. */
  readonly parts: readonly number[];
  readonly x: readonly number[];
  readonly objective: number;
}

/** Whole-number programs looked at for each number of parts of the first column. */
const NODES = 250;
const WHOLE = 1e-7;

/**
 * The best blends of a linear program whose columns stand in whole-number parts from 0 to `most` (the first from 1),
 * best first, at most `keep` of them.
 *
 * For each number of parts of the first column, branch and bound over ranges of parts of the others: that a column
 * lies between l and h parts to k of the first is a pair of rows, so no big-M is needed and each box is one certified
 * linear program (Land and Doig 1960, from memory). Bounded in nodes; deterministic.
 */
export function bestParts(
  program: LinearProgram,
  columns: readonly InParts[],
  most: number,
  keep: number,
): PartsFound[] {
  const [first, ...others] = columns;
  if (first === undefined) return [];
  const pool: PartsFound[] = [];
  const worth = (objective: number): boolean => {
    const last = pool[keep - 1];
    return last === undefined || gain(program, objective, last.objective) > 0;
  };
  for (let k = 1; k <= most; k++) {
    const boxes: (readonly (readonly [low: number, high: number])[])[] = [others.map(() => [0, most] as const)];
    for (let node = 0; node < NODES; node++) {
      const box = boxes.pop();
      if (box === undefined) break;
      const answer = solveLp(within(program, first, others, k, box));
      if (answer.status !== 'optimal' || !worth(answer.objective)) continue;
      const base = answer.x[first.column]! / first.unit;
      if (base <= 0) continue;
      const ratios = others.map(({ column, unit }) => (k * answer.x[column]!) / unit / base);
      const at = furthest(ratios, box);
      if (at === null) {
        const parts = [k, ...ratios.map(Math.round)];
        // A multiple of smaller numbers was found among those already.
        if (parts.reduce(divisor) === 1)
          offer(pool, { parts, x: answer.x, objective: answer.objective }, program, keep);
        continue;
      }
      const below = Math.min(box[at]![1] - 1, Math.max(box[at]![0], Math.floor(ratios[at]!)));
      const [down, up] = [
        box.map((range, i) => (i === at ? ([range[0], below] as const) : range)),
        box.map((range, i) => (i === at ? ([below + 1, range[1]] as const) : range)),
      ];
      // Dive into the nearer half first.
      if (ratios[at]! - below < 0.5) boxes.push(up, down);
      else boxes.push(down, up);
    }
  }
  return pool;
}

const gain = ({ sense }: LinearProgram, a: number, b: number): number => (sense === 'min' ? b - a : a - b);

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** The ratio farthest from a whole number whose range still holds several; null when all are whole. */
function furthest(ratios: readonly number[], box: readonly (readonly [number, number])[]): number | null {
  let worst = WHOLE;
  let at: number | null = null;
  ratios.forEach((ratio, i) => {
    const off = Math.abs(ratio - Math.round(ratio));
    if (box[i]![0] < box[i]![1] && off > worst) {
      worst = off;
      at = i;
    }
  });
  return at;
}

/** Boxes do not overlap, so that no parts are offered twice. */
function offer(pool: PartsFound[], found: PartsFound, program: LinearProgram, keep: number): void {
  pool.push(found);
  pool.sort((a, b) => gain(program, b.objective, a.objective));
  pool.length = Math.min(pool.length, keep);
}

/** The program with each other column held between its least and most parts to k of the first. */
function within(
  program: LinearProgram,
  first: InParts,
  others: readonly InParts[],
  k: number,
  box: readonly (readonly [number, number])[],
): LinearProgram {
  const row = (other: InParts, parts: number, side: Partial<Row>): Row => {
    const coefficients = new Array<number>(program.columns.length).fill(0);
    coefficients[other.column] = k / other.unit;
    coefficients[first.column] = -parts / first.unit;
    return { name: `parts of ${program.columns[other.column]!.name}`, coefficients, scale: 1, ...side };
  };
  const rows = others.flatMap((other, i): Row[] => {
    const [low, high] = box[i]!;
    if (low === high) return [row(other, low, { low: 0, high: 0 })];
    return [...(low > 0 ? [row(other, low, { low: 0 })] : []), row(other, high, { high: 0 })];
  });
  return { ...program, rows: [...program.rows, ...rows] };
}
