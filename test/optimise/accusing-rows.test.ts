import { describe, expect, it } from 'vitest';
import { stateOf } from '../../src/core/blend/state/state.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { RowOrigin } from '../../src/core/optimise/blend-program.js';
import { conflictOf } from '../../src/core/optimise/conflict.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import type { Question } from '../../src/core/optimise/question.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { questionOf } from '../support/hand-question.js';
import { material, numberOf } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

const SHELF = ['water', 'portland-cement-grey', 'masonry-sand'] as const;
/** Water that a gram of the cement asks for: neat cement flows as its water over this. */
const DEMAND = numberOf(material('portland-cement-grey').waterDemand);
const DRY = { property: 'water-to-binder', max: 0.2 };
const POURS = { property: 'flow', min: 0.95 };
const CHEAP = { property: 'cost', max: 5 };
const names = (list: readonly { property: string; side: string }[]): string[] =>
  list.map((c) => `${c.property} ${c.side}`);

/** Rows by hand at a blend by hand: what the rows say is then checked by settling the sides by themselves. */
describe('rows that accuse the wrong sides', () => {
  const rowOf = (name: string, high: number): Row => ({ name, coefficients: [1, 0, 0], high });
  const HARMLESS = 1e6;
  const origin = (target: { property: string; min?: number; max?: number }, kind: 'target' | 'standing' = 'target') =>
    ({ kind, target, side: target.min === undefined ? 'max' : 'min' }) as RowOrigin;
  const conflict = (
    question: Question,
    rows: readonly (readonly [Row, RowOrigin])[],
    grams: readonly number[] = [60, 200, 400],
  ) => {
    const world = worldOf(question);
    const answer: Settled = {
      grams,
      state: stateOf(world, grams),
      program: {
        columns: SHELF.map((name) => ({ name })),
        rows: [{ name: 'some water', coefficients: [1, 0, 0], low: 10 }, ...rows.map(([row]) => row)],
        origins: [{ kind: 'fixed' }, ...rows.map(([, from]) => from)],
      },
      feasible: false,
      miss: 1,
      value: 1,
      still: true,
      solves: 1,
    };
    return conflictOf(question, world, [
      { system: systemOf('portland'), answer },
      { system: systemOf('csa'), answer },
    ])!;
  };
  const question = questionOf(SHELF, { targets: [DRY, CHEAP, POURS] });

  it('are believed where those sides cannot be kept by themselves', () => {
    const { system, collisions } = conflict(question, [
      [rowOf('dry', 1), origin(DRY)],
      [rowOf('cheap', HARMLESS), origin(CHEAP)],
      [{ ...rowOf('pours', HARMLESS), low: 2 }, origin(POURS)],
    ]);
    expect(system).toBe('portland');
    expect(names(collisions)).toEqual(['water-to-binder max', 'flow min']);
  });

  it('are put right by what the nearest blend misses besides', () => {
    // The rows blame the cost alone. 60 g of water to 200 g of cement miss the ratio, and do not pour with the sand.
    const { collisions, missed } = conflict(question, [
      [rowOf('cheap', 1), origin(CHEAP)],
      [rowOf('dry', HARMLESS), origin(DRY)],
      [rowOf('pours', HARMLESS), origin(POURS)],
    ]);
    expect(names(missed)).toEqual(['water-to-binder max', 'flow min']);
    expect(names(collisions)).toEqual(['water-to-binder max', 'flow min']);
    expect(missed[0]).toMatchObject({ nearest: expect.any(Number), limit: 0.2, kind: 'target' });
    expect(missed[0]!.missedBy).toBeCloseTo(missed[0]!.nearest! - 0.2, 12);
  });

  it('or by the rest of the brief, where what is missed can be kept by itself', () => {
    // 34 g of water to 200 g of cement keep the ratio and do not pour.
    const { collisions, missed } = conflict(
      question,
      [
        [rowOf('cheap', 1), origin(CHEAP)],
        [rowOf('pours', HARMLESS), origin(POURS)],
        [rowOf('dry', HARMLESS), origin(DRY)],
      ],
      [34, 200, 0],
    );
    expect(names(missed)).toEqual(['flow min']);
    expect(names(collisions)).toEqual(['flow min', 'water-to-binder max']);
  });

  it('are all there is to tell where every side can be kept after all', () => {
    const easy = questionOf(SHELF, { targets: [CHEAP, POURS] });
    const { collisions } = conflict(easy, [
      [rowOf('cheap', 1), origin(CHEAP)],
      [rowOf('pours', HARMLESS), origin(POURS)],
    ]);
    expect(names(collisions)).toEqual(['cost max']);
    expect(conflict(easy, []).collisions).toEqual([]);
  });

  it('that accuse nothing leave what the nearest blend misses', () => {
    const { collisions } = conflict(questionOf(SHELF, { targets: [{ property: 'strength', min: 500 }, CHEAP] }), [
      [rowOf('cheap', HARMLESS), origin(CHEAP)],
      [rowOf('strong', HARMLESS), origin({ property: 'strength', min: 500 })],
    ]);
    expect(names(collisions)).toEqual(['strength min']);
  });

  it('name the last side even where nothing at all can be made', () => {
    const bare = questionOf(SHELF, { targets: [POURS], stock: new Map([['portland-cement-grey', 1]]) });
    const { collisions } = conflict(bare, [[rowOf('pours', HARMLESS), origin(POURS)]], [34, 200, 0]);
    expect(names(collisions)).toEqual(['flow min']);
  });

  it('name each side once, however many rows it has, and both sides of a window', () => {
    const window = { property: 'flow', min: 0.95, max: 0.2 };
    const { missed } = conflict(
      questionOf(SHELF, { targets: [window, DRY] }),
      [
        [rowOf('pours', HARMLESS), { kind: 'target', target: window, side: 'min' }],
        [rowOf('stiff', HARMLESS), { kind: 'target', target: window, side: 'max' }],
        [rowOf('dry', HARMLESS), origin(DRY)],
        [rowOf('pours, from elsewhere', HARMLESS), { kind: 'target', target: window, side: 'min' }],
      ],
      [60, 200, 0],
    );
    expect(60 / (200 * DEMAND)).toBeGreaterThan(0.95);
    expect(names(missed)).toEqual(['flow max', 'water-to-binder max']);
    const other = conflict(
      questionOf(SHELF, { targets: [window, DRY] }),
      [
        [rowOf('pours', HARMLESS), { kind: 'target', target: window, side: 'min' }],
        [rowOf('stiff', HARMLESS), { kind: 'target', target: window, side: 'max' }],
        [rowOf('pours, from elsewhere', HARMLESS), { kind: 'target', target: window, side: 'min' }],
      ],
      [30, 200, 0],
    );
    expect(names(other.missed)).toEqual(['flow min', 'flow max']);
  });

  it('do not call missed what holds for want of the property, or a limit of nothing that is kept', () => {
    const none = { property: 'pigment-share', max: 0 };
    const plaster = { property: 'water-to-plaster', min: 0.3 };
    const weight = (share: number) => ({ property: 'fresh-weight', max: 660 * (1 - share) });
    const { missed } = conflict(questionOf(SHELF, { targets: [none, plaster] }), [
      [rowOf('weight', HARMLESS), origin(weight(5e-7))],
      [rowOf('no pigment', HARMLESS), origin(none)],
      [rowOf('plaster', HARMLESS), origin(plaster)],
      [rowOf('flow', HARMLESS), origin({ property: 'water-to-plaster', max: 0.5 }, 'standing')],
    ]);
    // Of what the blend lacks all of a limit is missed, and a weight of 660 g by no less than a millionth of it.
    expect(missed).toEqual([
      { property: 'water-to-plaster', side: 'max', limit: 0.5, kind: 'standing', nearest: null, missedBy: 0.5 },
    ]);
    const heavy = conflict(questionOf(SHELF), [[rowOf('weight', HARMLESS), origin(weight(2e-6))]]);
    expect(names(heavy.missed)).toEqual(['fresh-weight max']);
  });
});
