import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { sourcesFileSchema } from '../../src/core/materials/schema.js';
import { MODELS, modelById, outsideValidity } from '../../src/core/science/provenance.js';
import { SCIENCE_SOURCES } from '../../src/core/science/sources.js';
import { CALIBRATION, oracleNames, readOracle } from '../oracles/oracle.js';
import { REGISTRY } from '../oracles/registry.js';

const science = fileURLToPath(new URL('../../src/core/science/', import.meta.url));
const table = sourcesFileSchema.parse(
  parse(readFileSync(fileURLToPath(new URL('../../materials/sources.yaml', import.meta.url)), 'utf8')),
).sources;
const files = readdirSync(science).filter((name) => name.endsWith('.ts'));
const text = (name: string): string => readFileSync(`${science}${name}`, 'utf8');
const oracles = oracleNames().map((name) => ({ ...readOracle(name), name }));
const calibration = oracleNames(CALIBRATION).map((name) => ({ ...readOracle(name, CALIBRATION), name }));

describe('provenance of the models', () => {
  it('lists for each model exactly the example files that name it', () => {
    const byModel = new Map<string, string[]>(MODELS.map((m) => [m.id, []]));
    for (const oracle of oracles) {
      expect(byModel.has(oracle.model), `${oracle.name} names model "${oracle.model}"`).toBe(true);
      byModel.get(oracle.model)!.push(oracle.name);
    }
    for (const model of MODELS)
      expect([model.id, [...model.oracles].sort()]).toEqual([model.id, byModel.get(model.id)!.sort()]);
  });

  it('has unique ids, existing files, and every field filled', () => {
    expect(new Set(MODELS.map((m) => m.id)).size).toBe(MODELS.length);
    for (const m of MODELS) {
      expect(m.id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      for (const field of [m.title, m.equation, m.unit, m.validity]) expect(field.length).toBeGreaterThan(0);
      expect(m.sources.length, m.id).toBeGreaterThan(0);
      for (const file of m.files) expect(existsSync(`${science}${file}`), `${m.id}: ${file}`).toBe(true);
    }
  });

  it('covers every science file', () => {
    const covered = new Set(MODELS.flatMap((m) => m.files));
    const plumbing = ['guard.ts', 'provenance.ts', 'sources.ts'];
    expect(files.filter((name) => !covered.has(name) && !plumbing.includes(name))).toEqual([]);
  });

  it('cites only known sources, each defined once', () => {
    expect(Object.keys(SCIENCE_SOURCES).filter((key) => key in table)).toEqual([]);
    const cited = [...MODELS.flatMap((m) => m.sources), ...[...oracles, ...calibration].map((o) => o.source)];
    expect(cited.filter((key) => !(key in SCIENCE_SOURCES) && !(key in table))).toEqual([]);
  });

  it('keeps no source that nothing cites', () => {
    const docstrings = files
      .filter((name) => name !== 'sources.ts')
      .map(text)
      .join('\n');
    const cited = new Set([...MODELS.flatMap((m) => m.sources), ...oracles.map((o) => o.source)]);
    const unused = Object.keys(SCIENCE_SOURCES).filter(
      (key) => !cited.has(key) && !new RegExp(`(^|[^a-z0-9-])${key}([^a-z0-9-]|$)`, 'm').test(docstrings),
    );
    expect(unused).toEqual([]);
  });

  it('marks examples that were recalled as from memory', () => {
    const recalled = oracles.filter(({ source }) => {
      const { note } = SCIENCE_SOURCES[source] ?? table[source]!;
      return source === 'memory' || /^(figures |list )?from memory/.test(note ?? '');
    });
    expect(recalled.length).toBeGreaterThan(5);
    for (const { name, seen } of recalled) expect([name, seen]).toEqual([name, 'from-memory']);
  });

  it('uses every run of the registry', () => {
    const used = new Set([...oracles, ...calibration].map((o) => o.run));
    expect(Object.keys(REGISTRY).filter((run) => !used.has(run))).toEqual([]);
  });

  it('tells which inputs lie outside the measured range', () => {
    expect(outsideValidity('plaster-strength', { waterToPlaster: 0.5 })).toEqual([]);
    expect(outsideValidity('plaster-strength', { waterToPlaster: 0.9 }).map((r) => r.input)).toEqual([
      'waterToPlaster',
    ]);
    expect(outsideValidity('water-density', { celsius: 60, other: 1e9 })).toHaveLength(1);
    expect(() => modelById('plaster-strenght')).toThrow(RangeError);
  });
});

describe('docstrings', () => {
  /** Exported functions, with the text that stands right before them. */
  const functions = files
    .filter((name) => !['provenance.ts', 'sources.ts'].includes(name))
    .flatMap((name) =>
      [...text(name).matchAll(/(\/\*\*(?:(?!\*\/)[\s\S])*\*\/\n)?export (?:function (\w+)|const (\w+) = \()/g)].map(
        (m) => ({
          name: `${name} ${m[2] ?? m[3]}`,
          doc: m[1] ?? '',
        }),
      ),
    );

  it('stand above every exported function', () => {
    expect(functions.length).toBeGreaterThan(90);
    expect(functions.filter((f) => f.doc === '').map((f) => f.name)).toEqual([]);
  });

  it('carry a unit in square brackets or say what word comes back', () => {
    const silent = functions.filter(
      (f) => !/\[[^\]]+\]|[Ww]hether|Verdict|Why |Risk |caution|Throws|@throws/.test(f.doc),
    );
    expect(silent.map((f) => f.name)).toEqual([]);
  });
});
