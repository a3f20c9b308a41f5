import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import type { Material } from '../../src/core/materials/schema.js';
import type { Service } from '../../src/core/materials/words.js';
import { risksOf } from '../../src/core/risks/risks.js';
import { type Caution, REGIONS } from '../../src/core/safety/caution.js';
import { cautionsFor } from '../../src/core/safety/cautions.js';
import { blendFacts, type Use } from '../../src/core/safety/facts.js';
import { sulfateOutcome } from '../../src/core/safety/sulfate-outcome.js';
import { handFigure } from '../support/hand-figure.js';
import { material, model } from '../support/shipped-table.js';

/** Sulfate counts by its SO3, whatever it comes in: plaster, ground gypsum, anhydrite, a salt. */

type Parts = Readonly<Record<string, number>>;
interface Place {
  readonly service: Service;
  readonly uses?: readonly Use[];
  /** °C. */
  readonly temperature?: number;
}

/** Dry anhydrite of a maker's own, as a filler: 58.8 % SO3 (iupac-2021). */
const ANHYDRITE: Material = {
  id: 'anhydrite-powder',
  name: 'anhydrite powder',
  kind: 'filler',
  density: material('limestone-flour').density,
  so3: handFigure(58.8),
  hazards: { unknown: 'invented' },
};
const find = (id: string): Material => (id === ANHYDRITE.id ? ANHYDRITE : material(id));

function raised(
  parts: Parts,
  { service, uses = [], temperature = 20 }: Place,
  region: 'US' | 'EU' = 'EU',
): Record<string, Caution> {
  const blend = Object.entries(parts).map(([id, grams]) => ({ material: find(id), grams }));
  const sulfate = sulfateOutcome(blend, { service, temperature }, uses);
  const { cautions } = cautionsFor(blendFacts(blend, { service, uses, sulfate, room: temperature }), { region });
  return Object.fromEntries(cautions.map((c) => [c.id, c]));
}
const swelling = (parts: Parts, service: Service, { uses = [], temperature = 20 }: Partial<Place> = {}) =>
  risksOf(
    {
      materials: Object.keys(parts).map(find),
      figures: model,
      conditions: { ...DEFAULT_CONDITIONS, service, temperature },
    },
    Object.values(parts),
    uses,
  ).find((r) => r.id === 'swelling');

const WET: Place = { service: 'wet' };
const GROUND = { 'portland-cement-grey': 500, 'ground-gypsum': 60, water: 250 };

describe('more sulfate beside portland than a cement may hold (ASTM C150: 3.0 or 3.5 % SO3)', () => {
  it.each<[string, Parts, Place, Readonly<Record<string, string>>]>([
    ['ground gypsum', GROUND, WET, { 'gypsum-with-portland': 'stop', 'gypsum-and-water': 'warn' }],
    [
      'ground gypsum with limestone',
      { 'portland-cement-grey': 500, 'limestone-flour': 100, 'ground-gypsum': 300, water: 350 },
      WET,
      { 'gypsum-with-portland': 'stop', 'gypsum-and-water': 'warn', thaumasite: 'warn' },
    ],
    [
      'a damp planter of white cement',
      { 'portland-cement-white': 500, 'ground-gypsum': 150, water: 300 },
      { service: 'damp', uses: ['planter'] },
      { 'gypsum-with-portland': 'stop', 'gypsum-and-water': 'stop' },
    ],
    [
      'potassium sulfate',
      { 'portland-cement-grey': 500, 'potassium-sulfate': 50, water: 250 },
      WET,
      { 'gypsum-with-portland': 'stop' },
    ],
    [
      'anhydrite',
      { 'portland-cement-grey': 500, 'anhydrite-powder': 40, water: 250 },
      WET,
      { 'gypsum-with-portland': 'stop' },
    ],
  ])('%s is a stop, and a high risk of swelling', (_name, parts, place, expected) => {
    for (const region of REGIONS) {
      const found = raised(parts, place, region);
      for (const [id, severity] of Object.entries(expected)) expect(found[id]?.severity, id).toBe(severity);
      expect(found['gypsum-with-portland']!.text).toMatch(/The safety data sheet, local rules .* come first\.$/);
    }
    expect(swelling(parts, place.service)).toMatchObject({
      level: 'high',
      text: expect.stringContaining('Added sulfate with portland cement'),
    });
  });

  it('counts what the sheet counts: 500 g at 2.8 % and 60 g at 46.5 % over the cement are 8.4 %', () => {
    const blend = Object.entries(GROUND).map(([id, grams]) => ({ material: find(id), grams }));
    const outcome = sulfateOutcome(blend, DEFAULT_CONDITIONS, [])!;
    expect(outcome.so3).toBeCloseTo((500 * 2.8 + 60 * 46.5) / 500, 6);
    expect(raised(GROUND, WET)['gypsum-with-portland']!.because).toContain('SO3 8.4 % of both against 3.5 %');
    expect(swelling(GROUND, 'wet')!.text).toContain('8.4 % sulfate');
  });

  it('pozzolan helps as it does beside plaster', () => {
    const quiet = { 'portland-cement-grey': 200, 'ground-gypsum': 60, metakaolin: 60, water: 150 };
    expect(raised(quiet, { service: 'dry-indoor' })['gypsum-with-portland']!.severity).toBe('warn');
    expect(swelling(quiet, 'dry-indoor')!.level).toBe('some');
  });
});

describe('sulfate, carbonate and cement in the cold and wet (thaumasite: below 15 °C, by the review of Shi, Wang and Behnood)', () => {
  // As much pozzolan as in blends that stayed sound: what is left to stop it is the carbonate.
  const SOUND = { 'portland-cement-grey': 200, 'casting-plaster': 20, metakaolin: 60, water: 250 };
  const LIMED = { ...SOUND, 'limestone-flour': 300 };
  const COLD = 'thaumasite can form';

  it.each<[string, Place]>([
    ['outdoors', { service: 'dry-indoor', uses: ['outdoor'] }],
    ['a planter', { service: 'dry-indoor', uses: ['planter'] }],
    ['a damp room of 14 °C', { service: 'damp', temperature: 14 }],
    ['a wet room of 8 °C', { service: 'wet', temperature: 8 }],
  ])('%s: the screen refuses it and tells of the cold, the risk too', (_name, place) => {
    const found = raised(LIMED, place);
    expect(found['gypsum-with-portland']).toMatchObject({ severity: 'stop', text: expect.stringContaining(COLD) });
    expect(found['thaumasite']).toMatchObject({ severity: 'warn', text: expect.stringContaining('as cold as that') });
    expect(swelling(LIMED, place.service, place)).toMatchObject({
      level: 'high',
      text: expect.stringContaining('below ⟦15 °C⟧'),
    });
    // Without carbonate there is no thaumasite, however cold.
    expect(raised(SOUND, place)['gypsum-with-portland']!.text).not.toContain(COLD);
    expect(raised(SOUND, place)).not.toHaveProperty('thaumasite');
  });

  it.each<[string, Place, string]>([
    ['a dry room, be it cold', { service: 'dry-indoor', temperature: 8 }, 'warn'],
    ['a damp room of 15 °C', { service: 'damp', temperature: 15 }, 'stop'],
    ['a damp room', { service: 'damp' }, 'stop'],
  ])('%s is not both: nothing is said of cold', (_name, place, severity) => {
    const found = raised(LIMED, place);
    expect(found['gypsum-with-portland']!.severity).toBe(severity);
    expect(found['gypsum-with-portland']!.text).not.toContain(COLD);
    expect(found['thaumasite']!.text).not.toContain('as cold as that');
    expect(swelling(LIMED, place.service, place)!.text).not.toContain('thaumasite');
  });

  it('tells how cold the room is, in the reader’s units', () => {
    const { because, us } = raised(LIMED, { service: 'damp', temperature: 8 })['thaumasite']!;
    expect(because).toMatch(/; service: damp, room of 8 °C$/);
    expect(us!.because).toMatch(/; service: damp, room of 46 °F$/);
  });
});

describe('usual doses', () => {
  it.each<[string, Parts]>([
    ['a few tenths of a percent of potassium sulfate', { 'potassium-sulfate': 1.5 }],
    ['the same with limestone', { 'potassium-sulfate': 1.5, 'limestone-flour': 100 }],
    ['half a percent of ground gypsum', { 'ground-gypsum': 2.5 }],
  ])('%s in portland alarm nobody', (_name, dose) => {
    const parts = { 'portland-cement-grey': 500, ...dose, water: 250 };
    for (const service of ['dry-indoor', 'damp', 'wet', 'warm'] as const) {
      const found = raised(parts, { service });
      for (const id of ['gypsum-with-portland', 'gypsum-and-water', 'thaumasite', 'gypsum-near-flame'])
        expect([undefined, 'info'], `${id} ${service}`).toContain(found[id]?.severity);
      expect(swelling(parts, service)).toBeUndefined();
    }
  });

  it('the sulfate a cement is made with raises nothing', () => {
    expect(raised({ 'portland-cement-grey': 500, water: 250 }, WET)).not.toHaveProperty('gypsum-with-portland');
    expect(swelling({ 'portland-cement-grey': 500, 'csa-rapid-cement': 20, water: 250 }, 'wet')).toBeUndefined();
  });

  it('of seed in plaster leave its cautions as they are', () => {
    for (const place of [WET, { service: 'dry-indoor' }, { service: 'warm', uses: ['candle'] }] as const) {
      const told = (parts: Parts) => Object.values(raised(parts, place)).map((c) => `${c.id} ${c.severity}`);
      // A salt that has never counted as gypsum is dosed alike.
      const salted = told({ 'casting-plaster': 300, 'potassium-sulfate': 1, water: 200 });
      expect(told({ 'casting-plaster': 300, 'ground-gypsum': 1, water: 200 })).toEqual(salted);
    }
  });
});
