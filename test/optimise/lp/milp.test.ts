import { describe, expect, test } from 'vitest';
import { search } from '../../../src/core/optimise/lp/branch-and-bound.js';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';
import { type MilpAnswer, solveMilp } from '../../../src/core/optimise/lp/milp.js';
import { NodeQueue, type OpenNode } from '../../../src/core/optimise/lp/node-queue.js';
import type { LinearProgram } from '../../../src/core/optimise/lp/types.js';
import { anyMixedProgram, flaggedBlend, packedBlend, seededRandom } from '../../support/random-programs.js';
import { pointFaults, rayFaults, treeFaults } from '../../support/recheck.js';

const whole = (name: string, upper = Number.POSITIVE_INFINITY) => ({ name, upper, integer: true });

function solved(answer: MilpAnswer): MilpAnswer & { status: 'optimal' } {
  if (answer.status !== 'optimal') throw new Error(answer.status);
  return answer;
}

/** Every point of a box of whole numbers, tried one by one. */
function bestByEnumeration(program: LinearProgram): number | undefined {
  let best: number | undefined;
  const x = program.columns.map((c) => c.lower ?? 0);
  const better = (a: number, b: number): boolean => (program.sense === 'min' ? a < b : a > b);
  for (;;) {
    if (pointFaults(program, x).length === 0) {
      const value = x.reduce((sum, v, j) => sum + v * program.objective[j]!, 0);
      if (best === undefined || better(value, best)) best = value;
    }
    let j = 0;
    for (; j < x.length; j++) {
      x[j] = x[j]! + 1;
      if (x[j]! <= program.columns[j]!.upper!) break;
      x[j] = program.columns[j]!.lower ?? 0;
    }
    if (j === x.length) return best;
  }
}

describe('published integer programs (from memory)', () => {
  test('Taha, Operations Research, ch. 9: 23 at (3, 2), relaxation 23.75', () => {
    const program: LinearProgram = {
      columns: [whole('x1'), whole('x2')],
      rows: [
        { name: 'a', coefficients: [1, 1], high: 5 },
        { name: 'b', coefficients: [10, 6], high: 45 },
      ],
      sense: 'max',
      objective: [5, 4],
    };
    const answer = solved(solveMilp(program));
    expect(answer.x).toEqual([3, 2]);
    expect(answer.objective).toBe(23);
    expect(answer.gap).toBeLessThanOrEqual(1e-6);
  });

  test('Winston, Operations Research, ch. 9: 40 at (5, 0), relaxation 41.25', () => {
    const program: LinearProgram = {
      columns: [whole('tables'), whole('chairs')],
      rows: [
        { name: 'hours', coefficients: [1, 1], high: 6 },
        { name: 'wood', coefficients: [9, 5], high: 45 },
      ],
      sense: 'max',
      objective: [8, 5],
    };
    const answer = solved(solveMilp(program));
    expect(answer.x).toEqual([5, 0]);
    expect(answer.objective).toBe(40);
  });
});

describe('statuses', () => {
  const rows = [{ name: 'r', coefficients: [2, 2], low: 3, high: 3 }];
  const odd: LinearProgram = { columns: [whole('x', 9), whole('y', 9)], rows, sense: 'min', objective: [1, 0] };

  test('infeasible only over whole numbers, with a tree that shows it', () => {
    const answer = solveMilp(odd, { keepTree: true });
    if (answer.status !== 'infeasible') throw new Error(answer.status);
    expect(treeFaults(odd, answer.tree!, undefined, 0)).toEqual([]);
    expect(answer.tree!.length).toBeGreaterThan(1);
  });

  test('bounds without a whole number between them', () => {
    const columns = [{ name: 'x', lower: 0.2, upper: 0.8, integer: true }, whole('y', 9)];
    expect(solveMilp({ ...odd, columns })).toMatchObject({ status: 'infeasible', emptyColumn: 0 });
  });

  test('bounds blurred by rounding still hold their whole number', () => {
    const columns = [{ name: 'x', lower: 1 + 1e-12, upper: 5 - 1e-12, integer: true }];
    const program: LinearProgram = { columns, rows: [], sense: 'max', objective: [1] };
    expect(solved(solveMilp(program)).x).toEqual([5]);
    expect(solved(solveMilp({ ...program, sense: 'min' })).x).toEqual([1]);
  });

  test('unbounded relaxation, with its ray', () => {
    const columns = [whole('x'), whole('y')];
    const program: LinearProgram = {
      columns,
      rows: [{ name: 'r', coefficients: [1, -1], high: 2.5 }],
      sense: 'max',
      objective: [1, 1],
    };
    const answer = solveMilp(program);
    if (answer.status !== 'unbounded') throw new Error(answer.status);
    expect(rayFaults(program, answer.point, answer.ray)).toEqual([]);
  });

  test('no integer column: the linear program', () => {
    const columns = [{ name: 'x' }, { name: 'y' }];
    const answer = solved(solveMilp({ ...odd, columns }));
    expect(answer.objective).toBe(0);
    expect(answer.effort.nodes).toBe(1);
  });

  /** A knapsack of many nearly equal lots: its tree is far larger than the limits below. */
  const random = seededRandom(7);
  const lots = Array.from({ length: 30 }, () => random.whole(900, 1100));
  const knapsack: LinearProgram = {
    columns: lots.map((_, j) => whole(`lot ${j}`, 1)),
    rows: [
      { name: 'weight', coefficients: lots, high: 14_333.5 },
      { name: 'pieces', coefficients: lots.map(() => 1), high: 14 },
    ],
    sense: 'max',
    objective: lots.map((weight) => weight + random.between(0, 3)),
  };

  test('stopped at the node limit: says so, with the best point, a bound and the gap between', () => {
    const answer = solveMilp(knapsack, { nodeLimit: 5, gap: 1e-9 });
    if (answer.status !== 'stopped') throw new Error(answer.status);
    expect(answer.why).toBe('node-limit');
    expect(answer.effort.nodes).toBe(5);
    const { best, bound, gap } = answer;
    expect(pointFaults(knapsack, best!.x)).toEqual([]);
    expect(best!.x.every(Number.isInteger)).toBe(true);
    expect(bound).toBeGreaterThanOrEqual(best!.objective);
    expect(gap).toBeCloseTo((bound - best!.objective) / best!.objective, 12);
    const longer = solved(solveMilp(knapsack, { gap: 1e-4 }));
    expect(longer.objective).toBeLessThanOrEqual(bound);
    expect(longer.gap).toBeLessThanOrEqual(1e-4);
  });

  test('stopped when asked', () => {
    let asked = 0;
    const answer = solveMilp(knapsack, { gap: 1e-9, shouldStop: () => ++asked > 3 });
    expect(answer).toMatchObject({ status: 'stopped', why: 'asked', effort: { nodes: 3 } });
  });

  test('stopped before anything is found: no best, an endless gap', () => {
    const answer = solveMilp(knapsack, { nodeLimit: 0 });
    expect(answer).toMatchObject({ status: 'stopped', gap: Number.POSITIVE_INFINITY });
    expect('best' in answer).toBe(false);
  });

  test('a known point is used if it holds, ignored if not', () => {
    const good = solved(solveMilp(knapsack, { gap: 1e-4 }));
    const helped = solved(solveMilp(knapsack, { gap: 1e-4, incumbent: good.x }));
    expect(helped.objective).toBeGreaterThanOrEqual(good.objective);
    expect(helped.effort.nodes).toBeLessThanOrEqual(good.effort.nodes);
    for (const incumbent of [knapsack.columns.map(() => 1), knapsack.columns.map(() => 0.5), [1]]) {
      expect(solved(solveMilp(knapsack, { gap: 1e-4, incumbent })).objective).toBe(good.objective);
    }
  });

  test('a known point is taken at once, unless it breaks a row or is not whole', () => {
    const with0 = (incumbent: readonly number[]) => solveMilp(knapsack, { nodeLimit: 0, incumbent });
    const few = knapsack.columns.map((_, j) => Number(j < 5));
    const answer = with0(few);
    expect(answer.status === 'stopped' && answer.best?.x).toEqual(few);
    expect('best' in with0(knapsack.columns.map(() => 1))).toBe(false);
    expect('best' in with0(knapsack.columns.map(() => 0.25))).toBe(false);
  });

  test('the same answer each time', () => {
    expect(solveMilp(knapsack, { gap: 1e-4 })).toEqual(solveMilp(knapsack, { gap: 1e-4 }));
  });
});

test('small random programs: same optimum as trying every point; the tree stands on its own', () => {
  let optimal = 0;
  let infeasible = 0;
  let leaves = 0;
  for (let seed = 1; seed <= 250; seed++) {
    const random = seededRandom(seed);
    const n = random.whole(2, 4);
    const number = () => random.whole(-7, 9);
    const columns = Array.from({ length: n }, (_, j) => ({ ...whole(`x${j}`, random.whole(1, 6)), lower: 0 }));
    const program: LinearProgram = {
      columns,
      rows: Array.from({ length: random.whole(1, 4) }, (_, i) => {
        const coefficients = columns.map(number);
        const side = random.whole(-10, 30);
        return random.chance(0.15)
          ? { name: `r${i}`, coefficients, low: side, high: side }
          : { name: `r${i}`, coefficients, [random.pick(['low', 'high'])]: side };
      }),
      sense: random.pick(['min', 'max'] as const),
      objective: columns.map(number),
    };
    const expected = bestByEnumeration(program);
    const answer = solveMilp(program, { gap: 1e-9, keepTree: true });
    if (answer.status !== 'optimal' && answer.status !== 'infeasible') throw new Error(`${seed}: ${answer.status}`);
    const found = answer.status === 'optimal' ? answer.objective : undefined;
    expect(found, `seed ${seed}`).toBe(expected);
    expect(treeFaults(program, answer.tree!, found, 1e-9), `seed ${seed}`).toEqual([]);
    leaves += answer.tree!.length;
    if (found === undefined) infeasible += 1;
    else optimal += 1;
  }
  expect(optimal).toBeGreaterThan(100);
  expect(infeasible).toBeGreaterThan(20);
  expect(leaves).toBeGreaterThan(400);
});

test('trees of random blends with flags and packs stand on their own', () => {
  let rechecked = 0;
  for (let seed = 1; seed <= 30; seed++) {
    for (const make of [flaggedBlend, packedBlend, anyMixedProgram]) {
      const program = make(seed);
      const answer = solveMilp(program, { keepTree: true });
      if (answer.status !== 'optimal' && answer.status !== 'infeasible') continue;
      if (answer.tree === undefined) continue;
      const found = answer.status === 'optimal' ? answer.objective : undefined;
      expect(treeFaults(program, answer.tree, found, 1e-6), `${make.name} ${seed}`).toEqual([]);
      if (answer.status === 'optimal') {
        expect(pointFaults(program, answer.x)).toEqual([]);
        program.columns.forEach((c, j) => {
          if (c.integer) expect(Number.isInteger(answer.x[j])).toBe(true);
        });
      }
      rechecked += 1;
    }
  }
  expect(rechecked).toBeGreaterThan(50);
});

test('a tree that is spoilt is found out', () => {
  const program = packedBlend(5);
  const answer = solved(solveMilp(program, { keepTree: true }));
  expect(answer.tree!.length).toBeGreaterThan(2);
  expect(treeFaults(program, answer.tree!.slice(1), answer.objective, 1e-6).length).toBeGreaterThan(0);
  expect(treeFaults(program, [...answer.tree!, answer.tree![0]!], answer.objective, 1e-6).length).toBeGreaterThan(0);
  expect(treeFaults(program, answer.tree!, 1.01 * answer.objective, 1e-6).length).toBeGreaterThan(0);
});

test('a box that cannot be certified is never closed', () => {
  const program = checkProgram(packedBlend(5));
  const integers = packedBlend(5).columns.flatMap((c, j) => (c.integer ? [j] : []));
  // A cost of NaN, which checkProgram would refuse: no program with it has a certificate.
  const spoilt = { ...program, cost: program.cost.map(() => Number.NaN) };
  const result = search(spoilt, integers.slice(0, 2), {
    nodeLimit: 400,
    gap: 1e-6,
    shouldStop: () => false,
    keepLeaves: true,
  });
  expect(['uncertified', 'node-limit']).toContain(result.end);
  expect(result.best).toBeUndefined();
  expect(result.bound).toBe(Number.NEGATIVE_INFINITY);
  expect(result.leaves.every((leaf) => leaf.why === 'infeasible')).toBe(true);
});

test('the queue gives the lowest bound, then the deepest, then the oldest', () => {
  const queue = new NodeQueue();
  const box = Float64Array.of(0);
  const nodes = [3, 1, 2, 1, 1].map((bound, k) => ({
    lower: box,
    upper: box,
    bound,
    prices: undefined,
    depth: [0, 1, 5, 2, 2][k]!,
  }));
  for (const node of nodes) queue.push(node);
  expect(queue.lowestBound).toBe(1);
  const order = nodes.map(() => queue.pop()!);
  expect(order.map((node) => (nodes as readonly OpenNode[]).indexOf(node))).toEqual([3, 4, 1, 2, 0]);
  expect(queue.lowestBound).toBe(Number.POSITIVE_INFINITY);
  expect(queue.pop()).toBeUndefined();
});
