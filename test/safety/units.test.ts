import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { SERVICES } from '../../src/core/materials/words.js';
import { MARK } from '../../src/core/problems/marks.js';
import { plainWarnings } from '../../src/core/report/plain-warnings.js';
import { problemResult } from '../../src/core/report/problem-result.js';
import { toldRisks } from '../../src/core/report/result.js';
import { riskProblems } from '../../src/core/risks/problems.js';
import { risksOf } from '../../src/core/risks/risks.js';
import { type Caution, type CautionSet, REGIONS } from '../../src/core/safety/caution.js';
import { cautionsFor, shorten } from '../../src/core/safety/cautions.js';
import { blendFacts, FINISHINGS, PEOPLE, USES } from '../../src/core/safety/facts.js';
import { cautionLines } from '../../src/core/safety/lines.js';
import { inUnits } from '../../src/core/units/marked.js';
import { SHELF } from '../support/material-rows.js';
import { quantitiesOf } from '../support/quantities.js';
import { randomBlend } from '../support/random-blend.js';
import { BLENDS } from './cases.js';

/** Growth of a length: a share, shown on a round length of each system. */
const RATE = /([\d.]+) (?:mm in|in in) (\d+) (?:mm|in)/;

/**
 * Both say the same: the same words to the letter, and quantities no further apart than half of what is printed last, a
 * temperature to half a degree Fahrenheit. Returns how many quantities there were.
 */
function alike(metric: string, us: string): number {
  const [here, there] = [RATE.exec(metric), RATE.exec(us)];
  expect(there === null, us).toBe(here === null);
  if (here !== null && there !== null) {
    const share = (rate: RegExpExecArray): number => Number(rate[1]) / Number(rate[2]);
    expect(Math.abs(share(here) - share(there)), us).toBeLessThanOrEqual(0.5 * (0.1 / 100 + 0.01 / 10));
  }
  const [m, u] = [metric, us].map((text) => quantitiesOf(text.replace(RATE, 'RATE')));
  expect(u!.words).toBe(m!.words);
  expect(u!.quantities.map((q) => q.kind)).toEqual(m!.quantities.map((q) => q.kind));
  for (const [i, { value, half, kind }] of u!.quantities.entries()) {
    const wanted = m!.quantities[i]!.value;
    const most = kind === 'temperature' ? 0.5 / 1.8 : Math.max(half, 0.005 * wanted);
    expect(Math.abs(value - wanted), `${us} for ${metric}`).toBeLessThanOrEqual(most + 1e-9);
  }
  // Nothing metric is left that the other was given for.
  expect(us).not.toMatch(/(?<![\w.])[\d.]+ (?:°C|kg|g|mL|cm|mm|MPa|g\/cm3)(?![\w/])/);
  for (const text of [metric, us]) expect(text).not.toMatch(/[⟦⟧]|NaN|undefined/);
  return m!.quantities.length + (here === null ? 0 : 1);
}

const TEXTS = ['title', 'text', 'short', 'because'] as const;

function cautionsAlike(set: CautionSet): number {
  let seen = 0;
  for (const metric of set.cautions) {
    const us: Caution = inUnits(metric, 'us');
    for (const key of TEXTS) seen += alike(metric[key], us[key]);
    // Nothing else of it changes: its gravity, its sources, its region.
    const { us: _us, ...rest } = metric;
    expect({ ...us, ...Object.fromEntries(TEXTS.map((key) => [key, metric[key]])) }).toEqual(rest);
  }
  return seen;
}

describe('cautions in US units', () => {
  it('say the same as in metric, word for word, in every case and region', () => {
    let seen = 0;
    for (const region of REGIONS) {
      for (const { facts } of BLENDS) {
        const set = cautionsFor(facts, { region });
        seen += cautionsAlike(set);
        // Cut short, a caution is its short line in either.
        for (const c of shorten(set).cautions) expect(inUnits(c, 'us').text).toBe(inUnits(c, 'us').short);
        const [metric, us] = [cautionLines(set), cautionLines(set, 'us')];
        expect(us).toHaveLength(metric.length);
        for (const [i, line] of us.entries()) alike(metric[i]!, line);
      }
    }
    expect(seen).toBeGreaterThan(50);
  });

  it('say the same of random blends', () => {
    const part = fc.record({
      material: fc.constantFrom(...Object.values(SHELF)),
      grams: fc.double({ min: 0.01, max: 30_000, noNaN: true }),
    });
    const blend = fc.uniqueArray(part, { minLength: 1, maxLength: 8, selector: (p) => p.material.id });
    const figure = (min: number, max: number) => fc.option(fc.double({ min, max, noNaN: true }));
    const conditions = fc.record({
      service: fc.constantFrom(...SERVICES),
      uses: fc.subarray([...USES]),
      finishing: fc.constantFrom(...FINISHINGS),
      who: fc.subarray([...PEOPLE]),
      wall: figure(0.3, 40),
      pieceGrams: figure(10, 60_000),
      waterToPlaster: figure(0.2, 1.2),
      peakTemperature: figure(20, 110),
      likelyPeak: figure(15, 95),
    });
    let seen = 0;
    fc.assert(
      fc.property(blend, conditions, fc.constantFrom(...REGIONS), (parts, c, region) => {
        seen += cautionsAlike(cautionsFor(blendFacts(parts, c), { region }));
      }),
      { numRuns: 1000, seed: 31 },
    );
    expect(seen).toBeGreaterThan(4000);
  });
});

describe('risks and plain warnings in US units', () => {
  it('say the same of random blends', () => {
    let seen = 0;
    let warned = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const { input, grams } = randomBlend(seed);
      const risks = risksOf(input, grams);
      for (const risk of toldRisks(risks)) seen += alike(risk.text, inUnits(risk, 'us').text);
      const used = grams.flatMap((g, i) => (g > 0 ? [i] : []));
      const parts = used.map((i) => ({ material: input.materials[i]!, grams: grams[i]! }));
      const assessment = assess(
        { ...input, materials: parts.map((p) => p.material) },
        parts.map((p) => p.grams),
        [],
        { draws: 0 },
      );
      for (const problem of [...riskProblems(risks), ...plainWarnings(assessment, parts)]) {
        const told = problemResult(problem);
        // Water for each gram, or each ounce, of cement: the same figure.
        const plain = (text: string): string => text.replace(/(?:g|oz) of water for each (?:gram|ounce)/, 'of water');
        alike(plain(told.message), plain(inUnits(told, 'us').message));
        warned++;
      }
    }
    expect(seen).toBeGreaterThan(200);
    expect(warned).toBeGreaterThan(100);
  });

  it('are marked where they hold a temperature, a weight or a length', () => {
    const texts = Array.from({ length: 100 }, (_v, i) => randomBlend(i + 1)).flatMap(({ input, grams }) =>
      risksOf(input, grams).map((r) => r.text),
    );
    for (const text of texts) expect(quantitiesOf(text.replace(MARK, '')).quantities, text).toEqual([]);
  });
});
