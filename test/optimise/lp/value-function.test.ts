import { describe, expect, it } from 'vitest';
import { solveLp } from '../../../src/core/optimise/lp/solve.js';
import type { LinearProgram, OptimalAnswer, Row } from '../../../src/core/optimise/lp/types.js';
import published from './data/published.json' with { type: 'json' };

/**
 * The optimum of a linear program as a function of one right-hand side is convex where it minimises and concave where it
 * maximises, its domain is an interval, and every dual price is a subgradient of it (Bertsimas and Tsitsiklis 1997,
 * Introduction to Linear Optimization, sections 5.2 and 5.3, from memory). The programs are the published ones, textbook
 * mixtures, diets and feeds among them; see the data for where each is printed.
 */
type Side = 'low' | 'high' | 'both';
const STEPS = 24;
const SPAN = 0.6;

interface Published {
  readonly name: string;
  readonly columns: LinearProgram['columns'];
  readonly sense: string;
  readonly objective: readonly number[];
  readonly rows: readonly {
    readonly name: string;
    readonly coefficients: readonly number[];
    readonly low: number | null;
    readonly high: number | null;
  }[];
}

const programOf = ({ columns, rows, sense, objective }: Published): LinearProgram => ({
  columns,
  sense: sense as 'min' | 'max',
  objective,
  rows: rows.map(
    ({ name, coefficients, low, high }): Row => ({
      name,
      coefficients,
      ...(low === null ? {} : { low }),
      ...(high === null ? {} : { high }),
    }),
  ),
});

const withSide = (program: LinearProgram, row: number, side: Side, value: number): LinearProgram => ({
  ...program,
  rows: program.rows.map((r, i) =>
    i !== row ? r : { ...r, ...(side === 'high' ? {} : { low: value }), ...(side === 'low' ? {} : { high: value }) },
  ),
});

const sides = (published.examples as readonly Published[]).flatMap((example) => {
  const program = programOf(example);
  return program.rows.flatMap(
    ({ name, low, high }, row): { name: string; program: LinearProgram; row: number; side: Side; at: number }[] => {
      const label = `${example.name}, ${name}`;
      if (low !== undefined && low === high) return [{ name: label, program, row, side: 'both', at: low }];
      return [
        ...(low === undefined ? [] : [{ name: `${label} low`, program, row, side: 'low' as const, at: low }]),
        ...(high === undefined ? [] : [{ name: `${label} high`, program, row, side: 'high' as const, at: high }]),
      ];
    },
  );
});

describe('the optimum over a grid of right-hand sides', () => {
  const curves = sides.map(({ name, program, row, side, at }) => {
    const half = SPAN * (Math.abs(at) || 1);
    const values = Array.from({ length: STEPS + 1 }, (_v, k) => at - half + (2 * half * k) / STEPS);
    const answers = values.map((value) => solveLp(withSide(program, row, side, value)));
    const found = values.flatMap((value, k) => {
      const answer = answers[k]!;
      return answer.status === 'optimal' ? [{ k, value, answer: answer as OptimalAnswer }] : [];
    });
    // Costs, whichever way the program goes.
    const sign = program.sense === 'min' ? 1 : -1;
    const points = found.map(({ k, value, answer }) => ({
      k,
      value,
      cost: sign * answer.objective,
      slope: sign * answer.rowPrices[row]!,
    }));
    const size = Math.max(1e-9, ...points.map((p) => Math.abs(p.cost)));
    return { name, answers, points, dust: 1e-8 * size, size };
  });

  it('is asked of enough of them', () => {
    expect(curves.length).toBeGreaterThan(30);
    expect(curves.every((c) => c.answers.every((a) => a.status !== 'uncertified'))).toBe(true);
  });

  it('has an interval for its domain', () => {
    let cut = 0;
    for (const { name, points } of curves) {
      points.forEach((p, i) => {
        expect(p.k, name).toBe(points[0]!.k + i);
      });
      if (points.length > 0 && points.length < STEPS + 1) cut++;
    }
    expect(cut).toBeGreaterThan(5);
  });

  it('is convex, with kinks', () => {
    let kinks = 0;
    for (const { name, points, dust, size } of curves) {
      for (let i = 1; i < points.length - 1; i++) {
        const bend = points[i - 1]!.cost + points[i + 1]!.cost - 2 * points[i]!.cost;
        expect(bend, name).toBeGreaterThan(-4 * dust);
        if (bend > 1e-4 * size) kinks++;
      }
    }
    expect(kinks).toBeGreaterThan(20);
  });

  it('lies above the line that each dual price draws', () => {
    let lines = 0;
    for (const { name, points, dust } of curves) {
      for (const p of points) {
        for (const q of points) {
          expect(q.cost, `${name} from ${p.value} to ${q.value}`).toBeGreaterThan(
            p.cost + p.slope * (q.value - p.value) - 4 * dust - 1e-8 * Math.abs(p.slope * (q.value - p.value)),
          );
          if (p.slope !== 0) lines++;
        }
      }
    }
    expect(lines).toBeGreaterThan(2000);
  });
});
