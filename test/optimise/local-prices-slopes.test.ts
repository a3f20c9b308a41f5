import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { type LocalPrices, localPrices } from '../../src/core/optimise/local-prices.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Objective, Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { costOf, fullMould, perGram } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/**
 * A dual price is the derivative of the optimum in the right-hand side (Bertsimas and Tsitsiklis 1997, Introduction to
 * Linear Optimization, section 5.1, from memory). Here the right-hand sides are limits on curved properties, so each is
 * laid beside what settling anew gives with the limit a little up and a little down.
 */

const GREY = 'portland-cement-grey';
const FLOW = { property: 'flow', min: 0.9, max: 1.12 };
const WEAK = { property: 'strength', min: 0.1 };

function told(question: Question, system: string): { readonly answer: Settled; readonly prices: LocalPrices } {
  const world = worldOf(question);
  const aim = AIMS[question.objective];
  const answer = settle(question, world, systemOf(system), { aim })!;
  return { answer, prices: localPrices(question, world, systemOf(system), answer, aim)! };
}

interface Case {
  readonly objective: Objective;
  readonly system: string;
  readonly shelf: Readonly<Record<string, number>>;
  readonly targets: Question['targets'];
  readonly property: string;
  readonly side: 'min' | 'max';
}

const LEAN = { [GREY]: 0.0004, 'limestone-flour': 0.0001 };
const MORTAR = { [GREY]: 0.0004, 'masonry-sand': 0.0001 };
const PLASTER = { 'casting-plaster': 0.0004, 'limestone-flour': 0.0001 };
const CASES: readonly Case[] = [
  {
    objective: 'cheapest',
    system: 'portland',
    shelf: LEAN,
    targets: [FLOW, { property: 'strength', min: 30 }],
    property: 'strength',
    side: 'min',
  },
  {
    objective: 'cheapest',
    system: 'gypsum',
    shelf: PLASTER,
    targets: [FLOW, { property: 'strength', min: 10 }],
    property: 'strength',
    side: 'min',
  },
  {
    objective: 'strongest',
    system: 'portland',
    shelf: LEAN,
    targets: [FLOW, { property: 'cost', max: 0.25 }],
    property: 'cost',
    side: 'max',
  },
  {
    objective: 'cheapest',
    system: 'gypsum',
    shelf: { ...PLASTER, 'citric-acid': 0.01 },
    targets: [FLOW, { property: 'working-time', min: 20 }],
    property: 'working-time',
    side: 'min',
  },
  { objective: 'cheapest', system: 'gypsum', shelf: PLASTER, targets: [FLOW, WEAK], property: 'flow', side: 'max' },
  {
    objective: 'cheapest',
    system: 'portland',
    shelf: MORTAR,
    targets: [FLOW, WEAK, { property: 'paste-to-voids', min: 1.1 }],
    property: 'flow',
    side: 'max',
  },
  {
    objective: 'cheapest',
    system: 'portland',
    shelf: MORTAR,
    targets: [FLOW, WEAK, { property: 'paste-to-voids', min: 1.1 }],
    property: 'paste-to-voids',
    side: 'min',
  },
  // Fly ash at just the third of the cement that counts for strength: a corner of the model, seen from both its faces.
  {
    objective: 'cheapest',
    system: 'portland',
    shelf: { ...LEAN, 'fly-ash': 0.0002 },
    targets: [FLOW, { property: 'strength', min: 30 }],
    property: 'strength',
    side: 'min',
  },
];

const questionOf = ({ objective, shelf, targets }: Pick<Case, 'objective' | 'shelf' | 'targets'>): Question =>
  fullMould(
    {},
    {
      objective,
      targets,
      materials: ['water', ...Object.keys(shelf)].map(material),
      prices: new Map(Object.entries(shelf)),
    },
  );

describe('the price of a limit', () => {
  it.each(CASES)('is the slope of the best $objective $system in $property $side', (one) => {
    const { prices, answer } = told(questionOf(one), one.system);
    const limit = one.targets.find((t) => t.property === one.property)![one.side]!;
    const valueAt = (moved: number): number => {
      const targets = one.targets.map((t) => (t.property === one.property ? { ...t, [one.side]: moved } : t));
      return told(questionOf({ ...one, targets }), one.system).answer.value!;
    };
    expect(answer.feasible).toBe(true);
    const slope = (valueAt(1.003 * limit) - valueAt(0.997 * limit)) / (0.006 * limit);
    expect(Math.abs(slope * limit)).toBeGreaterThan(0.01 * answer.value!);
    expect(prices.perLimit(one.property, one.side) / slope).toBeCloseTo(1, 2);
    // The other side does not bind, and is free.
    expect(prices.perLimit(one.property, one.side === 'min' ? 'max' : 'min')).toBe(0);
  });

  it('is nought, not a division by it, where there is no such limit or a time is at least nothing', () => {
    const targets = [FLOW, { property: 'strength', min: 30 }, { property: 'working-time', min: 0 }];
    const { prices } = told(questionOf({ objective: 'cheapest', shelf: LEAN, targets }), 'portland');
    expect(prices.perLimit('cost', 'max')).toBe(0);
    expect(prices.perLimit('no-such-property', 'min')).toBe(0);
    expect(prices.perLimit('working-time', 'min')).toBe(0);
  });

  it('is none where nothing keeps the limits close by', () => {
    const targets = [FLOW, { property: 'strength', min: 500 }];
    const question = questionOf({ objective: 'cheapest', shelf: LEAN, targets });
    const world = worldOf(question);
    const nearest = settle(question, world, systemOf('portland'), { aim: AIMS.cheapest })!;
    expect(nearest.feasible).toBe(false);
    expect(localPrices(question, world, systemOf('portland'), nearest, AIMS.cheapest)).toBeNull();
  });
});

describe('the price of a gram put in', () => {
  // The dear cement is out; a gram of it takes the place of so much of the cheap one as fills the same room.
  const question = fullMould({ [GREY]: 0.0004, 'portland-cement-white': 0.0009 });

  it('is nothing for what is free to move, and for what is out its own price less what it saves', () => {
    const { prices, answer } = told(question, 'portland');
    expect(answer.grams[2]).toBe(0);
    expect(Math.abs(prices.perGram[0]!)).toBeLessThan(1e-12);
    expect(Math.abs(prices.perGram[1]!)).toBeLessThan(1e-12);
    const byHand = costOf(0.0009 - (0.0004 * perGram('portland-cement-white')) / perGram(GREY));
    expect(prices.perGram[2]! / byHand).toBeCloseTo(1, 6);
  });

  it('is what a gram more would save of what is used up', () => {
    const little = { ...question, stock: new Map([[GREY, 200]]) };
    const held = told(little, 'portland');
    expect(held.answer.grams[1]).toBeCloseTo(190, 6);
    const byHand = costOf(0.0004 - (0.0009 * perGram(GREY)) / perGram('portland-cement-white'));
    expect(byHand).toBeLessThan(0);
    expect(held.prices.perGram[1]! / byHand).toBeCloseTo(1, 6);
    expect(Math.abs(held.prices.perGram[2]!)).toBeLessThan(1e-12);
  });
});

describe('the price of a row that is no limit', () => {
  it('is told by its name, for each gram of its right-hand side', () => {
    // Half as much filler as cement, asked for. A gram more of it takes the place of cement and its water.
    const question = fullMould(LEAN, { doses: [{ material: 'limestone-flour', percent: 50, of: 'binder' }] });
    const { prices, answer } = told(question, 'portland');
    expect(answer.grams[2]! / answer.grams[1]!).toBeCloseTo(0.5, 6);
    const room = perGram(GREY, 0.6, 1) - perGram(GREY);
    // x of filler beside c of cement: x = c/2 + 1 and the room of both is what it was.
    const cement = -room / (perGram(GREY) + 0.5 * room);
    const byHand = costOf(0.0004 * cement + 0.0001 * (1 + 0.5 * cement));
    expect(prices.perRow('limestone-flour as asked') / byHand).toBeCloseTo(1, 5);
    expect(prices.perRow('no-such row')).toBe(0);
    expect(prices.perRow('binder in the blend')).toBe(0);
    expect(prices.perRow('water-to-binder max')).toBe(0);
  });
});
