import { describe, expect, test } from 'vitest';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { LADDER, pivotCap } from '../../../src/core/optimise/lp/ladder.js';
import { runPivots } from '../../../src/core/optimise/lp/pivot-engine.js';
import { inOrder } from '../../../src/core/optimise/lp/shuffle.js';
import { solveLp } from '../../../src/core/optimise/lp/solve.js';
import { tableauForm } from '../../../src/core/optimise/lp/tableau-form.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { highsReference } from '../../support/highs-reference.js';
import { optimalFaults } from '../../support/recheck.js';
import stored from './data/lp-that-cycles.json' with { type: 'json' };

/** The stored program on which the engine's first phase never ends (our own data, facts/solver.md §2). */
function programThatCycles(): LinearProgram {
  const variables = Object.entries(stored.variables as Record<string, Record<string, number>>);
  const constraints = Object.entries(
    stored.constraints as Record<string, { equal?: number; min?: number; max?: number }>,
  );
  return {
    columns: variables.map(([name]) => ({ name })),
    rows: constraints.map(([name, { equal, min, max }]) => {
      const low = equal ?? min;
      const high = equal ?? max;
      return {
        name,
        coefficients: variables.map(([, terms]) => terms[name] ?? 0),
        ...(low === undefined ? {} : { low }),
        ...(high === undefined ? {} : { high }),
      };
    }),
    sense: 'min',
    objective: variables.map(([, terms]) => terms[stored.optimize] ?? 0),
  };
}

function unscaledForm(program: LinearProgram) {
  const checked = checkProgram(program);
  const row = new Float64Array(checked.rowCount).fill(1);
  const column = new Float64Array(checked.columnCount).fill(1);
  const order = { rows: inOrder(checked.rowCount), columns: inOrder(checked.columnCount) };
  return tableauForm(checked, { row, column, unit: 1 }, order);
}

describe('a program on which the pivot engine loops for ever', () => {
  const program = programThatCycles();

  test('is stopped at the cap, however high the cap', () => {
    const { problem } = unscaledForm(program);
    for (const cap of [1_000, 20_000]) {
      expect(runPivots(problem, { precision: 1e-8, pivotCap: cap })).toEqual({ status: 'capped', pivots: cap + 1 });
    }
  });

  test('is solved by the ladder, with the optimum HiGHS finds', async () => {
    const answer = solveLp(program);
    if (answer.status !== 'optimal') throw new Error(answer.status);
    expect(optimalFaults(program, answer)).toEqual([]);
    const reference = (await highsReference())(program);
    expect(reference.status).toBe('optimal');
    expect(answer.objective / reference.objective).toBeCloseTo(1, 8);
  });
});

describe('pivot engine', () => {
  // min -x - 2y, x + y <= 4, y <= 3: x = 1, y = 3, prices -1 and -1.
  const problem = {
    height: 3,
    width: 3,
    tableau: Float64Array.of(0, 1, 2, 4, 1, 1, 3, 0, 1),
    twin: Int32Array.of(-1, -1),
  };

  test('gives values, prices and how far each right side may move', () => {
    const outcome = runPivots(problem, { precision: 1e-9, pivotCap: 100 });
    if (outcome.status !== 'optimal') throw new Error(outcome.status);
    expect(Array.from(outcome.values)).toEqual([1, 3]);
    expect(Array.from(outcome.prices)).toEqual([-1, -1]);
    expect(Array.from(outcome.room().fall)).toEqual([1, 3]);
    expect(Array.from(outcome.room().rise)).toEqual([Number.POSITIVE_INFINITY, 1]);
  });

  test('leaves the tableau it was given alone', () => {
    const before = Array.from(problem.tableau);
    runPivots(problem, { precision: 1e-9, pivotCap: 100 });
    expect(Array.from(problem.tableau)).toEqual(before);
  });

  test('names the multipliers of a contradiction: x <= 1 against -x <= -2', () => {
    const contradiction = {
      height: 3,
      width: 2,
      tableau: Float64Array.of(0, -1, 1, 1, -2, -1),
      twin: Int32Array.of(-1, -1),
    };
    const outcome = runPivots(contradiction, { precision: 1e-9, pivotCap: 100 });
    if (outcome.status !== 'infeasible') throw new Error(outcome.status);
    expect(Array.from(outcome.multipliers)).toEqual([1, 1]);
  });
});

test('the ladder is fixed: distinct rungs, the first without shuffling', () => {
  expect(LADDER.length).toBeGreaterThanOrEqual(6);
  expect(LADDER[0]).toEqual({ name: 'first', precision: 1e-9, scaling: 'geometric' });
  expect(new Set(LADDER.map(({ precision, scaling, seed }) => `${precision} ${scaling} ${seed}`)).size).toBe(
    LADDER.length,
  );
  expect(pivotCap({ width: 61, height: 41 }, 0)).toBeGreaterThan(300);
  expect(pivotCap({ width: 61, height: 41 }, 3)).toBe(4 * pivotCap({ width: 61, height: 41 }, 0));
});
