import type { Conditions } from '../blend/conditions.js';
import type { MaterialNumbers } from '../blend/numbers.js';
import { pozzolanToCement } from '../blend/properties/chemistry.js';
import type { Target } from '../blend/target.js';
import type { World } from '../blend/world.js';
import type { BinderFamily } from '../materials/words.js';
import { SOUND_POZZOLAN } from '../science/sulfate.js';
import type { Row } from './lp/types.js';

/**
 * A binder system: families that may share one piece. Families outside of it are barred, because together they flash
 * set or swell; each system is one branch of the proposal.
 */
export interface BinderSystem {
  readonly id: string;
  readonly name: string;
  readonly families: readonly BinderFamily[];
  /** Those of them without which it would not be what it is called; absent: any one will do. */
  readonly needs?: readonly BinderFamily[];
  /** Why it is not open under these conditions, or null. */
  readonly closed: (conditions: Conditions) => string | null;
  readonly rows: (world: World) => Row[];
  /** What has to hold whatever the brief asks for: judged as limits are, and never given up for one. */
  readonly holds: readonly SystemLimit[];
}

export interface SystemLimit extends Target {
  /** Of its rows. */
  readonly name: string;
}

const open = () => null;
const none = () => [];

/** Lowest share of the family's mass in the binder that makes the system what it is called. */
const LEAST_SHARE = 0.15;

const least = (name: string, world: World, has: (m: MaterialNumbers) => boolean): Row => ({
  name,
  coefficients: world.materials.map((m) =>
    m.family === null ? 0 : (has(m) ? 1 - LEAST_SHARE : -LEAST_SHARE) * m.solids,
  ),
  low: 0,
  scale: 1,
});

export const BINDER_SYSTEMS: readonly BinderSystem[] = [
  {
    id: 'gypsum',
    name: 'gypsum plaster',
    families: ['gypsum'],
    closed: (c) => (c.service === 'wet' ? 'gypsum softens and dissolves in wet service' : null),
    rows: none,
    holds: [],
  },
  {
    id: 'portland',
    name: 'portland cement',
    families: ['portland', 'lime'],
    needs: ['portland'],
    closed: open,
    rows: none,
    holds: [],
  },
  { id: 'csa', name: 'rapid-setting CSA cement', families: ['csa'], closed: open, rows: none, holds: [] },
  {
    id: 'aluminate',
    name: 'calcium aluminate cement',
    families: ['aluminate'],
    closed: open,
    rows: none,
    holds: [],
  },
  {
    id: 'lime',
    name: 'lime',
    families: ['natural-hydraulic-lime', 'lime'],
    closed: open,
    rows: none,
    holds: [],
  },
  {
    id: 'gypsum-portland-pozzolan',
    name: 'plaster, portland and pozzolan',
    families: ['gypsum', 'portland'],
    needs: ['gypsum', 'portland'],
    closed: (c) =>
      c.service === 'dry-indoor' || c.service === 'warm'
        ? null
        : 'plaster with portland may swell and crack when damp, and softens when wet',
    rows: (world) => [
      least('plaster in the blend', world, (m) => m.family === 'gypsum'),
      least('portland in the blend', world, (m) => m.family === 'portland'),
    ],
    // Where the sulfate screen would stop the maker: no rounding may leave it.
    holds: [
      {
        name: 'pozzolan enough for plaster with portland',
        property: pozzolanToCement.id,
        min: SOUND_POZZOLAN.siliceous,
      },
    ],
  },
];

/** Whether a binder of the system is in play, and one of each family that it needs. */
export function inPlay({ families, needs = [] }: BinderSystem, world: World): boolean {
  const has = (family: BinderFamily): boolean => world.materials.some((m) => m.family === family);
  return families.some(has) && needs.every(has);
}

/** Binder systems that are open to the conditions and have a binder in play. */
export const openSystems = ({ conditions }: { readonly conditions: Conditions }, world: World): BinderSystem[] =>
  BINDER_SYSTEMS.filter((s) => s.closed(conditions) === null && inPlay(s, world));
