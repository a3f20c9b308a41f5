import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { worldOf } from '../../src/core/blend/world.js';
import { scaleKnobs, stepFor } from '../../src/core/optimise/knobs.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { portions } from '../../src/core/optimise/portions.js';
import type { Question } from '../../src/core/optimise/question.js';
import { roundToScale } from '../../src/core/optimise/rounding.js';
import { settle } from '../../src/core/optimise/settle.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { BINDER_SYSTEMS } from '../../src/core/optimise/systems.js';
import { material, model } from '../support/shipped-table.js';

const gypsum = BINDER_SYSTEMS.find((s) => s.id === 'gypsum')!;

const question = (more: Partial<Question> = {}): Question => ({
  objective: 'cheapest',
  targets: [],
  conditions: { ...DEFAULT_CONDITIONS, volume: 150, waste: 0.06 },
  materials: ['water', 'casting-plaster', 'alpha-gypsum-cement', 'limestone-flour', 'citric-acid'].map(material),
  doses: [],
  figures: model,
  prices: new Map([
    ['casting-plaster', 0.0012],
    ['alpha-gypsum-cement', 0.0018],
    ['limestone-flour', 0.0006],
    ['citric-acid', 0.0075],
  ]),
  stock: new Map(),
  batch: { pieces: 3, step: 1, fine: { step: 0.1, most: 200 } },
  ...more,
});

const settledBlend = (q: Question): readonly number[] =>
  settle(q, worldOf(q), gypsum, { aim: AIMS[q.objective] })!.grams;

describe('the step of the scale', () => {
  const batch = { pieces: 1, step: 1, fine: { step: 0.1, most: 200 } };

  it('is the fine one up to what the fine scale bears, and the coarse one beyond', () => {
    expect(stepFor(0.4, batch)).toBe(0.1);
    expect(stepFor(200, batch)).toBe(0.1);
    expect(stepFor(200.5, batch)).toBe(1);
    expect(stepFor(0.4, { ...batch, fine: null })).toBe(1);
  });

  it('counts a batch with its waste: of what is mixed, so much is not cast', () => {
    expect(portions({ ...batch, pieces: 4 }, 0.2)).toBe(5);
    expect(portions({ ...batch, pieces: 4 }, 0)).toBe(4);
  });
});

describe('rounding to the scale', () => {
  it('takes the nearest step where that meets every limit', () => {
    const q = question();
    const grams = settledBlend(q);
    const times = portions(q.batch, q.conditions.waste);
    const { batchGrams, miss } = roundToScale(q, worldOf(q), gypsum, grams, AIMS.cheapest);
    expect(miss).toBe(0);
    batchGrams.forEach((g, i) => {
      const step = stepFor(grams[i]! * times, q.batch);
      expect(Math.abs(g - grams[i]! * times)).toBeLessThanOrEqual(step * 8);
      expect(Math.abs(g / step - Math.round(g / step))).toBeLessThan(1e-6);
    });
  });

  it('keeps limits that the blend stands right at, where plain rounding would leave them', () => {
    let tried = 0;
    let plainMisses = 0;
    let kept = 0;
    for (let k = 0; k < 40; k++) {
      const ratio = 0.62 + 0.004 * k;
      const q = question({
        targets: [{ property: 'water-to-plaster', max: ratio }],
        batch: { pieces: 1, step: 1, fine: null },
      });
      const world = worldOf(q);
      const grams = settledBlend(q);
      const limits = [...q.targets, ...standingTargets(q.targets)];
      const times = portions(q.batch, q.conditions.waste);
      const metBy = (pieceGrams: readonly number[]) => assess(q, pieceGrams, limits, { draws: 0 }).met;
      if (!metBy(grams)) continue;
      tried++;
      if (!metBy(grams.map((g) => Math.round(g * times) / times))) plainMisses++;
      const { pieceGrams, miss } = roundToScale(q, world, gypsum, grams, AIMS.cheapest);
      expect(metBy(pieceGrams)).toBe(miss === 0);
      if (miss === 0) kept++;
    }
    expect(tried).toBeGreaterThan(25);
    expect(plainMisses).toBeGreaterThan(5);
    expect(kept).toBeGreaterThan(tried - 0.2 * plainMisses);
  });

  it('never pours less to make a piece lighter or cheaper', () => {
    const free = question();
    const grams = settledBlend(free);
    const { properties } = assess(free, grams, [], { draws: 0 });
    const dry = properties.find((p) => p.property === 'dry-weight')!.value!;
    // Out of reach by far, as seen from this blend: a search free in volume would empty the mould step by step.
    const q = question({ targets: [{ property: 'dry-weight', max: 0.93 * dry }] });
    const { pieceGrams, miss } = roundToScale(q, worldOf(q), gypsum, grams, AIMS.cheapest);
    const volume = assess(q, pieceGrams, [], { draws: 0 }).properties.find((p) => p.property === 'fresh-volume')!
      .value!;
    expect(Math.abs(volume / q.conditions.volume - 1)).toBeLessThan(0.01);
    expect(miss).toBeGreaterThan(0);
  });

  it('keeps a dose that was asked for in the blend, however small', () => {
    const q = question({
      doses: [{ material: 'citric-acid', percent: 0.05, of: 'binder' }],
      batch: { pieces: 1, step: 1, fine: null },
    });
    const grams = settledBlend(q);
    const at = q.materials.findIndex((m) => m.id === 'citric-acid');
    const times = portions(q.batch, q.conditions.waste);
    const acid = scaleKnobs(
      q,
      grams.map((g) => g * times),
    ).find((k) => k.perStep[0]![0] === at)!;
    expect(acid.exact).toBeGreaterThan(0);
    // Under half a step plain rounding leaves nothing of it; the knob never goes below that.
    expect(acid.least).toBe(Math.min(1, Math.round(acid.exact)));
  });
});
