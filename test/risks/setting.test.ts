import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { printProperty } from '../../src/core/report/print.js';
import { riskProblems } from '../../src/core/risks/problems.js';
import { risksOf } from '../../src/core/risks/risks.js';
import { material, model } from '../support/shipped-table.js';

const inputOf = (parts: Readonly<Record<string, number>>) => ({
  materials: Object.keys(parts).map(material),
  figures: model,
  conditions: DEFAULT_CONDITIONS,
});
const never = (parts: Readonly<Record<string, number>>) =>
  risksOf(inputOf(parts), Object.values(parts)).filter((r) => r.id === 'never-sets' || r.id === 'sets-too-late');
const METRIC = { system: 'metric', currency: null } as const;

describe('a blend that does not set in any useful time', () => {
  it('is refused where that is over a year, with what holds it back', () => {
    // Gluconate at 2 % of the cement: 8 ln per percent, e^16 of a day.
    const [risk, ...others] = never({ 'portland-cement-grey': 1000, water: 400, 'sodium-gluconate': 20 });
    expect(others).toEqual([]);
    expect(risk!.text).toContain('the time to demoulding is over a year. What holds it back: sodium gluconate.');
    expect(riskProblems([risk!])[0]).toMatchObject({ code: 'recipe-never-sets', severity: 'error' });
  });

  it('is warned of from 90 days on: the days themselves up to a year', () => {
    // A day in the mould, about: ln(100) / 8 = 0.58 % make it a hundred.
    const dosed = (percent: number) =>
      never({ 'portland-cement-grey': 1000, water: 400, 'sodium-gluconate': 10 * percent });
    expect(dosed(0.45)).toEqual([]);
    const [late] = dosed(0.65);
    expect(late!.text).toMatch(/is \d{2,3} days\./);
    expect(riskProblems([late!])[0]!.severity).toBe('warning');
  });

  it('not of usual ones, air lime among them, nor twice of citric acid on plaster', () => {
    expect(never({ 'casting-plaster': 1000, water: 680 })).toEqual([]);
    expect(never({ 'hydrated-lime': 1000, 'silica-sand-fine': 2000, water: 600 })).toEqual([]);
    expect(never({ 'casting-plaster': 1000, water: 680, 'citric-acid': 250 })).toEqual([]);
  });
});

describe('a quarter of the plaster in citric acid', () => {
  const parts = { 'casting-plaster': 1000, 'citric-acid': 250, water: 680 };
  const { properties } = assess(inputOf(parts), Object.values(parts));
  const of = (id: string) => properties.find((p) => p.property === id)!;

  it('sets after over a year, by numbers that are still numbers', () => {
    for (const id of ['working-time', 'initial-set', 'final-set', 'demould-time', 'drying-days']) {
      const { value, low, high } = of(id);
      for (const x of [value, low, high]) {
        expect(Number.isFinite(x)).toBe(true);
        expect(printProperty(id, x, METRIC)).toBe('over a year');
      }
    }
  });

  it('gains no strength by what costs strength', () => {
    const plain = { 'casting-plaster': 1000, water: 680 };
    const { high } = assess(inputOf(plain), Object.values(plain)).properties.find((p) => p.property === 'strength')!;
    expect(of('strength').value).toBeLessThan(0.001);
    expect(of('strength').high!).toBeLessThanOrEqual(high!);
  });
});
