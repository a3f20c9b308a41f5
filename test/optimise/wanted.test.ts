import { describe, expect, it } from 'vitest';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { EXPONENTIAL, IDENTITY, type Link, propertyValue } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import { neighbourhood } from '../../src/core/optimise/tangent.js';
import {
  type Closeness,
  closenessProgram,
  closenessValue,
  distances,
  distanceTo,
  farness,
  type Wanted,
} from '../../src/core/optimise/wanted.js';
import { randomBlend } from '../support/random-blend.js';
import { seededRandom } from '../support/random-programs.js';

const FALLING: Link = { of: (x) => -x, inverse: (y) => -y, rising: false };

describe('the distance to what is wanted', () => {
  const wanted: Wanted = { property: 'dry-weight', low: 40, high: 60, tolerance: 8, weight: 1 };

  it.each([
    ['identity', IDENTITY],
    ['exponential', EXPONENTIAL],
    ['falling', FALLING],
  ])('is nothing inside the window and one at the end of the tolerance, on either side (%s)', (_name, link) => {
    for (const value of [40, 47.3, 60]) expect(distanceTo(wanted, link, value)).toBeCloseTo(0, 12);
    expect(distanceTo(wanted, link, 68)).toBeCloseTo(1, 12);
    expect(distanceTo(wanted, link, 32)).toBeCloseTo(1, 12);
    expect(distanceTo(wanted, link, 61)).toBeGreaterThan(0);
    expect(distanceTo(wanted, link, 39)).toBeGreaterThan(0);
    expect(distanceTo(wanted, link, 90)).toBeGreaterThan(distanceTo(wanted, link, 70));
  });

  it('goes by ratio for times: twice as long is as far as half as long', () => {
    const time: Wanted = { property: 'demould-time', low: 60, high: 60, tolerance: 15, weight: 1 };
    // ln(75/60) and ln(60/45) are the two sides of the tolerance.
    expect(distanceTo(time, EXPONENTIAL, 120)).toBeCloseTo(Math.log(2) / Math.log(75 / 60), 12);
    expect(distanceTo(time, EXPONENTIAL, 30)).toBeCloseTo(Math.log(2) / Math.log(60 / 45), 12);
  });

  it('counts one side only where the other is open, and much for what the blend does not have', () => {
    const most: Wanted = { property: 'cost', high: 2, tolerance: 0.5, weight: 1 };
    expect(distanceTo(most, IDENTITY, 0.1)).toBe(0);
    expect(distanceTo(most, IDENTITY, 3)).toBeCloseTo(2, 12);
    expect(distanceTo(most, IDENTITY, null)).toBe(10);
  });

  it('stays finite where a tolerance would reach past zero', () => {
    const short: Wanted = { property: 'working-time', low: 10, tolerance: 12, weight: 1 };
    expect(distanceTo(short, EXPONENTIAL, 5)).toBeGreaterThan(0);
    expect(Number.isFinite(distanceTo(short, EXPONENTIAL, 0.01))).toBe(true);
  });
});

const ASKED = [
  'dry-weight',
  'demould-weight',
  'water-to-powder',
  'demould-time',
  'working-time',
  'strength',
  'cost',
  'polymer-share',
];

describe('the least distance as a linear program', () => {
  it('says at a blend what the forward model says of it, over many blends', () => {
    let compared = 0;
    let missed = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const { world, grams } = randomBlend(seed);
      const state = stateOf(world, grams);
      const random = seededRandom(seed);
      const wanted = ASKED.flatMap((id): Wanted[] => {
        const { value } = propertyValue(propertyById(id)!, world, state);
        if (value === null || value <= 0 || random.chance(0.3)) return [];
        const at = value * random.between(0.5, 1.8);
        const window = random.pick([{ low: at, high: at }, { low: at }, { high: at }]);
        return [{ property: id, ...window, tolerance: 0.2 * at, weight: random.between(0.2, 3) }];
      });
      if (wanted.length < 2) continue;
      const closeness: Closeness = { sense: 'min', wanted, thrift: random.between(0, 0.1) };
      const hood = neighbourhood(
        world,
        grams,
        grams.map((g) => g > 0),
      );
      const columns = grams.map((g, i) => ({ name: `${i}`, lower: g, upper: g }));
      const program = closenessProgram(closeness, { columns, rows: [], origins: [] }, world, hood);
      const answer = solveLp(program);
      if (answer.status !== 'optimal') throw new Error(`blend ${seed}: ${answer.status}`);
      // Tangents are differences over a millionth of each material, and a tolerance is a fifth of the value.
      const byModel = closenessValue(closeness, world, state);
      expect(Math.abs(answer.objective - byModel), `blend ${seed}`).toBeLessThan(1e-3 * Math.max(1, byModel));
      if (farness(distances(wanted, world, state)) > 0.5) missed++;
      compared++;
    }
    expect(compared).toBeGreaterThan(110);
    expect(missed).toBeGreaterThan(80);
  });
});
