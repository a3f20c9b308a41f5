import { describe, expect, it } from 'vitest';
import { solveMilp } from '../../../src/core/optimise/lp/milp.js';
import { openColumns } from '../../../src/core/optimise/lp/open-columns.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';

/** Two bags may be used, two may not, and one must be. */
const shelf: LinearProgram = {
  columns: [
    { name: 'barred', upper: 0 },
    { name: 'cheap', upper: 3, integer: true },
    { name: 'barred too', lower: 0, upper: 0, integer: true },
    { name: 'asked for', lower: 1, upper: 1 },
    { name: 'dear' },
  ],
  rows: [{ name: 'five in all', coefficients: [1, 1, 1, 1, 1], low: 5, high: 5 }],
  sense: 'min',
  objective: [0, 1, 0, 9, 4],
};

describe('a program without the columns that can only be zero', () => {
  const { program, widen } = openColumns(shelf);

  it('keeps the others in their order, with their coefficients', () => {
    expect(program.columns.map((c) => c.name)).toEqual(['cheap', 'asked for', 'dear']);
    expect(program.objective).toEqual([1, 9, 4]);
    expect(program.rows).toEqual([{ name: 'five in all', coefficients: [1, 1, 1], low: 5, high: 5 }]);
    expect(program.sense).toBe('min');
  });

  it('has the same optimum, told in the columns of the whole', () => {
    const whole = solveMilp(shelf);
    const narrow = solveMilp(program);
    if (whole.status !== 'optimal' || narrow.status !== 'optimal') throw new Error('both have an optimum');
    expect(narrow.objective).toBe(16);
    expect(whole.objective).toBe(16);
    expect(widen(narrow.x)).toEqual([0, 3, 0, 1, 1]);
    expect(widen(narrow.x)).toEqual(whole.x);
  });
});
