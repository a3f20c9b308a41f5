import type { Conditions } from '../blend/conditions.js';
import { refuse, type Where } from '../problems/problem.js';
import { equalPlate } from '../science/heat.js';

/** Sides in cm. `taper` shapes are given by both ends. */
export type Solid =
  | { readonly shape: 'box'; readonly length: number; readonly width: number; readonly height: number }
  | { readonly shape: 'cylinder'; readonly diameter: number; readonly height: number }
  | { readonly shape: 'cone'; readonly top: number; readonly bottom: number; readonly height: number }
  /** Regular hexagonal prism; `across` is from flat to flat. */
  | { readonly shape: 'hexagon'; readonly across: number; readonly height: number };

/** Volume of a solid [cm³]. Cone: frustum, pi h (R² + R r + r²)/3; hexagon: (sqrt 3 / 2) across² h. Plane geometry. */
export function solidVolume(solid: Solid): number {
  switch (solid.shape) {
    case 'box':
      return solid.length * solid.width * solid.height;
    case 'cylinder':
      return (Math.PI / 4) * solid.diameter ** 2 * solid.height;
    case 'cone': {
      const [a, b] = [solid.top / 2, solid.bottom / 2];
      return (Math.PI * solid.height * (a * a + a * b + b * b)) / 3;
    }
    case 'hexagon':
      return (Math.sqrt(3) / 2) * solid.across ** 2 * solid.height;
  }
}

/** Areas of a solid [cm²]: its top, its bottom, and all round. Plane geometry. */
function faces(solid: Solid): { readonly top: number; readonly bottom: number; readonly round: number } {
  switch (solid.shape) {
    case 'box': {
      const end = solid.length * solid.width;
      return { top: end, bottom: end, round: 2 * solid.height * (solid.length + solid.width) };
    }
    case 'cylinder': {
      const end = (Math.PI / 4) * solid.diameter ** 2;
      return { top: end, bottom: end, round: Math.PI * solid.diameter * solid.height };
    }
    case 'cone': {
      const [top, bottom] = [solid.top / 2, solid.bottom / 2];
      const slant = Math.hypot(solid.height, top - bottom);
      return { top: Math.PI * top ** 2, bottom: Math.PI * bottom ** 2, round: Math.PI * (top + bottom) * slant };
    }
    case 'hexagon': {
      const end = (Math.sqrt(3) / 2) * solid.across ** 2;
      return { top: end, bottom: end, round: 2 * Math.sqrt(3) * solid.across * solid.height };
    }
  }
}

/** All faces of the piece [cm²]. A core is open at the top; one as high as its mould goes through. */
function surface(outer: Solid, core: Solid | null): number {
  const { top, bottom, round } = faces(outer);
  if (core === null) return top + bottom + round;
  const hole = faces(core);
  return top - hole.top + bottom + (core.height < outer.height ? hole.bottom : -hole.bottom) + round + hole.round;
}

/** Smallest and largest width of a solid seen from above [cm]. */
function widths(solid: Solid): { least: number; most: number } {
  switch (solid.shape) {
    case 'box':
      return { least: Math.min(solid.length, solid.width), most: Math.max(solid.length, solid.width) };
    case 'cylinder':
      return { least: solid.diameter, most: solid.diameter };
    case 'cone':
      return { least: Math.min(solid.top, solid.bottom), most: Math.max(solid.top, solid.bottom) };
    case 'hexagon':
      return { least: solid.across, most: solid.across };
  }
}

export interface MouldVolume {
  /** cm³ that a piece fills. */
  readonly volume: number;
  /** cm that water has to leave through, where the shape tells it. */
  readonly wall: number | null;
  /** cm of the plate that cools as fast as the piece (equalPlate), where the shape tells it. */
  readonly coolingWall: number | null;
}

/** The walls of a piece: those its shape tells, unless the maker wrote one or there is none to tell it. */
export function wallsOf(
  written: string | number | undefined,
  mould: MouldVolume | null | undefined,
  { wall }: Conditions,
): Pick<Conditions, 'wall' | 'coolingWall'> {
  if (written !== undefined || mould == null) return { wall };
  return {
    wall: mould.wall ?? wall,
    ...(mould.coolingWall === null ? {} : { coolingWall: mould.coolingWall }),
  };
}

/** Farthest apart that two points of a solid lie, seen from above [cm]. */
function farthest(solid: Solid): number {
  switch (solid.shape) {
    case 'box':
      return Math.hypot(solid.length, solid.width);
    case 'hexagon':
      return (2 / Math.sqrt(3)) * solid.across;
    default:
      return widths(solid).most;
  }
}

/** A size [cm] in which a core is to stay below its mould. */
type Size = readonly [words: string, core: number, outer: number];

/**
 * Sizes that can be compared whatever the shapes. What lies inside another is nowhere wider than it, and no two of its points
 * are farther apart; boxes are taken to stand side by side.
 */
function sizes(outer: Solid, core: Solid): readonly Size[] {
  const [inside, around] = [widths(core), widths(outer)];
  if (outer.shape === 'box' && core.shape === 'box')
    return [
      ['long', inside.most, around.most],
      ['wide', inside.least, around.least],
    ];
  return [
    ['across at its narrowest', inside.least, around.least],
    ['across at its widest', inside.most, around.most],
    ['from corner to corner', farthest(core), farthest(outer)],
  ];
}

/** The first size by which a core does not fit, as found; by volume where no size tells; null where it fits. */
function misfit(outer: Solid, core: Solid): string | null {
  const cm = (size: number): string => `⟦${Number(size.toPrecision(4))} cm⟧`;
  if (core.height > outer.height) return `a core ${cm(core.height)} high in a mould ${cm(outer.height)} high`;
  const size = sizes(outer, core).find(([, inside, around]) => inside >= around);
  if (size !== undefined) return `a core ${cm(size[1])} ${size[0]} in a mould of ${cm(size[2])}`;
  const [hole, full] = [solidVolume(core), solidVolume(outer)];
  if (hole < full) return null;
  return `a core of ⟦${hole.toPrecision(4)} cm³⟧ in a mould of ⟦${full.toPrecision(4)} cm³⟧`;
}

/**
 * Volume of a mould given by its shape, less a core.
 * @throws InputProblems `mould-impossible` when the core does not fit inside.
 */
export function shapedMould(outer: Solid, core: Solid | null, where?: Where): MouldVolume {
  const full = solidVolume(outer);
  if (core === null) {
    return {
      volume: full,
      wall: Math.min(widths(outer).least, outer.height),
      coolingWall: equalPlate(full, surface(outer, null)),
    };
  }
  const found = misfit(outer, core);
  if (found !== null) {
    refuse({
      code: 'mould-impossible',
      ...(where && { where }),
      found,
      expected: 'a core that fits inside the mould, with room for a wall',
    });
  }
  const gap = (widths(outer).least - widths(core).least) / 2;
  const floor = outer.height - core.height;
  const volume = full - solidVolume(core);
  return {
    volume,
    wall: floor > 0 ? Math.min(gap, floor) : gap,
    coolingWall: equalPlate(volume, surface(outer, core)),
  };
}
