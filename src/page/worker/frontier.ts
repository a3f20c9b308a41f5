import { AIMS, frontier, type Objective, propertyById, type Target } from '../../core/index.js';
import type { Folder } from './folder.js';
import { briefOnly, type Opener } from './open.js';

/** Blends that cannot be better in one property without being worse in the other. */
export interface FrontierTold {
  readonly of: string;
  readonly against: string;
  /** Whether more of `against` is better. */
  readonly rising: boolean;
  readonly points: readonly {
    readonly of: number;
    readonly against: number;
    readonly system: string;
    readonly blend: readonly { readonly material: string; readonly name: string; readonly grams: number }[];
  }[];
}

/** Below this a material is dust of the arithmetic. g in one piece. */
const DUST = 1e-3;

export function frontierOf(open: Opener, folder: Folder, file: string, against: Objective): FrontierTold {
  const asked = briefOnly(open, folder, file, 'a frontier').brief.question;
  const [a, b] = [AIMS[asked.objective], AIMS[against]];
  const cost = propertyById('cost')!;
  const priced = [a, b].some((aim) => aim.property === cost);
  const materials = asked.materials.filter((m) => !priced || m.kind === 'water' || asked.prices.has(m.id));
  // Taking a point limits this side; the line stays whole all the same.
  const side = b.sense === 'min' ? 'max' : 'min';
  const targets = asked.targets.flatMap((t) => {
    if (t.property !== b.property.id) return [t];
    const { [side]: _held, ...rest }: Target = t;
    const left: Target = rest;
    return left.min === undefined && left.max === undefined ? [] : [left];
  });
  const question = { ...asked, materials, targets };
  const found = frontier(question, a, b);
  return {
    of: a.property.id,
    against: b.property.id,
    rising: b.sense === 'max',
    points: found.points.map((p) => ({
      of: p.of,
      against: p.against,
      system: p.system,
      blend: materials.flatMap((m, i) =>
        p.grams[i]! > DUST ? [{ material: m.id, name: m.name, grams: p.grams[i]! }] : [],
      ),
    })),
  };
}
