import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { KINDS } from '../../src/core/materials/words.js';
import { shelfCheckResultSchema } from '../../src/core/report/shelf-schema.js';
import { folderOf, said } from '../support/cli.js';
import { materials, sources } from '../support/shipped-table.js';

const row = (more: string): string => `materials:
  - id: river-sand
    name: river sand
    kind: sand
    density: { value: 2.6, low: 2.55, high: 2.65, unit: g/cm3, source: none, status: ours }
    hazards: { unknown: "an invented row of a test" }
${more}`;

const where = folderOf({
  'good.yaml': row(''),
  'gap.yaml': row('').replace(/density: .*/, 'density: { value: null, reason: "not measured" }'),
  'upside-down.yaml': row('').replace('low: 2.55', 'low: 2.75'),
  'zero.yaml': row('').replace('value: 2.6, low: 2.55', 'value: 0, low: 0'),
  'unit.yaml': row('').replace('unit: g/cm3', 'unit: g/g'),
  'twice.yaml': row(row('').replace('materials:\n', '')),
  'source.yaml': row('').replace('source: none, status: ours', 'source: nowhere, where: "table 1", status: looked-up'),
});
afterAll(() => rmSync(where, { recursive: true, force: true }));
const file = (name: string): string => join(where, name);

describe('the list', () => {
  it('holds every material under its kind', async () => {
    const { code, out } = await said(['shelf']);
    expect(code).toBe(0);
    for (const m of materials) expect(out).toContain(`  ${m.id}`);
    const headings = out.split('\n').filter((line) => (KINDS as readonly string[]).includes(line));
    expect(headings).toEqual(KINDS.filter((kind) => materials.some((m) => m.kind === kind)));
  });

  it('shows one kind when asked', async () => {
    const { out } = await said(['shelf', '--kind', 'light-aggregate', '--json']);
    const listed = JSON.parse(out) as { format: string; materials: { id: string; kind: string }[] };
    expect(listed.format).toBe('pourwright.shelf/1');
    expect(listed.materials.map((m) => m.id).sort()).toEqual(
      materials
        .filter((m) => m.kind === 'light-aggregate')
        .map((m) => m.id)
        .sort(),
    );
  });

  it.each([40, 80])('fits a terminal of %i columns', async (columns) => {
    const { out } = await said(['shelf'], '', { columns });
    expect(Math.max(...out.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(columns);
  });
});

describe('one material', () => {
  it('is found by id, name or another word, in any case', async () => {
    const [a, b, c] = await Promise.all(
      ['casting-plaster', 'Beta Casting Plaster', 'plaster of Paris'].map((word) => said(['shelf', word])),
    );
    expect(a!.code).toBe(0);
    expect(b!.out).toBe(a!.out);
    expect(c!.out).toBe(a!.out);
  });

  it('is shown with every figure, how it was come by, its hazards and its sources', async () => {
    const { out } = await said(['shelf', 'portland-cement-grey']);
    expect(out).toMatch(/density: 3\.15 g\/cm3 \(3\.08 to 3\.2\); looked-up, mat-13-1505, Table 2/);
    expect(out).toContain('HAZARDS');
    expect(out).toMatch(/H318 \(EU\)/);
    expect(out).toMatch(/SOURCES\n(.|\n)*mat-13-1505: /);
    expect(out.replace(/\s+/g, ' ')).toContain('safety data sheet of the bag you hold');
  });

  it('is data with its sources', async () => {
    const { out } = await said(['shelf', 'silica-fume', '--json']);
    const shown = JSON.parse(out) as { format: string; material: { id: string }; sources: Record<string, unknown> };
    expect(shown.format).toBe('pourwright.material/1');
    expect(shown.material.id).toBe('silica-fume');
    for (const key of Object.keys(shown.sources)) expect(shown.sources[key], key).toEqual(sources[key]);
  });
});

describe('checking a file of one’s own', () => {
  it('in order ends with 0', async () => {
    const { code, out } = await said(['shelf', '--check', file('good.yaml')]);
    expect(code).toBe(0);
    expect(out).toMatch(/1 material, all in order/);
  });

  it('says what no blend can use yet', async () => {
    const { code, out } = await said(['shelf', '--check', file('gap.yaml')]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('Without a density, so no blend can use them yet: river-sand');
  });

  it('says what it takes from shipped materials in place of what the file leaves out', async () => {
    const [{ code, out }, { out: json }] = await Promise.all([
      said(['shelf', '--check', file('good.yaml')]),
      said(['shelf', '--check', file('good.yaml'), '--json']),
    ]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /for river-sand this is taken from the shipped sands: waterDemand 0\.03 g\/g/i,
    );
    const { warnings } = shelfCheckResultSchema.parse(JSON.parse(json));
    expect(warnings).toMatchObject([{ code: 'material-figure-missing', severity: 'warning', line: 2 }]);
  });

  it.each([
    ['upside-down.yaml', /line 5.*low <= value <= high must hold/i],
    ['zero.yaml', /line 5.*density\.value.*found “0”, expected more than 0 and at most 25 g\/cm3/],
    ['unit.yaml', /line 5.*density\.unit/],
    ['twice.yaml', /this material stands here twice: found “river-sand”/],
    ['source.yaml', /line 5.*the source named here is not in the list/],
  ])('%s ends with 2 and its line', async (name, message) => {
    const { code, err, out } = await said(['shelf', '--check', file(name)]);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(message);
  });
});
