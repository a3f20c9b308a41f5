import type { Material } from '../materials/schema.js';
import { known } from '../materials/table.js';
import { KINDS } from '../materials/words.js';
import type { Method } from './card-method.js';

/** A vessel that is tared before the first thing goes in. */
export type Vessel = 'water' | 'powder' | 'grains' | 'fibres';

/** What is done with the things of one step. */
export type StepId = 'water' | 'dissolve' | 'colour' | 'wet' | 'blend' | 'fibres';

export interface OrderStep {
  readonly id: StepId;
  readonly vessel: Vessel;
  /** Indexes into the parts. */
  readonly parts: readonly number[];
}

const isLiquid = (m: Material): boolean =>
  m.solids !== undefined || ((m.kind === 'admixture' || m.kind === 'polymer') && known(m.bulkDensity) === undefined);

/** Thickeners lump in water, and a powder that wants water to wet it is ground stone, not a salt: both go in dry. */
const goesInDry = (m: Material): boolean =>
  (known(m.waterDemand)?.value ?? 0) > 0 || (m.effects ?? []).some((e) => e.on === 'water-demand' && e.per.value > 0);

/** The step a material belongs to. Common practice, no source. */
function stepFor(m: Material, method: Method): StepId {
  if (m.kind === 'water') return 'water';
  if (m.kind === 'fibre') return 'fibres';
  if (m.kind === 'light-aggregate') return 'wet';
  if (isLiquid(m)) return 'dissolve';
  if (m.kind === 'pigment') return method.into === 'water' ? 'colour' : 'blend';
  if (m.kind === 'admixture') return goesInDry(m) ? 'blend' : 'dissolve';
  return 'blend';
}

const VESSEL: Readonly<Record<StepId, Vessel>> = {
  water: 'water',
  dissolve: 'water',
  colour: 'water',
  wet: 'grains',
  blend: 'powder',
  fibres: 'fibres',
};

const ORDER: readonly StepId[] = ['water', 'dissolve', 'colour', 'wet', 'blend', 'fibres'];

/**
 * In what order the parts are weighed out: water, then what dissolves or is liquid, then colour where powder goes into
 * water; light grains with the water they drink; everything dry; fibres last. Within a step by kind, then heaviest first.
 */
export function weighingOrder(
  parts: readonly { readonly material: Material; readonly grams: number }[],
  method: Method,
): readonly OrderStep[] {
  return ORDER.flatMap((id): OrderStep[] => {
    const belong = parts
      .map((_p, i) => i)
      .filter((i) => parts[i]!.grams > 0 && stepFor(parts[i]!.material, method) === id);
    if (belong.length === 0) return [];
    const rank = (i: number): number => KINDS.indexOf(parts[i]!.material.kind);
    belong.sort((a, b) => rank(a) - rank(b) || parts[b]!.grams - parts[a]!.grams);
    return [{ id, vessel: VESSEL[id], parts: belong }];
  });
}
