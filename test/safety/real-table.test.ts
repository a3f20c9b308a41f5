import { describe, expect, it } from 'vitest';
import { REGIONS } from '../../src/core/safety/caution.js';
import { cautionsFor } from '../../src/core/safety/cautions.js';
import { blendFacts, type SafetyConditions } from '../../src/core/safety/facts.js';
import { material, materials } from '../support/shipped-table.js';

const raised = (
  grams: Readonly<Record<string, number>>,
  conditions: Partial<SafetyConditions> = {},
  region: 'US' | 'EU' = 'EU',
) =>
  Object.fromEntries(
    cautionsFor(
      blendFacts(
        Object.entries(grams).map(([id, g]) => ({ material: material(id), grams: g })),
        { service: 'dry-indoor', ...conditions },
      ),
      { region },
    ).cautions.map((c) => [c.id, c.severity]),
  );

/** What a material of the shipped table must raise when it is in a blend at all. */
const MUST: Readonly<Record<string, readonly string[]>> = {
  'portland-cement-grey': ['alkali-burn', 'eye-damage', 'chromate-allergy', 'binder-dust'],
  'portland-cement-white': ['alkali-burn', 'eye-damage', 'chromate-allergy', 'binder-dust'],
  'slag-blend-cement': ['alkali-burn', 'eye-damage', 'chromate-allergy'],
  'csa-rapid-cement': ['alkali-burn', 'eye-damage'],
  'calcium-aluminate-cement': ['alkali-burn', 'eye-damage'],
  'hydrated-lime': ['alkali-burn', 'eye-damage', 'aluminium-and-alkali'],
  'natural-hydraulic-lime': ['alkali-burn', 'eye-damage'],
  'casting-plaster': ['plaster-heat-never-body', 'binder-dust', 'gypsum-and-water', 'gypsum-scrap'],
  'alpha-gypsum-cement': ['plaster-heat-never-body', 'binder-dust', 'gypsum-and-water'],
  'alpha-gypsum-high-strength': ['plaster-heat-never-body', 'binder-dust', 'gypsum-and-water'],
  'silica-flour': ['silica-while-mixing', 'silica-from-finishing'],
  'silica-sand-coarse': ['silica-from-finishing'],
  'silica-sand-medium': ['silica-from-finishing'],
  'silica-sand-fine': ['silica-from-finishing', 'silica-while-mixing'],
  'masonry-sand': ['silica-from-finishing'],
  'silica-fume': ['silica-fume-dust'],
  borax: ['borate-reproductive'],
  'lithium-carbonate': ['lithium-reproductive', 'eye-irritation', 'harmful-swallowed'],
  'citric-acid': ['acid-powder', 'eye-irritation'],
  'calcium-formate': ['eye-damage'],
  'ar-glass-fibre': ['fibre-itch'],
  perlite: ['light-aggregate-dust'],
  vermiculite: ['light-aggregate-dust'],
  'acrylic-emulsion': ['preservative-allergy'],
  'plasticiser-liquid': ['preservative-allergy'],
  'chromium-oxide-green': ['metal-pigment', 'fine-powder-dust'],
  'carbon-black': ['fine-powder-dust'],
  'titanium-white': ['fine-powder-dust'],
};

describe('preservatives', () => {
  it('are in what comes wet, not in powders', () => {
    for (const region of REGIONS) {
      const warned = (id: string): boolean =>
        'preservative-allergy' in raised({ 'portland-cement-grey': 300, [id]: 3 }, {}, region);
      const wet = [
        'plasticiser-liquid',
        'defoamer',
        'acrylic-emulsion',
        'vinyl-acetate-emulsion',
        'styrene-butadiene-emulsion',
      ];
      expect(wet.filter((id) => !warned(id))).toEqual([]);
      expect(['plasticiser-powder', 'redispersible-powder', 'methyl-cellulose'].filter(warned)).toEqual([]);
    }
  });
});

describe('rules over the shipped table', () => {
  it.each(Object.entries(MUST))('%s', (id, expected) => {
    for (const region of REGIONS) {
      const found = raised({ [id]: 100 }, {}, region);
      expect(expected.filter((caution) => !(caution in found))).toEqual([]);
    }
  });

  it('says of every material but water either something of its own or that its hazards are unknown', () => {
    const common = new Set(Object.keys(raised({})));
    const silent = materials
      .filter((m) => m.kind !== 'water')
      .filter((m) => Object.keys(raised({ [m.id]: 100 })).every((id) => common.has(id)));
    expect(silent.map((m) => m.id)).toEqual([]);
    expect(materials.length).toBeGreaterThan(45);
  });

  it('finds every material without hazard statements', () => {
    const blank = materials.filter((m) => !Array.isArray(m.hazards));
    expect(blank.length).toBeGreaterThan(0);
    for (const m of materials)
      expect('unknown-hazards' in raised({ [m.id]: 1 }), m.id).toBe(blank.includes(m) && m.kind !== 'water');
  });

  it('names the bags whose hazards are not on record in the short line, as many as fit in it', () => {
    const shortOf = (...ids: string[]): string => {
      const facts = blendFacts(
        ids.map((id) => ({ material: material(id), grams: 1 })),
        { service: 'dry-indoor' },
      );
      return cautionsFor(facts, { region: 'EU' }).cautions.find((c) => c.id === 'unknown-hazards')!.short;
    };
    for (const m of materials.filter((row) => !Array.isArray(row.hazards))) {
      const short = shortOf(m.id);
      expect(short.toLowerCase()).toContain(m.name.replace(/ \(.*/, '').toLowerCase());
      expect(short.length, short).toBeLessThanOrEqual(100);
    }
    expect(shortOf('perlite', 'metakaolin')).toBe(
      'Hazardous until the data sheet is read: expanded perlite, metakaolin.',
    );
    const many = shortOf('perlite', 'metakaolin', 'casting-plaster', 'marble-flour', 'methyl-cellulose');
    expect(many).toMatch(/ and [23] more\.$/);
    expect(many.length).toBeLessThanOrEqual(100);
  });

  it('raises no alkali for plaster alone, no plaster heat for cement alone, no stop for either indoors', () => {
    const plaster = raised({ 'alpha-gypsum-cement': 250, water: 100 });
    expect(plaster).not.toHaveProperty('alkali-burn');
    expect(plaster).not.toHaveProperty('eye-damage');
    expect(plaster).not.toHaveProperty('efflorescence');
    const cement = raised({ 'csa-rapid-cement': 280, water: 70 });
    expect(cement).not.toHaveProperty('plaster-heat-never-body');
    expect([...Object.values(plaster), ...Object.values(cement)]).not.toContain('stop');
  });

  it('expects no bloom of plaster alone, but of cement or of a soluble salt in damp service', () => {
    expect(raised({ 'casting-plaster': 300 }, { service: 'damp' })).not.toHaveProperty('efflorescence');
    expect(raised({ 'portland-cement-grey': 300 }, { service: 'damp' })).toHaveProperty('efflorescence');
    expect(raised({ 'casting-plaster': 300, 'potassium-sulfate': 3 }, { service: 'damp' })).toHaveProperty(
      'efflorescence',
    );
  });

  it('no pigment of the table is taken for a poisonous one, no fibre for a light aggregate', () => {
    for (const m of materials) {
      const found = raised({ [m.id]: 100 });
      expect('poisonous-pigment' in found, m.id).toBe(false);
      if (m.kind === 'fibre') expect('light-aggregate-dust' in found, m.id).toBe(false);
    }
  });

  it('a herb planter of Portland, sand, limestone and green, in both regions', () => {
    const grams = {
      'portland-cement-grey': 300,
      'silica-sand-fine': 500,
      'limestone-flour': 60,
      'chromium-oxide-green': 12,
      water: 160,
    };
    for (const region of REGIONS) {
      expect(raised(grams, { service: 'damp', uses: ['planter', 'outdoor'] }, region)).toMatchObject({
        'alkali-burn': 'warn',
        'eye-damage': 'warn',
        'chromate-allergy': 'caution',
        'plants-and-lime': 'caution',
        efflorescence: 'info',
        'no-dry-sweeping': 'warn',
        'not-for-food': 'info',
        'not-structural': 'info',
      });
    }
  });

  it('bans what the table bans: plaster in wet service', () => {
    expect(raised({ 'casting-plaster': 300, water: 180 }, { service: 'wet' })).toMatchObject({
      'not-for-this-service': 'warn',
      'gypsum-and-water': 'warn',
    });
  });
});
