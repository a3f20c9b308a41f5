import { describe, expect, it } from 'vitest';
import { overlay } from '../../src/core/materials/overlay.js';
import type { Material } from '../../src/core/materials/schema.js';
import { densityAsMeasured, densityOf, materialTable } from '../../src/core/materials/table.js';
import { codesOf, problemsOf } from '../support/problems.js';

const figure = (value: number) => ({
  value,
  low: value,
  high: value,
  unit: 'g/cm3' as const,
  source: 'handbook',
  where: 'p. 1',
  status: 'looked-up' as const,
});
const material = (id: string, name: string, also: readonly string[] = []): Material => ({
  id,
  name,
  kind: 'sand',
  also: [...also],
  density: figure(2.65),
  hazards: [],
});

// Invented for this test.
const table = materialTable({
  materials: [
    material('silica-sand', 'Silica sand', ['quartz sand', 'sharp sand']),
    material('river-sand', 'River sand', ['sharp sand']),
  ],
  sources: { handbook: { title: 'A handbook', kind: 'handbook' } },
});

describe('the materials table', () => {
  it('finds by id, name and other words', () => {
    for (const word of ['silica-sand', 'Silica sand', 'SILICA_SAND', 'quartz sand'])
      expect(table.get(word).id).toBe('silica-sand');
    expect(table.byId('quartz sand')).toBeUndefined();
    expect(table.byKind('sand')).toHaveLength(2);
    expect(table.byKind('lime')).toHaveLength(0);
  });
  it('names the nearest, and the choice when a word means two', () => {
    const where = { file: 'brief.yaml', line: 7 };
    expect(problemsOf(() => table.get('qartz sand', where))).toMatchObject([
      { code: 'material-unknown', where, found: 'qartz sand', nearest: 'silica-sand' },
    ]);
    expect(problemsOf(() => table.get('sharp sand'))).toMatchObject([
      { code: 'material-ambiguous', expected: 'one of silica-sand, river-sand' },
    ]);
    for (const word of ['constructor', '__proto__', 'toString', ''])
      expect(codesOf(() => table.get(word))).toEqual(['material-unknown']);
  });
  it('holds every id once', () => {
    expect(codesOf(() => materialTable({ materials: [material('a', 'A'), material('a', 'B')], sources: {} }))).toEqual([
      'material-duplicate',
    ]);
  });
});

describe('a maker’s own file over it', () => {
  const own = (materials: string, rest = '') => `materials:\n${materials}${rest}`;
  const sand = (id: string, more = '') =>
    `  - id: ${id}\n    name: ${id} of mine\n    kind: sand\n    hazards: []\n${more}`;
  const density = (source: string, status: string) =>
    `    density: {value: 2.6, low: 2.5, high: 2.7, unit: g/cm3, source: ${source}, where: p. 2, status: ${status}}\n`;

  it('replaces by id, adds the rest, and its words come first', () => {
    const mine = overlay(
      table,
      own(
        sand('river-sand', density('handbook', 'looked-up')) +
          sand('dune-sand', `${density('none', 'ours')}    also: [quartz sand]\n`),
      ),
      'mine.yaml',
    );
    expect(mine.materials.map((entry) => entry.id)).toEqual(['silica-sand', 'river-sand', 'dune-sand']);
    expect(densityOf(mine.get('river-sand')).value).toBe(2.6);
    expect(mine.get('quartz sand').id).toBe('dune-sand');
    expect([...mine.own]).toEqual(['river-sand', 'dune-sand']);
    expect(table.get('quartz sand').id).toBe('silica-sand');
  });

  it('may leave the density out until a model needs it', () => {
    const mine = overlay(table, own(sand('dune-sand')), 'mine.yaml');
    const dune = mine.get('dune-sand');
    expect(problemsOf(() => densityOf(dune, { file: 'brief.yaml', line: 3 }))).toMatchObject([
      { code: 'material-density-missing', found: 'dune-sand', where: { line: 3 } },
    ]);
    expect(densityAsMeasured(dune)).toBeUndefined();
  });

  it('may bring its own sources; any other must be known', () => {
    const sources = 'sources:\n  weighed: {title: My scale, kind: project}\n';
    expect(
      overlay(table, own(sand('a', density('weighed', 'looked-up')), sources), 'mine.yaml').sources,
    ).toHaveProperty('weighed');
    expect(
      problemsOf(() => overlay(table, own(sand('a', density('handbok', 'looked-up'))), 'mine.yaml')),
    ).toMatchObject([
      {
        code: 'source-unknown',
        where: { file: 'mine.yaml', line: 6, path: 'materials[0].density.source' },
        nearest: 'handbook',
      },
    ]);
    expect(codesOf(() => overlay(table, own(sand('a', density('constructor', 'looked-up'))), 'mine.yaml'))).toEqual([
      'source-unknown',
    ]);
  });

  it('refuses an id twice, with the second’s line', () => {
    expect(problemsOf(() => overlay(table, own(sand('a') + sand('a')), 'mine.yaml'))).toMatchObject([
      { code: 'material-duplicate', where: { line: 6 }, found: 'a' },
    ]);
  });

  it('must keep the hazards: they are never guessed', () => {
    expect(
      problemsOf(() => overlay(table, 'materials:\n  - id: a\n    name: A\n    kind: sand\n', 'mine.yaml')),
    ).toMatchObject([{ code: 'field-missing', where: { path: 'materials[0].hazards' } }]);
  });
});
