import { describe, expect, it } from 'vitest';
import type { Material } from '../../src/core/materials/schema.js';
import type { Region } from '../../src/core/safety/caution.js';
import { cautionsFor } from '../../src/core/safety/cautions.js';
import { blendFacts } from '../../src/core/safety/facts.js';
import { row, SHELF } from '../support/material-rows.js';

const FILLER = row('inert-filler', 'filler');

/** Severity of one caution for a share of a material in an inert filler. */
function severityAt(material: Material, share: number, id: string, region: Region): string | undefined {
  const blend = blendFacts(
    [
      { material, grams: 1000 * share },
      { material: FILLER, grams: 1000 * (1 - share) },
    ],
    { service: 'dry-indoor' },
  );
  return cautionsFor(blend, { region }).cautions.find((c) => c.id === id)?.severity;
}

interface Published {
  readonly source: string;
  readonly id: string;
  readonly material: Material;
  readonly region: Region;
  /** Fraction from which the class applies, as published. */
  readonly limit: number;
  readonly below: string;
  readonly at: string;
}

const carrying = (code: string): Material => row(`carries-${code.toLowerCase()}`, 'admixture', { hazards: [code] });

/** Limits for mixtures as the named document prints them; "from memory" where it was not opened. */
const LIMITS: readonly Published[] = [
  {
    source: 'CLP Annex I Table 3.7.2',
    id: 'reproductive-harm',
    material: carrying('H360FD'),
    region: 'EU',
    limit: 0.003,
    below: 'info',
    at: 'warn',
  },
  {
    source: 'Regulation (EU) 2021/849: borates at the general 0.3 %',
    id: 'borate-reproductive',
    material: SHELF.borax,
    region: 'EU',
    limit: 0.003,
    below: 'info',
    at: 'warn',
  },
  {
    source: 'HazCom Appendix A, from memory',
    id: 'borate-reproductive',
    material: SHELF.borax,
    region: 'US',
    limit: 0.001,
    below: 'info',
    at: 'warn',
  },
  {
    source: 'CLP Annex I Table 3.7.2',
    id: 'lithium-reproductive',
    material: SHELF.lithium,
    region: 'EU',
    limit: 0.003,
    below: 'info',
    at: 'warn',
  },
  {
    source: 'HazCom Appendix A, from memory',
    id: 'lithium-reproductive',
    material: SHELF.lithium,
    region: 'US',
    limit: 0.001,
    below: 'info',
    at: 'warn',
  },
  {
    source: 'CLP Annex I Table 3.3.3, from memory',
    id: 'eye-damage',
    material: carrying('H318'),
    region: 'EU',
    limit: 0.03,
    below: 'caution',
    at: 'warn',
  },
  {
    source: 'CLP Annex I Table 3.2.3, ECHA helpdesk exercise 2012',
    id: 'skin-irritation',
    material: carrying('H315'),
    region: 'EU',
    limit: 0.1,
    below: 'info',
    at: 'caution',
  },
  {
    source: 'CLP Annex I Table 3.2.3, ECHA helpdesk exercise 2012',
    id: 'skin-corrosion',
    material: carrying('H314'),
    region: 'EU',
    limit: 0.05,
    below: 'caution',
    at: 'warn',
  },
  {
    source: 'CLP Annex I Table 3.4.5, from memory',
    id: 'skin-allergy',
    material: carrying('H317'),
    region: 'EU',
    limit: 0.01,
    below: 'info',
    at: 'caution',
  },
  {
    source: 'TRGS 201, 2.2.6.1 (3): STOT SE 3',
    id: 'airway-irritation',
    material: carrying('H335'),
    region: 'EU',
    limit: 0.2,
    below: 'info',
    at: 'caution',
  },
  {
    source: 'CLP Annex I 3.6, from memory',
    id: 'cancer-risk',
    material: carrying('H350'),
    region: 'EU',
    limit: 0.001,
    below: 'caution',
    at: 'warn',
  },
];

describe('limits for mixtures, used as triggers', () => {
  it.each(LIMITS.map((l) => [`${l.id}, ${l.region}: ${l.source}`, l] as const))('%s', (_name, l) => {
    expect(severityAt(l.material, l.limit * 0.98, l.id, l.region)).toBe(l.below);
    expect(severityAt(l.material, l.limit, l.id, l.region)).toBe(l.at);
    expect(severityAt(l.material, l.limit * 1.5, l.id, l.region)).toBe(l.at);
  });

  // TRGS 201, 2.2.6.2: H373 from 1 %, H372 from 10 %; OSHA letter of 4 March 2014: category 1 from 1 %.
  it.each([
    ['EU', 0.009, 'caution', null],
    ['EU', 0.01, 'warn', 'H373'],
    ['EU', 0.099, 'warn', 'H373'],
    ['EU', 0.1, 'warn', 'H372'],
    ['US', 0.009, 'caution', null],
    ['US', 0.01, 'warn', 'H372'],
  ] as const)('respirable silica, %s, %d of the blend', (region, respirable, severity, code) => {
    const dust = row('quartz-dust', 'filler', { hazards: ['H372'], crystalline: 1, respirable: 1 });
    const blend = blendFacts(
      [
        { material: dust, grams: 1000 * respirable },
        { material: FILLER, grams: 1000 * (1 - respirable) },
      ],
      { service: 'dry-indoor' },
    );
    const caution = cautionsFor(blend, { region }).cautions.find((c) => c.id === 'silica-while-mixing')!;
    expect(caution.severity).toBe(severity);
    expect(/would carry (H\d+)/.exec(caution.text)?.[1] ?? null).toBe(code);
  });

  it('counts only the respirable part: sand of 0.1 % stays below, silica flour of 30 % does not', () => {
    expect(severityAt(SHELF.sand, 0.9, 'silica-while-mixing', 'EU')).toBe('caution');
    expect(severityAt(SHELF.silicaFlour, 0.04, 'silica-while-mixing', 'EU')).toBe('warn');
  });

  it('warns of a strong alkali from 1 % (CLP Annex I 3.2.3.1.2: pH 11.5), of other cements from 10 %', () => {
    expect(severityAt(SHELF.portland, 0.009, 'alkali-burn', 'EU')).toBe('caution');
    expect(severityAt(SHELF.portland, 0.01, 'alkali-burn', 'EU')).toBe('warn');
    expect(severityAt(SHELF.lime, 0.01, 'alkali-burn', 'EU')).toBe('warn');
    expect(severityAt(SHELF.csa, 0.09, 'alkali-burn', 'EU')).toBe('caution');
    expect(severityAt(SHELF.csa, 0.1, 'alkali-burn', 'EU')).toBe('warn');
  });

  it('holds pigment to a tenth of the binder (ASTM C979 1.4), and reaches it without a warning', () => {
    const at = (pigment: number) =>
      cautionsFor(
        blendFacts(
          [
            { material: SHELF.csa, grams: 300 },
            { material: SHELF.ironOxide, grams: pigment },
          ],
          { service: 'dry-indoor' },
        ),
        { region: 'EU' },
      ).cautions.find((c) => c.id === 'pigment-limit')!;
    expect(at(30).severity).toBe('info');
    expect(at(30.1).severity).toBe('warn');
    expect(at(14).because).toContain('4.7 %');
  });

  it('sums one class over materials, and over both regions’ rows only where they hold', () => {
    const blend = blendFacts(
      [
        { material: row('eu-only', 'admixture', { hazards: ['H318:EU'] }), grams: 20 },
        { material: row('both', 'admixture', { hazards: ['H318'] }), grams: 20 },
        { material: FILLER, grams: 960 },
      ],
      { service: 'dry-indoor' },
    );
    const eye = (region: Region) => cautionsFor(blend, { region }).cautions.find((c) => c.id === 'eye-damage')!;
    expect(eye('EU').severity).toBe('warn');
    expect(eye('EU').because).toContain('together 4 %');
    expect(eye('US').severity).toBe('caution');
    expect(eye('US').because).not.toContain('eu only');
  });
});

describe('facts of a blend', () => {
  it('leaves water out of the shares, and the water in liquids out of the dry mass', () => {
    const facts = blendFacts(
      [
        { material: SHELF.plaster, grams: 900 },
        { material: SHELF.emulsion, grams: 200 },
        { material: SHELF.water, grams: 400 },
      ],
      { service: 'dry-indoor' },
    );
    expect(facts.dryGrams).toBe(1000);
    expect(facts.batchGrams).toBe(1500);
    expect(facts.constituents.map((c) => [c.material.id, c.share])).toEqual([
      ['casting-plaster', 0.9],
      ['acrylic-emulsion', 0.2],
    ]);
  });

  it('adds up a material named twice, drops 0 g and refuses less', () => {
    const facts = blendFacts(
      [
        { material: SHELF.plaster, grams: 100 },
        { material: SHELF.plaster, grams: 50 },
        { material: SHELF.borax, grams: 0 },
      ],
      { service: 'dry-indoor' },
    );
    expect(facts.constituents.map((c) => [c.material.id, c.grams])).toEqual([['casting-plaster', 150]]);
    expect(() => blendFacts([{ material: SHELF.plaster, grams: -1 }], { service: 'dry-indoor' })).toThrow(
      /amount-not-positive/,
    );
    expect(() => blendFacts([{ material: SHELF.plaster, grams: Number.NaN }], { service: 'dry-indoor' })).toThrow();
  });
});
