import { beforeAll, describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { type Form, type Property, ratioOf } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { holdsWithout, meets, type Target } from '../../src/core/blend/target.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import { rowsOf } from '../../src/core/optimise/rows.js';
import { type Neighbourhood, neighbourhood, tangentForm } from '../../src/core/optimise/tangent.js';
import { type RandomBlend, randomBlend } from '../support/random-blend.js';
import { type Random, seededRandom } from '../support/random-programs.js';

/** Every property on the same seeded blends: what is dear is the neighbourhood, so it is made once a blend. */
const BLENDS = 120;

interface Case extends RandomBlend {
  readonly hood: Neighbourhood;
  readonly random: Random;
}
let cases: readonly Case[] = [];

beforeAll(() => {
  cases = Array.from({ length: BLENDS }, (_v, k) => {
    const blend = randomBlend(5000 + k);
    const open = blend.grams.map(() => true);
    return { ...blend, hood: neighbourhood(blend.world, blend.grams, open), random: seededRandom(9000 + k) };
  });
});

const properties = PROPERTIES.map((p) => [p.id, p] as const);

const rowHolds = (row: Row, grams: readonly number[]): boolean => {
  const value = row.coefficients.reduce((s, c, i) => s + c * grams[i]!, 0);
  const dust = 1e-12 * row.coefficients.reduce((s, c, i) => s + Math.abs(c * grams[i]!), 0);
  return (
    value >= (row.low ?? Number.NEGATIVE_INFINITY) - dust && value <= (row.high ?? Number.POSITIVE_INFINITY) + dust
  );
};

/** Blends that must really have had the property: pigment and pure portland are the rarest. */
const LEAST = 12;
/** Below this a value is the dust of a difference, and no limit can be laid beside it. */
const NOTHING = 1e-6;
/** Nearest a limit is laid to the value: tangents are differences over a millionth of each material. */
const NEAREST = 1e-3;

describe.each(properties)('a limit on %s', (_id, property: Property) => {
  it('is met just when its row holds at the blend', () => {
    let present = 0;
    for (const { world, grams, hood, random } of cases) {
      const value = evaluate(world, grams).value(property);
      if (value !== null && Math.abs(value) < NOTHING) continue;
      for (const above of [true, false]) {
        const side = random.pick(['min', 'max'] as const);
        // Where the blend lacks the property, a limit of any size will do.
        const at = value ?? random.between(0.1, 10);
        const limit = at + (above ? 1 : -1) * Math.abs(at) * random.between(NEAREST, 0.5);
        const target: Target = { property: property.id, [side]: limit };
        const held = rowsOf(property, target, world, hood).every((row) => rowHolds(row, grams));
        if (value !== null) {
          expect(held, `${side} ${limit} at ${value}`).toBe(meets(target, value));
          present++;
        } else if (property.needed !== true) {
          expect(holdsWithout(property, target, world, hood.base), `${side} ${limit}, absent`).toBe(held);
        } else {
          // What never sets pours for ever, and keeps any least of that.
          const endless = side === 'min' && property.endless?.(world, hood.base) === true;
          expect(holdsWithout(property, target, world, hood.base)).toBe(endless);
        }
      }
    }
    expect(present).toBeGreaterThanOrEqual(LEAST);
  });

  it('has rows that hold everywhere just when the property says so', () => {
    let moved = 0;
    for (const { world, grams } of cases) {
      const other = grams.map((g, i) => (i % 2 === 0 ? 1.7 * g : 0.4 * g + 1));
      const [a, b] = [grams, other].map((g) => property.form(world, stateOf(world, g)));
      const ratio = ratioOf(a!, grams);
      const same =
        (Number.isNaN(ratio) || Object.is(a!.link.of(ratio), b!.link.of(ratio))) &&
        a!.constant === b!.constant &&
        a!.numerator.every((n, i) => n === b!.numerator[i]) &&
        (a!.denominator ?? []).every((d, i) => d === b!.denominator![i]);
      if (!same) moved++;
    }
    if (property.stateless === true) expect(moved).toBe(0);
    else expect(moved).toBeGreaterThan(0);
  });

  it('goes through a link that can be turned round', () => {
    let tried = 0;
    for (const { world, grams, random } of cases) {
      const { state, value } = evaluate(world, grams);
      if (value(property) === null) continue;
      const form = property.form(world, state);
      const { link } = form;
      const ratio = ratioOf(form, grams) * random.between(0.7, 1.3);
      const [at, beyond] = [link.of(ratio), link.of(ratio + 1e-3 * Math.abs(ratio))];
      // A property may rest at the end of its range; there is no way back from there.
      if (at === beyond || !Number.isFinite(at)) continue;
      expect(Math.abs(link.inverse(at) - ratio)).toBeLessThanOrEqual(1e-6 * Math.abs(ratio));
      expect(beyond > at).toBe(link.rising);
      tried++;
    }
    expect(tried).toBeGreaterThanOrEqual(LEAST);
  });
});

describe.each(properties)('the tangent of %s', (_id, property: Property) => {
  it('gives the value back (Euler’s identity: both forms are homogeneous of degree one)', () => {
    let exercised = 0;
    for (const { world, grams, hood } of cases) {
      if (evaluate(world, grams).value(property) === null) continue;
      const ratio = ratioOf(property.form(world, hood.base), grams);
      const again = ratioOf(tangentForm(property, world, hood), grams);
      expect(Math.abs(again - ratio)).toBeLessThanOrEqual(EULER * (1 + Math.abs(ratio)));
      exercised++;
    }
    expect(exercised).toBeGreaterThanOrEqual(LEAST);
  });

  it('has the slope of the forward model in every material, by central differences', () => {
    let compared = 0;
    let corners = 0;
    for (const { world, grams, hood } of cases.slice(0, 40)) {
      if (evaluate(world, grams).value(property) === null) continue;
      const ratio = ratioOf(property.form(world, hood.base), grams);
      const slopes = slopesOf(tangentForm(property, world, hood), ratio, grams);
      grams.forEach((g, i) => {
        if (g === 0) return;
        const slope = (sign: 1 | -1): number => {
          const moved = grams.map((x, j) => (j === i ? x * (1 + sign * STEP) : x));
          return (ratioOf(property.form(world, stateOf(world, moved)), moved) - ratio) / (sign * STEP * g);
        };
        const [down, up] = [slope(-1), slope(1)];
        const dust = (1e-6 * (1 + Math.abs(ratio))) / g;
        // Where a rule of the model has a corner the two sides differ, and no slope is the right one.
        if (Math.abs(up - down) > 0.02 * (Math.abs(up) + Math.abs(down)) + dust) corners++;
        else {
          expect(Math.abs(slopes[i]! - (up + down) / 2)).toBeLessThanOrEqual(0.02 * Math.abs(up) + 2 * dust);
          compared++;
        }
      });
    }
    expect(compared).toBeGreaterThan(30);
    expect(corners).toBeLessThan(0.05 * compared);
  });
});

/** One-sided differences over a millionth of each material, under laws as steep as a retarder's. */
const EULER = 1e-4;
const STEP = 1e-4;

/** d(N/D)/dm of each material. */
function slopesOf(form: Form, ratio: number, grams: readonly number[]): number[] {
  const { denominator: d } = form;
  if (d === null) return [...form.numerator];
  const total = d.reduce((s, x, i) => s + x * grams[i]!, 0);
  return form.numerator.map((n, i) => (n - ratio * d[i]!) / total);
}
