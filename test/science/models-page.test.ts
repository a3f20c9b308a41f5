import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { whyList, whyResult } from '../../src/core/report/why.js';
import { strengthTable } from '../../src/core/report/why-strength.js';
import { risksOf } from '../../src/core/risks/risks.js';
import { checkSummary } from '../../src/core/science/provenance/check.js';
import { MODELS } from '../../src/core/science/provenance.js';
import { SCIENCE_SOURCES } from '../../src/core/science/sources.js';
import { ACI_STRENGTH_SI } from '../../src/core/science/strength.js';
import { modelsPage } from '../oracles/models-page.js';
import { checkedRows, checksByModel, checksText, summaryOf } from '../oracles/summary.js';
import { problemsOf } from '../support/problems.js';
import { MATERIALS, materials, model, sources } from '../support/shipped-table.js';

const rows = checkedRows();
const checks = checksByModel(rows);
const tables = { checks, sources, figures: model };
const ids = new Set(MODELS.map((m) => m.id));

describe('what the checks found, as it ships', () => {
  // `npm run models` writes both anew.
  it('materials/checks.json is fresh', () => {
    expect(readFileSync(`${MATERIALS}/checks.json`, 'utf8')).toBe(checksText(checks));
  });

  it('materials/MODELS.md is fresh', () => {
    expect(readFileSync(`${MATERIALS}/MODELS.md`, 'utf8')).toBe(modelsPage(checks, { ...SCIENCE_SOURCES, ...sources }));
  });

  it('holds every published figure once, and its summary agrees with the accuracy report', () => {
    expect(Object.values(checks).flat()).toHaveLength(rows.length);
    for (const { id } of MODELS) {
      const own = checkSummary(checks[id]!);
      const report = summaryOf(id, rows);
      expect([id, own.checks, own.numbers]).toEqual([id, report.checks, report.numbers]);
      if (report.numbers > 0) expect(own.meanError).toBeCloseTo(report.mean, 4);
    }
  });

  it('counts no fitted row as a check', () => {
    const fitted = { ...checks['plaster-strength']![0]!, standing: 'fitted', error: 0.5 } as const;
    expect(checkSummary([fitted])).toEqual({ checks: 0, numbers: 0, meanError: null, worst: null });
  });
});

describe('models of the properties', () => {
  it.each(PROPERTIES.map((p) => [p.id, p.models] as const))('%s names models there are', (_id, named) => {
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((m) => !ids.has(m))).toEqual([]);
    expect(new Set(named).size).toBe(named.length);
  });

  it('of the risks too', () => {
    let seen = 0;
    for (const service of ['wet', 'warm'] as const) {
      const conditions = { ...DEFAULT_CONDITIONS, service };
      const found = risksOf(
        { materials, figures: model, conditions },
        materials.map(() => 10),
      );
      seen += found.length;
      expect(found.flatMap((r) => r.models).filter((m) => !ids.has(m))).toEqual([]);
    }
    expect(seen).toBeGreaterThan(12);
  });
});

describe('why', () => {
  it('tells equation, sources, validity, misfits and checks of every property and every model', () => {
    for (const word of [...PROPERTIES.map((p) => p.id), ...ids]) {
      const why = whyResult(word, tables);
      expect(why.models.length).toBeGreaterThan(0);
      for (const m of why.models) {
        for (const text of [m.title, m.equation, m.validity, m.unit]) expect(text.length).toBeGreaterThan(0);
        expect(m.sources.length).toBeGreaterThan(0);
        for (const source of m.sources) expect(source.title.length).toBeGreaterThan(0);
      }
    }
  });

  it('takes a name as well as an id, and offers the nearest word for a slip', () => {
    expect(whyResult('Dry weight', tables).property?.id).toBe('dry-weight');
    expect(() => whyResult('strenght', tables)).toThrow(/property-unknown/);
    expect(problemsOf(() => whyResult('weight-day-366', tables))).toMatchObject([
      { code: 'property-unknown', expected: 'a whole day: weight-day-1 to weight-day-365' },
    ]);
  });

  it('lists all of them', () => {
    const list = whyList(tables);
    expect(list.properties).toHaveLength(PROPERTIES.length);
    expect(list.models).toHaveLength(MODELS.length);
  });

  it('shows the law of portland strength within 12 % of ACI 211.1’s printed table', () => {
    const { rows: shown } = strengthTable(model);
    expect(shown.map(([, printed]) => printed)).toEqual(ACI_STRENGTH_SI.plain.map((r) => r.strength));
    for (const [ratio, printed, law] of shown) {
      expect(Math.abs(law - printed) / printed, `w/c ${ratio}`).toBeLessThan(0.12);
    }
  });
});
