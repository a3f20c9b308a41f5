import { describe, expect, it } from 'vitest';
import { inconsistent } from '../../src/core/materials/consistent.js';
import { overlay } from '../../src/core/materials/overlay.js';
import { materialTable } from '../../src/core/materials/table.js';
import { explain } from '../../src/core/problems/words.js';
import { problemsOf } from '../support/problems.js';
import { materials, sources } from '../support/shipped-table.js';

// Rows invented for this test: each figure is plausible by itself, and another of its row rules it out.
const table = materialTable({ materials, sources });
const figure = (value: number, unit: string, low = value, high = value) =>
  `{ value: ${value}, low: ${low}, high: ${high}, unit: ${unit}, source: none, status: ours }`;
const minutes = (value: number) => figure(value, 'min');
const percent = (value: number) => figure(value, 'percent');
const share = (value: number) => figure(value, 'g/g');
const row = (lines: readonly string[], kind: string) =>
  ['materials:', '  - id: ours', '    name: ours', `    kind: ${kind}`, '    hazards: []']
    .concat(lines.map((line) => `    ${line}`))
    .join('\n');
const refused = (lines: readonly string[], kind = 'filler') =>
  problemsOf(() => overlay(table, row(lines, kind), 'mine.yaml')).map(explain);

const gypsum = (...lines: string[]) => ['binder:', '  family: gypsum', ...lines.map((line) => `  ${line}`)];
const points = (...passing: readonly (readonly [number, number])[]) => [
  'grading:',
  ...passing.map(([sieve, share]) => `  - { sieve: ${sieve}, passing: ${percent(share)} }`),
];

describe('figures of one row that rule each other out', () => {
  it.each<[string, readonly string[], string, string]>([
    [
      'a range upside down',
      [`density: ${figure(2.6, 'g/cm3', 2.7, 2.5)}`],
      'filler',
      'mine.yaml line 6, materials[0].density: the value is out of range. Low 2.7, value 2.6, high 2.5: low <= value <= high must hold.',
    ],
    [
      'a heap heavier than its grains',
      [`density: ${figure(1.5, 'g/cm3')}`, `bulkDensity: ${figure(2.6, 'g/cm3')}`],
      'filler',
      'mine.yaml line 7, materials[0].bulkDensity.value: the value is out of range: found “2.6”, expected at most the particle density, 1.5 g/cm3.',
    ],
    [
      'a final set before the initial one',
      gypsum(`initialSet: ${minutes(24)}`, `finalSet: ${minutes(12)}`),
      'gypsum',
      'mine.yaml line 9, materials[0].binder.finalSet.value: the value is out of range: found “12”, expected more than the initial set, 24 min.',
    ],
    [
      'a final set at the initial one',
      gypsum(`initialSet: ${minutes(24)}`, `finalSet: ${minutes(24)}`),
      'gypsum',
      'finalSet.value: the value is out of range: found “24”, expected more than the initial set, 24 min.',
    ],
    [
      'demoulding before the final set',
      gypsum(`initialSet: ${minutes(12)}`, `finalSet: ${minutes(24)}`, `demould: ${minutes(20)}`),
      'gypsum',
      'binder.demould.value: the value is out of range: found “20”, expected at least the final set, 24 min.',
    ],
    [
      'demoulding before the initial set, without a final one',
      gypsum(`initialSet: ${minutes(24)}`, 'finalSet: { value: null, reason: "not timed" }', `demould: ${minutes(20)}`),
      'gypsum',
      'binder.demould.value: the value is out of range: found “20”, expected at least the initial set, 24 min.',
    ],
    [
      'a dose that is less than its least',
      [`dose: { of: binder, least: ${percent(1)}, usual: ${percent(0.5)}, most: ${percent(2)} }`],
      'admixture',
      'dose.usual.value: the value is out of range: found “0.5”, expected at least the dose under "least", 1 percent.',
    ],
    [
      'a warning above the most',
      [`dose: { of: binder, usual: ${percent(0.5)}, warn: ${percent(3)}, most: ${percent(2)} }`],
      'admixture',
      'dose.most.value: the value is out of range: found “2”, expected at least the dose under "warn", 3 percent.',
    ],
    [
      'a coarse sieve that passes less',
      points([4.75, 90], [2.36, 95], [0.6, 40]),
      'sand',
      'mine.yaml line 7, materials[0].grading[0].passing.value: the value is out of range: found “90”, expected at least the share that passes 2.36 mm, 95 percent.',
    ],
    [
      'a sieve that stands twice',
      points([0.6, 40], [0.6, 50]),
      'sand',
      'grading[1].sieve: the value is out of range: found “0.6”, expected each sieve once.',
    ],
    [
      'more fine quartz than quartz',
      [`crystallineSilica: ${figure(0.1, 'fraction')}`, `respirableSilica: ${figure(0.2, 'fraction')}`],
      'filler',
      'respirableSilica.value: the value is out of range: found “0.2”, expected at most all the crystalline silica, 0.1.',
    ],
    [
      'phases that are more than the whole',
      gypsum(`phases: { hemihydrate: ${share(0.9)}, anhydrite: ${share(0.2)} }`),
      'gypsum',
      'binder.phases: the value is out of range: found “1.1 g/g together”, expected parts that make up no more than the whole, 1 g/g.',
    ],
  ])('%s', (_name, lines, kind, said) => {
    const found = refused(lines, kind);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(said);
  });

  it('an analysis that adds up to more than all, or holds more free lime than lime', () => {
    const analysis = (freeLime: number, cao: number) => [
      'binder:',
      '  family: portland',
      `  oxides: { cao: ${percent(cao)}, sio2: ${percent(21)}, al2o3: ${percent(5)}, fe2o3: ${percent(3)}, so3: ${percent(3)}, freeLime: ${percent(freeLime)} }`,
    ];
    expect(refused(analysis(1, 75), 'cement')).toEqual([
      expect.stringContaining('binder.oxides: the value is out of range: found “107 percent together”'),
    ]);
    expect(refused(analysis(65, 64), 'cement')).toEqual([
      expect.stringContaining(
        'freeLime.value: the value is out of range: found “65”, expected at most all the CaO, 64',
      ),
    ]);
    expect(overlay(table, row(analysis(1, 64), 'cement'), 'mine.yaml').byId('ours')).toBeDefined();
  });

  it('all at once, each at its own line; gaps and equal doses rule out nothing', () => {
    const lines = [
      `density: ${figure(1.5, 'g/cm3')}`,
      `bulkDensity: ${figure(2.6, 'g/cm3')}`,
      ...gypsum(`initialSet: ${minutes(24)}`, `finalSet: ${minutes(12)}`),
    ];
    expect(refused(lines, 'gypsum').map((said) => /line (\d+)/.exec(said)![1])).toEqual(['7', '11']);
    const open = [
      `bulkDensity: ${figure(2.6, 'g/cm3')}`,
      `dose: { of: binder, least: ${percent(1)}, usual: ${percent(1)}, most: ${percent(1)} }`,
      ...gypsum('initialSet: { value: null, reason: "not timed" }', `finalSet: ${minutes(12)}`),
    ];
    expect(overlay(table, row(open, 'gypsum'), 'mine.yaml').byId('ours')).toBeDefined();
  });

  it('is true of every shipped row', () => {
    expect(inconsistent(materials, (path) => ({ path: path.join('.') }))).toEqual([]);
    // What the rules look at is there to be looked at.
    expect(materials.filter((m) => m.grading !== undefined).length).toBeGreaterThan(4);
    expect(materials.filter((m) => m.dose !== undefined).length).toBeGreaterThan(10);
    expect(materials.filter((m) => m.binder?.finalSet !== undefined).length).toBeGreaterThan(5);
  });
});
