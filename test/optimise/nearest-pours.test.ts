import { describe, expect, it } from 'vitest';
import { isBinder } from '../../src/core/blend/numbers.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { propertyValue } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { WrittenBrief } from '../../src/core/brief/schema.js';
import { collidingTargets } from '../../src/core/optimise/colliding-targets.js';
import { missOfOne } from '../../src/core/optimise/miss.js';
import { propose } from '../../src/core/optimise/propose.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { askedOf, stallPrices } from '../support/stall.js';

/** Briefs that nothing meets, whose least sum of misses is a mix that does not pour. */
const BRIEFS: readonly WrittenBrief[] = [
  {
    mould: { water: '300 mL' },
    objective: 'strongest',
    targets: { 'capillary-pores': { max: '20 %' }, 'demould-time': { max: '1 h' } },
  },
  {
    mould: { water: '400 mL' },
    service: 'wet',
    objective: 'lightest',
    targets: { 'dry-weight': { max: '200 g' }, strength: { min: '10 MPa' }, 'capillary-pores': { max: '15 %' } },
  },
  {
    mould: { water: '700 mL' },
    service: 'damp',
    objective: 'cheapest',
    materials: { only: ['portland-cement-white', 'marble-sand', 'marble-flour', 'metakaolin', 'plasticiser-powder'] },
    targets: { strength: { min: '30 MPa' }, 'drying-shrinkage': { max: '0.08 %' } },
    batch: { pieces: 2 },
  },
];

const proposed = (brief: WrittenBrief) => {
  const question = askedOf(brief, stallPrices);
  const proposal = propose(question, { draws: 0 });
  const world = worldOf(question);
  const grams = question.materials.map((m) => proposal.ingredients.find((i) => i.material === m.id)?.pieceGrams ?? 0);
  const state = stateOf(world, grams);
  const told = (id: string) => propertyValue(propertyById(id)!, world, state).value;
  return { question, proposal, world, grams, state, told };
};

describe('a nearest blend', () => {
  it.each(BRIEFS.map((brief, k) => [k, brief] as const))('keeps what every blend keeps: brief %i', (_k, brief) => {
    const { question, proposal, world, state } = proposed(brief);
    expect(proposal.status).toBe('nearest');
    for (const limit of standingTargets(question.targets))
      expect(missOfOne(limit, world, state, 1e-9), limit.property).toBe(0);
  });

  it('is as good as can be in what is sought where a target is missed as a whole', () => {
    // Of plaster alone, which has no SO3 of a cement: as little water as pours, for the strength.
    const { proposal, told } = proposed({
      mould: { water: '300 mL' },
      objective: 'strongest',
      materials: { only: ['alpha-gypsum-high-strength'] },
      targets: { sulfate: { max: '4 %' }, 'demould-time': { max: '1 h' } },
    });
    expect(proposal.status).toBe('nearest');
    expect(told('sulfate')).toBeNull();
    expect(told('flow')).toBeGreaterThanOrEqual(0.95);
    expect(told('flow')).toBeLessThan(0.97);
  });

  it('is told which binder is left where a target is given up that it has nothing of', () => {
    const question = askedOf(BRIEFS[0]!, stallPrices);
    const sets = collidingTargets(question, worldOf(question))!;
    expect(sets.find((c) => c.property === 'capillary-pores')).toMatchObject({
      reachable: null,
      without: 'no portland cement',
      system: 'gypsum',
    });
    const without = { ...question, targets: question.targets.filter((t) => t.property !== 'capillary-pores') };
    expect(propose(without, { draws: 0 }).status).toBe('met');
  });
});

describe('a dose that was asked for', () => {
  it.each([1, 2, 3, 4, 6, 8])('is weighed to the nearest step, however dear: %i pieces', (pieces) => {
    const { proposal, world } = proposed({
      mould: { water: '190 mL' },
      objective: 'cheapest',
      colour: { pigment: 'iron-oxide-red', share: '2 %' },
      targets: { strength: { min: '8 MPa' }, 'demould-time': { max: '1 h' } },
      batch: { pieces },
    });
    expect(proposal.status).toBe('met');
    const weighed = (id: string) => proposal.ingredients.find((i) => i.material === id)?.batchGrams ?? 0;
    const binder = world.materials.filter(isBinder).reduce((sum, m) => sum + m.solids * weighed(m.id), 0);
    expect(Math.abs(weighed('iron-oxide-red') - 0.02 * binder)).toBeLessThanOrEqual(0.5 + 1e-6);
  });
});
