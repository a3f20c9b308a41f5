import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { anyFit } from '../../src/core/optimise/fitting.js';
import { missingMaterials } from '../../src/core/optimise/missing-materials.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { questionOf } from '../support/hand-question.js';
import { material } from '../support/shipped-table.js';

const OWN = ['water', 'portland-cement-grey', 'masonry-sand'] as const;
/** Portland hardens in a day: a piece out of its mould within the hour takes another binder. */
const QUICK = { property: 'demould-time', max: 60 };
const brief = (targets: Question['targets'], more: Partial<Question> = {}): Question =>
  questionOf(OWN, { targets, ...more });
const lacking = (question: Question, ids: readonly string[]) => missingMaterials(question, ids.map(material));
const names = (found: { readonly single: readonly { material: string }[] }): string[] =>
  found.single.map((m) => m.material);

describe('a brief that one more material would meet', () => {
  it('is told the plaster that demoulds within the hour, and its binder system', () => {
    const found = lacking(brief([QUICK]), ['marble-sand', 'casting-plaster', 'limestone-flour']);
    expect(found).toEqual({
      single: [{ material: 'casting-plaster', system: 'gypsum', priced: false, mostPrice: null }],
      together: [],
    });
  });

  it('is told each of several that would do by itself, the binder of another system first', () => {
    // Cement and water weigh more than that, with sand or without: plaster is lighter, and so is what lightens cement.
    const question = brief([{ property: 'dry-weight', max: 450 }]);
    const shelf = ['marble-sand', 'pumice', 'casting-plaster', 'perlite', 'silica-sand-fine', 'expanded-glass'];
    const does = shelf.filter((id) => {
      const wide = { ...question, materials: [...question.materials, material(id)] };
      return anyFit({ ...wide, prices: new Map([[id, 0], ...wide.prices]) }, worldOf(wide), AIMS.cheapest) !== null;
    });
    const found = lacking(question, shelf);
    expect(names(found)[0]).toBe('casting-plaster');
    expect(names(found).sort()).toEqual(does.sort());
    expect(does.length).toBeGreaterThan(2);
    expect(does).not.toContain('marble-sand');
    expect(found.together).toEqual([]);
  });

  it('is never told what it has already', () => {
    const found = lacking(brief([QUICK]), [...OWN, 'casting-plaster']);
    expect(names(found)).toEqual(['casting-plaster']);
    expect(lacking(brief([QUICK]), OWN)).toEqual({ single: [], together: [] });
    expect(lacking(brief([QUICK]), [])).toEqual({ single: [], together: [] });
  });

  it('is not told what it has too little of', () => {
    // Neat cement takes over 400 g of it, and there are 300.
    const question = questionOf(OWN.slice(0, 2), { stock: new Map([['portland-cement-grey', 300]]) });
    expect(names(lacking(question, ['portland-cement-grey', 'casting-plaster']))).toEqual(['casting-plaster']);
  });

  it('is told of the few that would do among many that would not', () => {
    const sand = material('marble-sand');
    const sands = Array.from({ length: 20 }, (_v, k): Material => ({ ...sand, id: `sand-${k}` }));
    const useful = ['casting-plaster', 'perlite', 'expanded-glass'].map(material);
    const question = brief([{ property: 'dry-weight', max: 450 }]);
    const { single } = missingMaterials(question, [material('pumice'), ...sands, ...useful]);
    const alone = lacking(question, ['pumice', ...useful.map((m) => m.id)]);
    expect(alone.single.length).toBeGreaterThan(2);
    expect(single.map((m) => m.material).sort()).toEqual(names(alone).sort());
    // What promises most comes first, in whatever order the shelf is listed.
    const turned = missingMaterials(question, [...useful.slice().reverse(), material('pumice')]);
    expect(names(turned)).toEqual(names(alone));
  });

  it('is told of no more than sixteen, however many would do', () => {
    const plaster = material('casting-plaster');
    const many = Array.from({ length: 20 }, (_v, k): Material => ({ ...plaster, id: `plaster-${k}` }));
    const { single } = missingMaterials(brief([QUICK]), many);
    expect(single).toHaveLength(16);
    expect(new Set(single.map((m) => m.material)).size).toBe(16);
  });

  it('is told of none where nothing on the shelf helps', () => {
    const found = lacking(brief([{ property: 'strength', min: 500 }]), ['casting-plaster', 'perlite', 'marble-sand']);
    expect(found).toEqual({ single: [], together: [] });
  });
});

describe('a brief that only several more materials together would meet', () => {
  const BOTH = [QUICK, { property: 'dry-weight', max: 240 }];

  it('is told those and no more: plaster to be quick, perlite to be light', () => {
    const found = lacking(brief(BOTH), ['marble-sand', 'casting-plaster', 'limestone-flour', 'perlite']);
    expect(found.single).toEqual([]);
    expect([...found.together].sort()).toEqual(['casting-plaster', 'perlite']);
  });

  it('is not told what would only make them better: a plasticiser for the strongest', () => {
    const ids = ['plasticiser-powder', 'casting-plaster', 'perlite'];
    const more: Partial<Question> = { objective: 'strongest' };
    const found = lacking(brief(BOTH, more), ids);
    expect(found.single).toEqual([]);
    expect([...found.together].sort()).toEqual(['casting-plaster', 'perlite']);
    const wide = brief(BOTH, { ...more, materials: [...OWN, ...ids].map(material) });
    const whole = anyFit(wide, worldOf(wide), AIMS.strongest)!;
    expect(whole.answer.grams[3]).toBeGreaterThan(0);
  });

  it('is told nothing where one of them lacks', () => {
    expect(lacking(brief(BOTH), ['casting-plaster', 'marble-sand'])).toEqual({ single: [], together: [] });
    expect(lacking(brief(BOTH), ['perlite', 'marble-sand'])).toEqual({ single: [], together: [] });
  });
});

describe('the price of what a brief lacks', () => {
  const priced = (id: string, price: number, waste = 0): Partial<Question> => ({
    prices: new Map([...brief([]).prices, [id, price]]),
    conditions: { ...brief([]).conditions, waste },
  });
  const cheap = (max: number) => [QUICK, { property: 'cost', max }];

  it('is known, and then decides whether it helps', () => {
    const ids = ['casting-plaster'];
    expect(lacking(brief(cheap(0.5), priced('casting-plaster', 0.001)), ids).single).toEqual([
      { material: 'casting-plaster', system: 'gypsum', priced: true, mostPrice: null },
    ]);
    expect(lacking(brief(cheap(0.5), priced('casting-plaster', 0.1)), ids).single).toEqual([]);
  });

  it('may be so much that the brief’s cost is just kept: all of it goes on neat plaster', () => {
    const question = brief(cheap(0.5), priced('silica-fume', 1, 0.2));
    const [found] = lacking(question, ['casting-plaster']).single;
    // A fifth of what is mixed is not cast, so only four fifths of the money are.
    const grams = (0.8 * 0.5) / found!.mostPrice!;
    // By hand: plaster and the water it asks for, from as dry as pours to as wet, fill the mould but for its air.
    const { materials, model } = worldOf({ ...question, materials: [material('water'), material('casting-plaster')] });
    const [water, plaster] = materials;
    const room = question.conditions.volume * (1 - model('air-poured'));
    const filling = (flow: number) => room / (plaster!.volume + flow * plaster!.demand * water!.volume);
    expect(grams).toBeGreaterThan(0.99 * filling(1.12));
    expect(grams).toBeLessThan(1.01 * filling(0.95));
    expect(found).toMatchObject({ priced: false, system: 'gypsum' });
  });

  it('is what is left once the rest of the blend is paid: a pigment that was asked for', () => {
    const doses = [{ material: 'iron-oxide-red', percent: 4, of: 'binder' }] as const;
    const withPigment = (price: number): Question => ({
      ...questionOf([...OWN, 'iron-oxide-red'], { targets: cheap(0.5), doses }),
      prices: new Map([
        ['portland-cement-grey', 0.0004],
        ['masonry-sand', 0.0002],
        ['iron-oxide-red', price],
      ]),
    });
    const most = (price: number): number => lacking(withPigment(price), ['casting-plaster']).single[0]!.mostPrice!;
    // Four grams of pigment a hundred of plaster: each cent a gram of it takes four hundredths of a cent.
    expect(most(0.01)).toBeCloseTo(most(0) - 0.04 * 0.01, 6);
    expect(most(0.01)).toBeGreaterThan(0);
  });

  it('has no answer for what a brief that is met already has no use for', () => {
    // Plaster is never so strong, so the cheapest blend stays one of cement.
    const met = brief([
      { property: 'strength', min: 35 },
      { property: 'cost', max: 5 },
    ]);
    const found = lacking(met, ['casting-plaster']);
    expect(found.single).toEqual([{ material: 'casting-plaster', system: 'portland', priced: false, mostPrice: null }]);
  });

  it('is not asked about where the brief does not limit cost, or only from below', () => {
    const [free] = lacking(brief([QUICK]), ['casting-plaster']).single;
    expect(free!.mostPrice).toBeNull();
    const [costly] = lacking(brief([QUICK, { property: 'fresh-weight', max: 900 }]), ['casting-plaster']).single;
    expect(costly!.mostPrice).toBeNull();
  });
});
