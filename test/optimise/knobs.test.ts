import { describe, expect, it } from 'vitest';
import { FILLED_BY_EYE, gramsAt, inSteps, type Knob, scaleKnobs, stepFor } from '../../src/core/optimise/knobs.js';
import { isDry, LEAST_STEPS, leastDose } from '../../src/core/optimise/least-dose.js';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';
import type { Question } from '../../src/core/optimise/question.js';
import { questionOf } from '../support/hand-question.js';

const IDS = ['water', 'casting-plaster', 'limestone-flour', 'citric-acid'] as const;
const COARSE = { pieces: 1, step: 1, fine: null };
const FINE = { pieces: 1, step: 1, fine: { step: 0.1, most: 200 } };
/** The knob of one ingredient of a batch that holds so many grams of it and nothing else. */
const knobOf = (id: (typeof IDS)[number], grams: number, more: Partial<Question> = {}): Knob => {
  const question = questionOf(IDS, more);
  const [knob, ...others] = scaleKnobs(
    question,
    IDS.map((one) => (one === id ? grams : 0)),
  );
  expect(others).toEqual([]);
  return knob!;
};

describe('an ingredient on the scale', () => {
  it('is turned in whole steps of the scale that bears it', () => {
    expect(stepFor(200, FINE)).toBe(0.1);
    expect(stepFor(200.01, FINE)).toBe(1);
    expect(stepFor(3, COARSE)).toBe(1);
    expect(knobOf('casting-plaster', 40.25, { batch: FINE })).toMatchObject({
      perStep: [[1, 0.1]],
      exact: expect.closeTo(402.5, 9),
    });
    expect(knobOf('casting-plaster', 240.25, { batch: FINE })).toMatchObject({ perStep: [[1, 1]], exact: 240.25 });
  });

  it('has no knob where the blend has none of it', () => {
    expect(scaleKnobs(questionOf(IDS), [0, 0, 0, 0])).toEqual([]);
    expect(scaleKnobs(questionOf(IDS), [100, 0, 50, 0]).map((k) => k.perStep[0]![0])).toEqual([0, 2]);
  });

  it('is used at its least dose if at all, in steps rounded up', () => {
    // Five steps of the coarse scale.
    expect(knobOf('limestone-flour', 40, { batch: COARSE }).least).toBe(LEAST_STEPS);
    expect(knobOf('limestone-flour', 40, { batch: COARSE, limits: { ingredients: null, leastDose: 7.5 } }).least).toBe(
      8,
    );
    // Thirty tenths of a gram are thirty steps, dust of binary figures or not.
    expect(knobOf('limestone-flour', 40, { batch: FINE, limits: { ingredients: null, leastDose: 3 } }).least).toBe(30);
  });

  it('stays at what a blend has already where that is less', () => {
    expect(knobOf('limestone-flour', 3.4, { batch: COARSE }).least).toBe(3);
    expect(knobOf('limestone-flour', 3.6, { batch: COARSE }).least).toBe(4);
  });

  it('may be little where it is water, and is at least one step of what was asked for', () => {
    expect(knobOf('water', 40, { batch: COARSE }).least).toBe(0);
    const doses = [{ material: 'citric-acid', percent: 0.1, of: 'binder' }] as const;
    expect(knobOf('citric-acid', 40, { batch: COARSE, doses }).least).toBe(1);
    expect(knobOf('limestone-flour', 40, { batch: COARSE, doses }).least).toBe(LEAST_STEPS);
  });

  it('is at most what is on hand, in whole steps, and what the fine scale bears', () => {
    const stock = new Map([['limestone-flour', 45.7]]);
    expect(knobOf('limestone-flour', 40, { batch: COARSE, stock }).most).toBe(45);
    expect(knobOf('limestone-flour', 40, { batch: FINE, stock }).most).toBe(457);
    expect(knobOf('limestone-flour', 40, { batch: FINE }).most).toBe(2000);
    // On the coarse scale nothing but the stock ends it.
    expect(knobOf('limestone-flour', 240, { batch: FINE }).most).toBe(1e9);
    expect(knobOf('limestone-flour', 40, { batch: COARSE }).most).toBe(1e9);
    // More than is on hand only where the blend itself says so.
    expect(knobOf('limestone-flour', 46.2, { batch: COARSE, stock }).most).toBe(46);
  });

  it('is not ended by a fine scale as coarse as the coarse one once it is too heavy for it', () => {
    const twice = { pieces: 1, step: 1, fine: { step: 1, most: 200 } };
    expect(knobOf('limestone-flour', 40, { batch: twice }).most).toBe(200);
    expect(knobOf('limestone-flour', 240, { batch: twice }).most).toBe(1e9);
  });
});

describe('the least dose', () => {
  it('is what the maker says, or five steps of the finest scale', () => {
    expect(leastDose(questionOf(IDS, { batch: COARSE }))).toBe(5);
    expect(leastDose(questionOf(IDS, { batch: FINE }))).toBeCloseTo(0.5, 12);
    expect(leastDose(questionOf(IDS, { batch: FINE, limits: { ingredients: 2, leastDose: null } }))).toBeCloseTo(0.5);
    expect(leastDose(questionOf(IDS, { batch: FINE, limits: { ingredients: null, leastDose: 3 } }))).toBe(3);
  });

  it('counts as dry ingredients all but what is poured', () => {
    const question = questionOf(['water', 'casting-plaster', 'acrylic-emulsion', 'citric-acid']);
    expect(question.materials.map((_m, i) => isDry(question, i))).toEqual([false, true, false, true]);
  });
});

/** Water by the half gram, and two parts of plaster that go in with one of sand, 3 g a step together. */
const KNOBS: readonly Knob[] = [
  { perStep: [[0, 0.5]], exact: 10.4, least: 0, most: 30 },
  {
    perStep: [
      [1, 2],
      [2, 1],
    ],
    exact: 7.6,
    least: 6,
    most: 9,
  },
];

describe('the batch at some steps of the knobs', () => {
  it('holds what each knob brings of each stuff', () => {
    expect(gramsAt(KNOBS, [10, 7], 4)).toEqual([5, 14, 7, 0]);
    expect(gramsAt([{ ...KNOBS[0]! }, { ...KNOBS[1]!, perStep: [[0, 1]] }], [10, 7], 2)).toEqual([12, 0]);
  });

  it('is free of the dust of binary figures', () => {
    expect(gramsAt([{ perStep: [[0, 0.1]], exact: 3, least: 0, most: 9 }], [3], 1)).toEqual([0.3]);
  });
});

describe('a program in whole steps', () => {
  // Of two pieces from one batch; three stuffs and a column of the objective's own.
  const linear: LinearProgram = {
    columns: [{ name: 'water' }, { name: 'plaster' }, { name: 'sand' }, { name: 'miss' }],
    rows: [
      { name: 'mould', coefficients: [1, 0.5, 0.4, 0], low: 20, high: 20, scale: 20 },
      { name: 'wet', coefficients: [1, -0.5, 0, 3], high: 1 },
    ],
    sense: 'max',
    objective: [4, 2, 6, 7],
  };
  const whole = inSteps(linear, KNOBS, 3, 2, 2);

  it('turns each coefficient per gram of a piece into one per step of the batch', () => {
    expect(whole.objective).toEqual([4 * 0.25, 2 * 1 + 6 * 0.5, 7]);
    expect(whole.rows[0]!.coefficients).toEqual([0.25, expect.closeTo(0.7, 12), 0]);
    expect(whole.rows[1]).toEqual({ name: 'wet', coefficients: [0.25, -0.5, 3], high: 1 });
    expect(whole.sense).toBe('max');
  });

  it('turns knobs within reach of the exact blend and their own ends; columns beside the blend stay', () => {
    expect(whole.columns).toEqual([
      { name: 'steps 0', lower: 8, upper: 13, integer: true },
      { name: 'steps 1', lower: 6, upper: 9, integer: true },
      { name: 'miss' },
    ]);
  });

  it('lets an equality give way by the step that moves it most', () => {
    // Half a step of each: (0.25 + 0.7) / 2 = 0.475; by eye 0.0025 x 20 = 0.05; a whole step: 0.7.
    expect(whole.rows[0]).toMatchObject({ name: 'mould', scale: 20 });
    expect(whole.rows[0]!.low).toBeCloseTo(19.3, 12);
    expect(whole.rows[0]!.high).toBeCloseTo(20.7, 12);
  });

  it('or by half a step of every knob, where many add up to more', () => {
    const three = [1, 2, 3].map((): Knob => ({ perStep: [[0, 1]], exact: 5, least: 0, most: 9 }));
    const row = { name: 'mould', coefficients: [-1], low: -8, high: -8 };
    const [given] = inSteps(
      { columns: [{ name: 'x' }], rows: [row], sense: 'min', objective: [1] },
      three,
      1,
      1,
      2,
    ).rows;
    expect([given!.low, given!.high]).toEqual([-9.5, -6.5]);
  });

  it('or by what nobody sees in a mould, where steps are fine', () => {
    const row = { name: 'mould', coefficients: [0.001], low: -400, high: -400 };
    const one: Knob = { perStep: [[0, 1]], exact: 5, least: 0, most: 9 };
    const [given] = inSteps(
      { columns: [{ name: 'x' }], rows: [row], sense: 'min', objective: [1] },
      [one],
      1,
      1,
      2,
    ).rows;
    expect(given!.low).toBeCloseTo(-400 * (1 + FILLED_BY_EYE), 9);
    expect(given!.high).toBeCloseTo(-400 * (1 - FILLED_BY_EYE), 9);
    expect(FILLED_BY_EYE).toBe(1 / 400);
  });

  it.each([
    ['a window', { low: 3, high: 5 }],
    ['a row of one side', { low: 3 }],
    ['a row that was given up', {}],
  ])('keeps %s as it is', (_words, sides) => {
    const row = { name: 'window', coefficients: [1], ...sides };
    const one: Knob = { perStep: [[0, 1]], exact: 5, least: 0, most: 9 };
    const { rows } = inSteps({ columns: [{ name: 'x' }], rows: [row], sense: 'min', objective: [1] }, [one], 1, 1, 2);
    expect(rows).toEqual([row]);
  });
});
