import { describe, expect, it } from 'vitest';
import { type Form, IDENTITY } from '../../src/core/blend/property.js';
import { type BlendState, stateOf } from '../../src/core/blend/state/state.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import type { BlendProgram } from '../../src/core/optimise/blend-program.js';
import { facedProgram, faceOf, reaches } from '../../src/core/optimise/faces.js';
import type { Candidate, Face } from '../../src/core/optimise/ground.js';
import { AIMS, soughtProgram } from '../../src/core/optimise/objective.js';
import { frozenAt } from '../../src/core/optimise/tangent.js';
import type { Closeness } from '../../src/core/optimise/wanted.js';
import { questionOf } from '../support/hand-question.js';
import { madeUp } from '../support/made-up-property.js';

/** The objective as it looks from a blend, on forms written out by hand. */

const property = (form: Partial<Form> = {}, stateless?: true) =>
  madeUp(
    () => ({ numerator: [3, 1, 0], denominator: [1, 1, 2], link: IDENTITY, ...form }),
    stateless === undefined ? {} : { stateless },
  );
const SUM: Partial<Form> = { denominator: null };
const FALLING = { of: (x: number) => -x, inverse: (y: number) => -y, rising: false };
const WORLD = {} as World;
const at = (...grams: number[]) => frozenAt({ grams } as unknown as BlendState);
const CLOSE: Closeness = { sense: 'min', wanted: [], thrift: 0 };

describe('the face of an objective', () => {
  const faceAt = (form: Partial<Form>, ...grams: number[]) =>
    faceOf({ property: property(form), sense: 'max' }, WORLD, at(...grams));

  it('is the ratio at the blend, and what a gram brings less its share of that, to all that the ratio is of', () => {
    // 8 to 4, so that twice the denominator is taken off; a quarter for each of the 4.
    expect(faceAt({}, 2, 2, 0)).toEqual({ ratio: 2, slope: [0.25, -0.25, -1] });
    // Of half as much the same ratio, twice as steep.
    expect(faceAt({}, 1, 1, 0)).toEqual({ ratio: 2, slope: [0.5, -0.5, -2] });
    // Told in the ratio, whichever way the property goes with it.
    expect(faceAt({ link: FALLING }, 2, 2, 0)).toEqual({ ratio: 2, slope: [0.25, -0.25, -1] });
  });

  it('has no slope where two equal terms leave dust behind', () => {
    const dusty = faceAt({ numerator: [3 * (1 + 1e-15), 3, 6 * (1 - 1e-15)], denominator: [1, 1, 2] }, 2, 2, 0);
    expect(dusty!.slope).toEqual([0, 0, 0]);
  });

  it('takes in what the form has besides the grams', () => {
    expect(faceAt({ constant: 4 }, 2, 2, 0)).toEqual({ ratio: 3, slope: [0, -0.5, -1.5] });
    expect(faceAt({ ...SUM, constant: 7 }, 2, 2, 0)).toEqual({ ratio: 7, slope: [3, 1, 0] });
  });

  it('of a sum is the sum itself', () => {
    expect(faceAt(SUM, 2, 2, 0)).toEqual({ ratio: 0, slope: [3, 1, 0] });
  });

  it('is none where the blend has nothing that the ratio is of', () => {
    expect(faceAt({}, 0, 0, 0)).toBeNull();
    expect(faceAt({ denominator: [0, 0, 1] }, 1, 1, 0)).toBeNull();
  });

  it('is none where the objective looks the same from everywhere, or is closeness', () => {
    expect(faceOf({ property: property(SUM, true), sense: 'max' }, WORLD, at(2, 2, 0))).toBeNull();
    expect(faceOf({ property: property({}, true), sense: 'min' }, WORLD, at(2, 2, 0))).toBeNull();
    expect(faceOf(CLOSE, WORLD, at(2, 2, 0))).toBeNull();
    const world = worldOf(questionOf(['water', 'portland-cement-grey']));
    expect(faceOf(AIMS.cheapest, world, frozenAt(stateOf(world, [40, 60])))).toBeNull();
    expect(faceOf(AIMS.heaviest, world, frozenAt(stateOf(world, [40, 60])))).not.toBeNull();
  });
});

describe('a face reaches a blend', () => {
  /** The blend has 8 to 4: a ratio of 2. */
  const blend = { grams: [2, 2, 0], state: { grams: [2, 2, 0] } } as unknown as Candidate;
  const asked = (sense: 'min' | 'max', told: Face, form: Partial<Form> = {}) =>
    reaches({ property: property(form), sense }, WORLD, told, blend);
  const flat = (ratio: number): Face => ({ ratio, slope: [0, 0, 0] });

  it('where it promises no less than that has, but for a thousand-millionth', () => {
    expect(asked('max', flat(2.1))).toBe(true);
    expect(asked('max', flat(2))).toBe(true);
    expect(asked('max', flat(2 - 1.9e-9))).toBe(true);
    expect(asked('max', flat(2 - 2.1e-9))).toBe(false);
    expect(asked('min', flat(1.9))).toBe(true);
    expect(asked('min', flat(2 + 1.9e-9))).toBe(true);
    expect(asked('min', flat(2 + 2.1e-9))).toBe(false);
    // Of a ratio below nought, in shares of its size.
    expect(asked('max', flat(-2 - 1.9e-9), { numerator: [-3, -1, 0] })).toBe(true);
    expect(asked('max', flat(-2 - 2.1e-9), { numerator: [-3, -1, 0] })).toBe(false);
  });

  it('by its ratio and its slope at that blend together', () => {
    expect(asked('max', { ratio: 1, slope: [1, -0.4, 9] })).toBe(true);
    expect(asked('max', { ratio: 1, slope: [1, -0.6, 9] })).toBe(false);
    // A sum of 8.
    expect(asked('max', { ratio: 0, slope: [3, 1.1, 0] }, SUM)).toBe(true);
    expect(asked('max', { ratio: 0, slope: [3, 0.9, 0] }, SUM)).toBe(false);
  });

  it('the other way round where the property falls as the ratio rises', () => {
    expect(asked('max', flat(1.9), { link: FALLING })).toBe(true);
    expect(asked('max', flat(2.1), { link: FALLING })).toBe(false);
    expect(asked('min', flat(2.1), { link: FALLING })).toBe(true);
  });

  it('never of closeness', () => {
    expect(reaches(CLOSE, WORLD, flat(9), blend)).toBe(false);
  });
});

describe('the program that heeds faces', () => {
  const PROGRAM: BlendProgram = {
    columns: [{ name: 'a', upper: 5 }, { name: 'b' }, { name: 'c' }],
    rows: [{ name: 'full', coefficients: [1, 2, 3], low: 6, high: 6, scale: 6 }],
    origins: [{ kind: 'fixed' }],
  };
  /** From the blend itself the slope is [1/4, -1/4, -1]. */
  const BLEND = at(2, 2, 0);
  const OTHER: Face = { ratio: 1.5, slope: [0.5, -0.75, -1] };
  const asked = (sense: 'min' | 'max', faces: readonly Face[], form: Partial<Form> = {}) =>
    facedProgram({ property: property(form), sense }, PROGRAM, WORLD, BLEND, faces);
  const plain = (sense: 'min' | 'max', form: Partial<Form> = {}) =>
    soughtProgram({ property: property(form), sense }, PROGRAM, WORLD, BLEND);

  it('seeks by the blend’s own slope, less what other faces fall short of it: the last column, in shares of the whole', () => {
    const before = structuredClone(PROGRAM);
    expect(asked('max', [OTHER])).toEqual({
      columns: [{ name: 'a', upper: 5 }, { name: 'b' }, { name: 'c' }, { name: 'short of its own face' }],
      rows: [
        { name: 'full', coefficients: [1, 2, 3, 0], low: 6, high: 6, scale: 6 },
        // Own less other, beside ratios of 2 and 1.5; as large as what the own terms add up to at the blend.
        { name: 'face 0', coefficients: [-0.25, 0.5, 0, -1], high: -0.5, scale: 1 },
      ],
      sense: 'max',
      objective: [0.25, -0.25, -1, -1],
    });
    expect(PROGRAM).toEqual(before);
  });

  it('or, where less is better, the other way round', () => {
    const { rows, sense, objective } = asked('min', [OTHER]);
    expect(sense).toBe('min');
    expect(rows[1]).toEqual({ name: 'face 0', coefficients: [0.25, -0.5, -0, -1], high: 0.5, scale: 1 });
    expect(objective).toEqual([0.25, -0.25, -1, 1]);
    const falling = asked('max', [OTHER], { link: FALLING });
    expect(falling.sense).toBe('min');
    expect(falling.rows[1]).toMatchObject({ high: 0.5 });
    const risen = asked('min', [OTHER], { link: FALLING });
    expect(risen.sense).toBe('max');
    expect(risen.rows[1]).toMatchObject({ high: -0.5 });
  });

  it('has a row for each of several faces, in their order', () => {
    const { rows } = asked('max', [OTHER, { ratio: 2.5, slope: [1, 1, -1] }]);
    expect(rows.map((r) => r.name)).toEqual(['full', 'face 0', 'face 1']);
    expect(rows[2]).toEqual({ name: 'face 1', coefficients: [-0.75, -1.25, 0, -1], high: 0.5, scale: 1 });
  });

  it('tells a sum by its own terms', () => {
    const { rows, objective } = asked('max', [{ ratio: 1, slope: [1, 2, 4] }], {
      ...SUM,
      constant: 3,
      numerator: [3, 1, 2],
    });
    expect(objective).toEqual([3, 1, 2, -8]);
    expect(rows.slice(1)).toEqual([{ name: 'face 0', coefficients: [2, -1, -2, -8], high: -2, scale: 8 }]);
  });

  it('is the plain one where the blend sees no slope: there is nothing to run over', () => {
    const flat = { ...SUM, numerator: [0, 0, 5] };
    expect(asked('max', [OTHER], flat)).toEqual(plain('max', flat));
  });

  it('is the plain one without faces, and where all look like the blend’s own', () => {
    const like = (share: number): Face => ({ ratio: 1, slope: [0.25 * (1 + share), -0.25, -1 * (1 - share)] });
    for (const sense of ['min', 'max'] as const) {
      expect(asked(sense, [])).toEqual(plain(sense));
      expect(asked(sense, [like(0.9e-3), like(0)])).toEqual(plain(sense));
      expect(asked(sense, [like(1.2e-3)]).rows).toHaveLength(2);
    }
    // Only those are left out.
    expect(asked('max', [like(0), OTHER, like(0.9e-3)])).toEqual(asked('max', [OTHER]));
    // One slope that differs is enough.
    expect(asked('max', [{ ratio: 2, slope: [0.25, -0.25, -1.002] }]).rows).toHaveLength(2);
  });

  it('is the plain one for closeness, and where the objective is straight by itself or has no ratio', () => {
    const stateless = { property: property({}, true), sense: 'max' } as const;
    expect(facedProgram(stateless, PROGRAM, WORLD, BLEND, [OTHER])).toEqual(plain('max'));
    expect(asked('max', [OTHER], { denominator: [0, 0, 1] })).toEqual(plain('max', { denominator: [0, 0, 1] }));
    const world = worldOf(questionOf(['water', 'portland-cement-grey']));
    const close: Closeness = { ...CLOSE, wanted: [{ property: 'cost', high: 0.01, tolerance: 0.02, weight: 1 }] };
    const two: BlendProgram = { columns: [{ name: 'a' }, { name: 'b' }], rows: [], origins: [] };
    const hood = frozenAt(stateOf(world, [40, 60]));
    expect(facedProgram(close, two, world, hood, [{ ratio: 1, slope: [1, 2] }])).toEqual(
      soughtProgram(close, two, world, hood),
    );
  });
});
