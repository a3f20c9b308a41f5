import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { worldOf } from '../../src/core/blend/world.js';
import { collidingTargets } from '../../src/core/optimise/colliding-targets.js';
import { anyFit } from '../../src/core/optimise/fitting.js';
import { missingMaterials } from '../../src/core/optimise/missing-materials.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { openSystems } from '../../src/core/optimise/systems.js';
import { reachableLimit } from '../../src/core/report/gain-words.js';
import { randomQuestion } from '../support/random-shelf.js';
import { material, model } from '../support/shipped-table.js';

/** Whether any open binder has a blend that keeps these sides of the brief, and the standing limits. */
const fits = (question: Question): boolean => anyFit(question, worldOf(question), AIMS[question.objective]) !== null;

const cases = Array.from({ length: 60 }, (_v, k) => k + 1).flatMap((seed) => {
  const question = randomQuestion(seed);
  const world = worldOf(question);
  if (openSystems(question, world).length === 0) return [];
  const set = collidingTargets(question, world);
  return set === null ? [] : [{ seed, question, set }];
});
const told = cases.filter((c) => c.set.length > 0);

type Sides = readonly { property: string; side: 'min' | 'max'; limit: number }[];
/** The brief with only these sides; properties of other targets are left open. */
const keeping = (question: Question, set: Sides): Question => ({
  ...question,
  targets: question.targets.map(({ property }) => ({
    property,
    ...Object.fromEntries(set.filter((c) => c.property === property).map((c) => [c.side, c.limit])),
  })),
});

describe('targets that collide, on random briefs', () => {
  it('are many enough to judge, some of them several at once', () => {
    expect(told.length).toBeGreaterThan(15);
    expect(told.filter((c) => c.set.filter((s) => s.set === 0).length > 1).length).toBeGreaterThan(3);
    expect(told.filter((c) => c.set.some((s) => s.set > 0)).length).toBeGreaterThan(0);
  });

  it('are told just where a proposal meets the brief by no binder', () => {
    const named = new Set(cases.map((c) => c.seed));
    let met = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const question = randomQuestion(seed);
      if (openSystems(question, worldOf(question)).length === 0 || named.has(seed)) continue;
      const { status, conflict } = propose(question, { draws: 0 });
      expect(status === 'met' || conflict === null, `seed ${seed}`).toBe(true);
      met++;
    }
    expect(met).toBeGreaterThan(5);
  });

  it('cannot be kept together, even by themselves', () => {
    for (const { seed, question, set } of told) {
      expect(fits(keeping(question, set)), `seed ${seed}`).toBe(false);
    }
  });

  it('free the rest when any one of them is given up', () => {
    let freed = 0;
    for (const { seed, question, set } of told) {
      for (const one of set) {
        const rest = keeping(
          question,
          set.filter((c) => c !== one && c.set === one.set),
        );
        expect(fits(rest), `seed ${seed} without ${one.property} ${one.side}`).toBe(true);
        freed++;
      }
    }
    expect(freed).toBeGreaterThan(told.length);
  });

  it('say how far each would have to give way: so far the whole brief fits, and half as far it does not', () => {
    let checked = 0;
    for (const { seed, question, set } of told) {
      for (const { property, side, limit, reachable, set: own } of set) {
        const freed = set.filter((c) => c.set !== own);
        const without = question.targets.map((t) => {
          const gone = freed.filter((c) => c.property === t.property).map((c) => [c.side, undefined]);
          return { ...t, ...Object.fromEntries(gone) };
        });
        const withSide = (value: number): Question => ({
          ...question,
          targets: without.map((t) => (t.property === property ? { ...t, [side]: value } : t)),
        });
        if (reachable === null) continue;
        const name = `seed ${seed} ${property} ${side} ${limit} reachable ${reachable}`;
        expect(side === 'max' ? reachable > limit : reachable < limit, name).toBe(true);
        expect(fits(withSide(reachableLimit(side, reachable))), name).toBe(true);
        expect(fits(withSide(limit + 0.5 * (reachable - limit))), name).toBe(false);
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(10);
  });
});

describe('materials that would help', () => {
  const question: Question = {
    objective: 'cheapest',
    targets: [
      { property: 'demould-time', max: 60 },
      { property: 'dry-weight', max: 500 },
    ],
    conditions: { ...DEFAULT_CONDITIONS, volume: 400 },
    materials: ['water', 'portland-cement-grey', 'masonry-sand'].map((id) => material(id)),
    doses: [],
    figures: model,
    prices: new Map([
      ['portland-cement-grey', 0.0004],
      ['masonry-sand', 0.0002],
      ['casting-plaster', 0.0013],
      ['limestone-flour', 0.0006],
    ]),
    stock: new Map(),
    batch: { pieces: 1, step: 1, fine: { step: 0.1, most: 200 } },
  };
  const shelf = ['casting-plaster', 'limestone-flour', 'marble-sand', 'silica-fume'].map((id) => material(id));

  it('each by itself let the brief be met, and the others do not', () => {
    const { single, together } = missingMaterials(question, shelf);
    expect(single.map((m) => m.material)).toEqual(['casting-plaster']);
    expect(single[0]).toMatchObject({ system: 'gypsum', priced: true, mostPrice: null });
    expect(together).toEqual([]);
    for (const m of shelf) {
      const wide = {
        ...question,
        materials: [...question.materials, m],
        prices: new Map([[m.id, 0], ...question.prices]),
      };
      expect(fits(wide), m.id).toBe(m.id === 'casting-plaster');
    }
  });

  it('are told together where only together they do', () => {
    // Light plaster: without the light aggregate too heavy, without the plaster too slow.
    const light = {
      ...question,
      targets: [
        { property: 'demould-time', max: 60 },
        { property: 'dry-weight', max: 320 },
      ],
    };
    const both = missingMaterials(light, [...shelf, material('perlite')]);
    expect(both.single).toEqual([]);
    expect([...both.together].sort()).toEqual(['casting-plaster', 'perlite']);
  });

  it('without a price are told with the most they may cost, where the brief limits cost', () => {
    const limited = {
      ...question,
      targets: [...question.targets, { property: 'cost', max: 0.5 }],
      prices: new Map([...question.prices].filter(([id]) => id !== 'casting-plaster')),
    };
    const [plaster] = missingMaterials(limited, shelf).single;
    expect(plaster).toMatchObject({ material: 'casting-plaster', priced: false });
    const most = plaster!.mostPrice!;
    const at = (price: number): boolean =>
      fits({
        ...limited,
        materials: [...limited.materials, shelf[0]!],
        prices: new Map([...limited.prices, ['casting-plaster', price]]),
      });
    expect(at(0.99 * most)).toBe(true);
    expect(at(3 * most)).toBe(false);
  });

  it('are none where the shelf has nothing that helps', () => {
    expect(missingMaterials(question, shelf.slice(1))).toEqual({ single: [], together: [] });
    expect(missingMaterials(question, [])).toEqual({ single: [], together: [] });
    const world = worldOf(question);
    expect(settle(question, world, openSystems(question, world)[0]!, { aim: AIMS.cheapest })!.feasible).toBe(false);
  });
});
