import type { Material } from '../materials/schema.js';

/** Kinds that make up the bulk of a blend; doses of a percent are weighed, never counted out in parts. */
const BULK_KINDS: ReadonlySet<Material['kind']> = new Set([
  'cement',
  'gypsum',
  'lime',
  'pozzolan',
  'filler',
  'sand',
  'light-aggregate',
]);

export const isBulk = ({ kind }: Pick<Material, 'kind'>): boolean => BULK_KINDS.has(kind);

/**
 * What goes in by a percent or two beside the binder. A pozzolan has a dose window as well, but it is binder: a search that
 * begins afresh without its doses keeps it.
 */
export const isDosed = (material: Material): boolean => material.dose !== undefined && !isBulk(material);
