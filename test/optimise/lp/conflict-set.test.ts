import { describe, expect, test } from 'vitest';
import { conflictSet, findConflict } from '../../../src/core/optimise/lp/conflict-set.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { highsReference } from '../../support/highs-reference.js';
import { anyProgram, blendProgram, flaggedBlend } from '../../support/random-programs.js';

const only = (program: LinearProgram, keep: (row: number) => boolean): LinearProgram => ({
  ...program,
  objective: program.objective.map(() => 0),
  rows: program.rows.filter((_, i) => keep(i)),
});

describe('conflict set', () => {
  const program: LinearProgram = {
    columns: [{ name: 'x' }, { name: 'y' }],
    rows: [
      { name: 'idle', coefficients: [1, -1], high: 50 },
      { name: 'enough', coefficients: [1, 1], low: 10 },
      { name: 'x at most', coefficients: [1, 0], high: 4 },
      { name: 'y at most', coefficients: [0, 1], high: 2 },
      { name: 'loosely', coefficients: [1, 1], high: 9.5 },
    ],
    sense: 'min',
    objective: [1, 1],
  };

  test('names one irreducible set, without the rows that stay', () => {
    const found = findConflict(program, () => true);
    expect(found.status === 'conflict' && found.irreducible).toBe(true);
    expect([
      [1, 4],
      [1, 2, 3],
    ]).toContainEqual(found.status === 'conflict' && found.rows);
    expect(conflictSet(program, (i) => i !== 1 && i !== 4)).toEqual([]);
    expect(conflictSet(program, (i) => i === 1)).toEqual([1]);
  });

  test('null when everything fits; a crossed row is a conflict of its own', () => {
    expect(
      conflictSet(
        only(program, (i) => i < 3),
        () => true,
      ),
    ).toBeNull();
    const rows = [...program.rows.slice(0, 1), { name: 'window', coefficients: [1, 0], low: 2, high: 1 }];
    expect(conflictSet({ ...program, rows }, () => true)).toEqual([1]);
    expect(conflictSet({ ...program, rows }, (i) => i === 0)).toEqual([]);
  });

  test('whole numbers alone can be the conflict', () => {
    const columns = [
      { name: 'x', upper: 9, integer: true },
      { name: 'y', upper: 9 },
    ];
    const rows = [
      { name: 'between', coefficients: [1, 0], low: 1.2, high: 1.8 },
      { name: 'idle', coefficients: [1, 1], high: 12 },
    ];
    expect(conflictSet({ ...program, columns, rows }, () => true)).toEqual([0]);
  });

  test('random programs: HiGHS calls the set infeasible and feasible without any one of its rows', async () => {
    const reference = await highsReference();
    const sizes: number[] = [];
    for (let seed = 1; seed <= 400; seed++) {
      const made = seed % 4 === 0 ? anyProgram(seed) : blendProgram(seed).program;
      const relaxable = (i: number): boolean => made.rows[i]!.name !== 'volume' && i % 7 !== 6;
      const found = findConflict(made, relaxable);
      if (found.status !== 'conflict') continue;
      const crossed = made.rows.some((row) => (row.low ?? -Infinity) > (row.high ?? Infinity));
      if (crossed) continue;
      expect(found.irreducible).toBe(true);
      const within = (rows: readonly number[]) => only(made, (i) => !relaxable(i) || rows.includes(i));
      expect(reference(within(found.rows)).status, `seed ${seed}`).toBe('infeasible');
      for (const dropped of found.rows) {
        const rest = found.rows.filter((i) => i !== dropped);
        expect(reference(within(rest)).status, `seed ${seed} without ${dropped}`).toBe('optimal');
      }
      sizes.push(found.rows.length);
    }
    expect(sizes.length).toBeGreaterThan(50);
    expect(sizes.filter((size) => size >= 2).length).toBeGreaterThan(20);
  });

  test('random programs with flags: likewise', async () => {
    const reference = await highsReference();
    let checked = 0;
    for (let seed = 1; seed <= 400 && checked < 2; seed++) {
      const made = flaggedBlend(seed);
      if (reference(made).status !== 'optimal' || reference(made, { integers: true }).status !== 'infeasible') continue;
      const relaxable = (i: number): boolean => !made.rows[i]!.name.startsWith('use');
      const found = findConflict(made, relaxable, { nodeLimit: 5000 });
      if (found.status !== 'conflict') throw new Error(`seed ${seed}: ${found.status}`);
      const within = (rows: readonly number[]) => only(made, (i) => !relaxable(i) || rows.includes(i));
      expect(reference(within(found.rows), { integers: true }).status, `seed ${seed}`).toBe('infeasible');
      if (found.irreducible) {
        for (const dropped of found.rows) {
          const rest = within(found.rows.filter((i) => i !== dropped));
          expect(reference(rest, { integers: true }).status, `seed ${seed} without ${dropped}`).toBe('optimal');
        }
      }
      checked += 1;
    }
    expect(checked).toBe(2);
  });
});
