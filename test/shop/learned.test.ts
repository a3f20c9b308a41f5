import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { figureByKey, titleOfKey, withFigures } from '../../src/core/blend/figure-keys.js';
import { figureAt, latinHypercube } from '../../src/core/blend/sampling.js';
import { worldOf } from '../../src/core/blend/world.js';
import { type LearnedFile, learnedFile, learnedSchema, overlayLearned } from '../../src/core/shop/learned.js';
import { cholesky } from '../../src/core/shop/linear-algebra.js';
import { fitFigures } from '../../src/core/shop/pours-fit.js';
import { codesOf, problemsOf } from '../support/problems.js';
import { material, materials, model } from '../support/shipped-table.js';
import { measuredPours, planned, simulated, truth } from '../support/simulated-pours.js';

const TABLES = { materials, figures: model };

describe('figures by their keys', () => {
  it('finds and replaces every figure that a reading of the shipped table asks for', () => {
    const keys = new Set<string>();
    const conditions = planned({ parts: { water: 1 }, volume: 1, weighedAt: [] }).input.conditions;
    const world = worldOf({ materials, figures: model, conditions }, (key, figure) => {
      keys.add(key);
      return figure.value;
    });
    for (const id of Object.keys(model)) world.model(id);
    expect(keys.size).toBeGreaterThan(350);
    for (const key of keys) {
      const found = figureByKey(TABLES, key);
      expect(found, key).toBeDefined();
      expect(titleOfKey(TABLES, key)).not.toContain('undefined');
      const other = { ...found!, value: found!.value + 1, low: found!.low, high: found!.high + 1 };
      expect(figureByKey(withFigures(TABLES, new Map([[key, other]])), key)?.value, key).toBe(found!.value + 1);
      // What was there before is untouched.
      expect(figureByKey(TABLES, key)).toEqual(found);
    }
  });

  it('knows no figure that is not there', () => {
    for (const key of [
      'model.no-such',
      'casting-plaster.nonsense',
      'casting-plaster',
      'nobody.density',
      'water.initialSet',
      'casting-plaster.phases',
      'casting-plaster.effects.9',
      'model.',
    ])
      expect(figureByKey(TABLES, key), key).toBeUndefined();
    expect(withFigures(TABLES, new Map([['model.no-such', model['drying-days']!]])).figures).toEqual(model);
  });
});

const { read } = truth(11);
const PLAN = planned({ parts: { 'casting-plaster': 300, water: 190 }, volume: 300, weighedAt: [1, 30, 90, 200] });
const fit = fitFigures(measuredPours(simulated([PLAN, PLAN, PLAN], read, 11)));
const FROM = { file: 'pours.csv', pours: 3, fitted: '2026-05-04' };
const file = learnedFile(fit, TABLES, FROM);

describe('the learned file', () => {
  it('is what its schema says, and survives being written and read', () => {
    expect(learnedSchema.parse(JSON.parse(JSON.stringify(file)))).toEqual(file);
    expect(Object.keys(file.figures)).toContain('model.drying-days');
    expect(file.together).toHaveLength(Object.keys(file.figures).length);
  });

  it('laid over the table gives its figures, with your pours as their source', () => {
    const { tables, waste, shelf, problems } = overlayLearned(file, TABLES, 'learned.yaml');
    expect(problems).toEqual([]);
    expect(tables.figures['drying-days']).toMatchObject({
      value: file.figures['model.drying-days']!.value,
      source: 'your-pours',
      status: 'computed',
      title: model['drying-days']!.title,
    });
    expect(tables.figures['drying-days']!.value).not.toBe(model['drying-days']!.value);
    expect(waste).toBe(file.figures['shop.waste']!.value);
    expect(shelf.waste).toBe(true);
    expect(shelf.titles.get('model.drying-days')).toBe('drying time');
    expect(shelf.together.keys).toEqual(Object.keys(file.figures));
    const plaster = tables.materials.find((m) => m.id === 'casting-plaster')!;
    expect(plaster.binder!.initialSet).toMatchObject({ source: 'your-pours' });
    expect(tables.materials.find((m) => m.id === 'hydrated-lime')).toBe(material('hydrated-lime'));
  });

  it('narrows what assess says of the same blend, and only that', () => {
    const { tables, shelf } = overlayLearned(file, TABLES, 'learned.yaml');
    const { input, grams } = PLAN;
    const own = { ...input, materials: tables.materials.filter((m) => input.materials.some((o) => o.id === m.id)) };
    const width = (w: typeof input, id: string) => {
      const p = assess(w, grams, [], { draws: 200 }).properties.find((x) => x.property === id)!;
      return p.high! - p.low!;
    };
    const learned = { ...own, figures: tables.figures, together: shelf.together };
    for (const id of ['weight-day-3', 'initial-set', 'demould-time', 'demould-weight'])
      expect(width(learned, id), id).toBeLessThan(0.8 * width(input, id));
    expect(width(learned, 'strength')).toBeGreaterThan(0.7 * width(input, 'strength'));
  });

  it('refuses what the table does not have, a range upside down and another unit', () => {
    const broken = (figures: LearnedFile['figures']): LearnedFile => ({ ...file, figures, together: [] });
    const days = file.figures['model.drying-days']!;
    const codes = (figures: LearnedFile['figures']) => codesOf(() => overlayLearned(broken(figures), TABLES, 'f'));
    expect(codes({ 'model.drying-day': days })).toEqual(['field-unknown']);
    expect(codes({ 'model.drying-days': { ...days, low: 9 } })).toEqual(['field-out-of-range']);
    expect(codes({ 'model.drying-days': { ...days, unit: 'h' } })).toEqual(['unit-wrong-kind']);
    const [problem] = problemsOf(() => overlayLearned(broken({ 'model.drying-day': days }), TABLES, 'f'));
    expect(problem!.nearest).toBe('model.drying-days');
  });

  it('refuses what no fit can have written, and takes all that one can', () => {
    const only = (key: string, figure: Partial<LearnedFile['figures'][string]>) => {
      const figures = { [key]: { ...file.figures['model.drying-days']!, ...figure } };
      return overlayLearned({ ...file, figures, together: [] }, TABLES, 'f');
    };
    const told = (key: string, figure: Partial<LearnedFile['figures'][string]>) =>
      problemsOf(() => only(key, figure)).map(({ code, where, found }) => [code, where?.path, found]);
    const days = (figure: object) => told('model.drying-days', figure);
    expect(days({ value: -1 })).toEqual([['field-out-of-range', 'figures.model.drying-days.value', '-1']]);
    expect(days({ value: 1100, high: 2400 })).toEqual([
      ['field-out-of-range', 'figures.model.drying-days.value', '1100'],
    ]);
    expect(days({ low: -1 })).toEqual([['field-out-of-range', 'figures.model.drying-days.low', '-1']]);
    expect(days({ high: 1e9 })).toEqual([['field-out-of-range', 'figures.model.drying-days.high', '1000000000']]);
    const waste = { unit: 'fraction', value: 12, low: 0.01, high: 13 } as const;
    expect(told('shop.waste', waste)).toEqual([['field-out-of-range', 'figures.shop.waste.value', '12']]);
    for (const [key, unit] of [
      ['casting-plaster.density', 'g/cm3'],
      ['casting-plaster.initialSet', 'min'],
    ] as const) {
      const { value } = figureByKey(TABLES, key)!;
      for (const wrong of [-value, 0, value / 1000, 1000 * value])
        expect(told(key, { unit, value: wrong, low: wrong, high: wrong })).toHaveLength(1);
    }
    // As far as a draw of the table's range goes, and no further.
    for (const [key, figure] of Object.entries(model).map(([id, f]) => [`model.${id}`, f] as const)) {
      const [low, high] = [figureAt(figure, -9), figureAt(figure, 9)];
      const rounded = { low: Number(low.toPrecision(6)), high: Number(high.toPrecision(6)) };
      const { problems } = only(key, { unit: figure.unit, value: figure.value, ...rounded, before: figure });
      expect(problems, key).toEqual([]);
    }
  });

  it('warns when the table has changed since', () => {
    for (const change of [{ high: 9 }, { value: 1.2 }, { low: 0.4 }]) {
      const figures = { ...model, 'drying-days': { ...model['drying-days']!, ...change } };
      const { problems } = overlayLearned(file, { materials, figures }, 'learned.yaml');
      expect(problems).toMatchObject([{ severity: 'warning', found: 'model.drying-days' }]);
    }
  });

  it('draws each figure by itself once the correlations no longer fit', () => {
    for (const together of [[], [[1], [2, 1]], file.together.slice(1)])
      expect(overlayLearned({ ...file, together }, TABLES, 'f').shelf.together.keys).toEqual([]);
  });
});

describe('joint draws', () => {
  it('have the correlations they were asked for, and the same middle', () => {
    const correlation = [
      [1, -0.8, 0.3],
      [-0.8, 1, 0],
      [0.3, 0, 1],
    ];
    const keys = ['a', 'b', 'c'];
    const draws = latinHypercube(4000, 1, { keys, factor: cholesky(correlation)! });
    const figure = { value: 0, low: -1, high: 1, unit: 'factor' as const, source: 'none', status: 'ours' as const };
    const columns = keys.map((key) => {
      // The same figure object under several keys must not share a column.
      const own = { ...figure };
      return Array.from({ length: 4000 }, (_v, j) => draws.reading(j)(key, own));
    });
    const mean = (v: number[]) => v.reduce((s, x) => s + x, 0) / v.length;
    const corr = (a: number[], b: number[]) => {
      const [ma, mb] = [mean(a), mean(b)];
      const cov = (p: number[], mp: number, q: number[], mq: number) => mean(p.map((x, i) => (x - mp) * (q[i]! - mq)));
      return cov(a, ma, b, mb) / Math.sqrt(cov(a, ma, a, ma) * cov(b, mb, b, mb));
    };
    for (const [i, a] of columns.entries()) {
      expect(Math.abs(mean(a))).toBeLessThan(0.02);
      for (const [j, b] of columns.entries()) expect(corr(a, b)).toBeCloseTo(correlation[i]![j]!, 1);
    }
  });

  it('leave figures that were not learned as they were', () => {
    const figure = { value: 5, low: 4, high: 7, unit: 'min' as const, source: 'none', status: 'ours' as const };
    const plain = latinHypercube(50, 3);
    const joint = latinHypercube(50, 3, { keys: ['x'], factor: [[1]] });
    for (let j = 0; j < 50; j++)
      expect(joint.reading(j)('y', { ...figure })).toBe(plain.reading(j)('y', { ...figure }));
    expect(figureAt(figure, 1.6448536)).toBeCloseTo(7, 9);
  });
});

describe('a figure far out', () => {
  it('rises all the way: positive ones never come to zero, shares never pass one', () => {
    const at = (low: number, value: number, high: number, unit: 'min' | 'fraction') => (z: number) =>
      figureAt({ low, value, high, unit, source: 'none', status: 'ours' }, z);
    for (const f of [
      at(0.01, 0.025, 0.06, 'fraction'),
      at(0, 0.01, 0.03, 'fraction'),
      at(4, 5, 20, 'min'),
      at(0.9, 0.97, 1, 'fraction'),
    ]) {
      let last = Number.NEGATIVE_INFINITY;
      for (let z = -4; z <= 4; z += 0.05) {
        expect(f(z)).toBeGreaterThanOrEqual(last);
        last = f(z);
      }
      expect(last).toBeLessThanOrEqual(40);
    }
    expect(at(0.01, 0.025, 0.06, 'fraction')(-4)).toBe(0.005);
    expect(at(0, 0.01, 0.03, 'fraction')(-4)).toBe(0);
    expect(at(0.9, 0.97, 1, 'fraction')(4)).toBe(1);
  });
});
