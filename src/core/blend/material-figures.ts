import type { Figure, Gap } from '../materials/figure.js';
import { isGap } from '../materials/gap.js';
import type { Material } from '../materials/schema.js';

/** A figure that is told, with the key that a reading knows it by: `silica-sand-fine.density`. */
export interface Keyed {
  readonly key: string;
  readonly figure: Figure;
}

/** What the forward model reads of a material; null where the table tells nothing. */
export type MaterialFigures = Readonly<Record<(typeof PLAIN)[number] | (typeof OF_BINDER)[number], Keyed | null>> & {
  readonly phases: Readonly<Record<(typeof PHASES)[number], Keyed | null>>;
  readonly k: Keyed | null;
  readonly kCap: Keyed | null;
  readonly activity: Keyed | null;
  readonly effects: readonly { readonly per: Keyed; readonly limit: Keyed | null }[];
};

const PLAIN = ['density', 'moisture', 'absorption', 'solids', 'bulkDensity', 'waterDemand', 'so3'] as const;
const OF_BINDER = ['heat', 'initialSet', 'finalSet', 'demould'] as const;
const PHASES = [
  'hemihydrate',
  'c3a',
  'yeelimite',
  'anhydrite',
  'monocalciumAluminate',
  'calciumHydroxide',
  'belite',
] as const;

/** Put together once for each material: draws read the same figures a hundred times over. */
const known = new WeakMap<Material, MaterialFigures>();

export function materialFigures(material: Material): MaterialFigures {
  const before = known.get(material);
  if (before !== undefined) return before;
  const keyed = (field: string, figure: Figure | Gap | undefined): Keyed | null =>
    figure === undefined || isGap(figure) ? null : { key: `${material.id}.${field}`, figure };
  const each = <F extends string>(fields: readonly F[], of: (field: F) => Keyed | null) =>
    Object.fromEntries(fields.map((field) => [field, of(field)])) as Record<F, Keyed | null>;
  const { binder, pozzolan } = material;
  const phases = binder?.phases ?? pozzolan?.phases;
  const figures: MaterialFigures = {
    ...each(PLAIN, (field) => keyed(field, material[field])),
    ...each(OF_BINDER, (field) => keyed(field, binder?.[field])),
    phases: each(PHASES, (name) => keyed(`phases.${name}`, phases?.[name])),
    k: keyed('k', pozzolan?.k),
    kCap: keyed('kCap', pozzolan?.kCap),
    activity: keyed('activity', pozzolan?.activity),
    effects: (material.effects ?? []).map((e, i) => ({
      per: { key: `${material.id}.effects.${i}`, figure: e.per },
      limit: keyed(`effects.${i}.limit`, e.limit),
    })),
  };
  known.set(material, figures);
  return figures;
}
