import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { WrittenBrief } from '../../src/core/brief/schema.js';
import { missOf } from '../../src/core/optimise/miss.js';
import { type Proposal, propose } from '../../src/core/optimise/propose.js';
import { limitsIn } from '../../src/core/optimise/standing-limits.js';
import { BINDER_SYSTEMS } from '../../src/core/optimise/systems.js';
import { askedOf } from '../support/stall.js';

/** Found by a sweep over the stall's shelf and by a walk as a maker. All briefs are invented. */

const proposed = (brief: object): Proposal => propose(askedOf(brief as WrittenBrief), { draws: 0 });
const names = ({ ingredients }: Proposal): string[] => ingredients.map((i) => i.material).sort();
const told = (proposal: Proposal, property: string): number =>
  proposal.assessment.properties.find((p) => p.property === property)!.value!;

describe('a blend', () => {
  it('holds few things once its objective is at its limit, and many blends are as good', () => {
    const proposal = proposed({
      mould: { water: '230 mL' },
      service: 'dry-indoor',
      objective: 'heaviest',
      batch: { pieces: 10 },
      targets: { 'dry-weight': { max: '273 g' } },
    });
    expect(proposal.status).toBe('met');
    expect(told(proposal, 'dry-weight')).toBeGreaterThan(0.999 * 273);
    expect(names(proposal).length).toBeLessThanOrEqual(4);
  });

  it('holds no trace of what it is as good without', () => {
    const proposal = proposed({
      mould: { water: '640 mL' },
      service: 'damp',
      objective: 'cheapest',
      batch: { pieces: 10 },
      targets: { 'dry-weight': { max: '500 g' }, strength: { min: '9.2 MPa' } },
    });
    expect(proposal.status).toBe('met');
    const least = 0.002 * proposal.ingredients.reduce((sum, i) => sum + i.batchGrams, 0);
    expect(proposal.ingredients.filter((i) => i.batchGrams < least)).toEqual([]);
  });

  it.each([3, 4, 5, 6])('is weighed out between two limits that are just met, for %d pieces', (pieces) => {
    const proposal = proposed({
      mould: { water: '640 mL' },
      service: 'damp',
      objective: 'cheapest',
      batch: { pieces },
      targets: { 'dry-weight': { max: '500 g' }, strength: { min: '9.2 MPa' } },
    });
    expect(proposal.status).toBe('met');
    expect(told(proposal, 'dry-weight')).toBeLessThanOrEqual(500 * (1 + 1e-9));
    expect(told(proposal, 'strength')).toBeGreaterThanOrEqual(9.2 * (1 - 1e-9));
    // The moulds are filled, and little is left over.
    expect(proposal.fills).toBeGreaterThan(0.997 * pieces * 1.06);
    expect(proposal.fills).toBeLessThan((1.021 * pieces) / (1 - 0.06));
  });
});

/** Plaster, cement, sand and perlite alone: nothing comes out of its mould in 20 minutes, in the stall's cool room not in 46. */
const SHELF = ['casting-plaster', 'portland-cement-grey', 'silica-sand-fine', 'perlite'];
const late = (objective: string, targets: object, demould = '20 min'): Proposal =>
  proposed({
    mould: { water: '350 mL' },
    wall: '8 mm',
    service: 'damp',
    objective,
    batch: { pieces: 4 },
    materials: { only: SHELF },
    targets: { 'demould-time': { max: demould }, ...targets },
  });

describe('the nearest blend', () => {
  it('brings every limit as near as the others allow, however far one of them is out of reach', () => {
    const best = late('strongest', {}, '46.5 min');
    for (const min of [15, 30, 60]) {
      const nearest = late('cheapest', { strength: { min: `${min} MPa` } });
      expect(nearest.status).toBe('nearest');
      expect(told(nearest, 'demould-time')).toBeCloseTo(told(best, 'demould-time'), 6);
      expect(told(nearest, 'strength')).toBeGreaterThan(0.98 * told(best, 'strength'));
    }
  });

  it.each([
    ['cheapest', 'cost', 1],
    ['lightest', 'dry-weight', 1],
    ['strongest', 'strength', -1],
  ])('is the %s of all that come as near', (objective, property, sense) => {
    const nearest = late(objective, {});
    const met = late(objective, {}, '46.5 min');
    expect([nearest.status, met.status]).toEqual(['nearest', 'met']);
    expect(sense * (told(nearest, property) / told(met, property) - 1)).toBeLessThan(0.01);
  });

  it('misses what is asked of nothing as a whole, and no other limit for it', () => {
    const free = proposed({
      mould: { water: '350 mL' },
      service: 'warm',
      objective: 'heaviest',
      materials: { only: SHELF },
      targets: { strength: { min: '10 MPa' }, 'demould-time': { max: '3.5 h' }, cost: { max: '0 EUR' } },
    });
    expect(free.conflict!.missed.map((m) => m.property)).toEqual(['cost']);
  });

  it('is weighed with its coarsest dose at a step of the scale, where that misses less', () => {
    const brief = askedOf({
      mould: { water: '350 mL' },
      objective: 'lightest',
      batch: { pieces: 3 },
      materials: {
        only: ['alpha-gypsum-cement', 'casting-plaster', 'perlite', 'potassium-sulfate', 'silica-sand-fine'],
      },
      targets: { 'demould-time': { max: '20 min' } },
    });
    const question = { ...brief, batch: { ...brief.batch, step: 1, fine: null } };
    const { ingredients, system } = propose(question, { draws: 0 });
    const world = worldOf(question);
    const grams = question.materials.map((m) => ingredients.find((i) => i.material === m.id)?.pieceGrams ?? 0);
    const limits = limitsIn(question, BINDER_SYSTEMS.find((s) => s.id === system)!);
    expect(missOf(limits, world, evaluate(world, grams).state, 0)).toBeLessThan(0.006);
  });
});
