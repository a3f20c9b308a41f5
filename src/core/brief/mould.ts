import { refuse, type Where } from '../problems/problem.js';

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
}

/**
 * Volume of a mould given by its shape, less a core.
 * @throws InputProblems `mould-impossible` when the core does not fit inside.
 */
export function shapedMould(outer: Solid, core: Solid | null, where?: Where): MouldVolume {
  const full = solidVolume(outer);
  if (core === null) return { volume: full, wall: Math.min(widths(outer).least, outer.height) };
  const hole = solidVolume(core);
  const gap = (widths(outer).least - widths(core).least) / 2;
  if (hole >= full || core.height > outer.height || gap <= 0 || widths(core).most >= widths(outer).most) {
    refuse({
      code: 'mould-impossible',
      ...(where && { where }),
      found: `a core of ⟦${hole.toPrecision(4)} cm³⟧, ⟦${core.height} cm⟧ high, in a mould of ⟦${full.toPrecision(4)} cm³⟧, ⟦${outer.height} cm⟧ high`,
      expected: 'a core that fits inside the mould',
    });
  }
  const floor = outer.height - core.height;
  return { volume: full - hole, wall: floor > 0 ? Math.min(gap, floor) : gap };
}
