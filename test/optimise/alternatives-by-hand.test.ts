import { describe, expect, it } from 'vitest';
import { alternatives } from '../../src/core/optimise/alternatives.js';
import type { Proposal } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { binderIn, costOf, type Dry, fullMould, LEANEST, LOOSE, RATIO } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';

/** Other blends than the best, on shelves where each can be told and reckoned by hand. */

const PLASTER = 'casting-plaster';
const GREY = 'portland-cement-grey';
const WHITE = 'portland-cement-white';
const CSA = 'csa-rapid-cement';
const FILLER = 'limestone-flour';

const found = (question: Question, count: number) => alternatives(question, count, { draws: 0 });
const made = (proposal: Proposal): string =>
  proposal.ingredients
    .map((i) => i.material)
    .filter((id) => id !== 'water')
    .join(' + ');
const exact = (proposal: Proposal): number => proposal.objective.exact!;
const cost = (binder: Dry, price: number, filler = 0, fillerPrice = 0): number =>
  costOf(binderIn(binder, RATIO, filler) * (price + filler * fillerPrice));
const outcomes = ({ systems }: Proposal) => Object.fromEntries(systems.map((s) => [s.system, s.outcome]));

describe('alternatives of other binders', () => {
  const question = fullMould({ [PLASTER]: 0.001, [GREY]: 0.0004, [CSA]: 0.003 });

  it('are the cheapest of each, the cheaper first', () => {
    const { first, others } = found(question, 3);
    expect(made(first)).toBe(GREY);
    expect(others.map((o) => made(o.proposal))).toEqual([PLASTER, CSA]);
    expect(exact(others[0]!.proposal)).toBeCloseTo(cost(PLASTER, 0.001), 6);
    expect(exact(others[1]!.proposal)).toBeCloseTo(cost(CSA, 0.003), 6);
    for (const { proposal } of others) expect(proposal.status).toBe('met');
  });

  it('say what they do without and what they have instead', () => {
    const { others } = found(question, 3);
    expect(others.map((o) => [o.without, o.instead])).toEqual([
      [[GREY], [PLASTER]],
      [[GREY], [CSA]],
    ]);
  });

  it('are told in their own report of the systems: this one chosen, the first one possible', () => {
    const [plaster, csa] = found(question, 3).others.map((o) => o.proposal);
    expect(outcomes(plaster!)).toMatchObject({ gypsum: 'chosen', portland: 'possible', aluminate: 'absent' });
    expect(outcomes(csa!)).toMatchObject({ csa: 'chosen', portland: 'possible', lime: 'absent' });
    expect(csa!.systems.find((s) => s.system === 'csa')).toMatchObject({ value: exact(csa!), why: null });
    expect(plaster!.systems.filter((s) => s.outcome === 'chosen')).toHaveLength(1);
  });

  it('are as many as are asked for, the first among them, and none where one is', () => {
    expect(found(question, 1).others).toEqual([]);
    expect(found(question, 0).others).toEqual([]);
    expect(made(found(question, 1).first)).toBe(GREY);
    expect(found(question, 2).others.map((o) => made(o.proposal))).toEqual([PLASTER]);
    // No more than there are: a shelf of three binders and nothing else.
    expect(found(question, 9).others).toHaveLength(2);
  });

  it('leave out binders that cannot meet the brief', () => {
    const early = { ...question, targets: [...question.targets, { property: 'demould-time', max: 60 }] };
    const { first, others } = found(early, 3);
    expect(made(first)).toBe(PLASTER);
    expect(others.map((o) => o.proposal.system)).not.toContain('portland');
  });

  it('leave out a binder that was looked at closely and misses by little', () => {
    // With just so much water plaster comes to 18.7 MPa, CSA to 32.6 and portland to 16.6.
    const targets = [
      { property: 'water-to-binder', min: RATIO, max: RATIO },
      LOOSE[0]!,
      { property: 'strength', min: 18 },
    ];
    const { first, others } = found({ ...question, targets }, 9);
    expect(outcomes(first)).toMatchObject({ gypsum: 'chosen', portland: 'misses' });
    expect(first.systems.find((s) => s.system === 'portland')!.why).toBe('misses a target');
    expect(others.map((o) => made(o.proposal))).toEqual([CSA]);
  });

  it('leave room for others where a binder cannot be weighed out as there is of it', () => {
    // Of the two plasters there is enough together, but of one of them less than is ever weighed.
    const base = fullMould({ [GREY]: 0.0004, [WHITE]: 0.0009, [PLASTER]: 0.003, 'alpha-gypsum-cement': 0.003 });
    const stock = new Map([
      [PLASTER, 400],
      ['alpha-gypsum-cement', 200],
    ]);
    const scarce = { ...base, stock, limits: { ingredients: null, leastDose: 250 } };
    expect(found(scarce, 2).others.map((o) => made(o.proposal))).toEqual([WHITE]);
    const weighed = found({ ...base, stock }, 2).others;
    expect(weighed.map((o) => o.proposal.system)).toEqual(['gypsum']);
  });

  it('are found of systems that were looked at closely and of those that were far behind', () => {
    const close = fullMould({ [PLASTER]: 0.00045, [GREY]: 0.0004, [CSA]: 0.003 });
    const { first, others } = found(close, 3);
    expect(outcomes(first)).toMatchObject({ portland: 'chosen', gypsum: 'possible', csa: 'behind' });
    expect(others.map((o) => made(o.proposal))).toEqual([PLASTER, CSA]);
  });

  it('put the cheaper first, whichever binder is looked at first', () => {
    const dear = fullMould({ [PLASTER]: 0.003, [GREY]: 0.0004, [CSA]: 0.002 });
    expect(found(dear, 2).others.map((o) => made(o.proposal))).toEqual([CSA]);
    expect(found(dear, 3).others.map((o) => made(o.proposal))).toEqual([CSA, PLASTER]);
  });

  it('are told once where two systems come to the same blend', () => {
    // Lime may go with portland, and stand by itself.
    for (const first of [PLASTER, GREY] as const) {
      const question = fullMould({ [first]: 0.0004, [FILLER]: 0.0001, 'hydrated-lime': 0.0006 });
      const sets = found(question, 9).others.map((o) => made(o.proposal));
      expect(sets.sort()).toEqual([first, `${FILLER} + hydrated-lime`, 'hydrated-lime'].sort());
    }
  });

  it('may have something more and lack nothing', () => {
    const { first, others } = found(fullMould({ [PLASTER]: 0.003, [GREY]: 0.004, 'silica-fume': 0.002 }), 2);
    expect(made(first)).toBe(`${PLASTER} + silica-fume`);
    expect(others.map((o) => [o.proposal.system, o.without, o.instead])).toEqual([
      ['gypsum-portland-pozzolan', [], [GREY]],
    ]);
  });
});

describe('alternatives within one binder', () => {
  it('do without an ingredient that counts in a better one', () => {
    const question = fullMould({ [GREY]: 0.0004, [WHITE]: 0.0009, [FILLER]: 0.0001 });
    const { first, others } = found(question, 4);
    expect(made(first)).toBe(`${GREY} + ${FILLER}`);
    // In order of cost: no filler; the dear cement with filler; the dear cement by itself.
    expect(others.map((o) => made(o.proposal))).toEqual([GREY, `${WHITE} + ${FILLER}`, WHITE]);
    expect(exact(others[0]!.proposal)).toBeCloseTo(cost(GREY, 0.0004), 6);
    expect(exact(others[1]!.proposal)).toBeCloseTo(cost(WHITE, 0.0009, LEANEST, 0.0001), 6);
    expect(exact(others[2]!.proposal)).toBeCloseTo(cost(WHITE, 0.0009), 6);
    expect(found(question, 2).others.map((o) => made(o.proposal))).toEqual([GREY]);
    expect(others.map((o) => [o.without, o.instead])).toEqual([
      [[FILLER], []],
      [[GREY], [WHITE]],
      [[GREY, FILLER], [WHITE]],
    ]);
  });

  it('come after those of other binders, and all are told best first', () => {
    const shelf = { [PLASTER]: 0.003, [GREY]: 0.0004, [FILLER]: 0.0001 };
    const two = found(fullMould(shelf), 2).others;
    expect(two.map((o) => made(o.proposal))).toEqual([`${PLASTER} + ${FILLER}`]);
    const three = found(fullMould(shelf), 3).others;
    // Cement by itself is cheaper than plaster with filler, though it was looked for later.
    expect(three.map((o) => made(o.proposal))).toEqual([GREY, `${PLASTER} + ${FILLER}`]);
    const all = found(fullMould(shelf), 9).others;
    expect(all.map((o) => made(o.proposal))).toEqual([GREY, `${PLASTER} + ${FILLER}`, PLASTER]);
  });

  it('go the other way where more is better', () => {
    const shelf = { [PLASTER]: 0.003, [GREY]: 0.0004, [CSA]: 0.003, [FILLER]: 0.0001 };
    const { first, others } = found({ ...fullMould(shelf), objective: 'heaviest' }, 3);
    const values = [first, ...others.map((o) => o.proposal)].map(exact);
    // Plaster settled first of the other binders, but CSA is the denser.
    expect([first, ...others.map((o) => o.proposal)].map((p) => p.system)).toEqual(['portland', 'csa', 'gypsum']);
    expect(values).toEqual([...values].sort((a, b) => b - a));
  });

  it('are not told of an ingredient that makes no two parts in a hundred', () => {
    // A blend without its pinch of plasticiser is the same one made worse.
    const question = fullMould({ [GREY]: 0.0004, 'plasticiser-powder': 0.01 }, { objective: 'strongest', targets: [] });
    const { first, others } = found(question, 4);
    expect(made(first)).toBe(`${GREY} + plasticiser-powder`);
    expect(others).toEqual([]);
  });

  it('keep to the least dose: what a bag on hand is too little for is not offered', () => {
    const question = {
      ...fullMould({ [GREY]: 0.0004, [FILLER]: 0.0001 }),
      limits: { ingredients: null, leastDose: 100 },
    };
    expect(found(question, 3).others.map((o) => made(o.proposal))).toEqual([GREY]);
    // Two must be in it: there is no doing without either.
    const lean = { ...question, targets: [...question.targets, { property: 'sand-to-binder', min: 1 }] };
    expect(found(lean, 3).others).toEqual([]);
  });

  it('are not told of what would take more ingredients than there may be', () => {
    // Without the limestone it takes two other fillers, of each of which there is too little by itself.
    const others = ['marble-flour', 'silica-flour'];
    const base = fullMould({ [GREY]: 0.0004, [WHITE]: 0.0009, [FILLER]: 0.0001 });
    const question: Question = {
      ...base,
      targets: [...base.targets, { property: 'sand-to-binder', min: 1 }],
      materials: [...base.materials, ...others.map(material)],
      prices: new Map([...base.prices, ...others.map((id) => [id, 0.0009] as const)]),
      stock: new Map(others.map((id) => [id, 250])),
    };
    const free = found(question, 9).others.map((o) => made(o.proposal));
    expect(free).toContain(`${GREY} + ${others.join(' + ')}`);
    const two = found({ ...question, limits: { ingredients: 2, leastDose: null } }, 9).others;
    expect(two.map((o) => made(o.proposal))).toEqual([`${WHITE} + ${FILLER}`]);
  });
});

describe('no alternatives', () => {
  it('are told where nothing meets the brief, whatever binders there are', () => {
    const question = {
      ...fullMould({ [PLASTER]: 0.001, [GREY]: 0.0004 }),
      targets: [{ property: 'strength', min: 500 }],
    };
    const { first, others } = found(question, 3);
    expect(first.status).toBe('nearest');
    expect(others).toEqual([]);
  });

  it('are told that miss the brief once they are weighed', () => {
    // Water to plaster as finely as no scale of fifty grams can weigh it; of cement the brief asks for less.
    const targets = [
      { property: 'water-to-plaster', min: 0.613 },
      { property: 'water-to-binder', max: 0.614 },
      ...LOOSE,
    ];
    const shelf = { [GREY]: 0.0004, [PLASTER]: 0.003 };
    const fine = found(fullMould(shelf, { targets }), 3);
    expect(fine.others.map((o) => made(o.proposal))).toEqual([PLASTER]);
    const coarse = found(fullMould(shelf, { targets, batch: { pieces: 1, step: 50, fine: null } }), 3);
    expect(coarse.first.status).toBe('met');
    expect(made(coarse.first)).toBe(GREY);
    expect(coarse.others).toEqual([]);
  });
});
