import { describe, expect, test } from 'vitest';
import { type FractionalProgram, solveFractional } from '../../../src/core/optimise/lp/fractional.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { highsReference, type ReferenceSolver } from '../../support/highs-reference.js';
import { blendProgram, seededRandom } from '../../support/random-programs.js';
import { infeasibleFaults, optimalFaults, pointFaults } from '../../support/recheck.js';

const ratioAt = (program: FractionalProgram, x: readonly number[]): number => {
  const form = (c: ArrayLike<number>, constant = 0) => x.reduce((sum, v, j) => sum + v * c[j]!, constant);
  return form(program.numerator, program.numeratorConstant) / form(program.denominator, program.denominatorConstant);
};

/**
 * The independent road: Dinkelbach's method (Management Science 13 (1967) 492-498, from memory), a sequence of plain
 * linear programs N - q D, here solved by HiGHS.
 */
function dinkelbach(program: FractionalProgram, reference: ReferenceSolver): number | undefined {
  const { columns, rows, sense } = program;
  const start = reference({ columns, rows, sense, objective: columns.map(() => 0) });
  if (start.status !== 'optimal') return undefined;
  let q = ratioAt(program, start.x);
  for (let round = 0; round < 60; round++) {
    const objective = columns.map((_, j) => program.numerator[j]! - q * program.denominator[j]!);
    const best = reference({ columns, rows, sense, objective });
    if (best.status !== 'optimal') return undefined;
    const next = ratioAt(program, best.x);
    if (Math.abs(next - q) <= 1e-12 * Math.abs(q)) return next;
    q = next;
  }
  return q;
}

const box: Pick<FractionalProgram, 'columns' | 'rows'> = {
  columns: [
    { name: 'x', upper: 4 },
    { name: 'y', lower: 1, upper: 3 },
  ],
  rows: [{ name: 'r', coefficients: [1, 1], high: 5 }],
};

describe('ratio of two linear forms', () => {
  test('by hand: max (2 x + y + 1) / (x + 2 y + 3) at x = 4, y = 1', () => {
    const answer = solveFractional({
      ...box,
      sense: 'max',
      numerator: [2, 1],
      numeratorConstant: 1,
      denominator: [1, 2],
      denominatorConstant: 3,
    });
    if (answer.status !== 'optimal') throw new Error(answer.status);
    expect(answer.x[0]).toBeCloseTo(4, 9);
    expect(answer.x[1]).toBeCloseTo(1, 9);
    expect(answer.objective).toBeCloseTo(10 / 9, 9);
    expect(optimalFaults(answer.transformed.program, answer.transformed.answer)).toEqual([]);
  });

  test('a constant denominator is a plain linear program', () => {
    const answer = solveFractional({
      ...box,
      sense: 'min',
      numerator: [1, 1],
      denominator: [0, 0],
      denominatorConstant: 2,
    });
    expect(answer.status === 'optimal' && answer.objective).toBeCloseTo(0.5, 12);
  });

  test('says what it cannot: infeasible, never positive, unbounded, unattained', () => {
    const infeasible: FractionalProgram = {
      columns: [{ name: 'x' }, { name: 'y' }],
      rows: [
        { name: 'a', coefficients: [1, 0], low: 2 },
        { name: 'b', coefficients: [1, 0], high: 1 },
      ],
      sense: 'max',
      numerator: [0, 1],
      denominator: [1, 1],
    };
    const answer = solveFractional(infeasible);
    if (answer.status !== 'infeasible') throw new Error(answer.status);
    const plain: LinearProgram = { ...infeasible, sense: 'min', objective: [0, 0] };
    expect(infeasibleFaults(plain, answer.rowProof)).toEqual([]);
    expect(solveFractional({ ...box, sense: 'min', numerator: [1, 0], denominator: [-1, -1] }).status).toBe(
      'never-positive',
    );
    const open = { columns: [{ name: 'x' }, { name: 'y' }], rows: [], sense: 'max' as const };
    const unbounded = { ...open, numerator: [1, 0], denominator: [0, 0], denominatorConstant: 1 };
    expect(solveFractional(unbounded).status).toBe('unbounded');
    const unattained = { ...open, numerator: [1, 0], denominator: [1, 0], denominatorConstant: 1 };
    expect(solveFractional(unattained)).toMatchObject({ status: 'unattained', objective: 1 });
  });

  test('lengths are checked', () => {
    expect(() => solveFractional({ ...box, sense: 'min', numerator: [1], denominator: [1, 1] })).toThrow(TypeError);
  });

  test('random blends: same ratio as Dinkelbach with HiGHS, prices match a re-solve', async () => {
    const reference = await highsReference();
    let compared = 0;
    let priced = 0;
    for (let seed = 1; seed <= 70; seed++) {
      const random = seededRandom(seed);
      const { program: blend } = blendProgram(seed, { size: random.whole(8, 40) });
      const program: FractionalProgram = {
        columns: blend.columns,
        rows: blend.rows,
        sense: random.pick(['min', 'max'] as const),
        numerator: blend.columns.map(() => random.between(0, 5)),
        denominator: blend.columns.map(() => random.between(0.5, 2)),
        ...(random.chance(0.5) ? { numeratorConstant: 3, denominatorConstant: 10 } : {}),
      };
      const answer = solveFractional(program);
      const expected = dinkelbach(program, reference);
      expect(answer.status, `seed ${seed}`).toBe(expected === undefined ? 'infeasible' : 'optimal');
      if (answer.status !== 'optimal' || expected === undefined) continue;
      compared += 1;
      expect(Math.abs(answer.objective / expected - 1), `seed ${seed}`).toBeLessThan(1e-8);
      expect(Math.abs(ratioAt(program, answer.x) / answer.objective - 1)).toBeLessThan(1e-9);
      expect(
        pointFaults(
          { ...program, objective: [] },
          answer.x.map((v, j) => tidy(v, program, j)),
        ),
      ).toEqual([]);
      // The volume row is an equality: its price is the slope of the ratio, where it has one.
      const volume = program.rows[0]!;
      const step = 1e-5 * volume.high!;
      const at = (side: number): number => {
        const rows = [{ ...volume, low: side, high: side }, ...program.rows.slice(1)];
        const moved = solveFractional({ ...program, rows });
        return moved.status === 'optimal' ? moved.objective : Number.NaN;
      };
      const left = (answer.objective - at(volume.high! - step)) / step;
      const right = (at(volume.high! + step) - answer.objective) / step;
      const flat = 1e-9 * Math.abs(answer.objective / volume.high!);
      if (Math.abs(left) < 1e4 * flat || !(Math.abs(left - right) <= 1e-3 * Math.abs(left))) continue;
      priced += 1;
      expect(answer.rowPrices[0]! / left, `seed ${seed}`).toBeCloseTo(1, 2);
    }
    expect(compared).toBeGreaterThan(40);
    expect(priced).toBeGreaterThan(12);
  });
});

/** Dividing by t may leave a bound by its last digit. */
function tidy(value: number, program: FractionalProgram, j: number): number {
  const { lower = 0, upper = Number.POSITIVE_INFINITY } = program.columns[j]!;
  return Math.min(Math.max(value, lower), Math.abs(value - upper) < 1e-9 * upper ? upper : value);
}
