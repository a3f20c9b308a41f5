import { describe, expect, it } from 'vitest';
import type { Figure } from '../../src/core/materials/figure.js';
import { type Frontier, frontier } from '../../src/core/optimise/frontier.js';
import type { Aim } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { aim, CHEAP, HEAVY, LIGHT } from '../support/aims.js';
import { binderIn, costOf, type Dry, fullMould, LEANEST, LOOSE, perGram } from '../support/full-mould.js';
import { material, numberOf } from '../support/shipped-table.js';

/**
 * Frontiers of a few points, each told by hand. All dry stuff brings its water, so cost and fresh weight are sums over a
 * full mould, and the best of one with the other held is a line between two corners.
 */

const R = 0.7;
const PLASTER = 'casting-plaster';
const ALPHA = 'alpha-gypsum-cement';
const GREY = 'portland-cement-grey';
const WHITE = 'portland-cement-white';
const FILLER = 'limestone-flour';

const shelf = (prices: Partial<Record<Dry, number>>): Question =>
  fullMould(prices, { targets: [{ property: 'water-to-binder', min: R, max: R }, ...LOOSE] });

interface Corner {
  readonly cost: number;
  readonly weight: number;
}
const corner = (binder: Dry, price: number, filler = 0, fillerPrice = 0): Corner => {
  const grams = binderIn(binder, R, filler);
  return { cost: costOf(grams * (price + filler * fillerPrice)), weight: grams * (1 + R + filler) };
};
const costAt = (a: Corner, b: Corner, weight: number): number =>
  a.cost + ((b.cost - a.cost) * (weight - a.weight)) / (b.weight - a.weight);

function drawn(question: Question, of: Aim, against: Aim, points?: number): Frontier & { readonly told: number[] } {
  const told: number[] = [];
  const progress = (share: number) => void told.push(share);
  return { ...frontier(question, of, against, points === undefined ? { progress } : { points, progress }), told };
}

describe('a frontier with a kink', () => {
  const question = shelf({ [PLASTER]: 0.003, [ALPHA]: 0.0012, [FILLER]: 0.0003 });
  const cheap = corner(ALPHA, 0.0012, LEANEST, 0.0003);
  const middle = corner(ALPHA, 0.0012);
  const light = corner(PLASTER, 0.003);
  const onLine = (weight: number): number =>
    weight > middle.weight ? costAt(cheap, middle, weight) : costAt(middle, light, weight);
  const atShare = (share: number): number => cheap.weight + share * (light.weight - cheap.weight);

  it.each([
    // Three fifths of the points in even steps, the rest halving the widest gap: at the steep end, past the kink.
    [5, [0, 1 / 3, 2 / 3, 5 / 6, 1], [0.8, 1, 1]],
    [8, [0, 0.2, 0.4, 0.6, 0.8, 0.9, 0.95, 1], [6 / 8, 7 / 8, 1, 1]],
    [3, [0, 0.5, 1], [1, 1]],
    [2, [0, 1], [1, 1]],
    [1, [0, 1], [1, 1]],
  ] as const)('is told in %i points, even first and then where the gaps are wide', (points, shares, told) => {
    const found = drawn(question, CHEAP, LIGHT, points);
    expect(found.points).toHaveLength(shares.length);
    found.points.forEach((p, i) => {
      expect(p.against / atShare(shares[i]!)).toBeCloseTo(1, 5);
      expect(p.of / onLine(p.against)).toBeCloseTo(1, 5);
      expect(p.system).toBe('gypsum');
      expect(p.grams.reduce((s, g) => s + g, 0)).toBeCloseTo(p.against, 6);
    });
    expect(found.dominated).toBe(0);
    expect(found.told).toHaveLength(told.length);
    found.told.forEach((share, i) => {
      expect(share).toBeCloseTo(told[i]!, 12);
    });
  });

  it('has 33 points where none are asked for', () => {
    const found = drawn(question, CHEAP, LIGHT);
    expect(found.points).toHaveLength(33);
    for (const p of found.points) expect(p.of / onLine(p.against)).toBeCloseTo(1, 4);
  });

  it('is the same line from the other end, with the properties changed over', () => {
    const found = drawn(question, LIGHT, CHEAP, 4);
    const ends = [light, cheap];
    for (const [k, p] of [found.points[0]!, found.points.at(-1)!].entries()) {
      expect(p.of / ends[k]!.weight).toBeCloseTo(1, 4);
      expect(p.against / ends[k]!.cost).toBeCloseTo(1, 4);
    }
    for (const p of found.points) expect(p.against / onLine(p.of)).toBeCloseTo(1, 4);
    expect(found.points).toHaveLength(4);
  });
});

describe('a frontier upwards', () => {
  const question = shelf({ [PLASTER]: 0.003, [GREY]: 0.0004, [FILLER]: 0.0003 });
  const cheap = corner(GREY, 0.0004);
  const heavy = corner(GREY, 0.0004, LEANEST, 0.0003);

  it('goes from the cheapest to the heaviest, and leaves a binder out that lies behind as a whole', () => {
    const found = drawn(question, CHEAP, HEAVY, 5);
    expect(found.points).toHaveLength(5);
    found.points.forEach((p, i) => {
      if (i > 0) expect(p.against).toBeGreaterThan(found.points[i - 1]!.against);
      expect(p.of / costAt(cheap, heavy, p.against)).toBeCloseTo(1, 5);
      expect(p.system).toBe('portland');
    });
    expect(found.points[0]!.against / cheap.weight).toBeCloseTo(1, 4);
    expect(found.points.at(-1)!.against / heavy.weight).toBeCloseTo(1, 4);
    // The plaster's own ends are not even counted.
    expect(found.dominated).toBe(0);
    const back = drawn(question, HEAVY, CHEAP, 5);
    expect(back.points[0]!.of / heavy.weight).toBeCloseTo(1, 4);
    expect(back.points.at(-1)!.of / cheap.weight).toBeCloseTo(1, 4);
    expect(back.points.map((p) => p.system)).toEqual(new Array(5).fill('portland'));
  });

  it('takes even steps in shares where the property goes so: each strength so many times the one before', () => {
    const mortar = fullMould(
      { [GREY]: 0.0004, [FILLER]: 0.0001 },
      { targets: [{ property: 'flow', min: 0.9, max: 1.12 }, LOOSE[1]!] },
    );
    const { points } = drawn(mortar, CHEAP, aim('strength', 'max'), 6);
    const [first, second, third, fourth] = points.map((p) => p.against);
    expect(points).toHaveLength(6);
    // Four even steps of six points: a fourth of the whole way each, in powers.
    const step = (points.at(-1)!.against / first!) ** 0.25;
    expect(second! / first!).toBeCloseTo(step, 3);
    expect(third! / second!).toBeCloseTo(step, 3);
    expect(fourth!).toBeGreaterThan(third!);
  });
});

describe('a frontier of two binders', () => {
  it('of one blend each is two points with nothing between them', () => {
    const found = drawn(shelf({ [PLASTER]: 0.003, [GREY]: 0.0004 }), CHEAP, LIGHT, 5);
    const [cheap, light] = [corner(GREY, 0.0004), corner(PLASTER, 0.003)];
    expect(found.points.map((p) => p.system)).toEqual(['portland', 'gypsum']);
    for (const [k, c] of [cheap, light].entries()) {
      expect(found.points[k]!.of / c.cost).toBeCloseTo(1, 5);
      expect(found.points[k]!.against / c.weight).toBeCloseTo(1, 5);
    }
    // Two equal ends a binder, and half-way the lighter one once more; the heavier cannot be so light.
    expect(found.dominated).toBe(3);
    // Neither sweep has anything to step through, one look between them, and the end.
    expect(found.told).toEqual([0.4, 0.4, 0.4, 1]);
  });

  it('keeps a dear binder that is heavier, where that is what is sought', () => {
    const question = shelf({ [PLASTER]: 0.0002, [GREY]: 0.0009 });
    for (const [of, against, order] of [
      [CHEAP, HEAVY, ['gypsum', 'portland']],
      [HEAVY, CHEAP, ['portland', 'gypsum']],
    ] as const) {
      // Nobody has to be told how far it is.
      expect(frontier(question, of, against, { points: 4 }).points.map((p) => p.system)).toEqual(order);
    }
  });

  it('goes over from one to the other where that is lighter', () => {
    const found = drawn(shelf({ [PLASTER]: 0.003, [GREY]: 0.0004, [FILLER]: 0.0003 }), CHEAP, LIGHT, 5);
    const [lean, light] = [corner(PLASTER, 0.003, LEANEST, 0.0003), corner(PLASTER, 0.003)];
    expect(found.points).toHaveLength(5);
    expect(found.points.map((p) => p.system)).toEqual(['portland', ...new Array(4).fill('gypsum')]);
    for (const p of found.points.slice(1)) expect(p.of / costAt(lean, light, p.against)).toBeCloseTo(1, 5);
    expect(found.points.at(-1)!.against / light.weight).toBeCloseTo(1, 5);
    expect(found.dominated).toBeGreaterThan(0);
  });
});

describe('a frontier without anything to trade', () => {
  it('is one point where a blend is best at both, and none where nothing meets the brief', () => {
    const one = drawn(shelf({ [GREY]: 0.0004 }), CHEAP, LIGHT, 5);
    expect(one.points).toHaveLength(1);
    expect(one.points[0]!.of / corner(GREY, 0.0004).cost).toBeCloseTo(1, 6);
    expect(one.dominated).toBe(1);
    expect(one.told).toEqual([1]);
    const none = { ...shelf({ [GREY]: 0.0004 }), targets: [{ property: 'strength', min: 500 }] };
    const { told, ...empty } = drawn(none, CHEAP, LIGHT, 5);
    expect(empty).toEqual({ points: [], dominated: 0 });
    expect(told).toEqual([1]);
  });

  it('does not tell apart what settling cannot: a light blend that costs a hundred-thousandth more is simply better', () => {
    const even = (0.001 * perGram(PLASTER, R)) / perGram(ALPHA, R);
    const priced = (more: number) => drawn(shelf({ [ALPHA]: 0.001, [PLASTER]: even * (1 + more) }), CHEAP, LIGHT, 4);
    const light = corner(PLASTER, even);
    for (const hair of [0, 1e-6, 1e-5]) {
      expect(priced(hair).points, `${hair}`).toHaveLength(1);
      expect(priced(hair).points[0]!.against / light.weight).toBeCloseTo(1, 5);
    }
    for (const more of [1e-4, 1e-3]) {
      const apart = priced(more).points;
      expect(apart, `${more}`).toHaveLength(4);
      expect(apart[0]!.against / corner(ALPHA, 0.001).weight).toBeCloseTo(1, 3);
      expect(apart.at(-1)!.against / light.weight).toBeCloseTo(1, 5);
    }
  });

  it('nor pay for a blend that is lighter by a hundred-thousandth', () => {
    // A dearer cement, lighter by a hair in density.
    const lighter = (share: number): Question => {
      const question = shelf({ [GREY]: 0.0004, [WHITE]: 0.0009 });
      const { density } = material(GREY);
      const value = numberOf(density) * (1 - share);
      return {
        ...question,
        materials: question.materials.map((m) =>
          m.id === WHITE ? { ...m, density: { ...density, value } as Figure } : m,
        ),
      };
    };
    expect(drawn(lighter(0), CHEAP, LIGHT, 3).points).toHaveLength(1);
    expect(drawn(lighter(2e-5), CHEAP, LIGHT, 3).points).toHaveLength(1);
    expect(drawn(lighter(1e-3), CHEAP, LIGHT, 3).points).toHaveLength(3);
  });
});
