import { describe, expect, it } from 'vitest';
import { stateOf } from '../../src/core/blend/state/state.js';
import { worldOf } from '../../src/core/blend/world.js';
import { AGREE, better, missOf } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { questionOf } from '../support/hand-question.js';

const world = worldOf(questionOf(['water', 'portland-cement-grey']));
/** 40 g of water and 60 g of cement: as poured it weighs 100 g. */
const state = stateOf(world, [40, 60]);
const weight = (sides: { min?: number; max?: number }) => ({ property: 'fresh-weight', ...sides });
const miss = (sides: { min?: number; max?: number }, slack = 0): number => missOf([weight(sides)], world, state, slack);

describe('how far a blend of 100 g misses a limit on its weight', () => {
  it.each([
    ['at most 80 g: 20 g, a quarter of the limit', { max: 80 }, 0.25],
    ['at least 125 g: 25 g, a fifth of the limit', { min: 125 }, 0.2],
    ['from 50 to 80 g: in shares of the larger side', { min: 50, max: 80 }, 0.25],
    ['from 125 to 200 g: in shares of the larger side', { min: 125, max: 200 }, 0.125],
    ['at most 100 g: nothing', { max: 100 }, 0],
    ['at least 100 g: nothing', { min: 100 }, 0],
    ['from 90 to 110 g: nothing, and being well inside pays for no other miss', { min: 90, max: 110 }, 0],
    ['at most -50: three times the limit, whatever its sign', { max: -50 }, 3],
    ['from -200 to -50: three quarters of the larger side', { min: -200, max: -50 }, 0.75],
    ['neither side: nothing', {}, 0],
  ])('%s', (_words, sides, share) => {
    expect(miss(sides)).toBeCloseTo(share, 12);
  });

  it('is all of it where the limit is nothing at all, of which there are no shares', () => {
    expect(miss({ max: 0 })).toBe(1);
    expect(miss({ min: 0 })).toBe(0);
  });

  it('adds up over the limits, and what is kept with room gives nothing back', () => {
    const all = [weight({ max: 80 }), weight({ max: 1000 }), weight({ min: 125 })];
    expect(missOf(all, world, state, 0)).toBeCloseTo(0.45, 12);
    expect(missOf([], world, state, 0)).toBe(0);
  });

  it('is added up no further than is asked for', () => {
    // Misses of 0.25, 0.2 and 0.25.
    const all = [weight({ max: 80 }), weight({ min: 125 }), weight({ max: 80 })];
    expect(missOf(all, world, state, 0, 0.2)).toBeCloseTo(0.25, 12);
    expect(missOf(all, world, state, 0, 0.25)).toBeCloseTo(0.45, 12);
    expect(missOf(all, world, state, 0, 0.7)).toBeCloseTo(0.7, 12);
  });

  it('forgives a hair before rounding and nothing of what is weighed out', () => {
    const hair = 100 / (1 + 0.9 * AGREE);
    expect(missOf([weight({ max: hair })], world, state)).toBe(0);
    expect(miss({ max: hair })).toBeGreaterThan(0);
    // Beyond the hair only what is beyond it counts.
    expect(missOf([weight({ max: 80 })], world, state)).toBeCloseTo(0.25 - AGREE, 12);
  });
});

describe('a limit on what the blend has nothing of', () => {
  it('is missed as a whole where nothing over nothing breaks it, and else not at all', () => {
    // Water over plaster without plaster: no ratio is as low as 0.5, and any is at least 0.3.
    expect(missOf([{ property: 'water-to-plaster', max: 0.5 }], world, state, 0)).toBe(1);
    expect(missOf([{ property: 'water-to-plaster', min: 0.3 }], world, state, 0)).toBe(0);
  });

  it('is missed by more than what comes late would where it never comes', () => {
    const never = stateOf(
      world,
      world.materials.map((m) => (m.kind === 'water' ? 100 : 0)),
    );
    expect(missOf([{ property: 'demould-time', max: 60 }], world, never, 0)).toBe(4);
  });

  it('counts at its price', () => {
    const dear = { property: 'water-to-plaster', max: 0.5, price: 10 };
    expect(missOf([dear, weight({ max: 80 })], world, state, 0)).toBeCloseTo(10.25, 12);
  });

  it('does not hide the limits beside it', () => {
    const both = [{ property: 'water-to-plaster', max: 0.5 }, weight({ max: 80 })];
    expect(missOf(both, world, state, 0)).toBeCloseTo(1.25, 12);
  });
});

describe('the better of two answers', () => {
  const cheap = AIMS.cheapest;
  const strong = AIMS.strongest;
  const at = (missed: number, value: number | null) => ({ miss: missed, value });

  it('is the one that misses nothing, by however little the other misses and whatever it costs', () => {
    expect(better(at(0, 9), at(0.5 * AGREE, 1), cheap)).toBe(true);
    expect(better(at(0.5 * AGREE, 1), at(0, 9), cheap)).toBe(false);
    expect(better(at(0, null), at(0.5, 1), cheap)).toBe(true);
    expect(better(at(0.5, 1), at(0, null), cheap)).toBe(false);
  });

  it('is the one that misses less, where both miss and not by about the same', () => {
    expect(better(at(0.1, 9), at(0.2, 1), cheap)).toBe(true);
    expect(better(at(0.2, 1), at(0.1, 9), cheap)).toBe(false);
  });

  it('is the one that the brief is after, where both miss about the same', () => {
    expect(better(at(0.2 + 0.5 * AGREE, 1), at(0.2, 9), cheap)).toBe(true);
    expect(better(at(0.2, 9), at(0.2 + 0.5 * AGREE, 1), cheap)).toBe(false);
  });

  it('is the cheaper or the stronger, and of two alike neither', () => {
    expect(better(at(0, 1), at(0, 2), cheap)).toBe(true);
    expect(better(at(0, 2), at(0, 1), cheap)).toBe(false);
    expect(better(at(0, 2), at(0, 1), strong)).toBe(true);
    expect(better(at(0, 1), at(0, 2), strong)).toBe(false);
    expect(better(at(0, 1), at(0, 1), cheap)).toBe(false);
    expect(better(at(0, 1), at(0, 1), strong)).toBe(false);
  });

  it('is the one that has what is sought, and of two that lack it neither', () => {
    for (const aim of [cheap, strong]) {
      expect(better(at(0, 5), at(0, null), aim)).toBe(true);
      expect(better(at(0, null), at(0, 5), aim)).toBe(false);
      expect(better(at(0, null), at(0, null), aim)).toBe(false);
    }
  });
});
