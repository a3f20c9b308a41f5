import { atLeast, positive } from './guard.js';

/** A pozzolan, ash or slag that may count as cement. */
export interface Addition {
  readonly grams: number;
  /** g of cement one gram counts as. */
  readonly k: number;
  /** g of addition per g of cement that may count at all; the rest is filler. Infinity when there is no cap. */
  readonly cap: number;
}

/** k and cap of one rule book. */
export interface KValue {
  readonly k: number;
  readonly cap: number;
}

/**
 * k-values and caps by region. EU: EN 206 with CEM I; silica fume k falls to 1.0 when w/c > 0.45 in exposures with
 * carbonation or frost (`silicaFumeExposed`). DE: national rule, silica fume k 1.0. US practice (c595, aci-318) counts
 * every cementitious gram as one.
 * Source: betonlexicon-k, concrete-society-k, german-k (looked up); slag: a note or annex only.
 */
export const K_VALUES = {
  EU: {
    flyAsh: { k: 0.4, cap: 1 / 3 },
    silicaFume: { k: 2, cap: 0.11 },
    silicaFumeExposed: { k: 1, cap: 0.11 },
    slag: { k: 0.6, cap: 1 },
  },
  DE: {
    flyAsh: { k: 0.4, cap: 0.33 },
    silicaFume: { k: 1, cap: 0.11 },
    silicaFumeExposed: { k: 1, cap: 0.11 },
    slag: { k: 0.6, cap: 1 },
  },
  US: {
    flyAsh: { k: 1, cap: Number.POSITIVE_INFINITY },
    silicaFume: { k: 1, cap: Number.POSITIVE_INFINITY },
    silicaFumeExposed: { k: 1, cap: Number.POSITIVE_INFINITY },
    slag: { k: 1, cap: Number.POSITIVE_INFINITY },
  },
} as const satisfies Record<string, Record<string, KValue>>;

/**
 * Grams of cement that one addition counts as [g]. k min(f, cap x c).
 *
 * cement [g, >= 0]; addition {grams >= 0, k >= 0, cap >= 0}. Without cement nothing counts under a finite cap.
 * Source: en-206 clause 5.2.5 as told by concrete-society-k: 300 kg CEM I + 100 kg ash counts 40 kg.
 */
export function countedAddition(cement: number, addition: Addition): number {
  const most = addition.cap === Number.POSITIVE_INFINITY ? addition.grams : addition.cap * atLeast(0, cement, 'cement');
  return addition.k * Math.min(atLeast(0, addition.grams, 'grams'), most);
}

/** Cement plus what the additions count as [g]. */
export const equivalentBinder = (cement: number, additions: readonly Addition[]): number =>
  additions.reduce((sum, addition) => sum + countedAddition(cement, addition), cement);

/**
 * Fly ash that may still count beside silica fume [g], German joint cap for CEM I: f <= 0.66 c - 3.0 s, never below 0
 * and never over 0.33 c. Source: german-k (looked up).
 */
export const jointFlyAshCap = (cement: number, silicaFume: number): number =>
  Math.min(0.33 * cement, Math.max(0, 0.66 * cement - 3 * silicaFume));

/**
 * Water to cement, additions counted by k [g/g]. w / (c + sum of k min(f, cap c)).
 * water [g, free of what aggregates drink]; cement [g]. Throws when nothing counts as binder. Source: en-206 5.2.5.
 */
export function waterToBinder(water: number, cement: number, additions: readonly Addition[] = []): number {
  return atLeast(0, water, 'water') / positive(equivalentBinder(cement, additions), 'equivalent binder');
}
