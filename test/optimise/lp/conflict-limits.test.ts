import { describe, expect, it } from 'vitest';
import { conflictSet, findConflict } from '../../../src/core/optimise/lp/conflict-set.js';
import type { LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';

const of = (rows: Omit<Row, 'name'>[], integer = false): LinearProgram => ({
  columns: ['x', 'y'].map((name) => ({ name, upper: 9, integer })),
  rows: rows.map((row, i) => ({ name: `r${i}`, ...row })),
  sense: 'max',
  // The objective has no part in a conflict, be it without end or not.
  objective: [1, 1],
});
const all = (): boolean => true;

describe('the search for a conflict', () => {
  it('asks only after rows that bear weight in the proof', () => {
    const idle = { coefficients: [1, -1], high: 8 };
    const rows = [idle, { coefficients: [1, 1], low: 6 }, idle, { coefficients: [1, 1], high: 5 }, idle];
    // The whole set, then without the one and without the other.
    expect(findConflict(of(rows), all)).toEqual({ status: 'conflict', rows: [1, 3], irreducible: true, solves: 3 });
  });

  it('says that everything fits', () => {
    const rows = [{ coefficients: [1, 1], low: 6 }];
    expect(findConflict(of(rows), all)).toEqual({ status: 'feasible' });
    expect(findConflict(of(rows, true), all)).toEqual({ status: 'feasible' });
    expect(conflictSet(of(rows), all)).toBeNull();
  });
});

describe('whole numbers', () => {
  // 2x + 2y = 3 has no whole solution, which takes a tree of boxes to see.
  const odd = { coefficients: [2, 2], low: 3, high: 3 };
  const many = { coefficients: [1, 1], low: 10 };

  it('are settled within the usual limit of boxes', () => {
    expect(findConflict(of([odd], true), all)).toEqual({ status: 'conflict', rows: [0], irreducible: true, solves: 2 });
    expect(conflictSet(of([odd], false), all)).toBeNull();
  });

  it('are not settled by one box: then nothing is said', () => {
    expect(findConflict(of([odd], true), all, { nodeLimit: 1 })).toEqual({ status: 'unsettled', reason: 'node-limit' });
  });

  it('make a set doubtful of which a part could not be settled', () => {
    // Together they clash as they stand; without `many` only a tree tells that `odd` alone is too much.
    expect(findConflict(of([odd, many], true), all)).toMatchObject({ rows: [0], irreducible: true });
    expect(findConflict(of([odd, many], true), all, { nodeLimit: 1 })).toEqual({
      status: 'conflict',
      rows: [0, 1],
      irreducible: false,
      solves: 3,
    });
  });

  it('with a row in the way that is not needed: only the needed one is named', () => {
    const between = { coefficients: [1, 0], low: 1.2, high: 1.8 };
    expect(findConflict(of([many, between], true), all)).toMatchObject({ rows: [1], irreducible: true });
    expect(conflictSet(of([many, between], true), (i) => i === 0)).toEqual([]);
  });
});

it('a program without a certificate is not called a conflict: 1e308 times 10 is no number', () => {
  const columns = [{ name: 'x', lower: 10, upper: 20 }];
  const program: LinearProgram = { ...of([]), columns, rows: [{ name: 'r', coefficients: [1e308], low: 1 }] };
  const answer = findConflict({ ...program, objective: [1] }, all);
  expect(answer.status).toBe('unsettled');
  expect(answer.status === 'unsettled' && answer.reason).toMatch(/^no certificate/);
  expect(conflictSet({ ...program, objective: [1] }, all)).toBeNull();
});
