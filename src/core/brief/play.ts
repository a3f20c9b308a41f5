import { isGap } from '../materials/gap.js';
import type { Material } from '../materials/schema.js';

/** Why a material is no choice for a blend unless the maker names it and knows what it is; null for all others. */
function unsuited(material: Material): string | null {
  if (isGap(material.density)) return 'its density is not known';
  const hazards = Array.isArray(material.hazards) ? material.hazards.map((h) => h.code) : [];
  if (hazards.some((code) => code.startsWith('H360') || code.startsWith('H361'))) return 'a reproductive hazard';
  if (hazards.some((code) => /^H(340|350|351|372)/.test(code)) && (material.tags ?? []).includes('silica-flour')) {
    return 'respirable silica';
  }
  return null;
}

/** Why a material is out of play that only lacks its price. */
export const UNPRICED = 'no price in the list';

/** Whether a material that is out of play may be named as one that would help. */
export const suits = (material: Material): boolean => unsuited(material) === null;

/**
 * Why a material is left out of proposals unless the brief names it, or null when it is in play from the start.
 * The blend is made of binders, pozzolans, fillers, sands and light aggregates, with plasticisers, retarders and
 * accelerators to meet water and set; the rest is the maker's choice.
 */
export function leftOut(material: Material): string | null {
  const reason = unsuited(material);
  if (reason !== null) return reason;
  if (material.kind === 'pigment') return 'pigment only when a colour is asked for';
  if (material.kind === 'polymer' || material.kind === 'fibre') return `a ${material.kind} only when it is named`;
  if (material.kind === 'admixture') {
    const helps = (material.effects ?? []).some((e) => e.on === 'set' || (e.on === 'water-demand' && e.per.value < 0));
    if (!helps) return 'an admixture only when it is named';
  }
  return null;
}

/** True for what a blend can do without a price: never true for anything but water. */
export const isFree = (material: Material): boolean => material.kind === 'water';
