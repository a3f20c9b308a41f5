import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Solid, shapedMould, solidVolume } from '../../src/core/brief/mould.js';
import { between, property } from '../science/counting.js';
import { codesOf, problemsOf } from '../support/problems.js';
import { material, model, numberOf } from '../support/shipped-table.js';
import { brief, said, told } from '../support/written.js';

const side = between(0.5, 40);
const anySolid: fc.Arbitrary<Solid> = fc.oneof(
  fc.record({ shape: fc.constant('box' as const), length: side, width: side, height: side }),
  fc.record({ shape: fc.constant('cylinder' as const), diameter: side, height: side }),
  fc.record({ shape: fc.constant('cone' as const), top: side, bottom: side, height: side }),
  fc.record({ shape: fc.constant('hexagon' as const), across: side, height: side }),
);

/** Area of a level cut, apart from the code under test: a polygon of 6 or 3,600 corners by the shoelace rule. */
function cut(solid: Solid, share: number): number {
  if (solid.shape === 'box') return solid.length * solid.width;
  const [corners, radius] =
    solid.shape === 'hexagon'
      ? [6, solid.across / 2 / Math.cos(Math.PI / 6)]
      : solid.shape === 'cylinder'
        ? [3600, solid.diameter / 2]
        : [3600, (solid.bottom + (solid.top - solid.bottom) * share) / 2];
  const at = (k: number): [number, number] => {
    const angle = (2 * Math.PI * k) / corners;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  };
  let twice = 0;
  for (let k = 0; k < corners; k++) {
    const [[x, y], [nx, ny]] = [at(k), at(k + 1)];
    twice += x * ny - nx * y;
  }
  return twice / 2;
}

describe('the volume of a solid', () => {
  it('is that of its level cuts added up (Simpson’s rule, exact for a cone)', () => {
    property(
      anySolid,
      (solid) => {
        const bySlices = (solid.height * (cut(solid, 0) + 4 * cut(solid, 0.5) + cut(solid, 1))) / 6;
        expect(solidVolume(solid) / bySlices).toBeCloseTo(1, 5);
        return true;
      },
      120,
    );
  });

  it('of a box of 231 cubic inches is a US gallon (NIST Handbook 44, appendix C)', () => {
    expect(solidVolume({ shape: 'box', length: 7 * 2.54, width: 11 * 2.54, height: 3 * 2.54 })).toBeCloseTo(
      3785.411784,
      6,
    );
  });
});

/** Faces of a solid, apart from the code under test: strips of 3,600 or 6 corners and both ends. */
function faces(solid: Solid): number {
  if (solid.shape === 'box') {
    const { length: l, width: w, height: h } = solid;
    return 2 * (l * w + l * h + w * h);
  }
  const corners = solid.shape === 'hexagon' ? 6 : 3600;
  const radius = (share: number): number => {
    if (solid.shape === 'hexagon') return solid.across / 2 / Math.cos(Math.PI / 6);
    if (solid.shape === 'cylinder') return solid.diameter / 2;
    return (solid.bottom + (solid.top - solid.bottom) * share) / 2;
  };
  const chord = (r: number): number => 2 * r * Math.sin(Math.PI / corners);
  const slant = Math.hypot(solid.height, (radius(1) - radius(0)) * Math.cos(Math.PI / corners));
  return (corners * (chord(radius(0)) + chord(radius(1))) * slant) / 2 + cut(solid, 0) + cut(solid, 1);
}

describe('how thick a plate cools as fast as a solid (2 V/A; lumped capacitance)', () => {
  it('is by all its faces, never thicker than its thinnest side', () => {
    property(
      anySolid,
      (solid) => {
        const { volume, wall, coolingWall } = shapedMould(solid, null);
        expect(coolingWall! / ((2 * volume) / faces(solid))).toBeCloseTo(1, 4);
        if (solid.shape !== 'cone') expect(coolingWall!).toBeLessThan(wall!);
        return true;
      },
      120,
    );
  });

  it('is the thickness of a wide plate, a third of the side of a cube, the radius of a long cylinder', () => {
    const thickness = (solid: Solid) => shapedMould(solid, null).coolingWall;
    expect(thickness({ shape: 'box', length: 1e5, width: 1e5, height: 2 })).toBeCloseTo(2, 3);
    expect(thickness({ shape: 'box', length: 6, width: 6, height: 6 })).toBeCloseTo(2, 9);
    expect(thickness({ shape: 'cylinder', diameter: 6, height: 1e5 })).toBeCloseTo(3, 3);
  });

  it('of a pot is near its wall: inside and floor lose heat too, and a core that goes through leaves no floor', () => {
    const outer: Solid = { shape: 'box', length: 12, width: 12, height: 10 };
    const core: Solid = { shape: 'box', length: 10, width: 10, height: 9 };
    const pot = shapedMould(outer, core);
    // Outside 4 x 120 + 144, rim 44, inside 4 x 90 + 100.
    expect(pot.coolingWall).toBeCloseTo((2 * (1440 - 900)) / (480 + 144 + 44 + 360 + 100), 9);
    const ring = shapedMould(outer, { ...core, height: 10 });
    expect(ring.coolingWall).toBeCloseTo((2 * 440) / (480 + 2 * 44 + 400), 9);
  });

  it('is by the wall where the maker writes one, and where only the volume is known', () => {
    const conditions = (more: object) =>
      brief(JSON.stringify({ objective: 'lightest', mould: { water: '1 L' }, ...more })).setting.conditions;
    const box = { mould: { solid: { shape: 'box', length: '6 cm', width: '6 cm', height: '6 cm' } } };
    expect(conditions(box)).toMatchObject({ wall: 6, coolingWall: expect.closeTo(2, 9) });
    expect(conditions({ ...box, wall: '4 cm' })).toMatchObject({ wall: 4 });
    expect(conditions({ ...box, wall: '4 cm' })).not.toHaveProperty('coolingWall');
    expect(conditions({})).not.toHaveProperty('coolingWall');
  });
});

describe('a mould with a core', () => {
  it('holds the difference, and dries through the thinner of side and floor', () => {
    const outer: Solid = { shape: 'cylinder', diameter: 10, height: 10 };
    const core: Solid = { shape: 'cylinder', diameter: 7, height: 9 };
    const { volume, wall } = shapedMould(outer, core);
    expect(volume).toBeCloseTo(solidVolume(outer) - solidVolume(core), 9);
    expect(wall).toBeCloseTo(1, 9);
    expect(shapedMould(outer, { ...core, height: 10 }).wall).toBeCloseTo(1.5, 9);
  });

  it('is impossible where the core does not fit', () => {
    const outer: Solid = { shape: 'box', length: 10, width: 6, height: 4 };
    const cores: Solid[] = [
      { shape: 'box', length: 10, width: 6, height: 4 },
      { shape: 'box', length: 4, width: 4, height: 5 },
      { shape: 'cylinder', diameter: 6, height: 2 },
      { shape: 'box', length: 12, width: 2, height: 2 },
    ];
    for (const core of cores) expect(codesOf(() => shapedMould(outer, core))).toEqual(['mould-impossible']);
  });
});

describe('a core that does not fit', () => {
  const box = (length: number, width: number, height: number): Solid => ({ shape: 'box', length, width, height });
  const cylinder = (diameter: number, height: number): Solid => ({ shape: 'cylinder', diameter, height });
  const hexagon = (across: number, height: number): Solid => ({ shape: 'hexagon', across, height });

  // Each core is of less volume than its mould; by hand: hypot(9, 5) = 10.30, 9 x 2/sqrt 3 = 10.39.
  it.each<[string, Solid, Solid, string]>([
    ['a box too high', box(10, 6, 4), box(4, 4, 5), 'a core ⟦5 cm⟧ high in a mould ⟦4 cm⟧ high'],
    ['a box too long', box(10, 6, 4), box(12, 2, 2), 'a core ⟦12 cm⟧ long in a mould of ⟦10 cm⟧'],
    ['a box as long, turned', box(10, 6, 4), box(2, 10, 2), 'a core ⟦10 cm⟧ long in a mould of ⟦10 cm⟧'],
    ['a box too wide', box(10, 6, 4), box(7, 6, 2), 'a core ⟦6 cm⟧ wide in a mould of ⟦6 cm⟧'],
    [
      'a cylinder too wide',
      cylinder(8, 9),
      cylinder(9, 3),
      'a core ⟦9 cm⟧ across at its narrowest in a mould of ⟦8 cm⟧',
    ],
    [
      'a cylinder in a slim box',
      box(20, 6, 5),
      cylinder(7, 2),
      'a core ⟦7 cm⟧ across at its narrowest in a mould of ⟦6 cm⟧',
    ],
    [
      'a slim box in a cylinder',
      cylinder(8, 9),
      box(9, 2, 3),
      'a core ⟦9 cm⟧ across at its widest in a mould of ⟦8 cm⟧',
    ],
    [
      'corners in a cylinder',
      cylinder(10, 9),
      box(9, 5, 3),
      'a core ⟦10.3 cm⟧ from corner to corner in a mould of ⟦10 cm⟧',
    ],
    [
      'a hexagon in a cylinder',
      cylinder(10, 9),
      hexagon(9, 3),
      'a core ⟦10.39 cm⟧ from corner to corner in a mould of ⟦10 cm⟧',
    ],
    [
      'a box in a hexagon',
      hexagon(10, 9),
      box(9, 9, 3),
      'a core ⟦12.73 cm⟧ from corner to corner in a mould of ⟦11.55 cm⟧',
    ],
    [
      'a cone too wide at its top',
      cylinder(8, 9),
      { shape: 'cone', top: 9, bottom: 3, height: 2 },
      'a core ⟦9 cm⟧ across at its widest in a mould of ⟦8 cm⟧',
    ],
  ])('%s is told by the size that is too much', (_name, outer, core, found) => {
    expect(solidVolume(core)).toBeLessThan(solidVolume(outer));
    expect(problemsOf(() => shapedMould(outer, core))).toMatchObject([{ code: 'mould-impossible', found }]);
  });

  it('and one a hair smaller each way does', () => {
    for (const [outer, core] of [
      [box(10, 6, 4), box(9.9, 5.9, 4)],
      [cylinder(10.4, 9), box(9, 5, 3)],
      [cylinder(10.4, 9), hexagon(9, 3)],
      [box(20, 7.1, 5), cylinder(7, 2)],
      [hexagon(10, 9), cylinder(9.9, 9)],
    ] as const)
      expect(shapedMould(outer, core).volume).toBeCloseTo(solidVolume(outer) - solidVolume(core), 9);
  });
});

const BRIEF = 'objective: lightest\nmaterials: { only: [casting plaster] }\n';

describe('the mould of a brief', () => {
  const volume = (mould: string): number => brief(`${BRIEF}mould: ${mould}`).question.conditions.volume;

  it('is read from its water fill, by weight or by volume', () => {
    expect(volume('{ water: 420 mL }')).toBe(420);
    expect(volume('{ water: 1 L }')).toBe(1000);
    // 1 lb of water at 20 °C: 453.59237 g / 0.998207 g/cm3 (Tanaka 2001).
    expect(volume('{ water: 1 lb }')).toBeCloseTo(453.59237 / 0.998207, 2);
    expect(volume('{ water: 8 fl oz }')).toBeCloseTo((8 * 231 * 2.54 ** 3) / 128, 6);
  });

  it('is read from its shape in any unit of length', () => {
    expect(volume('{ solid: { shape: cylinder, diameter: 10 cm, height: 100 mm } }')).toBeCloseTo(250 * Math.PI, 9);
    expect(volume('{ solid: { shape: box, length: 4 in, width: 3 in, height: 2 in } }')).toBeCloseTo(24 * 2.54 ** 3, 6);
  });

  it('is read back from an earlier piece: its weight at demoulding and its recipe', () => {
    const piece = (weight: string) =>
      volume(`{ piece: { weight: ${weight}, basis: mass, amounts: { casting plaster: 100, water: 70 } } }`);
    const plaster = numberOf(material('casting-plaster').density);
    const water = numberOf(material('water').density);
    const filled = (100 / plaster + 70 / water) / (1 - model['air-poured']!.value);
    const demoulded = 170 - model['lost-in-mould']!.value * 70;
    expect(piece('770 g')).toBeCloseTo((770 * filled) / demoulded, 6);
    expect(piece('1540 g')).toBeCloseTo(2 * piece('770 g'), 6);
  });

  it.each([
    ['{}', ['field-missing 3 mould']],
    ['{ water: 1 L, solid: { shape: cylinder, diameter: 1 cm, height: 1 cm } }', ['brief-contradicts 3 mould']],
    ['{ water: 1 L, core: { shape: cylinder, diameter: 1 cm, height: 1 cm } }', ['brief-contradicts 3 mould.core']],
    ['{ water: 0 mL }', ['amount-not-positive 3 mould.water']],
    ['{ water: -3 mL }', ['amount-not-positive 3 mould.water']],
    ['{ water: 3 cm }', ['unit-wrong-kind 3 mould.water']],
    ['{ solid: { shape: cylinder, diameter: 0 cm, height: 1 cm } }', ['amount-not-positive 3 mould.solid.diameter']],
    ['{ solid: { shape: cylinder, diameter: 3 g, height: 1 cm } }', ['unit-wrong-kind 3 mould.solid.diameter']],
    ['{ solid: { shape: pyramid, height: 1 cm } }', ['field-wrong-type 3 mould.solid.shape']],
    [
      '{ solid: { shape: box, length: 9 cm, width: 9 cm, height: 3 cm }, core: { shape: cylinder, diameter: 9.5 cm, height: 2 cm } }',
      ['mould-impossible 3 mould.core'],
    ],
    ['{ water: 1e9 L }', ['field-out-of-range 3 mould.water']],
    ['{ water: 0.02 mL }', ['field-out-of-range 3 mould.water']],
    ['{ water: 2 tonnes }', ['field-out-of-range 3 mould.water']],
    ['{ solid: { shape: cylinder, diameter: 2 m, height: 1 m } }', ['field-out-of-range 3 mould.solid']],
    ['{ solid: { shape: box, length: 1 mm, width: 1 mm, height: 9 mm } }', ['field-out-of-range 3 mould.solid']],
    [
      '{ piece: { weight: 5 tonnes, basis: mass, amounts: { casting plaster: 100, water: 70 } } }',
      ['field-out-of-range 3 mould.piece.weight'],
    ],
  ])('%s is refused with its line', (mould, expected) => {
    expect(told(() => brief(`${BRIEF}mould: ${mould}`))).toEqual(expected);
  });

  it('holds from a drop to a cubic metre, and what was found is told', () => {
    expect(volume('{ water: 0.05 mL }')).toBe(0.05);
    expect(volume('{ water: 1 m3 }')).toBe(1e6);
    const found = (mould: string): string => said(() => brief(`${BRIEF}mould: ${mould}`))[0]!;
    const expected = 'expected a mould of 0.05 mL to 1000 L.';
    expect(found('{ water: 1e9 L }')).toContain(`found “1e9 L”, ${expected}`);
    expect(found('{ solid: { shape: box, length: 2 m, width: 1 m, height: 1 m } }')).toContain(
      `found “2000000 mL”, ${expected}`,
    );
    const piece = found('{ piece: { weight: 5 t, basis: mass, amounts: { casting plaster: 100, water: 70 } } }');
    expect(piece).toMatch(/found “5 t, a piece of 3\d{6} mL”, expected a mould/);
  });
});
