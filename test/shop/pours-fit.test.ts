import { describe, expect, it } from 'vitest';
import { assess, evaluate } from '../../src/core/blend/assess.js';
import { withFigures } from '../../src/core/blend/figure-keys.js';
import { demouldWeight, freshVolume } from '../../src/core/blend/properties/volume-and-weight.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { worldOf } from '../../src/core/blend/world.js';
import { worldInput } from '../../src/core/brief/world-input.js';
import { weightAfter } from '../../src/core/shop/drying-time.js';
import { cholesky, inverseOf } from '../../src/core/shop/linear-algebra.js';
import { contradicting, type Fit, fitFigures } from '../../src/core/shop/pours-fit.js';
import { middleOf } from '../../src/core/shop/pours-marginal.js';
import { type KnownPour, measuredPour } from '../../src/core/shop/pours-measured.js';
import { materials, model } from '../support/shipped-table.js';
import { measuredPours, planned, SCALE_STEP, SHOP_WASTE, simulated, truth } from '../support/simulated-pours.js';

const PLASTER = { 'casting-plaster': 300, 'silica-sand-fine': 150, water: 180 };
const CEMENT = { 'portland-cement-grey': 200, 'masonry-sand': 400, water: 90 };
const PLANS = [
  planned({ parts: PLASTER, volume: 300, weighedAt: [1, 24, 72, 168] }),
  planned({ parts: PLASTER, volume: 300, wall: 2, humidity: 0.6, weighedAt: [1.5, 48, 120] }),
  planned({ parts: CEMENT, volume: 300, weighedAt: [24, 96, 240, 500] }),
];

const at = (fit: Fit, key: string) => fit.figures.find((f) => f.key === key)!;

describe('coverage over simulated shops', () => {
  /**
   * Each shop's true figures are drawn from the table's ranges, all of them, also those nobody asks about (densities,
   * moistures, phases), and its pours are measured with a maker's errors
   * (support/simulated-pours.ts). A 90 % range must hold the truth in 85-95 %
   * of 500 shops: 90 +- 3.7 standard errors. Outside check: the truth itself, which the fit never sees.
   */
  it('holds the truth in 85-95 % of 500 shops, for every figure the pours speak of', () => {
    const RUNS = 500;
    const held = new Map<string, { inside: number; runs: number; left: number }>();
    for (let seed = 1; seed <= RUNS; seed++) {
      const { read, value } = truth(seed);
      const fit = fitFigures(measuredPours(simulated(PLANS, read, seed)));
      expect(fit.settled, `seed ${seed}`).toBe(true);
      for (const f of fit.figures) {
        const real = value(f.key, f.before);
        const entry = held.get(f.key) ?? { inside: 0, runs: 0, left: 0 };
        entry.runs++;
        entry.left += f.left;
        if (real >= f.low - 1e-12 && real <= f.high + 1e-12) entry.inside++;
        held.set(f.key, entry);
      }
    }
    // Asked for by name: air, drying time, water lost in the mould, set and demoulding times, water held and bound, waste.
    const asked = [
      'model.air-tapped',
      'model.drying-days',
      'model.drying-wall-power',
      'model.lost-in-mould',
      'model.set-spread',
      'model.demould-spread',
      'model.held-portland',
      'model.held-gypsum',
      'model.gypsum-conversion',
      'casting-plaster.initialSet',
      'casting-plaster.demould',
      'portland-cement-grey.initialSet',
      'shop.waste',
    ];
    for (const key of asked) expect(held.get(key)?.runs, key).toBe(RUNS);
    for (const [key, { inside, runs }] of held) {
      if (runs < RUNS) continue;
      expect(inside / runs, key).toBeGreaterThanOrEqual(0.85);
      expect(inside / runs, key).toBeLessThanOrEqual(0.95);
    }
    // And it teaches: the drying time is known twenty times better than the table's range, the air half as well again.
    expect(held.get('model.drying-days')!.left / RUNS).toBeLessThan(0.08);
    expect(held.get('model.air-tapped')!.left / RUNS).toBeLessThan(0.7);
    expect(held.get('shop.waste')!.left / RUNS).toBeLessThan(0.6);
  }, 240_000);

  it('predicts the next piece of the same blend: its range holds the truth, and is far narrower than before', () => {
    let inside = 0;
    let narrower = 0;
    let apart = 0;
    const RUNS = 60;
    for (let seed = 1001; seed <= 1000 + RUNS; seed++) {
      const { read } = truth(seed);
      const fit = fitFigures(measuredPours(simulated(PLANS, read, seed)));
      const { input, grams } = PLANS[0]!;
      const real = weightAfter(worldOf(input, read), stateOf(worldOf(input, read), grams), 72);
      const tables = withFigures(
        { materials: input.materials, figures: model },
        new Map(fit.figures.map((f) => [f.key, { ...f.before, value: f.value, low: f.low, high: f.high }])),
      );
      const day3 = (together: Fit['together'] | null, own: typeof tables) => {
        const world = { ...input, materials: own.materials, figures: own.figures, ...(together && { together }) };
        return assess(world, grams, [], { draws: 200, seed }).properties.find((p) => p.property === 'weight-day-3')!;
      };
      const after = day3(fit.together, tables);
      const before = day3(null, { materials: input.materials, figures: model });
      if (real >= after.low! && real <= after.high!) inside++;
      const width = (p: { low: number | null; high: number | null }) => p.high! - p.low!;
      narrower += width(after) / width(before) / RUNS;
      // Drawn each by itself the same figures give a wider range: what air takes, density gives.
      apart += width(day3(null, tables)) / width(after) / RUNS;
    }
    expect(inside / RUNS).toBeGreaterThan(0.8);
    expect(inside / RUNS).toBeLessThanOrEqual(1);
    expect(narrower).toBeLessThan(0.5);
    expect(apart).toBeGreaterThan(1.05);
  }, 60_000);

  it('comes to the truth as pours add up', () => {
    const { read, value } = truth(77);
    const many = Array.from({ length: 24 }, (_v, i) =>
      planned({ parts: PLASTER, volume: 300, wall: i % 2 === 0 ? 1 : 3, weighedAt: [1, 30, 80, 200] }),
    );
    const spread = (count: number) =>
      at(fitFigures(measuredPours(simulated(many.slice(0, count), read, 77))), 'model.drying-days');
    const [few, all] = [spread(2), spread(24)];
    const real = value(all.key, all.before);
    expect(all.left).toBeLessThan(0.5 * few.left);
    expect(Math.abs(all.value - real)).toBeLessThan(0.03 * real);
    expect(all.low).toBeLessThanOrEqual(real);
    expect(all.high).toBeGreaterThanOrEqual(real);
  });
});

/**
 * Common practice, no source: three recipes cast in one and the same small mould, weighed at demoulding and three days
 * later (issue 2). The mould is taken as the mean of the volumes the model itself gives them.
 */
describe('the common-practice weighings', () => {
  const ALPHA = { 'alpha-gypsum-cement': 250, 'iron-oxide-red': 12, water: 100 };
  const CSA = { 'csa-rapid-cement': 280, 'iron-oxide-red': 14, water: 70 };
  const MIXED = {
    'silica-sand-fine': 150,
    'portland-cement-grey': 75,
    'casting-plaster': 75,
    'iron-oxide-red': 15,
    water: 75,
  };
  /** cm³ that a piece of this weight at demoulding fills, by the model before any fit. */
  const volumeOf = (parts: Record<string, number>, grams: number): number => {
    const { input, grams: mixed } = planned({ parts, volume: null, weighedAt: [], pour: 'poured' });
    const { value } = evaluate(worldOf(input), mixed);
    return (value(freshVolume)! * grams) / value(demouldWeight)!;
  };
  const volume = (volumeOf(ALPHA, 285) + volumeOf(CSA, 314) + volumeOf(MIXED, 314)) / 3;
  const cast = (parts: Record<string, number>, weights: [number, number][], demouldMinutes: number): KnownPour => ({
    ...planned({ parts, volume, weighedAt: weights.map(([h]) => h), pour: 'poured', batch: false }),
    weights: weights.map(([hours, grams]) => ({ hours, grams })),
    setMinutes: null,
    demouldMinutes,
  });
  const POURS = [
    cast(
      ALPHA,
      [
        [1, 285],
        [73, 249],
      ],
      60,
    ),
    cast(
      CSA,
      [
        [3, 314],
        [75, 291],
      ],
      180,
    ),
    cast(
      MIXED,
      [
        [2, 314],
        [74, 278],
      ],
      120,
    ),
  ];
  const fit = fitFigures(measuredPours(POURS));

  it('agree with the model within its ranges, and with each other', () => {
    expect(fit.settled).toBe(true);
    expect(fit.misfit.after).toBeLessThan(1.5);
    expect(contradicting(fit)).toEqual([]);
    for (const f of fit.figures) expect(Math.abs(f.moved), f.key).toBeLessThan(2.6);
  });

  it('are told back within 1.5 % once fitted, their fall in weight within 0.5 %', () => {
    const moved = new Map(fit.figures.map((f) => [f.key, f]));
    for (const pour of POURS) {
      const own = withFigures(
        { materials: pour.input.materials, figures: model },
        new Map([...moved].map(([k, f]) => [k, { ...f.before, value: f.value, low: f.low, high: f.high }])),
      );
      const told = measuredPour({ ...pour, input: { ...pour.input, ...own } }, SCALE_STEP, SHOP_WASTE)!;
      const numbers = told.predict((_key, figure) => figure.value);
      for (const [i, w] of pour.weights.entries()) expect(Math.abs(numbers[i]! / w.grams - 1)).toBeLessThan(0.015);
      // The fall in weight is what drying is learned from; before the fit it may be out by more than after.
      const plain = measuredPour(pour, SCALE_STEP, SHOP_WASTE)!.predict((_key, figure) => figure.value);
      const fall = (n: readonly number[]) => n[1]! / n[0]!;
      const seen = pour.weights[1]!.grams / pour.weights[0]!.grams;
      expect(Math.abs(fall(plain) / seen - 1)).toBeLessThan(0.03);
      expect(Math.abs(fall(numbers) / seen - 1)).toBeLessThan(0.005);
    }
  });

  it('teach the drying time most, and nothing of what was not measured', () => {
    expect(fit.figures[0]!.key).toBe('model.drying-days');
    expect(fit.figures[0]!.left).toBeLessThan(0.25);
    expect(at(fit, 'shop.waste')).toBeUndefined();
    expect(at(fit, 'alpha-gypsum-cement.initialSet')?.left ?? 1).toBeGreaterThan(0.9);
  });
});

describe('a slip', () => {
  it('is seen: a weight with two digits swapped makes its pour contradict, and only it', () => {
    const { read } = truth(5);
    const pours = simulated(PLANS, read, 5);
    const slipped = pours.map((p, i) =>
      i === 1 ? { ...p, weights: p.weights.map((w, j) => (j === 1 ? { ...w, grams: w.grams * 1.19 } : w)) } : p,
    );
    expect(contradicting(fitFigures(measuredPours(pours)))).toEqual([]);
    expect(contradicting(fitFigures(measuredPours(slipped)))).toContain(1);
  });
});

describe('what is measured', () => {
  it('errs by the scale, the hand, the fill of the mould and the eye, worked by hand', () => {
    const pour = { ...planned({ parts: PLASTER, volume: 300, weighedAt: [1, 73] }), batch: { grams: 700, pieces: 2 } };
    const seen = {
      ...pour,
      weights: [
        { hours: 1, grams: 285 },
        { hours: 73, grams: 249 },
      ],
      setMinutes: 18,
      demouldMinutes: 45,
    };
    const { observed, covariance } = measuredPour(seen, 1, SHOP_WASTE)!;
    expect(observed).toEqual([285, 249, Math.log(18), Math.log(45), Math.log(350)]);
    // step^2/12 + (0.1 % of it)^2 + (1 % of it)^2; what two weighings share is the 1 % of fill.
    expect(covariance[0]![0]).toBeCloseTo(1 / 12 + 0.285 ** 2 + 2.85 ** 2, 9);
    expect(covariance[0]![1]).toBeCloseTo(2.85 * 2.49, 9);
    expect(covariance[1]![0]).toBe(covariance[0]![1]);
    expect([2, 3, 4].map((i) => covariance[i]![i])).toEqual([0.1 ** 2, 0.15 ** 2, 0.03 ** 2]);
    expect(covariance[0]!.slice(2)).toEqual([0, 0, 0]);
    const loose = measuredPour(
      { ...seen, input: { ...seen.input, conditions: { ...seen.input.conditions, volume: null } } },
      1,
      SHOP_WASTE,
    )!;
    expect(loose.observed).toHaveLength(4);
    expect(loose.covariance[0]![1]).toBe(285 * 249);
  });

  it('is nothing when a piece of no known size was weighed once', () => {
    const one = planned({ parts: PLASTER, volume: null, weighedAt: [2], timed: false });
    expect(measuredPour(one, 1, SHOP_WASTE)).toBeNull();
    expect(measuredPour({ ...one, weights: [] }, 1, SHOP_WASTE)).toBeNull();
    expect(measuredPour({ ...one, setMinutes: 20 }, 1, SHOP_WASTE)).not.toBeNull();
  });

  it('without a mould tells how the weight falls, not how large the piece is', () => {
    const { read } = truth(9);
    const loose = [planned({ parts: PLASTER, volume: null, weighedAt: [1, 24, 72, 168], timed: false })];
    const seen = simulated(
      [planned({ parts: PLASTER, volume: 300, weighedAt: [1, 24, 72, 168], timed: false })],
      read,
      9,
    );
    const fit = fitFigures(measuredPours([{ ...loose[0]!, weights: seen[0]!.weights }]));
    expect(at(fit, 'model.drying-days').left).toBeLessThan(0.2);
    expect(at(fit, 'model.air-tapped')?.left ?? 1).toBeGreaterThan(0.99);
    expect(at(fit, 'casting-plaster.density')?.left ?? 1).toBeGreaterThan(0.99);
  });

  it('keeps a material that was not poured out of it', () => {
    const { read } = truth(3);
    const fit = fitFigures(measuredPours(simulated([PLANS[0]!], read, 3)));
    expect(fit.figures.some((f) => f.key.startsWith('portland'))).toBe(false);
    expect(materials.some((m) => m.id === 'portland-cement-grey')).toBe(true);
  });
});

describe('small parts of it', () => {
  it('inverts a positive definite matrix and refuses another', () => {
    const a = [
      [4, 2, 0.6],
      [2, 5, 1],
      [0.6, 1, 3],
    ];
    const inverse = inverseOf(cholesky(a)!);
    const product = a.map((row, i) => row.map((_v, j) => row.reduce((s, _w, k) => s + a[i]![k]! * inverse[k]![j]!, 0)));
    for (const [i, row] of product.entries()) {
      for (const [j, v] of row.entries()) expect(v).toBeCloseTo(i === j ? 1 : 0, 12);
    }
    expect(
      cholesky([
        [1, 2],
        [2, 1],
      ]),
    ).toBeUndefined();
  });

  it('gives z -+ 1.645 spreads for a figure with equal sides, and leans to the wide side of one without', () => {
    const even = { value: 10, low: 8, high: 12, unit: 'min' as const, source: 'none', status: 'ours' as const };
    const { low, high } = middleOf(even, 0.3, 0.5, 0.1);
    expect(low).toBeCloseTo(0.3 - 1.645 * 0.5, 2);
    expect(high).toBeCloseTo(0.3 + 1.645 * 0.5, 2);
    const lopsided = { ...even, low: 9.5, high: 20 };
    const leaning = middleOf(lopsided, 0, 0.5, 0.1);
    // The same information on the figure is less on z where a step of z is a smaller step of the figure.
    expect(0 - leaning.low).toBeGreaterThan(1.2 * leaning.high);
  });

  it('is the same every time', () => {
    const { read } = truth(2);
    const pours = measuredPours(simulated(PLANS, read, 2));
    expect(fitFigures(pours)).toEqual(fitFigures(pours));
  });
});

/** The joint draws stand on this: a shelf without learned figures draws each figure by itself. */
it('hands the joint draws on only where there are any', () => {
  const shelf = { figures: model, prices: new Map(), learned: null } as unknown as Parameters<typeof worldInput>[0];
  expect('together' in worldInput(shelf, [], PLANS[0]!.input.conditions)).toBe(false);
});
