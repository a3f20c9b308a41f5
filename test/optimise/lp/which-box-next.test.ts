import { describe, expect, it } from 'vitest';
import { solveMilp } from '../../../src/core/optimise/lp/milp.js';
import { NodeQueue, type OpenNode } from '../../../src/core/optimise/lp/node-queue.js';
import { PseudoCosts } from '../../../src/core/optimise/lp/pseudo-costs.js';
import { packedBlend, seededRandom } from '../../support/random-programs.js';

const box = Float64Array.of(0);
const nodeOf = (bound: number, depth: number): OpenNode => ({
  lower: box,
  upper: box,
  bound,
  prices: undefined,
  depth,
});

describe('the queue of open boxes', () => {
  it('gives of any mixture of comings and goings the lowest bound, then the deepest, then the oldest', () => {
    const random = seededRandom(3);
    const queue = new NodeQueue();
    const waiting: { node: OpenNode; age: number }[] = [];
    let ties = 0;
    for (let step = 0; step < 2000; step++) {
      if (random.chance(0.55)) {
        const node = nodeOf(random.whole(0, 9), random.whole(0, 3));
        queue.push(node);
        waiting.push({ node, age: step });
      } else {
        waiting.sort((a, b) => a.node.bound - b.node.bound || b.node.depth - a.node.depth || a.age - b.age);
        const [first, second] = waiting;
        if (first !== undefined && second !== undefined && first.node.bound === second.node.bound) ties++;
        expect(queue.pop()).toBe(waiting.shift()?.node);
      }
      expect(queue.size).toBe(waiting.length);
      expect(queue.lowestBound).toBe(Math.min(...waiting.map(({ node }) => node.bound)));
    }
    expect(waiting.length).toBeGreaterThan(50);
    expect(ties).toBeGreaterThan(300);
  });

  it('is empty at first and again at the end', () => {
    const queue = new NodeQueue();
    expect(queue.pop()).toBeUndefined();
    queue.push(nodeOf(1, 0));
    expect(queue.pop()).toEqual(nodeOf(1, 0));
    expect(queue.pop()).toBeUndefined();
    expect(queue.lowestBound).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('the column to branch on', () => {
  const choose = (guesses: PseudoCosts, fractions: readonly number[]): number =>
    guesses.choose(
      fractions.map((_, j) => j),
      (j) => fractions[j]!,
    );
  /** Columns that have risen by so much a unit of fraction, downwards and upwards. */
  const learnt = (columns: readonly (readonly [number, number] | undefined)[]): PseudoCosts => {
    const guesses = new PseudoCosts(columns.length);
    columns.forEach((rises, j) => {
      if (rises === undefined) return;
      guesses.learn(j, 'down', 0.5, rises[0] / 2);
      guesses.learn(j, 'up', 0.5, rises[1] / 2);
    });
    return guesses;
  };

  it('is the most fractional as long as nothing is known, the first of equals', () => {
    const guesses = new PseudoCosts(3);
    expect(choose(guesses, [0.1, 0.5, 0.9])).toBe(1);
    expect(choose(guesses, [0.2, 0.5, 0.5])).toBe(1);
    expect(guesses.choose([2, 1], () => 0.5)).toBe(2);
  });

  it('is the most fractional where nothing has moved the bound', () => {
    expect(
      choose(
        learnt([
          [0, 0],
          [0, 0],
          [0, 0],
        ]),
        [0.1, 0.5, 0.95],
      ),
    ).toBe(1);
    // A falling bound can only be rounding: it counts as one that did not move.
    expect(
      choose(
        learnt([
          [-9, -9],
          [0, 0],
        ]),
        [0.1, 0.5],
      ),
    ).toBe(1);
  });

  it('is the one whose two halves both promise, not the one with a single high side', () => {
    expect(
      choose(
        learnt([
          [100, 0],
          [1, 1],
        ]),
        [0.5, 0.5],
      ),
    ).toBe(1);
    expect(
      choose(
        learnt([
          [0, 100],
          [1, 1],
        ]),
        [0.5, 0.5],
      ),
    ).toBe(1);
  });

  it('is the one of larger rises, however small they are, before the one that is more fractional', () => {
    expect(
      choose(
        learnt([
          [0.1, 0.1],
          [0.3, 0.3],
        ]),
        [0.5, 0.1],
      ),
    ).toBe(1);
  });

  it('counts each side by the distance to go: 0.9 down at 1 and 0.1 up at 0 beats the reverse', () => {
    // 0.9 * 1 * small against 0.1 * 1 * small.
    expect(
      choose(
        learnt([
          [1, 0],
          [1, 0],
        ]),
        [0.1, 0.9],
      ),
    ).toBe(1);
    expect(
      choose(
        learnt([
          [0, 1],
          [0, 1],
        ]),
        [0.9, 0.1],
      ),
    ).toBe(1);
  });

  it('takes a column of which nothing is known for the average of the known ones, each counted once', () => {
    const average = (known: number): number => {
      const guesses = learnt([[2, 1], [9, 1], undefined, [known, 1]]);
      guesses.learn(0, 'down', 0.25, 1);
      return guesses.choose([2, 3], () => 0.5);
    };
    // (3 + 9 + known) / 3; counted by observations it would be (2 + 4 + 9 + known) / 4.
    expect(average(5.5)).toBe(2);
    expect(average(6.5)).toBe(3);
  });

  it('takes a column for what it has cost on average', () => {
    const guesses = learnt([
      [2, 1],
      [5, 1],
    ]);
    guesses.learn(0, 'down', 0.25, 1);
    // 2 and 4 make 3, which is less than 5.
    expect(choose(guesses, [0.5, 0.5])).toBe(1);
  });

  it('learns nothing from a column that hardly moved or a half that turned out empty', () => {
    for (const [distance, rise] of [
      [1e-10, 1],
      [1e-9, 1],
      [0.5, Number.POSITIVE_INFINITY],
    ] as const) {
      for (const direction of ['down', 'up'] as const) {
        const guesses = learnt([undefined, [1, 1]]);
        guesses.learn(0, direction, distance, rise);
        expect(choose(guesses, [0.3, 0.5])).toBe(1);
      }
    }
    const guesses = learnt([undefined, [1, 1]]);
    guesses.learn(0, 'down', 0.5, Number.NaN);
    expect(choose(guesses, [0.5, 0.3])).toBe(0);
  });

  it('saves boxes by what is learnt', () => {
    // 32, 40 and 35 boxes; by the most fractional column alone, with nothing learnt, they took 37, 50 and 73.
    const boxes = [2, 5, 8].map((seed) => solveMilp(packedBlend(seed)).effort.nodes);
    expect(boxes.reduce((sum, n) => sum + n, 0)).toBeLessThan(120);
  });
});
