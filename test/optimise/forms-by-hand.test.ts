import { describe, expect, it } from 'vitest';
import {
  EXPONENTIAL,
  type Form,
  IDENTITY,
  type Property,
  ratioOf,
  scaledExponential,
} from '../../src/core/blend/property.js';
import type { BlendState } from '../../src/core/blend/state/state.js';
import { holdsWithout } from '../../src/core/blend/target.js';
import type { World } from '../../src/core/blend/world.js';
import { rowsOf } from '../../src/core/optimise/rows.js';
import { frozenAt } from '../../src/core/optimise/tangent.js';
import { madeUp } from '../support/made-up-property.js';

/** Limits, and the rows made of them, on forms written out by hand: what mutation testing found nothing to fail on. */

const property = (form: Partial<Form>, more: Partial<Property> = {}): Property =>
  madeUp(() => ({ numerator: [1, 2], denominator: [1, 1], link: IDENTITY, ...form }), { stateless: true, ...more });
const world = {} as World;
const stateOf = (...grams: number[]) => ({ grams }) as unknown as BlendState;

describe('a limit on what a blend lacks', () => {
  // Nothing of the base (the second material) is there, so that there is no ratio to it.
  const ratio = property({ numerator: [1, 0], denominator: [0, 1] });

  it('is judged as its row: numerator against limit times denominator', () => {
    const some = stateOf(3, 0);
    expect(holdsWithout(ratio, { property: 'x', min: 0.25 }, world, some)).toBe(true);
    expect(holdsWithout(ratio, { property: 'x', max: 0.25 }, world, some)).toBe(false);
    const none = stateOf(0, 0);
    expect(holdsWithout(ratio, { property: 'x', min: 0.25, max: 0.5 }, world, none)).toBe(true);
  });

  it('counts a constant in, turns round where the property falls, and holds for no limit at all', () => {
    const constant = property({ numerator: [0, 0], constant: 4, denominator: [0, 1] });
    expect(holdsWithout(constant, { property: 'x', max: 1 }, world, stateOf(1, 0))).toBe(false);
    expect(holdsWithout(constant, { property: 'x', min: 1 }, world, stateOf(1, 0))).toBe(true);
    const falls = property({
      numerator: [1, 0],
      denominator: [0, 1],
      link: { of: (x) => -x, inverse: (y) => -y, rising: false },
    });
    expect(holdsWithout(falls, { property: 'x', max: 1 }, world, stateOf(3, 0))).toBe(true);
    expect(holdsWithout(falls, { property: 'x', min: 1 }, world, stateOf(3, 0))).toBe(false);
    expect(holdsWithout(property({}, { needed: true }), { property: 'x', min: 0 }, world, stateOf(1, 0))).toBe(false);
    expect(holdsWithout(property({}, { needed: true }), { property: 'x' }, world, stateOf(1, 0))).toBe(true);
  });
});

describe('the rows of a target', () => {
  const hood = frozenAt(stateOf(10, 30));

  it('are N - limit D on the side of the limit, sized by what the denominator holds', () => {
    const [max, min] = rowsOf(property({}), { property: 'made-up', min: 0.5, max: 1.5 }, world, hood);
    expect(max).toEqual({ name: 'made-up max', coefficients: [-0.5, 0.5], high: 0, scale: 1.5 * 40 });
    expect(min).toEqual({ name: 'made-up min', coefficients: [0.5, 1.5], low: 0, scale: 0.5 * 40 });
    // Next to a limit of nought the blend's own ratio, 70/40, is what a miss is measured by: a tenth of it.
    expect(rowsOf(property({}), { property: 'made-up', min: 0 }, world, hood)[0]!.scale).toBeCloseTo(0.1 * 70, 12);
  });

  it('bring a constant to the other side', () => {
    const form = { numerator: [1, 2], constant: 7, denominator: null };
    expect(rowsOf(property(form), { property: 'made-up', max: 100 }, world, hood)).toMatchObject([
      { coefficients: [1, 2], high: 93, scale: 100 },
    ]);
    expect(rowsOf(property(form), { property: 'made-up', min: 20 }, world, hood)).toMatchObject([{ low: 13 }]);
    expect(ratioOf(property(form).form(world, hood.base), [10, 30])).toBe(77);
    const share = { ...form, denominator: [1, 1] };
    expect(rowsOf(property(share), { property: 'made-up', max: 2 }, world, hood)).toMatchObject([
      { coefficients: [-1, 0], high: -7 },
    ]);
    expect(ratioOf(property(share).form(world, hood.base), [10, 30])).toBe(77 / 40);
  });

  it.each([EXPONENTIAL, scaledExponential(2)])(
    'beyond what a link can give hold always, giving none, or never',
    (link) => {
      const time = property({ link });
      expect(rowsOf(time, { property: 'made-up', min: 0 }, world, hood)).toEqual([]);
      expect(rowsOf(time, { property: 'made-up', min: -3 }, world, hood)).toEqual([]);
      expect(rowsOf(time, { property: 'made-up', max: 0 }, world, hood)).toEqual([
        { name: 'made-up max', coefficients: [0, 0], low: 1, scale: 1 },
      ]);
      expect(rowsOf(time, { property: 'made-up', max: -3 }, world, hood)).toHaveLength(1);
      expect(link.of(link.inverse(3))).toBeCloseTo(3, 12);
    },
  );
});
