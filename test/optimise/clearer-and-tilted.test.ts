import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../src/core/blend/property.js';
import type { Draws } from '../../src/core/blend/sampling.js';
import type { SideSpread } from '../../src/core/optimise/back-off.js';
import { ahead, type Cleared, suspectsOf, tilts } from '../../src/core/optimise/keeping-clear.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { questionOf } from '../support/hand-question.js';

const spread = (size: number, moves: readonly number[] = [], margin = 1): SideSpread => ({
  target: { property: 'sulfate', max: 3 },
  side: 'max',
  limit: 3,
  link: IDENTITY,
  margin,
  slack: 0,
  size,
  moves,
});

describe('the better of two blends that are kept clear', () => {
  const at = (chance: number, value: number): Cleared => ({ chance, answer: { miss: 0, value } }) as unknown as Cleared;
  const isAhead = (a: Cleared, b: Cleared, aim = AIMS.cheapest) => ahead(a, b, 0.9, aim);

  it('is the one that is as sure as was asked', () => {
    expect(isAhead(at(0.9, 9), at(0.89, 1))).toBe(true);
    expect(isAhead(at(0.89, 1), at(0.9, 9))).toBe(false);
  });

  it('is the cheaper one where both are, however much surer the other', () => {
    expect(isAhead(at(0.9, 1), at(1, 2))).toBe(true);
    expect(isAhead(at(1, 2), at(0.9, 1))).toBe(false);
    expect(isAhead(at(0.9, 2), at(1, 1), AIMS.strongest)).toBe(true);
    expect(isAhead(at(0.9, 1), at(0.9, 1))).toBe(false);
  });

  it('is the surer one where neither is, whatever it costs', () => {
    expect(isAhead(at(0.5, 9), at(0.4, 1))).toBe(true);
    expect(isAhead(at(0.4, 1), at(0.5, 9))).toBe(false);
    expect(isAhead(at(0.5, 1), at(0.5, 9))).toBe(false);
  });
});

describe('a side that is kept clearer at the price of the others', () => {
  // Three sides: kept clear by 2, by 1 and not at all, with spreads of 1, 10 and 2.
  const now = { clear: [2, 1, 0], spreads: [spread(1), spread(10), spread(2)] };

  it('is tried first, then clearer by itself, then less, as long as the blend is not sure enough', () => {
    // What is hardly kept clear counts as three tenths of a standard deviation: 3 and 0.6.
    expect(tilts(now, 0, 0.5, false)).toEqual([
      [3, 1.5, 0.3],
      [3, 3, 0.6],
      [1, 3, 0.6],
    ]);
    expect(tilts(now, 2, 0.25, false)).toEqual([
      [1.5, 2.25, expect.closeTo(0.75, 12)],
      [2, 3, expect.closeTo(0.75, 12)],
      [2, 3, expect.closeTo(0.45, 12)],
    ]);
  });

  it('gives way where the blend is sure enough, and else pays for the others', () => {
    expect(tilts(now, 1, 0.5, true)).toEqual([
      [2, 1.5, 0.6],
      [1, 4.5, 0.3],
    ]);
  });
});

/** Two figures drawn a hundred times each: one grows from draw to draw, the other is the same in each half, mirrored. */
describe('the materials behind broken draws', () => {
  const N = 100;
  const rising = Array.from({ length: N }, (_v, j) => j - 49.5);
  /** As spread out, and without any correlation to the first: each of its values occurs early and late. */
  const folded = rising.map((_v, j) => (j < N / 2 ? 2 * j - 49.5 : 148.5 - 2 * j));
  const drawn = (columns: Readonly<Record<string, readonly number[]>>): Draws => ({
    count: N,
    reading: () => (_key, figure) => figure.value,
    column: (key) => Float64Array.from(columns[key]!),
    keys: () => Object.keys(columns),
  });
  const two = drawn({ 'retarder.effects.0': rising, 'cement.so3': folded });
  const question = questionOf(['water', 'portland-cement-grey']);
  const suspects = (
    spreads: readonly SideSpread[],
    { draws = two, barred = [] as string[], doses = [] as string[] } = {},
  ) => {
    const asked = doses.map((m) => ({ material: m, percent: 1, of: 'binder' as const }));
    return suspectsOf({ draws, question: { ...question, doses: asked } }, { spreads, barred: new Set(barred) });
  };
  /** Breaks in the share of the draws whose move is above the margin. */
  const side = (moves: readonly number[], margin: number) => spread(1, moves, margin);

  it('are those that sides which break move with', () => {
    expect(suspects([side(rising, 39)])).toEqual(['retarder']);
    expect(suspects([side(folded, 39)])).toEqual(['cement']);
    // A side that falls with a figure is as much its fault.
    expect(
      suspects([
        side(
          rising.map((m) => -m),
          39,
        ),
      ]),
    ).toEqual(['retarder']);
  });

  it('are none where next to no draw breaks', () => {
    expect(suspects([side(rising, 50)])).toEqual([]);
    // One draw in a hundred is not worth blaming anyone for, two are.
    expect(suspects([side(rising, 49)])).toEqual([]);
    expect(suspects([side(rising, 48)])).toEqual(['retarder']);
    expect(suspects([])).toEqual([]);
  });

  it('come with the largest share of broken draws first', () => {
    expect(suspects([side(rising, 39), side(folded, 19)])).toEqual(['cement', 'retarder']);
    expect(suspects([side(rising, 19), side(folded, 39)])).toEqual(['retarder', 'cement']);
    // Blame adds up over sides: three tenths and three tenths against four.
    expect(suspects([side(folded, 9), side(rising, 19), side(rising, 19)])).toEqual(['retarder', 'cement']);
  });

  it('are never what was asked for, what is done without already, or a figure of the models', () => {
    expect(suspects([side(rising, 39)], { doses: ['retarder'] })).toEqual([]);
    expect(suspects([side(rising, 39)], { barred: ['retarder'] })).toEqual([]);
    expect(suspects([side(rising, 39)], { doses: ['cement'], barred: ['sand'] })).toEqual(['retarder']);
    expect(suspects([side(rising, 39)], { draws: drawn({ 'model.air-poured': rising }) })).toEqual([]);
  });

  it('are three at most', () => {
    const draws = drawn(Object.fromEntries(['a', 'b', 'c', 'd'].map((id) => [`${id}.so3`, rising])));
    const groups = drawn({ 'a.so3': rising, 'b.so3': rising, 'c.so3': folded, 'd.so3': folded });
    expect(suspects([side(rising, 9), side(folded, 19)], { draws: groups })).toEqual(['a', 'b', 'c']);
    const four = ['a', 'b', 'c', 'd'].map((id) => drawn({ [`${id}.so3`]: rising }));
    expect(suspects([side(rising, 9)], { draws })).toHaveLength(3);
    expect(four.map((one) => suspects([side(rising, 9)], { draws: one }))).toEqual([['a'], ['b'], ['c'], ['d']]);
  });
});
