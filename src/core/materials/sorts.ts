import type { Material } from './schema.js';
import { addedSo3 } from './sulfate.js';

/** What a material is beside a cement, the same to the forward model as to the cautions. */
type Sort = (material: Material) => boolean;

const hasTag = ({ tags }: Material, ...names: readonly string[]): boolean =>
  names.some((name) => tags?.includes(name) === true);

export const isLime: Sort = ({ kind, binder }) =>
  kind === 'lime' || binder?.family === 'lime' || binder?.family === 'natural-hydraulic-lime';

/** Plaster that sets with heat. A gypsum row that does not say what it is counts as one. */
export const isHemihydrate: Sort = (m) =>
  m.binder?.family === 'gypsum' || hasTag(m, 'gypsum-heat') || (m.kind === 'gypsum' && m.binder === undefined);

/** Plaster, or gypsum that has set before, ground: that gives no heat, but softens and dissolves as set plaster does. */
export const isGypsum: Sort = (m) => isHemihydrate(m) || hasTag(m, 'set-gypsum');

/** Whatever brings sulfate to a cement beside what that was made with. */
export const bringsSulfate: Sort = (m) => isGypsum(m) || hasTag(m, 'soluble-sulfate') || addedSo3(m) > 0;
