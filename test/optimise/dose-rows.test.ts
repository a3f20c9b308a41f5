import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import type { Question } from '../../src/core/optimise/question.js';
import {
  doseRows,
  LEAST_WORKING_TIME,
  STANDING_LIMITS,
  standingTargets,
} from '../../src/core/optimise/standing-limits.js';
import { fullMould } from '../support/full-mould.js';
import { handFigure as figure } from '../support/hand-figure.js';
import { material } from '../support/shipped-table.js';

/** The limits that every proposal keeps, and doses as rows, by hand: cases that the sweep over the table leaves out. */

const shelf = (...more: Material[]): Question => {
  const question = fullMould({ 'portland-cement-grey': 0.0004 });
  return { ...question, targets: [], materials: [...question.materials, ...more] };
};
const rowsOf = (question: Question): Row[] => doseRows(question, worldOf(question));
const rowOf = (question: Question, name: string): Row => rowsOf(question).find((r) => r.name === name)!;
const at = ({ coefficients }: Row, ...grams: number[]): number =>
  coefficients.reduce((s, c, i) => s + c * grams[i]!, 0);

describe('standing limits', () => {
  it('are a window of flow, paste for the voids, no leaner than mortar, strength to be handled, and time to pour', () => {
    expect(STANDING_LIMITS).toMatchObject([
      { property: 'flow', min: 0.95, max: 1.12 },
      { property: 'paste-to-voids', min: 1.1 },
      { property: 'sand-to-binder', max: 3 },
      { property: 'strength', min: 2 },
      { property: 'working-time', min: 5 },
    ]);
    for (const { because } of STANDING_LIMITS) expect(because.length).toBeGreaterThan(20);
  });

  it('give way one by one, and all at once', () => {
    const own = STANDING_LIMITS.map(({ property }) => ({ property, min: 0 }));
    expect(standingTargets(own)).toEqual([]);
    expect(standingTargets(own.slice(0, 2)).map((l) => l.property)).toEqual([
      'sand-to-binder',
      'strength',
      'working-time',
    ]);
    expect(standingTargets([{ property: 'cost', max: 1 }])).toHaveLength(5);
  });

  it('keep the working time whatever is wished of a set, unless it has a limit of its own', () => {
    const kept = (target: Target): boolean => standingTargets([target]).some((l) => l.property === 'working-time');
    for (const property of ['initial-set', 'final-set', 'demould-time']) {
      for (const max of [1, LEAST_WORKING_TIME, 60]) expect(kept({ property, max }), property).toBe(true);
    }
    expect(kept({ property: 'working-time', max: 2 })).toBe(false);
  });
});

describe('rows of doses', () => {
  it('bar more than 10 % of pigment, two pigments together too, and more than 40 % of pozzolan', () => {
    const question = shelf(material('iron-oxide-red'), material('iron-oxide-yellow'), material('metakaolin'));
    const pigment = rowOf(question, 'pigment of the binder max');
    expect(pigment).toMatchObject({ high: 0, scale: 1 });
    expect(at(pigment, 50, 200, 12, 8, 0)).toBeCloseTo(0, 9);
    expect(at(pigment, 50, 200, 12, 9, 0)).toBeCloseTo(1, 9);
    const pozzolan = rowOf(question, 'pozzolan of the binder max');
    expect(pozzolan).toMatchObject({ high: 0, scale: 1 });
    // Pozzolan is binder itself: 120 of 300 is the most beside 180 of cement.
    expect(at(pozzolan, 50, 180, 0, 0, 120)).toBeCloseTo(0, 9);
    expect(at(pozzolan, 50, 180, 30, 0, 130)).toBeCloseTo(6, 9);
    expect(at(pigment, 50, 180, 30, 0, 120)).toBeCloseTo(0, 9);
  });

  it('hold a dose that was asked for at just that, and no longer to its window', () => {
    const red = material('iron-oxide-red');
    const dosed: Material = { ...red, dose: { of: 'binder', usual: figure(3), most: figure(5) } };
    const asked = { ...shelf(dosed), doses: [{ material: red.id, percent: 7, of: 'binder' as const }] };
    const row = rowOf(asked, 'iron-oxide-red as asked');
    expect(row).toMatchObject({ low: 0, high: 0, scale: 1 });
    expect(at(row, 80, 300, 21)).toBeCloseTo(0, 9);
    expect(at(row, 80, 300, 20)).toBeCloseTo(-1, 9);
    expect(rowsOf(asked).map((r) => r.name)).not.toContain('iron-oxide-red dose max');
    expect(rowsOf(shelf(dosed)).map((r) => r.name)).toContain('iron-oxide-red dose max');
    // What has neither a window nor was asked for has no row of its own.
    expect(rowsOf(shelf(red))).toHaveLength(red.dose === undefined ? 2 : 3);
  });

  it('hold silica fume and metakaolin to their windows, of all binder, and the other pozzolans by all together', () => {
    const question = shelf(material('silica-fume'), material('metakaolin'), material('fly-ash'));
    const names = rowsOf(question).map((r) => r.name);
    expect(names.filter((n) => n.endsWith('dose max'))).toEqual(['silica-fume dose max', 'metakaolin dose max']);
    const [fume, kaolin] = ['silica-fume', 'metakaolin'].map((id) => rowOf(question, `${id} dose max`));
    const columns = question.materials.map((m) => m.id);
    const grams = (parts: Readonly<Record<string, number>>): number[] => columns.map((id) => parts[id] ?? 0);
    expect(at(fume!, ...grams({ 'portland-cement-grey': 85, 'silica-fume': 15 }))).toBeCloseTo(0, 9);
    expect(at(kaolin!, ...grams({ 'portland-cement-grey': 80, metakaolin: 20 }))).toBeCloseTo(0, 9);
    expect(at(kaolin!, ...grams({ 'portland-cement-grey': 79, metakaolin: 21 }))).toBeGreaterThan(0);
  });

  it('end a window at its most, or below at the dose that earns a warning', () => {
    const powder = material('plasticiser-powder');
    const windowed = (most: number, warn?: number): Question =>
      shelf({
        ...powder,
        dose: {
          of: 'binder',
          usual: figure(0.5),
          most: figure(most),
          ...(warn === undefined ? {} : { warn: figure(warn) }),
        },
      });
    const ceiling = (question: Question) => {
      const row = rowOf(question, `${powder.id} dose max`);
      expect(row).toMatchObject({ high: 0, scale: 1 });
      expect(row.low).toBeUndefined();
      return -100 * row.coefficients[1]!;
    };
    expect(ceiling(windowed(2))).toBeCloseTo(2, 12);
    expect(ceiling(windowed(2, 1.5))).toBeCloseTo(1.5, 12);
    expect(ceiling(windowed(2, 3))).toBeCloseTo(2, 12);
  });
});
