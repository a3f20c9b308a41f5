import { describe, expect, test } from 'vitest';
import { priceByResolve } from '../../../src/core/optimise/lp/prices.js';
import { solveLp } from '../../../src/core/optimise/lp/solve.js';
import type { LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';
import { highsReference } from '../../support/highs-reference.js';
import { blendProgram } from '../../support/random-programs.js';

describe('price by solving again', () => {
  const program: LinearProgram = {
    columns: [{ name: 'x' }, { name: 'y' }],
    rows: [
      { name: 'either', coefficients: [1, 1], low: 4 },
      { name: 'x at most', coefficients: [1, 0], high: 4 },
      { name: 'loose', coefficients: [0, 1], high: 9 },
    ],
    sense: 'min',
    objective: [1, 3],
  };

  test('shows both sides of a kink', () => {
    // At 4 units x alone serves; the next unit must be y at 3.
    const price = priceByResolve(program, 0, 0.5)!;
    expect(price.left).toBeCloseTo(1, 9);
    expect(price.right).toBeCloseTo(3, 9);
    expect(priceByResolve(program, 2, 0.5)).toEqual({ left: 0, right: 0 });
  });

  test('undefined where there is no optimum or no such side', () => {
    expect(priceByResolve(program, 0, 10)?.right).toBeUndefined();
    expect(priceByResolve({ ...program, sense: 'max' }, 0, 1, 'high')).toBeUndefined();
    const rows = [...program.rows, { name: 'clash', coefficients: [1, 1], high: 3 }];
    expect(priceByResolve({ ...program, rows }, 0, 1)).toBeUndefined();
    expect(() => priceByResolve(program, 0, 0)).toThrow(TypeError);
    expect(() => priceByResolve(program, 3, 1)).toThrow(TypeError);
  });

  test('random blends: a dual price lies between left and right', () => {
    let binding = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { program: blend, volume } = blendProgram(seed, { size: 8 + (seed % 30) });
      const answer = solveLp(blend);
      if (answer.status !== 'optimal') continue;
      blend.rows.forEach((row, i) => {
        const price = answer.rowPrices[i]!;
        if (price === 0 || (row.low ?? row.high) === 0) return;
        const resolved = priceByResolve(blend, i, 1e-5 * volume);
        if (resolved?.left === undefined || resolved.right === undefined) return;
        const slack = 1e-4 * Math.abs(price) + 1e-9;
        expect(price).toBeGreaterThanOrEqual(Math.min(resolved.left, resolved.right) - slack);
        expect(price).toBeLessThanOrEqual(Math.max(resolved.left, resolved.right) + slack);
        binding += 1;
      });
    }
    expect(binding).toBeGreaterThan(40);
  });
});

test('price ranges: inside the range HiGHS finds the objective that the price foretells', async () => {
  const reference = await highsReference();
  let moves = 0;
  let wide = 0;
  for (let seed = 1; seed <= 70; seed++) {
    const { program } = blendProgram(seed, { size: 8 + (seed % 40) });
    const answer = solveLp(program, { ranges: true });
    if (answer.status !== 'optimal') continue;
    program.rows.forEach((row, i) => {
      const range = answer.priceRanges![i];
      const price = answer.rowPrices[i]!;
      if (range === undefined || price === 0) return;
      const low = price > 0 === (program.sense === 'min');
      const at = (low ? row.low : row.high)!;
      expect(range.from).toBeLessThanOrEqual(at);
      expect(range.to).toBeGreaterThanOrEqual(at);
      for (const end of [range.from, range.to]) {
        if (
          !Number.isFinite(end) ||
          Math.abs(end - at) < 1e-6 * row.coefficients.reduce((m, c) => Math.max(m, Math.abs(c)), 0)
        )
          continue;
        const side = at + 0.9 * (end - at);
        const moved: Row =
          row.low === row.high ? { ...row, low: side, high: side } : { ...row, [low ? 'low' : 'high']: side };
        if (moved.low !== undefined && moved.high !== undefined && moved.low > moved.high) continue;
        const found = reference({ ...program, rows: program.rows.map((r, k) => (k === i ? moved : r)) });
        const foretold = answer.objective + price * (side - at);
        expect(found.status, `seed ${seed} row ${i}`).toBe('optimal');
        expect(Math.abs(found.objective - foretold), `seed ${seed} row ${i}`).toBeLessThan(
          1e-6 * Math.max(Math.abs(foretold), Math.abs(answer.objective)) + 1e-9,
        );
        moves += 1;
        if (Math.abs(end - at) > 0.01 * Math.abs(at)) wide += 1;
      }
    });
  }
  expect(moves).toBeGreaterThan(150);
  expect(wide).toBeGreaterThan(40);
});
