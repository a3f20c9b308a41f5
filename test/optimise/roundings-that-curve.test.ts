import { describe, expect, it } from 'vitest';
import { stateOf } from '../../src/core/blend/state/state.js';
import type { Target } from '../../src/core/blend/target.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import { missOf } from '../../src/core/optimise/miss.js';
import { AIMS, soughtValue } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { roundToScale } from '../../src/core/optimise/rounding.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { questionOf } from '../support/hand-question.js';
import { mouldFull, mouldsOf } from '../support/mould-full.js';
import { systemOf } from '../support/small-shelf.js';

/**
 * Rounding far from the blend it starts at, on coarse steps, where limits are not what their rows say: strength and flow
 * curve, and a powder that brings air changes how full the mould is. What comes out is held beside all there is.
 */
const IDS = ['water', 'portland-cement-grey', 'masonry-sand', 'plasticiser-powder'];
const STEPS = [10, 10, 10, 0.2];
const REACH = 12;

/** Water, cement, sand and powder. */
type Parts = readonly [number, number, number, number];

/** A full mould of these parts, and a brief for it with one limit besides those on sand. */
function worldAt(parts: Parts, limit: Target) {
  const open = (['flow', 'strength'] as const).filter((id) => id !== limit.property);
  const plain = questionOf(IDS);
  const question: Question = {
    ...plain,
    batch: { pieces: 1, step: 10, fine: { step: 0.2, most: 4 } },
    limits: { ingredients: null, leastDose: 0.2 },
    targets: [
      ...open.map((property) => ({ property, min: 0.01 })),
      { property: 'paste-to-voids', min: 0.01 },
      { property: 'sand-to-binder', min: 1.3, max: 1.6 },
      limit,
    ],
  };
  const world = worldOf(question);
  return { question, world, grams: mouldFull(world, parts) };
}

/** The best value of all roundings within reach that hold every limit, and fill the mould as near as the steps can tell: of a mould full. */
function bestOfAll(question: Question, world: World, grams: readonly number[], aim: (typeof AIMS)['cheapest']): number {
  const { volume } = question.conditions;
  const { air } = stateOf(world, grams);
  const rooms = world.materials.map((m, i) => (STEPS[i]! * m.volume) / (1 - air));
  const give = Math.max(...rooms, rooms.reduce((s, r) => s + r, 0) / 2, volume / 400);
  const limits = [...question.targets, ...standingTargets(question.targets)];
  let best = Number.NaN;
  const span = grams.map((g, i) => {
    const exact = g / STEPS[i]!;
    const from = Math.max(i === 0 ? 0 : 1, Math.floor(exact) - REACH);
    return Array.from({ length: Math.ceil(exact) + REACH - from + 1 }, (_v, k) => (from + k) * STEPS[i]!);
  });
  for (const cement of span[1]!) {
    for (const sand of span[2]!.filter((s) => s >= 1.3 * cement && s <= 1.6 * cement)) {
      for (const powder of span[3]!.filter((p) => p <= 0.0031 * cement)) {
        for (const water of span[0]!) {
          const solid = [water, cement, sand, powder].reduce((s, g, i) => s + g * world.materials[i]!.volume, 0);
          if (solid > volume + give || solid < 0.9 * (volume - give)) continue;
          const portion = [water, cement, sand, powder];
          if (Math.abs(mouldsOf(world, portion) - 1) * volume > give) continue;
          const state = stateOf(world, mouldFull(world, portion));
          if (missOf(limits, world, state, 1e-9) > 0) continue;
          const value = soughtValue(aim, world, state)!;
          if (!(aim.sense === 'min' ? value >= best : value <= best)) best = value;
        }
      }
    }
  }
  return best;
}

describe('rounding where limits curve away from their rows', () => {
  it.each([
    { parts: [40, 100, 200, 0.2], limit: { property: 'strength', max: 22 }, objective: 'strongest' },
    { parts: [40, 100, 200, 0.2], limit: { property: 'flow', min: 1.1 }, objective: 'strongest' },
    { parts: [60, 100, 200, 0.1], limit: { property: 'strength', min: 25 }, objective: 'cheapest' },
    { parts: [45, 100, 140, 0.1], limit: { property: 'strength', min: 30 }, objective: 'lightest' },
  ] as const)('the $objective with $limit is the best of all there are', ({ parts, limit, objective }) => {
    const { question, world, grams } = worldAt(parts, limit);
    const aim = AIMS[objective];
    const found = roundToScale(question, world, systemOf('portland'), grams, aim, { reach: REACH });
    expect(found.miss).toBe(0);
    expect(soughtValue(aim, world, found.state)).toBeCloseTo(bestOfAll(question, world, grams, aim), 9);
  });

  it.each([
    { parts: [50, 100, 100, 0.3], limit: { property: 'strength', max: 20 }, value: 18 },
    { parts: [50, 100, 100, 0.3], limit: { property: 'flow', min: 1.1 }, value: 34 },
    { parts: [60, 100, 200, 0.1], limit: { property: 'strength', min: 35 }, value: 57 },
    { parts: [60, 100, 200, 0.1], limit: { property: 'flow', max: 0.9 }, value: 34 },
    { parts: [40, 100, 200, 0.2], limit: { property: 'strength', min: 35 }, value: 36 },
  ] as const)('the strongest with $limit holds all limits, and has $value MPa at least', ({ parts, limit, value }) => {
    const { question, world, grams } = worldAt(parts, limit);
    const found = roundToScale(question, world, systemOf('portland'), grams, AIMS.strongest, { reach: REACH });
    expect(found.miss).toBe(0);
    expect(soughtValue(AIMS.strongest, world, found.state)).toBeGreaterThan(value);
  });
});
