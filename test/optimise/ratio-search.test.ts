import { describe, expect, it } from 'vitest';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import type { LinearProgram, Row } from '../../src/core/optimise/lp/types.js';
import { bestParts, type InParts } from '../../src/core/optimise/ratio-search.js';
import { type Random, seededRandom } from '../support/random-programs.js';

/** A made-up blend: three things in parts, a liquid and a dose that come as they may. */
function smallProgram(random: Random): { program: LinearProgram; columns: InParts[] } {
  const volumes = [0.35, 0.4, 0.8, 1, 0.5].map((v) => v * random.between(0.8, 1.25));
  const row = (name: string, coefficients: number[], side: Partial<Row>): Row => ({ name, coefficients, ...side });
  const wet = random.between(0.3, 0.6);
  const program: LinearProgram = {
    columns: ['binder', 'sand', 'light', 'water', 'dose'].map((name) => ({ name })),
    rows: [
      row('volume', volumes, { low: 500, high: 500 }),
      row('water', [-wet, -0.05, -0.3, 1, 0], { low: 0 }),
      row('not too wet', [-1.4 * wet, -0.1, -0.6, 1, 0], { high: 0, scale: 1 }),
      row('sand', [-random.between(0.8, 3), 1, 0, 0, 0], { high: 0, scale: 1 }),
      row('weight', [1, 1, 1, 0.3, 1], { high: random.between(500, 900) }),
      row('dose', [-0.03, 0, 0, 0, 1], { high: 0, scale: 1 }),
    ],
    sense: 'min',
    objective: [random.between(0.5, 2), random.between(0.1, 0.6), random.between(0.2, 3), 0, random.between(-3, 5)],
  };
  const columns = [0, 1, 2].map((column) => ({ column, unit: random.between(0.2, 1.6) }));
  return { program, columns };
}

/** The optimum with these parts held, by equality rows. */
function held(program: LinearProgram, columns: readonly InParts[], parts: readonly number[]): number | null {
  const first = columns[0]!;
  const rows = columns.slice(1).map((other, i): Row => {
    const coefficients = program.columns.map(() => 0);
    coefficients[other.column] = parts[0]! / other.unit;
    coefficients[first.column] = -parts[i + 1]! / first.unit;
    return { name: 'held', coefficients, low: 0, high: 0, scale: 1 };
  });
  const answer = solveLp({ ...program, rows: [...program.rows, ...rows] });
  return answer.status === 'optimal' && answer.x[first.column]! > 1e-9 ? answer.objective : null;
}

const MOST = 5;

describe('whole-number parts of a linear program', () => {
  it('are the best of all there are, by trying every one', { timeout: 60_000 }, () => {
    let compared = 0;
    let none = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const { program, columns } = smallProgram(seededRandom(seed));
      const [found] = bestParts(program, columns, MOST, 3);
      let best: number | null = null;
      for (let a = 1; a <= MOST; a++) {
        for (let b = 0; b <= MOST; b++) {
          for (let c = 0; c <= MOST; c++) {
            const value = held(program, columns, [a, b, c]);
            if (value !== null && (best === null || value < best)) best = value;
          }
        }
      }
      if (best === null) {
        expect(found, `seed ${seed}`).toBeUndefined();
        none++;
        continue;
      }
      expect(found!.objective, `seed ${seed}`).toBeCloseTo(best, 5);
      expect(held(program, columns, found!.parts)).toBeCloseTo(found!.objective, 5);
      compared++;
    }
    expect(compared).toBeGreaterThan(15);
    expect(compared + none).toBe(30);
  });

  it('have no common divisor, come best first and all differ', () => {
    let seen = 0;
    for (let seed = 40; seed <= 60; seed++) {
      const { program, columns } = smallProgram(seededRandom(seed));
      const list = bestParts(program, columns, 8, 4);
      const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));
      expect(new Set(list.map((p) => p.parts.join(':'))).size).toBe(list.length);
      list.forEach((p, i) => {
        expect(p.parts.reduce(divisor)).toBe(1);
        expect(Math.max(...p.parts)).toBeLessThanOrEqual(8);
        if (i > 0) expect(p.objective).toBeGreaterThanOrEqual(list[i - 1]!.objective - 1e-9);
        // They really stand in these parts.
        const base = p.x[columns[0]!.column]! / columns[0]!.unit / p.parts[0]!;
        p.parts.forEach((n, k) => {
          expect(p.x[columns[k]!.column]! / columns[k]!.unit).toBeCloseTo(n * base, 4);
        });
        seen++;
      });
    }
    expect(seen).toBeGreaterThan(30);
  });

  it('lose nothing where the optimum stands in whole parts already', () => {
    const program: LinearProgram = {
      columns: [{ name: 'a' }, { name: 'b' }],
      rows: [
        { name: 'all', coefficients: [1, 1], low: 100, high: 100 },
        { name: 'lean', coefficients: [-3, 1], high: 0, scale: 1 },
      ],
      sense: 'min',
      objective: [2, 1],
    };
    const columns = [
      { column: 0, unit: 1 },
      { column: 1, unit: 1 },
    ];
    const [best] = bestParts(program, columns, 6, 1);
    expect(best!.parts).toEqual([1, 3]);
    expect(best!.objective).toBeCloseTo(125, 9);
    // In volumes of which b holds half as much, 25 g to 75 g are one part to six.
    expect(bestParts(program, [columns[0]!, { column: 1, unit: 0.5 }], 6, 1)[0]!.parts).toEqual([1, 6]);
    expect(bestParts(program, [], 6, 1)).toEqual([]);
  });
});
