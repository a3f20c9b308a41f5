import type { CheckedProgram } from './checked-program.js';
import type { PivotOutcome, PivotProblem } from './pivot-engine.js';
import { rowReach } from './row-reach.js';
import type { Scaling } from './scale.js';
import type { PriceRange } from './types.js';

/**
 * The bridge between a program and the pivot engine. Columns become non-negative variables (shifted to a finite
 * bound, mirrored at an upper bound, or split in two when free), fixed columns become constants, rows become one or
 * two one-sided constraints, and finite opposite bounds become constraints too.
 */
export interface TableauForm {
  readonly problem: PivotProblem;
  /** For each engine variable: the column it belongs to and d column / d variable. */
  readonly variableColumn: Int32Array;
  readonly variableFactor: Float64Array;
  /** Value of each column when all its variables are zero. */
  readonly base: Float64Array;
  /** For each engine constraint: the row, or -1 for a column bound, and d (row's price) / d (engine's price). */
  readonly constraintRow: Int32Array;
  readonly constraintFactor: Float64Array;
  readonly constraintSide: readonly ('low' | 'high')[];
  /** Engine right side = factor * (row's side) + something. */
  readonly sideFactor: Float64Array;
  /** Stated objective = costUnit * engine's objective + constant. */
  readonly costUnit: number;
}

/** The order in which rows and columns are handed to the engine; another order pivots along another path. */
export interface Order {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
}

interface Variable {
  readonly column: number;
  readonly factor: number;
}

interface Constraint {
  readonly row: number;
  readonly variable: number;
  readonly side: 'low' | 'high';
  readonly bound: number;
}

export function tableauForm(program: CheckedProgram, scaling: Scaling, order: Order): TableauForm {
  const { columnCount, matrix, low, high, lower, upper, cost } = program;
  const base = new Float64Array(columnCount);
  const variables: Variable[] = [];
  const spans: Constraint[] = [];
  for (const j of order.columns) {
    const step = scaling.unit * scaling.column[j]!;
    const from = lower[j]!;
    const to = upper[j]!;
    if (from === to) base[j] = from;
    else if (from > Number.NEGATIVE_INFINITY) {
      base[j] = from;
      variables.push({ column: j, factor: step });
      if (to < Number.POSITIVE_INFINITY) {
        spans.push({ row: -1, variable: variables.length - 1, side: 'high', bound: (to - from) / step });
      }
    } else if (to < Number.POSITIVE_INFINITY) {
      base[j] = to;
      variables.push({ column: j, factor: -step });
    } else {
      variables.push({ column: j, factor: step }, { column: j, factor: -step });
    }
  }

  const constraints: Constraint[] = [];
  const shift = new Float64Array(program.rowCount);
  for (const i of order.rows) {
    const { least, most } = rowReach(program, i, order.columns);
    // A row of constants has nothing to pivot on; solve.ts has already looked whether it holds.
    if (least === most) continue;
    let moved = 0;
    for (let j = 0, at = i * columnCount; j < columnCount; j++, at++) moved += matrix[at]! * base[j]!;
    shift[i] = moved;
    // A side that the column bounds keep by themselves is left out; certificates are made on all rows all the same.
    if (least < low[i]!) constraints.push({ row: i, variable: -1, side: 'low', bound: low[i]! });
    if (most > high[i]!) constraints.push({ row: i, variable: -1, side: 'high', bound: high[i]! });
  }
  const all = constraints.concat(spans);

  const variableColumn = Int32Array.from(variables, (v) => v.column);
  const variableFactor = Float64Array.from(variables, (v) => v.factor);
  let costMost = 0;
  for (let v = 0; v < variableColumn.length; v++) {
    costMost = Math.max(costMost, Math.abs(cost[variableColumn[v]!]! * variableFactor[v]!));
  }
  const costUnit = costMost === 0 ? 1 : costMost;

  const width = variables.length + 1;
  const height = all.length + 1;
  const tableau = new Float64Array(width * height);
  const twin = new Int32Array(all.length).fill(-1);
  const constraintFactor = new Float64Array(all.length);
  const sideFactor = new Float64Array(all.length);
  variables.forEach((v, index) => {
    tableau[index + 1] = (-cost[v.column]! * v.factor) / costUnit;
  });
  all.forEach((constraint, k) => {
    const offset = (k + 1) * width;
    const { row, variable, bound } = constraint;
    if (row < 0) {
      tableau[offset + variable + 1] = 1;
      tableau[offset] = bound;
      return;
    }
    const direction = constraint.side === 'high' ? 1 : -1;
    const factor = (direction * scaling.row[row]!) / scaling.unit;
    const from = row * columnCount;
    for (let v = 0; v < variableColumn.length; v++) {
      tableau[offset + v + 1] = matrix[from + variableColumn[v]!]! * variableFactor[v]! * factor;
    }
    tableau[offset] = (bound - shift[row]!) * factor;
    sideFactor[k] = factor;
    constraintFactor[k] = factor * costUnit;
    // The low side of a row comes just before its high side.
    if (all[k - 1]?.row === row && low[row] === high[row]) {
      twin[k] = k - 1;
      twin[k - 1] = k;
    }
  });

  return {
    problem: { width, height, tableau, twin },
    variableColumn,
    variableFactor,
    base,
    constraintRow: Int32Array.from(all, (c) => c.row),
    constraintFactor,
    constraintSide: all.map((c) => c.side),
    sideFactor,
    costUnit,
  };
}

/** Columns at the engine's values. */
export function columnsAt(form: TableauForm, values: Float64Array): Float64Array {
  const x = form.base.slice();
  addDirection(form, values, x);
  return x;
}

/** The direction in the columns that a direction in the engine's variables means. */
export function directionOf(form: TableauForm, ray: Float64Array): Float64Array {
  const direction = new Float64Array(form.base.length);
  addDirection(form, ray, direction);
  return direction;
}

function addDirection(form: TableauForm, values: Float64Array, into: Float64Array): void {
  for (let v = 0; v < values.length; v++) {
    const j = form.variableColumn[v]!;
    into[j] = into[j]! + form.variableFactor[v]! * values[v]!;
  }
}

/** Prices of the rows (of the minimisation) from the engine's prices. */
export function rowPrices(form: TableauForm, prices: Float64Array, rowCount: number): Float64Array {
  return gather(form, prices, form.constraintFactor, 1, rowCount);
}

/** Farkas multipliers of the rows (>0: low side) from the engine's multipliers of its <= constraints. */
export function rowMultipliers(form: TableauForm, multipliers: Float64Array, rowCount: number): Float64Array {
  return gather(form, multipliers, form.sideFactor, -1, rowCount);
}

function gather(form: TableauForm, from: Float64Array, factor: Float64Array, sign: number, rowCount: number) {
  const y = new Float64Array(rowCount);
  for (let k = 0; k < from.length; k++) {
    const i = form.constraintRow[k]!;
    if (i >= 0) y[i] = y[i]! + sign * factor[k]! * from[k]!;
  }
  return y;
}

/** Where the binding side of each row may move with its price unchanged (the engine's final basis). */
export function rowPriceRanges(
  form: TableauForm,
  outcome: Extract<PivotOutcome, { status: 'optimal' }>,
  program: CheckedProgram,
): (PriceRange | undefined)[] {
  const ranges = new Array<PriceRange | undefined>(program.rowCount).fill(undefined);
  const { fall, rise } = outcome.room();
  for (let k = 0; k < form.constraintRow.length; k++) {
    const i = form.constraintRow[k]!;
    if (i < 0 || Number.isNaN(fall[k]!)) continue;
    const side = form.constraintSide[k] === 'high' ? program.high[i]! : program.low[i]!;
    const ends = [side - fall[k]! / form.sideFactor[k]!, side + rise[k]! / form.sideFactor[k]!];
    ranges[i] = { from: Math.min(...ends), to: Math.max(...ends) };
  }
  return ranges;
}
