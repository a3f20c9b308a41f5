import { describe, expect, it } from 'vitest';
import { central, numbersOf } from '../../src/core/blend/numbers.js';
import type { Figure, Gap } from '../../src/core/materials/figure.js';
import { overlay } from '../../src/core/materials/overlay.js';
import { materialTable } from '../../src/core/materials/table.js';
import { explain } from '../../src/core/problems/words.js';
import { problemsOf } from '../support/problems.js';
import { materials, sources } from '../support/shipped-table.js';

// Rows invented for this test.
const table = materialTable({ materials, sources });
const figure = (value: number, unit: string) =>
  `{ value: ${value}, low: ${value}, high: ${value}, unit: ${unit}, source: none, status: ours }`;
const own = (id: string, kind: string, lines: readonly string[] = []) =>
  ['materials:', `  - id: ${id}`, '    name: ours', `    kind: ${kind}`, '    hazards: []']
    .concat([`density: ${figure(2.6, 'g/cm3')}`, ...lines].map((line) => `    ${line}`))
    .join('\n');
const laid = (id: string, kind: string, lines?: readonly string[]) => overlay(table, own(id, kind, lines), 'mine.yaml');
const ends = (f: Figure | Gap | undefined) => f && 'low' in f && [f.low, f.value, f.high];

describe('what a maker’s own material leaves out', () => {
  it('a plaster without heat has that of the shipped plasters, as wide as theirs, and the maker is told', () => {
    const mine = laid('ours', 'gypsum', ['binder: { family: gypsum }', `waterDemand: ${figure(0.6, 'g/g')}`]);
    const plaster = mine.byId('ours')!;
    expect(ends(plaster.binder?.heat)).toEqual([100, 120, 150]);
    expect(plaster.binder?.heat).toMatchObject({ source: 'none', status: 'ours', unit: 'J/g' });
    expect(plaster.binder?.phases?.hemihydrate?.value).toBe(0.96);
    expect(plaster.waterDemand?.value).toBe(0.6);
    expect(mine.notes).toHaveLength(1);
    expect(explain(mine.notes[0]!)).toBe(
      'mine.yaml line 2, materials[0]: a figure of this material is needed and not given. For ours this is taken from the shipped gypsums: so3 53 percent (48 to 54.6), binder.heat 120 J/g (100 to 150), binder.phases.hemihydrate 0.96 g/g (0.87 to 0.99); your own figures make the ranges narrower.',
    );
  });

  it('a gap of its own counts as left out', () => {
    const gap = 'waterDemand: { value: null, reason: not printed on the bag }';
    const demand = laid('ours', 'cement', ['binder: { family: portland }', gap]).byId('ours')!.waterDemand;
    expect(demand?.value).toBe(0.31);
  });

  it('never reads as zero where every shipped material of its kind has more', () => {
    const fields = ['demand', 'so3', 'heat', 'hemihydrate', 'c3a', 'yeelimite', 'anhydrite', 'aluminate'] as const;
    for (const m of materials) {
      const binder = m.binder === undefined ? [] : [`binder: { family: ${m.binder.family} }`];
      const solids = m.solids === undefined ? [] : [`solids: ${figure(0.5, 'g/g')}`];
      const bare = numbersOf(laid('ours', m.kind, [...binder, ...solids]).byId('ours')!, central);
      const like = materials.filter(
        (o) =>
          o.kind === m.kind &&
          o.binder?.family === m.binder?.family &&
          (o.solids === undefined) === (m.solids === undefined),
      );
      for (const field of [...fields, 'calciumHydroxide', 'belite', 'activity'] as const) {
        if (like.every((o) => numbersOf(o, central)[field] > 0))
          expect(bare[field], `${m.id} ${field}`).toBeGreaterThan(0);
      }
      if (like.every((o) => o.absorption !== undefined)) expect(bare.freeWater, m.id).not.toBe(0);
    }
  });

  it('comes from the shipped row it takes the place of, if it takes one', () => {
    const mine = laid('masonry-cement', 'cement', ['binder: { family: portland }']);
    const shipped = table.byId('masonry-cement')!;
    expect(ends(mine.byId('masonry-cement')!.binder?.heat)).toEqual(ends(shipped.binder?.heat));
    expect(explain(mine.notes[0]!)).toContain('taken from the shipped masonry-cement: ');
  });

  it('is not borrowed where an oxide analysis gives it', () => {
    const share = (value: number) => figure(value, 'percent');
    const oxides = `oxides: { cao: ${share(64)}, sio2: ${share(21)}, al2o3: ${share(5)}, fe2o3: ${share(3)}, so3: ${share(2.7)} }`;
    const mine = laid('ours', 'cement', [`binder: { family: portland, ${oxides} }`]);
    expect(mine.byId('ours')!.binder).not.toHaveProperty('heat');
    expect(mine.byId('ours')!.binder).not.toHaveProperty('phases');
    expect(mine.byId('ours')!.so3).toBeUndefined();
    expect(mine.byId('ours')!.waterDemand?.value).toBe(0.31);
  });

  it('a pozzolan without a k-value has that of its sort, and its cap', () => {
    const mine = laid('ours', 'pozzolan', ['tags: [fly-ash]', `pozzolan: { activity: ${figure(0.5, 'g/g')} }`]);
    const ash = table.byId('fly-ash')!;
    expect(ends(mine.byId('ours')!.pozzolan?.k)).toEqual(ends(ash.pozzolan!.k));
    expect(ends(mine.byId('ours')!.pozzolan?.kCap)).toEqual(ends(ash.pozzolan!.kCap));
    expect(numbersOf(mine.byId('ours')!, central).k).toBe(0.4);
    expect(explain(mine.notes[0]!)).toMatch(
      /For ours this is taken from the shipped fly-ash: .*pozzolan\.k 0\.4 g\/g \(0\.2 to 0\.4\), pozzolan\.kCap 0\.33 g\/g/,
    );
  });

  it('a pozzolan of no sort may be any of the shipped ones, those without a k-value too', () => {
    const { k, kCap, activity } = laid('ours', 'pozzolan').byId('ours')!.pozzolan!;
    expect(ends(k)).toEqual([0, 0.4, 2]);
    expect(ends(kCap)).toEqual([0.11, 0.33, 1]);
    expect(ends(activity)).toEqual([0.3, 1, 1]);
  });

  it('its own k-value stands, and one in the place of a shipped row without has none either', () => {
    const mine = laid('ours', 'pozzolan', [`pozzolan: { k: ${figure(1, 'g/g')}, activity: ${figure(1, 'g/g')} }`]);
    expect(mine.byId('ours')!.pozzolan?.k?.value).toBe(1);
    expect(laid('metakaolin', 'pozzolan').byId('metakaolin')!.pozzolan).not.toHaveProperty('k');
    expect(laid('ours', 'filler').byId('ours')).not.toHaveProperty('pozzolan');
  });

  it('is left out where the shipped ones lack it too: an admixture has no water demand', () => {
    const mine = laid('ours', 'admixture');
    expect(mine.byId('ours')!.waterDemand).toBeUndefined();
    expect(mine.notes).toEqual([]);
  });
});

describe('a binder without a family', () => {
  it.each([
    ['cement', 'one of portland, csa, aluminate'],
    ['gypsum', 'gypsum'],
    ['lime', 'one of lime, natural-hydraulic-lime'],
  ])('%s is refused', (kind, expected) => {
    expect(problemsOf(() => laid('ours', kind))).toMatchObject([
      { code: 'field-missing', where: { file: 'mine.yaml', path: 'materials[0].binder.family' }, expected },
    ]);
  });

  it('or with one of another kind is refused', () => {
    expect(problemsOf(() => laid('ours', 'gypsum', ['binder: { family: portland }']))).toMatchObject([
      { code: 'field-wrong-type', found: 'portland', expected: 'gypsum' },
    ]);
  });
});
