import type { World } from '../blend/world.js';
import type { BlendProgram } from './blend-program.js';
import { solveLp } from './lp/solve.js';
import type { Column, LinearProgram, Row } from './lp/types.js';

/** An ingredient that is used at its least dose or more, or not at all. */
export interface Flagged {
  /** Column of the blend. */
  readonly material: number;
  /** g in one piece. */
  readonly least: number;
  /** No blend of the rows holds more, g in one piece: the tightest big-M at hand. */
  readonly most: number;
  /** Counts towards the most ingredients. */
  readonly counted: boolean;
  /** Is in the blend whatever else is. */
  readonly kept: boolean;
}

/** A hair, so that a bound found by a linear program does not cut off the point it was found at. */
const HAIR = 1e-7;

/**
 * The most of each material that the rows leave room for [g in one piece]: the optimum of a linear program a material,
 * or, where the rows contradict each other, all the mould filled with it.
 */
export function mostOfEach(program: BlendProgram, world: World): number[] {
  const { columns, rows } = program;
  const volume = world.conditions.volume ?? Number.POSITIVE_INFINITY;
  return columns.map((column, i) => {
    const filled = Math.min(column.upper ?? Number.POSITIVE_INFINITY, volume / world.materials[i]!.volume);
    if (filled <= 0) return 0;
    const answer = solveLp({ columns, rows, sense: 'max', objective: columns.map((_c, j) => Number(i === j)) });
    const bound = answer.status === 'optimal' ? answer.objective * (1 + HAIR) + HAIR : Number.POSITIVE_INFINITY;
    return Math.min(filled, bound);
  });
}

/** Indices of the materials that a point with flags uses, given the index of the first flag. */
export const flagsUp = (x: readonly number[], first: number, flagged: readonly Flagged[]): number[] =>
  flagged.filter((_f, k) => x[first + k]! > 0.5).map((f) => f.material);

/**
 * The program with a 0/1 column for each flagged ingredient, after its own columns: grams <= most x flag and
 * grams >= least x flag; at most `ingredients` counted flags; none of the sets in `tried` again.
 */
export function withFlags(
  program: LinearProgram,
  flagged: readonly Flagged[],
  ingredients: number | null,
  tried: readonly (readonly number[])[],
): LinearProgram {
  const first = program.columns.length;
  const width = first + flagged.length;
  const flags: Column[] = flagged.map(({ kept }, k) => ({
    name: `uses ${program.columns[flagged[k]!.material]!.name}`,
    lower: kept ? 1 : 0,
    upper: 1,
    integer: true,
  }));
  const rows: Row[] = program.rows.map((row) => ({
    ...row,
    coefficients: [...row.coefficients, ...flagged.map(() => 0)],
  }));
  const row = (name: string, entries: readonly (readonly [number, number])[], side: Partial<Row>): void => {
    const coefficients = new Array<number>(width).fill(0);
    for (const [column, value] of entries) coefficients[column] = value;
    rows.push({ name, coefficients, ...side });
  };
  flagged.forEach(({ material, least, most }, k) => {
    const { name } = program.columns[material]!;
    const scale = Math.max(most, 1e-6);
    row(
      `${name} only if used`,
      [
        [material, 1],
        [first + k, -most],
      ],
      { high: 0, scale },
    );
    if (least > 0)
      row(
        `${name} at least`,
        [
          [material, 1],
          [first + k, -least],
        ],
        { low: 0, scale: least },
      );
  });
  if (ingredients !== null) {
    const counted = flagged.flatMap((f, k) => (f.counted ? [[first + k, 1] as const] : []));
    row('ingredients', counted, { high: ingredients });
  }
  tried.forEach((set, t) => {
    const within = new Set(set);
    const used = flagged.filter((f) => within.has(f.material)).length;
    const entries = flagged.map((f, k) => [first + k, within.has(f.material) ? 1 : -1] as const);
    row(`not set ${t} again`, entries, { high: used - 1 });
  });
  return {
    columns: [...program.columns, ...flags],
    rows,
    sense: program.sense,
    objective: [...program.objective, ...flagged.map(() => 0)],
  };
}
