import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Knob } from '../../src/core/optimise/knobs.js';
import { missOf } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { type RoundingOptions, roundToScale } from '../../src/core/optimise/rounding.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { binderIn, fillerBeside, fullMould, LOOSE, RATIO, WASTE } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** What rounding makes of a mould of water, plaster and flour, where its knobs can be turned by hand. */

/** Nothing is wasted, one piece a batch: what is weighed is what is cast. */
function simple(more: Partial<Question> = {}): Question {
  const plain = fullMould({ 'casting-plaster': 0.001, 'limestone-flour': 0.0001 });
  return { ...plain, conditions: { ...plain.conditions, waste: 0 }, targets: LOOSE, ...more };
}
const PLASTER = binderIn('casting-plaster');
const PIECE = [RATIO * PLASTER, PLASTER, 0];
const round = (question: Question, grams: readonly number[], options?: RoundingOptions) =>
  roundToScale(question, worldOf(question), systemOf('gypsum'), grams, AIMS[question.objective], options);

/** A knob that stands at so many steps, whatever its blend. */
const held = (steps: number, perStep: Knob['perStep'], exact = steps): Knob => ({
  perStep,
  exact,
  least: steps,
  most: steps,
});

describe('plain rounding', () => {
  it('weighs the batch with its waste on whole steps, and says what that makes of a piece', () => {
    const question = fullMould({ 'casting-plaster': 0.001, 'limestone-flour': 0.0001 }, { targets: LOOSE });
    const asked = { ...question, batch: { pieces: 4, step: 1, fine: null } };
    const times = 4 / (1 - WASTE);
    const { batchGrams, pieceGrams, state, fills, miss } = round(asked, PIECE);
    expect(batchGrams).toEqual([Math.round(times * PIECE[0]!), Math.round(times * PIECE[1]!), 0]);
    // In a full mould there is as much plaster to the water; of these the batch makes so many.
    const plaster = binderIn('casting-plaster', batchGrams[0]! / batchGrams[1]!);
    expect(pieceGrams[1]).toBeCloseTo(plaster, 9);
    pieceGrams.forEach((g, i) => {
      expect(g).toBeCloseTo((batchGrams[i]! * plaster) / batchGrams[1]!, 9);
    });
    expect(fills).toBeCloseTo(batchGrams[1]! / plaster, 9);
    expect(Math.abs(fills / times - 1)).toBeLessThan(0.001);
    expect(state.grams).toEqual(pieceGrams);
    expect(miss).toBe(0);
  });

  it('turns no knob further than it goes', () => {
    const turned = (exact: number, least: number, most: number) =>
      round(simple(), PIECE, {
        knobs: () => [
          {
            perStep: [
              [0, RATIO * PLASTER],
              [1, PLASTER],
            ],
            exact: 1,
            least: 1,
            most: 1,
          },
          { perStep: [[2, 0.1]], exact, least, most },
        ],
      }).batchGrams[2];
    expect(turned(2.6, 0, 9)).toBeCloseTo(0.3, 9);
    expect(turned(2.4, 0, 9)).toBeCloseTo(0.2, 7);
    expect(turned(2.6, 0, 2)).toBeCloseTo(0.2, 7);
    expect(turned(2.4, 3, 9)).toBeCloseTo(0.3, 9);
  });
});

describe('how full a mould may be', () => {
  /** The blend in so many steps that fill it, held at so many of them. */
  const filled = (steps: number, of: number, knobs = 1, question = simple(), times = 1) => {
    const perStep = [
      [0, (times * PIECE[0]!) / of],
      [1, (times * PIECE[1]!) / of],
    ] as const;
    const each = Array.from({ length: knobs }, (_v, k) => Math.floor((steps + k) / knobs));
    return round(question, PIECE, { knobs: () => each.map((n) => held(n, perStep, of / knobs)) }).miss;
  };

  it('is by a step more or less of what is weighed in steps as large as a tenth of it', () => {
    expect([9, 10, 11].map((n) => filled(n, 10))).toEqual([0, 0, 0]);
    // 400 and 600 of 500 cm³, of which 450 to 550 pass: a tenth of the mould.
    expect(filled(8, 10)).toBeCloseTo(0.1, 7);
    expect(filled(12, 10)).toBeCloseTo(0.1, 7);
    expect(filled(7, 10)).toBeCloseTo(0.2, 7);
  });

  it('is by half a step of each where several are weighed', () => {
    // Four of a tenth each: 400 cm³ and more pass.
    expect([8, 12].map((n) => filled(n, 10, 4))).toEqual([0, 0]);
    expect(filled(7, 10, 4)).toBeCloseTo(0.1, 7);
    expect(filled(13, 10, 4)).toBeCloseTo(0.1, 7);
  });

  it('is by a four-hundredth in any case, as near as one fills by eye', () => {
    expect(filled(998, 1000)).toBe(0);
    expect(filled(997, 1000)).toBeCloseTo(0.0005, 7);
    expect(filled(1002, 1000)).toBe(0);
    expect(filled(1003, 1000)).toBeCloseTo(0.0005, 7);
  });

  it('is told of a piece, not of the batch', () => {
    const batch = { pieces: 4, step: 1, fine: null };
    expect(filled(9, 10, 1, simple({ batch }), 4)).toBe(0);
    expect(filled(8, 10, 1, simple({ batch }), 4)).toBeCloseTo(0.1, 7);
  });
});

describe('what rounding may not do, but by what the scale can tell', () => {
  it('is to leave a dose that was asked for: it gives way by half a step of the knob that moves it most', () => {
    const doses = [{ material: 'limestone-flour', percent: 10, of: 'binder' as const }];
    const plaster = binderIn('casting-plaster', RATIO, 0.1);
    const grams = [RATIO * plaster, plaster, 0.1 * plaster];
    const missAt = (flour: number, share = 1) =>
      round(simple({ doses }), grams, {
        knobs: () => [held(1, [[0, grams[0]!]]), held(share, [[1, 480 / share]]), held(flour, [[2, 6]], 8)],
      }).miss;
    // To 480 g of plaster 48 of flour, eight steps; plaster in one step asks for all 48 of that.
    expect([8, 9, 12].map((n) => missAt(n))).toEqual([0, 0, 0]);
    expect(missAt(16)).toBeCloseTo(48 - 24, 6);
    // Plaster in steps of 6 g: a step of flour is most, and some step is always as near as half of one.
    expect(missAt(8, 80)).toBe(0);
    expect(missAt(7, 80)).toBeCloseTo(6 - 3, 6);
    expect(missAt(10, 80)).toBeCloseTo(12 - 3, 6);
    expect(missAt(4, 80)).toBeCloseTo(24 - 3, 6);
  });

  it('is to leave the window of a dose: by half a step', () => {
    const plain = simple();
    const question = {
      ...plain,
      materials: [plain.materials[0]!, plain.materials[1]!, material('iron-oxide-red')],
      prices: new Map([...plain.prices, ['iron-oxide-red', 0.01]]),
    };
    // More than 6 % of colour would earn a warning: 27 g to 450 of plaster.
    const missAt = (steps: number, pieces = 1) =>
      round({ ...question, batch: { pieces, step: 1, fine: null } }, [280, 470, 24], {
        knobs: () => [held(1, [[0, 280 * pieces]]), held(90 * pieces, [[1, 5]]), held(steps, [[2, 4 * pieces]], 6)],
      }).miss;
    expect([6, 7].map((n) => missAt(n))).toEqual([0, 0]);
    expect(missAt(8)).toBeCloseTo(32 - 27, 6);
    // Told of one piece of four.
    expect([6, 7].map((n) => missAt(n, 4))).toEqual([0, 0]);
    expect(missAt(8, 4)).toBeCloseTo(32 - 27, 6);
  });

  it('and not even that where a rounding within the window costs next to nothing', () => {
    const plain = simple();
    const question = {
      ...plain,
      materials: [plain.materials[0]!, plain.materials[1]!, material('iron-oxide-red')],
      prices: new Map([...plain.prices, ['iron-oxide-red', 0.01]]),
      batch: { pieces: 1, step: 1, fine: null },
    };
    const colour = (step: number) => {
      const knobs = () => [
        held(1, [[0, 298]]),
        held(96, [[1, 5]]),
        { perStep: [[2, step]] as Knob['perStep'], exact: 28 / step, least: 0, most: 9 },
      ];
      return round({ ...question, objective: 'heaviest' }, [298, 480, 28], { knobs }).batchGrams[2]!;
    };
    // 28.8 g is the most to 480 of plaster: of 29.4 and 25.2, of 36 and 18, the nearer is past it.
    expect(colour(4.2)).toBeCloseTo(25.2, 9);
    // So much colour is more than a hundredth of the weight.
    expect(colour(18)).toBeCloseTo(36, 9);
  });

  it('is to leave too little that sets: by half of what a step of it brings', () => {
    const question = simple();
    const limits = [...question.targets, ...standingTargets(question.targets)];
    const flour = Math.round(fillerBeside('casting-plaster', 20) / 10);
    const { miss, state } = round(question, PIECE, {
      knobs: () => [held(2, [[0, 6]], 30), held(2, [[1, 10]], 20), held(flour, [[2, 10]], 0)],
    });
    const missed = missOf(limits, worldOf(question), state, 1e-9);
    // A twentieth of all is over 50 g, and there are 20 of plaster.
    expect(miss).toBeCloseTo(missed + 0.05 * (12 + 20 + 10 * flour) - 20, 6);
    // 60 g in two steps are short by less than the half of one.
    const enough = round(question, PIECE, {
      knobs: () => [held(3, [[0, 10]], 30), held(2, [[1, 30]], 20), held(flour - 9, [[2, 10]], 0)],
    });
    expect(0.05 * (30 + 60 + 10 * flour - 90)).toBeGreaterThan(60);
    expect(enough.miss).toBeCloseTo(missOf(limits, worldOf(question), enough.state, 1e-9), 9);
  });
});
