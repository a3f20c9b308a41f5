import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { DEFAULT_SHOP, type Shelf } from '../../src/core/brief/shelf.js';
import { newRecord, type PourRow, pourLine } from '../../src/core/shop/pours-columns.js';
import { atConstantWeight, fittedCurve } from '../../src/core/shop/pours-curve.js';
import { knownPour } from '../../src/core/shop/pours-known.js';
import { type Pour, readPours } from '../../src/core/shop/pours-record.js';
import { codesOf } from '../support/problems.js';
import { material, materials, model } from '../support/shipped-table.js';
import { planned, SCALE_STEP, SHOP_WASTE, simulated, truth } from '../support/simulated-pours.js';

const weights = (...pairs: [number, number][]) => pairs.map(([hours, grams]) => ({ hours, grams }));

/** Rule: less than 0.1 % between weighings at least 15 h apart (science/drying.ts, looked up). Worked by hand. */
describe('constant weight by the scale', () => {
  it('compares the last weighing with the latest that lies far enough back', () => {
    // 100 h: 250.0 and 120 h: 249.9 are 20 h apart, 0.04 %. The one at 118 h is too near to count.
    expect(atConstantWeight(weights([1, 300], [100, 250], [118, 249.9], [120, 249.9]))).toMatchObject({
      verdict: 'dry',
      first: { hours: 100 },
    });
    // 0.4 g of 249.6 is 0.16 %.
    expect(atConstantWeight(weights([100, 250], [118, 249.7], [120, 249.6]))).toMatchObject({ verdict: 'drying' });
    // Just 0.1 % is not less than 0.1 %; 15 h are enough, 14.9 are not.
    expect(atConstantWeight(weights([0, 250.25], [15, 250])).verdict).toBe('drying');
    expect(atConstantWeight(weights([0, 250.2], [15, 250])).verdict).toBe('dry');
    expect(atConstantWeight(weights([0, 250.2], [14.9, 250])).verdict).toBe('too-soon');
  });

  it('takes a gain in weight for no rest', () => {
    expect(atConstantWeight(weights([100, 250], [120, 251])).verdict).toBe('drying');
  });

  it('needs two weighings', () => {
    expect(atConstantWeight([])).toEqual({ verdict: 'not-weighed-twice', first: null, last: null, change: null });
    expect(atConstantWeight(weights([1, 300])).verdict).toBe('not-weighed-twice');
  });
});

describe('the fitted curve', () => {
  it('passes through weighings of a shop unlike the table, and comes to its dry weight', () => {
    const { read } = truth(31);
    const plan = planned({
      parts: { 'casting-plaster': 300, water: 200 },
      volume: 300,
      weighedAt: [1, 20, 50, 120, 300],
    });
    const [pour] = simulated([plan], read, 31);
    const curve = fittedCurve(pour!, SCALE_STEP, SHOP_WASTE)!;
    for (const w of pour!.weights) expect(Math.abs(curve.at(w.hours) / w.grams - 1)).toBeLessThan(0.006);
    expect(curve.at(5000)).toBeCloseTo(curve.dry, 3);
    expect(curve.dryAfter).toBeGreaterThan(15);
    // At the time it says, the rule of two weighings holds on the curve itself, and not an hour sooner.
    const change = (t: number) => (curve.at(t - 15) - curve.at(t)) / curve.at(t);
    expect(change(curve.dryAfter)).toBeLessThan(0.00101);
    expect(change(curve.dryAfter - 1)).toBeGreaterThan(0.001);
  });

  it('is the model alone where nothing was weighed, and none where nothing is known', () => {
    const plan = planned({
      parts: { 'casting-plaster': 300, water: 200 },
      volume: 300,
      weighedAt: [],
      timed: false,
      batch: false,
    });
    const curve = fittedCurve(plan, SCALE_STEP, SHOP_WASTE)!;
    expect(curve.at(0)).toBeGreaterThan(curve.dry);
    const nothing = planned({ parts: { 'casting-plaster': 300, water: 200 }, volume: null, weighedAt: [] });
    expect(fittedCurve(nothing, SCALE_STEP, SHOP_WASTE)).toBeNull();
  });
});

describe('a pour joined to its file', () => {
  const shelf: Shelf = {
    materials,
    find: (word) => material(word),
    figures: model,
    learned: null,
    prices: new Map(),
    stock: new Map(),
    shop: { ...DEFAULT_SHOP, temperature: 16, humidity: 0.7 },
  };
  const pour = (cells: PourRow): Pour =>
    readPours(`${newRecord()}${pourLine({ pour: '1', ...cells }, newRecord(), 'f')}\n`, 'f').pours[0]!;
  const source = {
    conditions: { ...DEFAULT_CONDITIONS, volume: 400, wall: 2, temperature: 25, humidity: 0.4 },
    parts: [{ material: material('casting-plaster'), grams: 100 }],
  };

  it('takes the room of the row before the file’s, and the shop’s where there is no file', () => {
    const conditions = (cells: PourRow, from: typeof source | null) =>
      knownPour(pour(cells), from, shelf).input.conditions;
    const blend = { blend: 'casting-plaster 3; water 2' };
    expect(conditions({ ...blend, 'room C': 12, 'room %': 80 }, source)).toMatchObject({
      temperature: 12,
      humidity: 0.8,
      volume: 400,
      wall: 2,
    });
    expect(conditions(blend, source)).toMatchObject({ temperature: 25, humidity: 0.4 });
    expect(conditions(blend, null)).toMatchObject({ temperature: 16, humidity: 0.7, volume: null });
  });

  it('takes the blend of the row before the recipe’s, and never guesses a brief’s', () => {
    const ids = (cells: PourRow, from: Parameters<typeof knownPour>[1]) =>
      knownPour(pour(cells), from, shelf).input.materials.map((m) => m.id);
    expect(ids({ blend: 'alpha-gypsum-cement 3; water 1' }, source)).toEqual(['alpha-gypsum-cement', 'water']);
    expect(ids({}, source)).toEqual(['casting-plaster']);
    expect(codesOf(() => knownPour(pour({}), { ...source, parts: null }, shelf))).toEqual(['field-missing']);
    expect(codesOf(() => knownPour(pour({}), null, shelf))).toEqual(['field-missing']);
  });

  it('counts a batch only where its pieces are written too', () => {
    const batch = (cells: PourRow) =>
      knownPour(pour({ blend: 'casting-plaster 3; water 2', ...cells }), source, shelf).batch;
    expect(batch({ 'batch g': 500, pieces: 2 })).toEqual({ grams: 500, pieces: 2 });
    expect(batch({ 'batch g': 500 })).toBeNull();
    expect(batch({ pieces: 2 })).toBeNull();
  });
});
