import type { Conditions } from '../blend/conditions.js';
import { central, numbersOf } from '../blend/numbers.js';
import { c3aPercent } from '../materials/cement-phases.js';
import { isGap } from '../materials/gap.js';
import { addedSo3 } from '../materials/sulfate.js';
import { DEFAULT_CEMENT_SO3, sulfateScreen, THAUMASITE_BELOW } from '../science/sulfate.js';
import { type BlendPart, NEVER_DRY, type SulfateOutcome, type Use } from './facts.js';

/** Where a piece stands: service, °C of its room, and uses. */
interface Place {
  readonly service: Conditions['service'];
  readonly room: number | null;
  readonly uses: readonly Use[];
}

/** Whether it stands damp or wet in a room so cold; a damp place is taken for as cold as the room it is made in (ours). */
export const coldDampRoom = ({ service, room }: Omit<Place, 'uses'>): boolean =>
  (service === 'damp' || service === 'wet') && room !== null && room < THAUMASITE_BELOW;

/** Whether it may stand wet and so cold that thaumasite forms; what stands out does so every winter (ours). */
export const wetAndCold = (place: Place): boolean =>
  coldDampRoom(place) || place.uses.some((use) => NEVER_DRY.includes(use));

/**
 * The sulfate screen's outcome for a blend of portland with plaster or other added sulfate; null for any other.
 * An engineering screen of this project, not a standard. Portland and pozzolan count by their solids, as in the forward
 * model.
 */
export function sulfateOutcome(
  parts: readonly BlendPart[],
  { service, temperature }: Pick<Conditions, 'service' | 'temperature'>,
  uses: readonly Use[],
): SulfateOutcome | null {
  const known = parts.map(({ material, grams }) => {
    const numbers = numbersOf(material, central);
    return { material, numbers, grams, solids: grams * numbers.solids };
  });
  const portland = known.filter((p) => p.numbers.family === 'portland');
  const hemihydrate = known.reduce((s, p) => s + p.grams * p.numbers.hemihydrate, 0);
  const cement = portland.reduce((s, p) => s + p.solids, 0);
  // Plaster counts by its hemihydrate; ground gypsum, anhydrite and sulfate salts by their SO3.
  const added = known.reduce((s, p) => s + (p.numbers.hemihydrate > 0 ? 0 : p.grams * addedSo3(p.material)), 0);
  if (cement === 0 || (hemihydrate === 0 && added === 0)) return null;
  const mean = (of: (p: BlendPart) => number | undefined, otherwise: number): number =>
    portland.reduce((s, p) => s + p.solids * (of(p) ?? otherwise), 0) / cement;
  return sulfateScreen({
    portland: cement,
    hemihydrate,
    addedSo3: added,
    pozzolans: known.map(({ solids, numbers: { activity, natural } }) => ({ grams: solids, activity, natural })),
    cementSo3: mean(
      (p) => (p.material.so3 === undefined || isGap(p.material.so3) ? undefined : p.material.so3.value),
      DEFAULT_CEMENT_SO3,
    ),
    c3a: mean((p) => c3aPercent(p.material), 8),
    carbonate: parts.some((p) => (p.material.tags ?? []).includes('carbonate')),
    cold: wetAndCold({ service, room: temperature, uses }),
    service,
  });
}
