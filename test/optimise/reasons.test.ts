import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { worldOf } from '../../src/core/blend/world.js';
import { withLimit } from '../../src/core/optimise/held-back.js';
import { localPrices } from '../../src/core/optimise/local-prices.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { reasonsFor, whatHoldsBack } from '../../src/core/optimise/reasons.js';
import { settle } from '../../src/core/optimise/settle.js';
import { type SystemAnswer, settleSystems } from '../../src/core/optimise/settle-systems.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import { openSystems } from '../../src/core/optimise/systems.js';
import { material, model } from '../support/shipped-table.js';
import { smallQuestion, systemOf } from '../support/small-shelf.js';

const WATER_DENSITY = 0.9982;

/**
 * Two plasters and water, held to a water-to-binder ratio r: every gram of plaster brings r of water, so a blend is
 * told by hand. Cost per piece = price x plaster / (1 - waste); plaster = V (1 - air) / (1/density + r/water's density).
 */
const R = 0.6;
const WASTE = 0.05;
const PRICES = [0.001, 0.002] as const;
function handQuestion(prices: readonly [number, number] = PRICES): Question {
  const [a, b] = [material('casting-plaster'), material('alpha-gypsum-cement')];
  return {
    objective: 'cheapest',
    targets: [
      { property: 'water-to-binder', max: R },
      { property: 'flow', min: 0.1, max: 10 },
      { property: 'strength', min: 0.01 },
    ],
    conditions: { ...DEFAULT_CONDITIONS, volume: 500, waste: WASTE },
    materials: [material('water'), a, b],
    doses: [],
    figures: model,
    prices: new Map([
      [a.id, prices[0]],
      [b.id, prices[1]],
    ]),
    stock: new Map(),
    batch: { pieces: 1, step: 0.1, fine: null },
  };
}

describe('prices of a blend told by hand', () => {
  const question = handQuestion();
  const world = worldOf(question);
  const system = systemOf('gypsum');
  const answer = settle(question, world, system, { aim: AIMS.cheapest })!;
  const prices = localPrices(question, world, system, answer, AIMS.cheapest)!;
  const air = world.model(`air-${question.conditions.pour}`);
  const perGram = (i: number): number => world.materials[i]!.volume + R * (1 / WATER_DENSITY);
  const plaster = (i: number): number => (500 * (1 - air)) / perGram(i);

  it('is the blend of the cheaper plaster', () => {
    expect(answer.feasible).toBe(true);
    expect(answer.grams[1]! / plaster(1)).toBeCloseTo(1, 4);
    expect(answer.value! / ((PRICES[0] * plaster(1)) / (1 - WASTE))).toBeCloseTo(1, 4);
  });

  it('gains per unit of water-to-binder what the formula says', () => {
    const slope = (-answer.value! * (1 / WATER_DENSITY)) / perGram(1);
    expect(prices.perLimit('water-to-binder', 'max') / slope).toBeCloseTo(1, 3);
    expect(prices.perLimit('strength', 'min')).toBe(0);
  });

  it('lets the other plaster in at the price per volume of the first', () => {
    const reasons = whatHoldsBack(question)!;
    const entry = reasons.entries.find((e) => e.material === 'alpha-gypsum-cement')!;
    const byHand = (PRICES[0] * perGram(2)) / perGram(1);
    expect(entry.entersAt! / byHand).toBeCloseTo(1, 3);
    expect(entry.checked).toBe(true);
    expect(entry.price).toBe(PRICES[1]);
    // At a price by hand the two cost the same; a little less and the other is the cheapest blend by itself.
    const under = handQuestion([PRICES[0], 0.99 * byHand]);
    expect(settle(under, worldOf(under), system, { aim: AIMS.cheapest })!.grams[1]).toBe(0);
  });
});

interface Case {
  readonly seed: number;
  readonly question: Question;
  readonly ranked: readonly SystemAnswer[];
}
const cases: Case[] = [];
for (let seed = 1; seed <= 40; seed++) {
  const { question } = smallQuestion(seed);
  const { ranked } = settleSystems(question, worldOf(question), AIMS[question.objective]);
  if (ranked[0]?.answer.feasible === true) cases.push({ seed, question, ranked });
}

describe('what holds a blend back, on random shelves', () => {
  const told = cases.map((c) => ({ ...c, reasons: reasonsFor(c.question, worldOf(c.question), c.ranked)! }));

  it('is told for enough of them', () => {
    expect(told.length).toBeGreaterThan(20);
    expect(told.filter((t) => t.reasons.heldBack.length > 0).length).toBeGreaterThan(0.8 * told.length);
  });

  it('gains by the dual prices what settling anew from nothing gains', () => {
    let close = 0;
    let all = 0;
    for (const { seed, question, ranked, reasons } of told) {
      const { system, answer } = ranked[0]!;
      const aim = AIMS[question.objective];
      const limits = [...question.targets, ...standingTargets(question.targets)];
      for (const h of reasons.heldBack) {
        expect(h.gain, `seed ${seed} ${h.property}`).toBeGreaterThan(0);
        const moved = withLimit(question, limits.find((t) => t.property === h.property)!, h.side, h.movedTo);
        const anew = settle(moved, worldOf(moved), system, { aim })!;
        const gained = aim.sense === 'min' ? answer.value! - anew.value! : anew.value! - answer.value!;
        const foretold = h.gain * Math.abs(h.movedTo - h.limit);
        all++;
        if (Math.abs(gained - foretold) <= 0.2 * foretold + 2e-5 * Math.abs(answer.value!)) close++;
      }
    }
    expect(all).toBeGreaterThan(40);
    expect(close / all).toBeGreaterThan(0.85);
  });

  it('says of most gains that both agree, and never that a limit costs which does not bind', () => {
    const all = told.flatMap((t) => t.reasons.heldBack.map((h) => ({ ...h, t })));
    expect(all.filter((h) => h.agrees).length / all.length).toBeGreaterThan(0.8);
    for (const { property, side, limit, t } of all) {
      const { answer } = t.ranked[0]!;
      const program = answer.program.rows.filter((_r, r) => {
        const origin = answer.program.origins[r]!;
        return origin.kind !== 'fixed' && origin.target.property === property && origin.side === side;
      });
      for (const row of program) {
        const at = row.coefficients.reduce((s, c, i) => s + c * answer.grams[i]!, 0);
        const slack = row.high === undefined ? at - row.low! : row.high - at;
        expect(Math.abs(slack) / (row.scale ?? 1), `seed ${t.seed} ${property} ${limit}`).toBeLessThan(1e-3);
      }
    }
  });

  it('finds entry prices that hold up: a little below, the material is in the cheapest blend, a little above it is not', () => {
    let checked = 0;
    let entries = 0;
    for (const { question, reasons, ranked } of told) {
      if (question.objective !== 'cheapest') continue;
      for (const e of reasons.entries) {
        if (e.entersAt === null) continue;
        entries++;
        expect(e.entersAt).toBeLessThanOrEqual(e.price! * (1 + 1e-6));
        if (e.checked !== true) continue;
        checked++;
        const at = (price: number): number => {
          const priced = { ...question, prices: new Map([...question.prices, [e.material, price]]) };
          return settle(priced, worldOf(priced), ranked[0]!.system, { aim: AIMS.cheapest })!.value!;
        };
        const own = ranked[0]!.answer.value!;
        expect(at(0.8 * e.entersAt)).toBeLessThan(own * (1 - 1e-6));
      }
    }
    expect(entries).toBeGreaterThan(5);
    expect(checked / entries).toBeGreaterThan(0.7);
  });
});

describe('doses, stock and other binders', () => {
  const { question: base } = smallQuestion(cases[0]!.seed);

  it('tell what a percent less of a dose that was asked for gains', () => {
    const pigment = material('iron-oxide-red');
    const asked = (percent: number): Question => ({
      ...base,
      objective: 'cheapest',
      targets: [{ property: 'strength', min: 3 }],
      materials: [...base.materials, pigment],
      doses: [{ material: pigment.id, percent, of: 'binder' }],
      prices: new Map([...base.prices, [pigment.id, 0.01]]),
    });
    const [dose] = whatHoldsBack(asked(4))!.doses;
    expect(dose).toMatchObject({ material: pigment.id, kind: 'asked', percent: 4, better: 'less' });
    const best = (percent: number): number =>
      Math.min(
        ...openSystems(asked(percent), worldOf(asked(percent))).flatMap((s) => {
          const found = settle(asked(percent), worldOf(asked(percent)), s, { aim: AIMS.cheapest });
          return found?.feasible === true ? [found.value!] : [];
        }),
      );
    expect((best(4) - best(3.9)) / 0.1 / dose!.gain).toBeCloseTo(1, 1);
  });

  const mortar: Question = {
    ...handQuestion(),
    targets: [{ property: 'strength', min: 4 }],
    materials: ['water', 'portland-cement-grey', 'casting-plaster', 'masonry-sand'].map((id) => material(id)),
    prices: new Map([
      ['portland-cement-grey', 0.0004],
      ['casting-plaster', 0.0013],
      ['masonry-sand', 0.0002],
    ]),
  };

  it('tell what a gram more of what is used up gains', () => {
    const cheapest = (question: Question) =>
      settleSystems(question, worldOf(question), AIMS.cheapest).ranked[0]!.answer;
    const free = cheapest(mortar);
    const held = (grams: number): Question => ({ ...mortar, stock: new Map([['masonry-sand', grams]]) });
    const least = 0.5 * free.grams[3]!;
    expect(least).toBeGreaterThan(50);
    const stock = whatHoldsBack(held(least))!.stock;
    expect(stock.map((s) => s.material)).toEqual(['masonry-sand']);
    // Stock counts what is mixed, waste and all.
    const more = 0.02 * least;
    const gained = (cheapest(held(least)).value! - cheapest(held(least + more)).value!) / (more * (1 - WASTE));
    expect(gained / stock[0]!.gain).toBeCloseTo(1, 1);
    expect(whatHoldsBack(held(1e6))!.stock).toEqual([]);
  });

  it('find the price at which another binder system costs as little', () => {
    const question = mortar;
    const { ranked } = settleSystems(question, worldOf(question), AIMS.cheapest);
    const { binders } = reasonsFor(question, worldOf(question), ranked)!;
    const plaster = binders.find((b) => b.system === 'gypsum')!;
    expect(plaster.material).toBe('casting-plaster');
    const even = { ...question, prices: new Map([...question.prices, ['casting-plaster', plaster.entersAt!]]) };
    const cost = settle(even, worldOf(even), systemOf('gypsum'), { aim: AIMS.cheapest })!.value!;
    expect(cost / ranked[0]!.answer.value!).toBeCloseTo(1, 3);
  });

  it('are not told of a brief that nothing meets', () => {
    const impossible = { ...handQuestion(), targets: [{ property: 'strength', min: 500 }] };
    expect(whatHoldsBack(impossible)).toBeNull();
  });
});
