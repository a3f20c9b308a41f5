import { describe, expect, it } from 'vitest';
import { type Form, IDENTITY, type Property } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { dot, worldOf } from '../../src/core/blend/world.js';
import { frozenAt, neighbourhood, tangentForm, withoutNeighbours } from '../../src/core/optimise/tangent.js';
import { questionOf } from '../support/hand-question.js';
import { madeUp } from '../support/made-up-property.js';
import { material, numberOf } from '../support/shipped-table.js';

/** The neighbours of a blend and the slopes they give, on forms that can be differentiated by hand. */

const ALL = [true, true, true];
const world = worldOf(questionOf(['water', 'portland-cement-grey', 'silica-fume']));
const GRAMS = [50, 100, 0];

describe('the neighbours of a blend', () => {
  it('hold a millionth less of what is there, and a hundred-millionth of the mass of what is not', () => {
    const { base, neighbours } = neighbourhood(world, GRAMS, ALL);
    expect(base.grams).toEqual(GRAMS);
    expect(neighbours.map((n) => n!.step)).toEqual([
      expect.closeTo(-50e-6, 15),
      expect.closeTo(-100e-6, 15),
      expect.closeTo(150e-8, 15),
    ]);
    // Each in a world of what it holds.
    expect(neighbours.map((n) => n!.world.materials.map((m) => m.id))).toEqual([
      ['water', 'portland-cement-grey'],
      ['water', 'portland-cement-grey'],
      ['water', 'portland-cement-grey', 'silica-fume'],
    ]);
    neighbours.forEach((n, i) => {
      const grams = i === 2 ? GRAMS : GRAMS.slice(0, 2);
      expect(n!.state.grams).toEqual(grams.map((g, k) => (k === i ? g + n!.step : g)));
    });
  });

  it('hold more where there is but dust, and are measured against a gram at least', () => {
    const steps = (grams: readonly number[]) => neighbourhood(world, grams, ALL).neighbours.map((n) => n!.step);
    const dust = 150 * 1e-8;
    expect(steps([50, 100, 0.9 * dust])[2]).toBeCloseTo(dust, 12);
    expect(steps([50, 100, 1.1 * dust])[2]).toBeCloseTo(-1.1 * dust * 1e-6, 18);
    expect(steps([0, 0, 0])).toEqual([1e-8, 1e-8, 1e-8]);
    expect(steps([0.1, 0, 0])[2]).toBe(1e-8);
  });

  it('are none for what may not be used', () => {
    const { neighbours } = neighbourhood(world, GRAMS, [true, false, false]);
    expect(neighbours.map((n) => n === null)).toEqual([false, true, true]);
    expect(neighbourhood(world, GRAMS, [false, true, true]).neighbours.map((n) => n === null)).toEqual([
      true,
      false,
      false,
    ]);
    const frozen = frozenAt(stateOf(world, GRAMS));
    expect(frozen.neighbours).toEqual([]);
    expect(frozen.base.grams).toEqual(GRAMS);
  });
});

describe('a blend on a corner of the model', () => {
  // Silica fume counts as cement up to so much of it.
  const pozzolan = material('silica-fume').pozzolan!;
  const cap = numberOf(pozzolan.kCap);
  const fume = world.materials[2]!;
  const cement = world.materials[1]!;
  const corner = (share = 1) => [50, 100, (share * cap * 100 * cement.solids) / fume.solids];
  const movesOf = (grams: readonly number[], open: readonly boolean[] = ALL) =>
    neighbourhood(world, grams, open).base.grams.map((g, i) => Math.abs(g / grams[i]! - 1));

  it('is looked at from close beside it, each material moved by its own share', () => {
    const moves = movesOf(corner());
    expect(Math.max(...moves)).toBeLessThanOrEqual(1e-4);
    expect(new Set(moves.map((m) => m.toPrecision(3))).size).toBe(3);
    // Multiples of the golden ratio: the first is left of all, by the whole share.
    expect(moves[0]).toBeCloseTo(3e-5, 12);
    expect(moves[1]).toBeCloseTo(3e-5 * (2 * 0.6180339887498949 - 1), 12);
    expect(moves[2]).toBeCloseTo(3e-5 * (1 - 2 * 0.2360679774997898), 12);
  });

  it('has slopes of one face there, which add up to the value itself', () => {
    const { base, neighbours } = neighbourhood(world, corner(), ALL);
    for (const of of [base.strength.numerator, base.strength.denominator]) {
      const here = dot(of, base.grams);
      const slopes = neighbours.map((n) => {
        const there = of === base.strength.numerator ? n!.state.strength.numerator : n!.state.strength.denominator;
        return (dot(there, n!.state.grams) - here) / n!.step;
      });
      expect(dot(slopes, base.grams) / here).toBeCloseTo(1, 4);
    }
  });

  it('is looked at itself off the corner, or where not all it holds is looked at', () => {
    for (const share of [0.99, 1.01, 0]) expect(movesOf(corner(share)).filter((m) => m > 0)).toEqual([]);
    expect(movesOf(corner(), [true, false, true])).toEqual([0, 0, 0]);
    expect(movesOf(corner(), [true, true, false])).toEqual([0, 0, 0]);
  });
});

describe('the tangent of a property', () => {
  /** a²/(a + b) of the first two: homogeneous of degree one, with the slopes 2s - s² and -s², where s = a/(a + b). */
  const share = (of: Form, stateless?: true): Property =>
    madeUp(
      (there, { grams }) => {
        const at = (id: string) => there.materials.findIndex((m) => m.id === id);
        const [a, b] = [grams[at('water')] ?? 0, grams[at('portland-cement-grey')] ?? 0];
        const curved = there.materials.map((m) => (m.id === 'water' ? a / (a + b) : 0));
        return { ...of, numerator: curved, denominator: of.denominator === null ? null : curved.map((c) => 2 * c) };
      },
      stateless === undefined ? {} : { stateless },
    );
  const SUM: Form = { numerator: [], denominator: null, link: IDENTITY };
  const RATIO: Form = { numerator: [], denominator: [], link: IDENTITY };
  const hood = neighbourhood(world, GRAMS, ALL);
  const s = 1 / 3;

  it('has the slopes of numerator and denominator for its coefficients', () => {
    const { numerator, denominator } = tangentForm(share(SUM), world, hood);
    expect(denominator).toBeNull();
    expect(numerator[0]).toBeCloseTo(2 * s - s * s, 5);
    expect(numerator[1]).toBeCloseTo(-s * s, 5);
    expect(numerator[2]).toBeCloseTo(0, 5);
    expect(dot(numerator, GRAMS)).toBeCloseTo(50 * s, 3);
    const ratio = tangentForm(share(RATIO), world, hood);
    expect(ratio.denominator!.map((d) => d / 2)).toEqual(ratio.numerator.map((n) => expect.closeTo(n, 6)));
    expect(ratio.denominator![0]).toBeCloseTo(4 * s - 2 * s * s, 5);
    expect(ratio.link).toBe(IDENTITY);
  });

  it('is the form itself where that does not depend on the blend, or no neighbour is known', () => {
    expect(tangentForm(share(SUM, true), world, hood).numerator).toEqual([s, 0, 0]);
    expect(tangentForm(share(SUM), world, frozenAt(stateOf(world, GRAMS))).numerator).toEqual([s, 0, 0]);
    const some = tangentForm(share(RATIO), world, neighbourhood(world, GRAMS, [false, true, false]));
    expect(some.numerator).toEqual([s, expect.closeTo(-s * s, 5), 0]);
    expect(some.denominator).toEqual([2 * s, expect.closeTo(-2 * s * s, 5), 0]);
  });

  it('is kept when the neighbours are let go, and any other is refused', () => {
    const asked = share(RATIO);
    const before = neighbourhood(world, GRAMS, ALL);
    const form = tangentForm(asked, world, before);
    const after = withoutNeighbours(before);
    expect(after.neighbours).toBeNull();
    expect(tangentForm(asked, world, after)).toBe(form);
    expect(tangentForm(share(SUM, true), world, after).numerator).toEqual([s, 0, 0]);
    expect(() => tangentForm(share(SUM), world, after)).toThrow('no gradient of');
  });
});
