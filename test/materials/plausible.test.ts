import { describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { overlay } from '../../src/core/materials/overlay.js';
import { userFileSchema } from '../../src/core/materials/schema.js';
import { materialTable } from '../../src/core/materials/table.js';
import { explain } from '../../src/core/problems/words.js';
import { problemsOf } from '../support/problems.js';
import { materials, sources } from '../support/shipped-table.js';

// Rows invented for this test.
const table = materialTable({ materials, sources });
const figure = (value: number | string, unit: string) =>
  `{ value: ${value}, low: ${value}, high: ${value}, unit: ${unit}, source: none, status: ours }`;
const own = (lines: readonly string[], kind = 'filler') =>
  ['materials:', '  - id: ours', '    name: ours', `    kind: ${kind}`, '    hazards: []']
    .concat(lines.map((line) => `    ${line}`))
    .join('\n');
const read = (lines: readonly string[], kind?: string) => overlay(table, own(lines, kind), 'mine.yaml').byId('ours')!;
/** Path and expectation of each number refused, `low` and `high` left out: they stand beside the value. */
const refused = (lines: readonly string[], kind?: string) =>
  problemsOf(() => read(lines, kind))
    .filter((p) => !/\.(low|high)$/.test(p.where?.path ?? ''))
    .map(({ code, where, found, expected }) => [code, where?.path?.replace('materials[0].', ''), found, expected]);

describe('a figure no material can have', () => {
  it('is refused with its line, what was found and what may stand there', () => {
    const [problem] = problemsOf(() => read([`density: ${figure(-2.6, 'g/cm3')}`]));
    expect(explain(problem!)).toBe(
      'mine.yaml line 6, materials[0].density.value: the value is out of range: found “-2.6”, expected more than 0 and at most 25 g/cm3.',
    );
  });

  it.each([
    ['density', 'g/cm3', [0, 2600], 'more than 0 and at most 25 g/cm3'],
    ['bulkDensity', 'g/cm3', [0, -1.5, 1500], 'more than 0 and at most 25 g/cm3'],
    ['solids', 'g/g', [0, 7, -0.1], 'more than 0 and at most 1 g/g'],
    ['absorption', 'percent', [-50, 1001], 'at least 0 and at most 1000 percent'],
    ['moisture', 'percent', [-1, 501], 'at least 0 and at most 500 percent'],
    ['so3', 'percent', [-1, 101], 'at least 0 and at most 100 percent'],
    ['waterDemand', 'g/g', [-0.7, 70], 'at least 0 and at most 5 g/g'],
    ['blaine', 'm2/kg', [0, 1e6], 'more than 0 and at most 500000 m2/kg'],
    ['crystallineSilica', 'fraction', [-0.1, 95], 'at least 0 and at most 1'],
    ['respirableSilica', 'fraction', [-0.1, 1.1], 'at least 0 and at most 1'],
    ['shelfLife', 'months', [0, -6], 'more than 0 and at most 1200 months'],
  ] as const)('%s', (field, unit, wrong, expected) => {
    for (const value of wrong)
      expect(refused([`${field}: ${figure(value, unit)}`])).toEqual([
        ['field-out-of-range', `${field}.value`, String(value), expected],
      ]);
  });

  it('in a binder, a pozzolan, a dose, an effect or a grading is found as well, all at once', () => {
    const lines = [
      'binder:',
      '  family: gypsum',
      `  initialSet: ${figure(-10, 'min')}`,
      `  heat: ${figure(-1, 'J/g')}`,
      `  phases: { hemihydrate: ${figure(95, 'g/g')}, c3a: ${figure(-1, 'percent')} }`,
      `pozzolan: { activity: ${figure(-1, 'g/g')}, k: ${figure(-1, 'g/g')}, kCap: ${figure(-1, 'g/g')} }`,
      `dose: { of: binder, usual: ${figure(-1, 'percent')}, most: ${figure(200, 'percent')} }`,
      `effects: [{ on: set, of: binder, per: ${figure(-101, 'ln per percent')}, limit: ${figure(-1, 'percent')} }]`,
      `grading: [{ sieve: 600, passing: ${figure(120, 'percent')} }]`,
    ];
    const paths = refused(lines, 'gypsum').map(([, path]) => path);
    expect(paths.map((path) => path!.replace('.value', '')).sort()).toEqual([
      'binder.heat',
      'binder.initialSet',
      'binder.phases.c3a',
      'binder.phases.hemihydrate',
      'dose.most',
      'dose.usual',
      'effects[0].limit',
      'effects[0].per',
      'grading[0].passing',
      'grading[0].sieve',
      'pozzolan.activity',
      'pozzolan.k',
      'pozzolan.kCap',
    ]);
  });

  it('is refused at the ends of its range and among other sources too', () => {
    const low = 'density: { value: 2.6, low: -1, high: 2.7, unit: g/cm3, source: none, status: ours';
    expect(problemsOf(() => read([`${low} }`])).map((p) => p.where?.path)).toEqual(['materials[0].density.low']);
    const other = `${low.replace('-1', '2.5')}, others: [${figure(0, 'g/cm3')}] }`;
    expect(refused([other])).toEqual([['field-out-of-range', 'density.others[0].value', '0', expect.any(String)]]);
  });

  it('half written is still judged as a figure', () => {
    const half = 'density: { value: -1, low: -1, high: -1 }';
    expect(problemsOf(() => read([half])).map((p) => p.where?.path?.split('.').at(-1))).toEqual(
      expect.arrayContaining(['value', 'unit', 'source', 'status']),
    );
  });

  it('heavier as scooped than its grains', () => {
    const lines = [`density: ${figure(1.5, 'g/cm3')}`, `bulkDensity: ${figure(2.6, 'g/cm3')}`];
    expect(refused(lines)).toEqual([
      ['field-out-of-range', 'bulkDensity.value', '2.6', 'at most the particle density, 1.5 g/cm3'],
    ]);
    expect(read([lines[0]!, `bulkDensity: ${figure(1.5, 'g/cm3')}`]).bulkDensity?.value).toBe(1.5);
  });
});

describe('figures that are rare but real', () => {
  it('pass: a metal powder, a grain that drinks thrice its mass, a liquid of nothing but solids', () => {
    const metal = [`density: ${figure(19.3, 'g/cm3')}`, `bulkDensity: ${figure(11, 'g/cm3')}`];
    expect(read(metal).density.value).toBe(19.3);
    expect(read([`absorption: ${figure(350, 'percent')}`, `moisture: ${figure(0, 'percent')}`]).absorption?.value).toBe(
      350,
    );
    expect(read([`solids: ${figure(1, 'g/g')}`]).solids?.value).toBe(1);
  });
});

describe('the JSON Schema', () => {
  it('carries the ends, so that an editor marks them', () => {
    const text = JSON.stringify(z.toJSONSchema(userFileSchema, { io: 'input' }));
    expect(text).toContain('"value":{"type":"number","exclusiveMinimum":0,"maximum":25}');
    expect(text).toContain('"value":{"type":"number","minimum":0,"maximum":1000}');
  });
});
