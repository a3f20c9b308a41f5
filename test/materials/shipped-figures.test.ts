import { describe, expect, it } from 'vitest';
import { material, materials, numberOf } from '../support/shipped-table.js';

// Figures of the table against documents and arithmetic outside of it. The arithmetic here is the test's own.

/** Standard atomic weights, IUPAC 2021 abridged (from memory). */
const ATOM = { H: 1.008, O: 15.999, S: 32.06, Ca: 40.078, K: 39.098, Al: 26.982 };
const SO3 = ATOM.S + 3 * ATOM.O;
const SULFATE = ATOM.S + 4 * ATOM.O;
const WATER = 2 * ATOM.H + ATOM.O;

describe('stoichiometry', () => {
  it('gives the SO3 of each gypsum binder from its purity', () => {
    const hemihydrate = ATOM.Ca + SULFATE + WATER / 2;
    const gypsums = materials.filter((m) => m.binder?.family === 'gypsum');
    expect(gypsums).toHaveLength(3);
    for (const m of gypsums) {
      const expected = (100 * SO3 * numberOf(m.binder?.phases?.hemihydrate)) / hemihydrate;
      expect(Math.abs(numberOf(m.so3) - expected), m.id).toBeLessThan(0.06);
    }
  });

  it('gives the SO3 of gypsum, potassium sulfate and CSA cement', () => {
    expect(numberOf(material('ground-gypsum').so3)).toBeCloseTo((100 * SO3) / (ATOM.Ca + SULFATE + 2 * WATER), 1);
    expect(numberOf(material('potassium-sulfate').so3)).toBeCloseTo((100 * SO3) / (2 * ATOM.K + SULFATE), 1);
    const { yeelimite, anhydrite } = material('csa-rapid-cement').binder!.phases!;
    const yeelimiteMass = 4 * ATOM.Ca + 6 * ATOM.Al + 12 * ATOM.O + SULFATE;
    const expected = 100 * SO3 * (numberOf(yeelimite) / yeelimiteMass + numberOf(anhydrite) / (ATOM.Ca + SULFATE));
    expect(numberOf(material('csa-rapid-cement').so3)).toBeCloseTo(expected, 1);
  });
});

describe('published documents', () => {
  // Supplier sheet of use consistencies (plaster-sheet), W/P and wet density in g/cm3, alpha rows P4, P6, P8.
  it('reproduces the printed wet densities of alpha gypsum within 2 %', () => {
    const density = numberOf(material('alpha-gypsum-cement').density);
    for (const [ratio, printed] of [
      [0.45, 1.772],
      [0.32, 1.913],
      [0.22, 2.066],
    ] as const) {
      const wet = (1 + ratio) / (1 / density + ratio / 0.998);
      expect(Math.abs(wet / printed - 1), `W/P ${ratio}`).toBeLessThan(0.02);
    }
  });

  // Perlite concrete table (perlite-table): wet lb/ft3, cement lb, water gal and perlite ft3 in a cubic yard.
  it('has the loose density of perlite that the wet balance of the printed mixes leaves', () => {
    const implied = [
      [50.5, 635, 61],
      [45.5, 510, 59.5],
      [36.5, 320, 54],
    ].map(([wet, cement, gallons]) => ((wet! * 27 - cement! - gallons! * 8.34) / 28) * 0.016018463);
    const mean = implied.reduce((a, b) => a + b) / implied.length;
    expect(numberOf(material('perlite').bulkDensity)).toBeCloseTo(mean, 2);
  });

  // ASTM C33 Table 1 as reprinted (c33-article): fineness modulus 2.3 to 3.1, at most 45 % between consecutive sieves.
  it('keeps concrete sand within the fineness modulus and the steps of ASTM C33', () => {
    const passing = material('concrete-sand').grading!.map((g) => g.passing.value);
    const modulus = passing.slice(0, 7).reduce((sum, p) => sum + (100 - p) / 100, 0);
    expect(modulus).toBeGreaterThan(2.3);
    expect(modulus).toBeLessThan(3.1);
    const steps = passing.slice(1).map((p, i) => passing[i]! - p);
    expect(Math.max(...steps)).toBeLessThanOrEqual(45);
  });

  // AASHTO M 45 / ASTM C144 (page on M 45-15): at most 50 % between consecutive sieves, 25 % between 0.30 and 0.15 mm.
  it('keeps masonry sand within the steps of ASTM C144', () => {
    const passing = material('masonry-sand').grading!.map((g) => g.passing.value);
    const steps = passing.slice(1).map((p, i) => passing[i]! - p);
    expect(Math.max(...steps)).toBeLessThanOrEqual(50);
    expect(passing[5]! - passing[6]!).toBeLessThanOrEqual(25);
  });

  // ASTM C150 as printed on a reference cement's sheet (c989-sheet): Vicat initial set 45 to 375 min, Blaine 260 at least.
  it('keeps the portlands within the limits of ASTM C150', () => {
    for (const id of ['portland-cement-grey', 'portland-cement-white']) {
      const m = material(id);
      expect(m.binder?.initialSet, id).toMatchObject({ low: expect.any(Number) });
      if (m.binder?.initialSet?.value == null) throw new Error('no initial set');
      expect(m.binder.initialSet.low).toBeGreaterThanOrEqual(45);
      expect(m.binder.initialSet.high).toBeLessThanOrEqual(375);
      expect(numberOf(m.blaine)).toBeGreaterThan(260);
    }
  });

  // Tanaka 2001: 998.2067 kg/m3 at 20 °C.
  it('has the density of water at 20 °C', () => {
    expect(numberOf(material('water').density)).toBeCloseTo(0.9982067, 4);
  });

  // Physics: what a grain drinks has to fit into it.
  it('lets no grain drink more than the room its pores leave, at either end of the ranges', () => {
    let seen = 0;
    for (const m of materials) {
      if (m.absorption?.value == null || m.density.value === null) continue;
      seen++;
      expect((m.absorption.high / 100) * m.density.high, m.id).toBeLessThan(0.998);
    }
    expect(seen).toBe(12);
  });
});

// Common practice, no source (trade check values): three recipes cast in one and the same small mould, in grams.
describe('three trade recipes in one mould', () => {
  const recipes = [
    { parts: { 'alpha-gypsum-cement': 250, 'iron-oxide-red': 12, water: 100 }, fresh: 1.87, demould: 285 },
    { parts: { 'csa-rapid-cement': 280, 'iron-oxide-red': 14, water: 70 }, fresh: 2.14, demould: 314 },
    {
      parts: {
        'silica-sand-medium': 150,
        'portland-cement-grey': 75,
        'casting-plaster': 75,
        'iron-oxide-red': 15,
        water: 75,
      },
      fresh: 2.08,
      demould: 314,
    },
  ];
  const density = (parts: Readonly<Record<string, number>>): number => {
    const entries = Object.entries(parts);
    const mass = entries.reduce((sum, [, g]) => sum + g, 0);
    return mass / entries.reduce((sum, [id, g]) => sum + g / numberOf(material(id).density), 0);
  };
  const flow = (parts: Readonly<Record<string, number>>): number => {
    const demand = Object.entries(parts).reduce(
      (sum, [id, g]) => sum + (id === 'water' ? 0 : g * numberOf(material(id).waterDemand)),
      0,
    );
    return parts.water! / demand;
  };

  it('gives the fresh densities within 0.5 %, free of air', () => {
    for (const r of recipes) expect(Math.abs(density(r.parts) / r.fresh - 1)).toBeLessThan(0.005);
  });

  it('gives mould volumes within 5 % of their mean', () => {
    const volumes = recipes.map((r) => r.demould / density(r.parts));
    const mean = volumes.reduce((a, b) => a + b) / volumes.length;
    for (const v of volumes) expect(Math.abs(v / mean - 1)).toBeLessThan(0.05);
  });

  it('calls all three pourable: water 0.9 to 1.15 times the demand', () => {
    for (const r of recipes) {
      expect(flow(r.parts)).toBeGreaterThan(0.9);
      expect(flow(r.parts)).toBeLessThan(1.15);
    }
  });

  it('sets an hour or so for the first, and slower for the cement', () => {
    expect(numberOf(material('alpha-gypsum-cement').binder?.demould)).toBeGreaterThanOrEqual(30);
    expect(numberOf(material('alpha-gypsum-cement').binder?.demould)).toBeLessThanOrEqual(60);
    expect(numberOf(material('csa-rapid-cement').binder?.demould)).toBeLessThanOrEqual(180);
  });
});
