import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { reasonsFor, whatHoldsBack } from '../../src/core/optimise/reasons.js';
import { settle } from '../../src/core/optimise/settle.js';
import { binderIn, costOf, fullMould, LEANEST, LOOSE, perGram, RATIO, WASTE } from '../support/full-mould.js';
import { handFigure as figure } from '../support/hand-figure.js';
import { material, numberOf } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** What a dose, a ceiling of a dose and an empty bag cost, on moulds told by hand. */

const GREY = 'portland-cement-grey';
const WHITE = 'portland-cement-white';
const FILLER = 'limestone-flour';

/** Cost of a piece of cement with so many percent of it in filler at a price, and its slope per percent. */
const costAt = (percent: number, price: number, cement = 0.0004): number =>
  costOf(binderIn(GREY, RATIO, percent / 100) * (cement + (percent / 100) * price));
const slopeAt = (percent: number, price: number): number =>
  (costAt(percent + 0.01, price) - costAt(percent - 0.01, price)) / 0.02;

/** The price of filler at which a percent more of it changes nothing: that of the room it takes. */
const EVEN = 0.0004 / perGram(GREY) / numberOf(material(FILLER).density);

describe('a dose that was asked for', () => {
  const asked = (price: number, percent = 20): Question =>
    fullMould({ [GREY]: 0.0004, [FILLER]: price }, { doses: [{ material: FILLER, percent, of: 'binder' }] });

  it('gains its slope per percent: less of what is dear, more of what is cheap', () => {
    for (const [price, better] of [
      [0.002, 'less'],
      [0.00001, 'more'],
    ] as const) {
      const { doses } = whatHoldsBack(asked(price))!;
      expect(doses).toMatchObject([{ material: FILLER, kind: 'asked', percent: 20, of: 'binder', better }]);
      expect(doses[0]!.gain / Math.abs(slopeAt(20, price))).toBeCloseTo(1, 3);
    }
  });

  it('turns round where more is better: the heaviest piece wants less of a filler that is lighter than cement', () => {
    const { doses } = whatHoldsBack({ ...asked(0.0001), objective: 'heaviest' })!;
    expect(doses).toMatchObject([{ material: FILLER, kind: 'asked', better: 'less' }]);
    expect(doses[0]!.gain).toBeGreaterThan(0.1);
  });

  it('is told from a ten-thousandth of the objective on', () => {
    const cost = costAt(20, EVEN);
    // d(cost)/d(percent) is straight in the filler's price, and nought at the even one.
    const perPrice = (slopeAt(20, 2 * EVEN) - slopeAt(20, EVEN)) / EVEN;
    const told = (share: number): number => whatHoldsBack(asked(EVEN + (share * cost) / perPrice))!.doses.length;
    expect(told(1e-9)).toBe(0);
    expect(told(0.9e-4)).toBe(0);
    expect(told(1.1e-4)).toBe(1);
    expect(told(-0.9e-4)).toBe(0);
    expect(told(-1.1e-4)).toBe(1);
  });
});

describe('the ceiling of a dose', () => {
  const windowed = (most: number, warn?: number, price = 0.00001): Question => {
    const question = fullMould({ [GREY]: 0.0004, [WHITE]: 0.0009, [FILLER]: price });
    const dose = { of: 'binder' as const, usual: figure(10), most: figure(most) };
    const materials = question.materials.map(
      (m): Material =>
        m.id === FILLER ? { ...m, dose: warn === undefined ? dose : { ...dose, warn: figure(warn) } } : m,
    );
    return { ...question, materials };
  };

  it('is the most of its window, or what earns a warning, and a percent more would gain its slope', () => {
    for (const [most, warn, ceiling] of [
      [30, undefined, 30],
      [30, 25, 25],
      [30, 40, 30],
    ] as const) {
      const { doses } = whatHoldsBack(windowed(most, warn))!;
      expect(doses).toMatchObject([
        { material: FILLER, kind: 'ceiling', percent: ceiling, of: 'binder', better: 'more' },
      ]);
      expect(doses[0]!.gain / -slopeAt(ceiling, 0.00001)).toBeCloseTo(1, 3);
    }
  });

  it('is not told where it does not bind, nor of what is not used or has none', () => {
    expect(whatHoldsBack(windowed(100 * LEANEST + 50))!.doses).toEqual([]);
    expect(whatHoldsBack(windowed(30, undefined, 0.002))!.doses).toEqual([]);
    expect(whatHoldsBack(fullMould({ [GREY]: 0.0004, [FILLER]: 0.00001 }))!.doses).toEqual([]);
  });

  it('gives way to the dose that was asked for', () => {
    const question = { ...windowed(30), doses: [{ material: FILLER, percent: 12, of: 'binder' as const }] };
    expect(whatHoldsBack(question)!.doses).toMatchObject([{ kind: 'asked', percent: 12, better: 'more' }]);
    // A dose of something else changes nothing about the ceiling.
    const red = material('iron-oxide-red');
    const both: Question = {
      ...windowed(30),
      materials: [...windowed(30).materials, red],
      prices: new Map([...windowed(30).prices, [red.id, 0.01]]),
      doses: [{ material: red.id, percent: 3, of: 'binder' }],
    };
    expect(whatHoldsBack(both)!.doses.map((d) => [d.material, d.kind, d.better])).toEqual([
      [FILLER, 'ceiling', 'more'],
      [red.id, 'asked', 'less'],
    ]);
  });
});

describe('what is used up', () => {
  const stocked = (grams: number, white = 0.0009): Question =>
    fullMould({ [GREY]: 0.0004, [WHITE]: white }, { stock: new Map([[GREY, grams]]) });

  it('gains per gram more what the dearer one costs in its place', () => {
    const { stock } = whatHoldsBack(stocked(200))!;
    expect(stock.map((s) => s.material)).toEqual([GREY]);
    const byHand = costOf((0.0009 * perGram(GREY)) / perGram(WHITE) - 0.0004);
    expect(stock[0]!.gain / byHand).toBeCloseTo(1, 5);
  });

  it('is not told where some is left, none was there, or more of it gains next to nothing', () => {
    const needed = binderIn(GREY) / (1 - WASTE);
    expect(whatHoldsBack(stocked(1.001 * needed))!.stock).toEqual([]);
    expect(whatHoldsBack(stocked(0))!.stock).toEqual([]);
    const even = (0.0004 * perGram(WHITE)) / perGram(GREY);
    // A gram gains as much more as the other is dearer; all of it together, as a share of the piece.
    const told = (share: number): number =>
      whatHoldsBack(
        stocked(200, even + ((share * costAt(0, 0)) / 190) * (1 - WASTE) * (perGram(WHITE) / perGram(GREY))),
      )!.stock.length;
    expect(told(0.9e-4)).toBe(0);
    expect(told(1.1e-4)).toBe(1);
  });

  it('gains upwards too: the strongest piece of what little plasticiser there is', () => {
    const powder = material('plasticiser-powder');
    const question: Question = {
      ...fullMould({ [GREY]: 0.0004 }),
      objective: 'strongest',
      targets: [],
      materials: ['water', GREY, powder.id].map(material),
      stock: new Map([[powder.id, 0.5]]),
    };
    const { stock } = whatHoldsBack(question)!;
    expect(stock.map((s) => s.material)).toEqual([powder.id]);
    expect(stock[0]!.gain).toBeGreaterThan(0);
  });
});

describe('reasons', () => {
  it('are none where nothing is ranked, and where the best is only the nearest', () => {
    const question = fullMould({ [GREY]: 0.0004 });
    const world = worldOf(question);
    expect(reasonsFor(question, world, [])).toBeNull();
    const strong = { ...question, targets: [...LOOSE.slice(0, 1), { property: 'strength', min: 500 }] };
    const system = systemOf('portland');
    const answer = settle(strong, world, system, { aim: AIMS.cheapest })!;
    expect(answer.feasible).toBe(false);
    expect(reasonsFor(strong, world, [{ system, answer, free: null, tried: 0 }])).toBeNull();
    // Nor where the rows at a blend that is said to keep all leave nothing close by.
    const claimed = { system, answer: { ...answer, feasible: true }, free: null, tried: 0 };
    expect(reasonsFor(strong, world, [claimed])).toBeNull();
  });

  it('tell each kind beside the others', () => {
    const question = fullMould({ [GREY]: 0.0004, 'casting-plaster': 0.002, [WHITE]: 0.0009 });
    const reasons = whatHoldsBack(question)!;
    expect(reasons.heldBack.map((h) => h.property)).toEqual(['water-to-binder']);
    expect(reasons.doses).toEqual([]);
    expect(reasons.stock).toEqual([]);
    expect(reasons.entries.map((e) => e.material)).toEqual([WHITE]);
    expect(reasons.binders.map((b) => b.material)).toEqual(['casting-plaster']);
    const unpriced = whatHoldsBack(fullMould({ [GREY]: 0.0004 }), [material(WHITE)])!;
    expect(unpriced.entries.map((e) => [e.material, e.price])).toEqual([[WHITE, null]]);
  });
});
