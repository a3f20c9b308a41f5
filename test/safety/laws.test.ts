import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SERVICES } from '../../src/core/materials/words.js';
import { REGIONS } from '../../src/core/safety/caution.js';
import { cautionsFor } from '../../src/core/safety/cautions.js';
import { blendFacts, FINISHINGS, PEOPLE, type SafetyConditions, USES } from '../../src/core/safety/facts.js';
import { SHELF } from '../support/material-rows.js';

const materials = Object.values(SHELF);
const part = fc.record({
  material: fc.constantFrom(...materials),
  grams: fc.oneof(fc.double({ min: 0.01, max: 5, noNaN: true }), fc.double({ min: 5, max: 5000, noNaN: true })),
});
const blend = fc.uniqueArray(part, { minLength: 1, maxLength: 8, selector: (p) => p.material.id });
const conditions = fc.record({
  service: fc.constantFrom(...SERVICES),
  uses: fc.subarray([...USES]),
  finishing: fc.constantFrom(...FINISHINGS),
  who: fc.subarray([...PEOPLE]),
  wall: fc.option(fc.double({ min: 0.3, max: 6, noNaN: true })),
  waterToPlaster: fc.option(fc.double({ min: 0.2, max: 1.2, noNaN: true })),
  peakTemperature: fc.option(fc.double({ min: 20, max: 95, noNaN: true })),
});
const region = fc.constantFrom(...REGIONS);
const ids = (parts: Parameters<typeof blendFacts>[0], c: SafetyConditions, r: 'US' | 'EU') =>
  cautionsFor(blendFacts(parts, c), { region: r }).cautions.map((x) => x.id);

describe('laws of the cautions', () => {
  it('adding a material never takes a caution away', () => {
    let grew = 0;
    fc.assert(
      fc.property(blend, part, conditions, region, (parts, more, c, r) => {
        const before = ids(parts, c, r);
        const after = ids([...parts, more], c, r);
        expect(before.filter((id) => !after.includes(id))).toEqual([]);
        if (after.length > before.length) grew++;
      }),
      { numRuns: 1500, seed: 20 },
    );
    expect(grew).toBeGreaterThan(500);
  });

  it('scaling the batch changes no share-based severity, and order never matters', () => {
    let exercised = 0;
    fc.assert(
      fc.property(blend, conditions, region, (parts, c, r) => {
        const small = parts.map((p) => ({ ...p, grams: p.grams / 1e6 }));
        const tiny = small.map((p) => ({ ...p, grams: p.grams / 2 }));
        const state = (of: typeof parts) =>
          cautionsFor(blendFacts(of, c), { region: r }).cautions.map((x) => `${x.id} ${x.severity}`);
        expect(state(tiny)).toEqual(state(small));
        expect(state([...parts].reverse())).toEqual(state(parts));
        exercised++;
      }),
      { numRuns: 500, seed: 21 },
    );
    expect(exercised).toBe(500);
  });

  it('naming a further person or use never takes a caution away or makes one milder', () => {
    const order = ['stop', 'warn', 'caution', 'info'];
    let graver = 0;
    fc.assert(
      fc.property(
        blend,
        conditions,
        fc.constantFrom(...PEOPLE),
        fc.constantFrom(...USES),
        region,
        (parts, c, who, use, r) => {
          const before = cautionsFor(blendFacts(parts, c), { region: r }).cautions;
          const richer = { ...c, who: [...(c.who ?? []), who], uses: [...(c.uses ?? []), use] };
          const after = new Map(
            cautionsFor(blendFacts(parts, richer), { region: r }).cautions.map((x) => [x.id, x.severity]),
          );
          for (const b of before) {
            const now = after.get(b.id);
            expect(now, b.id).toBeDefined();
            expect(order.indexOf(now!), b.id).toBeLessThanOrEqual(order.indexOf(b.severity));
            if (order.indexOf(now!) < order.indexOf(b.severity)) graver++;
          }
        },
      ),
      { numRuns: 800, seed: 22 },
    );
    expect(graver).toBeGreaterThan(500);
  });
});
