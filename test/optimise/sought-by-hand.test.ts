import { describe, expect, it } from 'vitest';
import { type Form, IDENTITY, type Property } from '../../src/core/blend/property.js';
import { type BlendState, stateOf } from '../../src/core/blend/state/state.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import type { BlendProgram } from '../../src/core/optimise/blend-program.js';
import {
  AIMS,
  falls,
  merit,
  objectiveForm,
  soughtProgram,
  soughtRatio,
  soughtValue,
} from '../../src/core/optimise/objective.js';
import { frozenAt } from '../../src/core/optimise/tangent.js';
import type { Closeness } from '../../src/core/optimise/wanted.js';
import { questionOf } from '../support/hand-question.js';
import { madeUp } from '../support/made-up-property.js';

/** What a search is after, on forms written out by hand. */

const property = (form: Partial<Form>): Property =>
  madeUp(() => ({ numerator: [3, 1, 0], denominator: [1, 1, 2], link: IDENTITY, ...form }), { stateless: true });
const FALLING = { of: (x: number) => -x, inverse: (y: number) => -y, rising: false };
const WORLD = {} as World;
const at = (...grams: number[]) => frozenAt({ grams } as unknown as BlendState);
const PROGRAM: BlendProgram = { columns: [{ name: 'a' }, { name: 'b' }, { name: 'c' }], rows: [], origins: [] };
const CLOSE: Closeness = {
  sense: 'min',
  wanted: [{ property: 'fresh-weight', low: 50, high: 80, tolerance: 10, weight: 2 }],
  thrift: 0,
};

describe('the aims', () => {
  it('are money and weight down, or weight and strength up, or the time in the mould down', () => {
    const told = Object.entries(AIMS).map(([id, { property: of, sense }]) => [id, of.id, sense]);
    expect(told).toEqual([
      ['cheapest', 'cost', 'min'],
      ['lightest', 'dry-weight', 'min'],
      ['heaviest', 'dry-weight', 'max'],
      ['strongest', 'strength', 'max'],
      ['quickest', 'demould-time', 'min'],
    ]);
  });
});

describe('what a value is worth', () => {
  it('is told in shares of it: twice as good is as far wherever it starts', () => {
    expect(merit(AIMS.cheapest, 2)).toBeCloseTo(Math.LN2, 12);
    expect(merit(AIMS.cheapest, 8) - merit(AIMS.cheapest, 4)).toBeCloseTo(Math.LN2, 12);
    expect(merit(AIMS.strongest, 8) - merit(AIMS.strongest, 4)).toBeCloseTo(-Math.LN2, 12);
  });

  it('is nought where there is none, or nothing to take a share of', () => {
    for (const value of [null, 0, -3]) {
      expect(merit(AIMS.cheapest, value)).toBeCloseTo(0, 12);
      expect(merit(AIMS.strongest, value)).toBeCloseTo(0, 12);
    }
  });

  it('is told in tolerances where it is to be close', () => {
    expect(merit(CLOSE, 2.5)).toBe(2.5);
    expect(merit(CLOSE, null)).toBe(0);
  });

  it('is by the forward model', () => {
    const world = worldOf(questionOf(['water', 'portland-cement-grey']));
    const state = stateOf(world, [40, 60]);
    expect(soughtValue({ property: property({}), sense: 'max' }, WORLD, at(1, 1, 1).base)).toBe(1);
    // 100 g where at most 80 are wanted: two tolerances, each counting twice.
    expect(soughtValue(CLOSE, world, state)).toBeCloseTo(4, 12);
  });
});

describe('the ratio of a free jump', () => {
  it('is numerator to denominator, turned round where the property falls as it rises', () => {
    const ratio = { numerator: [3, 1, 0], denominator: [1, 1, 2] };
    for (const [sense, falling] of [
      ['min', 'max'],
      ['max', 'min'],
    ] as const) {
      expect(soughtRatio({ property: property({}), sense }, WORLD, at(1, 1, 1))).toEqual({ ...ratio, sense });
      const turned = { property: property({ link: FALLING }), sense };
      expect(soughtRatio(turned, WORLD, at(1, 1, 1))).toEqual({ ...ratio, sense: falling });
      expect(objectiveForm(turned, WORLD, at(1, 1, 1)).sense).toBe(falling);
    }
  });

  it('is none of what is a sum, or of closeness', () => {
    expect(soughtRatio({ property: property({ denominator: null }), sense: 'min' }, WORLD, at(1, 1, 1))).toBeNull();
    expect(soughtRatio(CLOSE, WORLD, at(1, 1, 1))).toBeNull();
  });
});

describe('the linear program of what is sought', () => {
  const programOf = (form: Partial<Form>, grams: number[]) =>
    soughtProgram({ property: property(form), sense: 'max' }, PROGRAM, WORLD, at(...grams));

  it('goes for a sum itself', () => {
    expect(programOf({ denominator: null }, [1, 2, 3])).toEqual({
      columns: PROGRAM.columns,
      rows: PROGRAM.rows,
      sense: 'max',
      objective: [3, 1, 0],
    });
  });

  it('goes for a ratio by its slope: what a gram brings less what the blend has for it', () => {
    // 8 to 4: twice the denominator is taken off.
    expect(programOf({}, [2, 2, 0]).objective).toEqual([1, -1, -4]);
    expect(programOf({ link: FALLING }, [2, 2, 0])).toMatchObject({ sense: 'min', objective: [1, -1, -4] });
    // No denominator, no ratio.
    expect(programOf({}, [0, 0, 0]).objective).toEqual([3, 1, 0]);
    expect(programOf({ denominator: [0, 0, 1] }, [1, 1, 0]).objective).toEqual([3, 1, 0]);
  });

  it('takes what two equal terms leave behind for nought', () => {
    const third = 1 / 3;
    // 0.3 of 0.1 to 1 is 0.3 but for the dust.
    const dusty = programOf({ numerator: [0.1 * third, 0.2 * third, 1], denominator: [0.1, 0.2, 0] }, [1, 1, 0]);
    expect(dusty.objective).toEqual([0, 0, 1]);
    const near = programOf({ numerator: [1, 1 + 4e-12, 0], denominator: [1, 1, 0] }, [1, 0, 0]);
    expect(near.objective[1]).toBeCloseTo(4e-12, 15);
    expect(near.objective[1]).toBeGreaterThan(0);
    const nearer = programOf({ numerator: [1, 1 + 4e-13, 0], denominator: [1, 1, 0] }, [1, 0, 0]);
    expect(nearer.objective[1]).toBe(0);
    // In shares of the term, however large it is.
    const large = programOf({ numerator: [1e6, 1e6 + 4e-7, 0], denominator: [1, 1, 0] }, [1, 0, 0]);
    expect(large.objective[1]).toBe(0);
  });

  it('of closeness has a column for each miss', () => {
    const world = worldOf(questionOf(['water', 'portland-cement-grey']));
    const two: BlendProgram = { columns: [{ name: 'a' }, { name: 'b' }], rows: [], origins: [] };
    const program = soughtProgram(CLOSE, two, world, frozenAt(stateOf(world, [40, 60])));
    expect(program.columns.map((c) => c.name)).toEqual(['a', 'b', 'fresh-weight over', 'fresh-weight under']);
    expect(program.objective).toEqual([0, 0, 2, 2]);
  });
});

describe('how far a blend of closeness falls behind its program’s optimum', () => {
  const found = (objective: number) =>
    ({ program: { columns: [], rows: [], sense: 'min', objective: [] }, objective }) as const;

  it('is told in tolerances', () => {
    expect(falls(CLOSE, found(3), { grams: [1], value: 2.5 })).toBe(0.5);
    expect(falls(CLOSE, found(1), { grams: [1], value: 2.5 })).toBe(-1.5);
    expect(falls(CLOSE, found(1), { grams: [1], value: null })).toBe(1);
  });
});
