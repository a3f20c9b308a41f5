import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { Figure } from '../../src/core/materials/figure.js';
import type { Service } from '../../src/core/materials/words.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import { BINDER_SYSTEMS, inPlay, openSystems } from '../../src/core/optimise/systems.js';
import { questionOf } from '../support/hand-question.js';
import { heldRow } from '../support/pozzolan-blends.js';
import { systemOf } from '../support/small-shelf.js';

const valueAt = (row: Row, grams: readonly number[]): number =>
  row.coefficients.reduce((s, c, i) => s + c * grams[i]!, 0);

describe('binder systems, as scripts and makers know them', () => {
  it('keep their ids, their names and the families that may share a piece', () => {
    expect(BINDER_SYSTEMS.map(({ id, name, families }) => [id, name, families.join(' + ')])).toEqual([
      ['gypsum', 'gypsum plaster', 'gypsum'],
      ['portland', 'portland cement', 'portland + lime'],
      ['csa', 'rapid-setting CSA cement', 'csa'],
      ['aluminate', 'calcium aluminate cement', 'aluminate'],
      ['lime', 'lime', 'natural-hydraulic-lime + lime'],
      ['gypsum-portland-pozzolan', 'plaster, portland and pozzolan', 'gypsum + portland'],
    ]);
  });

  it('say why they are closed', () => {
    const why = (id: string, service: Service) => systemOf(id).closed({ ...DEFAULT_CONDITIONS, service });
    expect(why('gypsum', 'wet')).toBe('gypsum softens and dissolves in wet service');
    for (const service of ['dry-indoor', 'warm'] as const) expect(why('gypsum-portland-pozzolan', service)).toBeNull();
    for (const service of ['damp', 'wet'] as const) {
      expect(why('gypsum-portland-pozzolan', service)).toBe(
        'plaster with portland may swell and crack when damp, and softens when wet',
      );
    }
  });
});

describe('the systems that are open', () => {
  const open = (ids: readonly string[], service: Service): string[] => {
    const question = questionOf(ids, { conditions: { ...DEFAULT_CONDITIONS, volume: 300, service } });
    return openSystems(question, worldOf(question)).map((s) => s.id);
  };
  const BOTH = ['water', 'casting-plaster', 'portland-cement-grey', 'masonry-sand'];

  it('have a binder in play and nothing against them', () => {
    expect(open(BOTH, 'dry-indoor')).toEqual(['gypsum', 'portland', 'gypsum-portland-pozzolan']);
    expect(open(BOTH, 'damp')).toEqual(['gypsum', 'portland']);
    expect(open(BOTH, 'wet')).toEqual(['portland']);
  });

  it('are none where no binder is in play, or the only one is barred', () => {
    expect(open(['water', 'masonry-sand', 'silica-fume'], 'dry-indoor')).toEqual([]);
    expect(open(['water', 'casting-plaster'], 'wet')).toEqual([]);
    expect(open([], 'dry-indoor')).toEqual([]);
  });

  it('have in play a binder of one of their families, and of each they are called by', () => {
    const world = worldOf(questionOf(['water', 'hydrated-lime', 'masonry-sand']));
    expect(BINDER_SYSTEMS.filter((s) => inPlay(s, world)).map((s) => s.id)).toEqual(['lime']);
    // Plaster without portland is no blend of both, and is not told of as one that fails.
    const plaster = worldOf(questionOf(['water', 'casting-plaster', 'masonry-sand']));
    expect(BINDER_SYSTEMS.filter((s) => inPlay(s, plaster)).map((s) => s.id)).toEqual(['gypsum']);
  });
});

describe('plaster with portland and pozzolan', () => {
  const damp: Figure = { value: 25, low: 25, high: 25, unit: 'percent', source: 'none', status: 'ours' };
  const plain = questionOf(['water', 'casting-plaster', 'portland-cement-grey', 'masonry-sand', 'silica-fume']);
  // Each holds a fifth of water, so that 100 g are 80 g of solids.
  const question = {
    ...plain,
    materials: plain.materials.map((m) => (m.kind === 'water' ? m : { ...m, moisture: damp })),
  };
  const world = worldOf(question);
  const [plaster, portland] = systemOf('gypsum-portland-pozzolan').rows(world) as [Row, Row];
  const pozzolan = heldRow(question, [90, 50, 100, 400, 25]);

  it('holds at least 15 % of its cement and plaster in each of them, whatever else there is', () => {
    const rest = (p: number): number[] => [90, p, 100 - p, 400, 300];
    expect(valueAt(plaster, rest(15))).toBeCloseTo(0, 9);
    expect(valueAt(plaster, rest(14))).toBeLessThan(0);
    expect(valueAt(portland, rest(85))).toBeCloseTo(0, 9);
    expect(valueAt(portland, rest(86))).toBeLessThan(0);
    // Told in grams of solids: 85 % of 20 g less 15 % of 80 g, of which a fifth is water.
    expect(valueAt(plaster, rest(20))).toBeCloseTo(0.8 * (0.85 * 20 - 0.15 * 80), 9);
    expect([plaster, portland].map(({ name, low, scale, high }) => [name, low, scale, high])).toEqual([
      ['plaster in the blend', 0, 1, undefined],
      ['portland in the blend', 0, 1, undefined],
    ]);
  });

  it('holds a quarter of the portland in reactive pozzolan (binders.md d2, d3), by their solids', () => {
    const { activity } = world.materials[4]!;
    expect(activity).toBeGreaterThan(0);
    expect(valueAt(pozzolan, [90, 50, 100, 400, 25 / activity])).toBeCloseTo(0, 9);
    expect(valueAt(pozzolan, [90, 50, 100, 400, 0])).toBeCloseTo(-0.25 * 80, 9);
    expect(pozzolan).toMatchObject({ name: 'pozzolan enough for plaster with portland', low: 0, scale: 1 });
  });

  it('asks nothing of the other systems', () => {
    for (const s of BINDER_SYSTEMS)
      if (s.id !== 'gypsum-portland-pozzolan') expect([...s.rows(world), ...s.holds], s.id).toEqual([]);
  });
});
