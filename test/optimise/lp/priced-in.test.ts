import { describe, expect, it } from 'vitest';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { LADDER } from '../../../src/core/optimise/lp/ladder.js';
import { pricedIn, WIDE } from '../../../src/core/optimise/lp/priced-in.js';
import { solveChecked } from '../../../src/core/optimise/lp/solve.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { highsReference } from '../../support/highs-reference.js';
import { anyProgram, blendProgram, seededRandom } from '../../support/random-programs.js';
import { emptyReport, trustLp } from '../../support/trust.js';

const SEED = 61_000;

/** A program of any kind with so many more columns, most of them dearer copies of its own. */
function widened(seed: number): LinearProgram {
  const random = seededRandom(seed);
  const program = anyProgram(seed);
  const n = program.columns.length;
  const sign = program.sense === 'min' ? 1 : -1;
  const copies = Array.from({ length: WIDE + 20 }, () => random.whole(0, n - 1));
  const worse = copies.map(() => random.between(0, 2));
  return {
    ...program,
    columns: [
      ...program.columns,
      ...copies.map((j, k) => ({ name: `copy ${k}`, upper: program.columns[j]!.upper ?? 50 })),
    ],
    rows: program.rows.map((row) => ({
      ...row,
      coefficients: [...row.coefficients, ...copies.map((j) => row.coefficients[j]!)],
    })),
    objective: [...program.objective, ...copies.map((j, k) => program.objective[j]! + sign * worse[k]!)],
  };
}

describe('a wide program, solved by few of its columns', () => {
  it('is certified, rechecked and the same as HiGHS, whatever its status', async () => {
    const reference = await highsReference();
    const report = emptyReport();
    for (let k = 0; k < 40; k++) {
      trustLp(report, `blend ${SEED + k}`, blendProgram(SEED + k, { size: 150 + 5 * k }).program, reference);
      trustLp(report, `wide ${SEED + k}`, widened(SEED + k), reference);
    }
    expect(report.wrong).toEqual([]);
    expect(report.rechecked).toBe(80);
    expect(report.statuses['optimal/optimal']).toBeGreaterThan(25);
    expect(report.statuses['infeasible/infeasible']).toBeGreaterThan(8);
    expect(report.statuses['unbounded/unbounded']).toBeGreaterThan(3);
  });

  it('hands the engine few columns, and comes to the same objective as the whole program', () => {
    let answered = 0;
    for (let k = 0; k < 30; k++) {
      const program = checkProgram(blendProgram(SEED + 500 + k, { size: 240 }).program);
      let widest = 0;
      const answer = pricedIn(program, (part) => {
        widest = Math.max(widest, part.columnCount);
        return solveChecked(part, { ladder: LADDER });
      });
      const whole = solveChecked(program, { ladder: LADDER });
      if (answer === undefined || answer.status !== 'optimal' || whole.status !== 'optimal') continue;
      answered++;
      expect(Math.abs(answer.optimum.cost - whole.optimum.cost)).toBeLessThan(
        1e-7 * Math.max(1, Math.abs(whole.optimum.cost)),
      );
      expect(widest).toBeLessThan(0.6 * 240);
    }
    expect(answered).toBeGreaterThan(8);
  });
});
