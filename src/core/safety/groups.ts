import { isGap } from '../materials/gap.js';
import type { Material } from '../materials/schema.js';
import { isHemihydrate, isLime } from '../materials/sorts.js';
import { isPoured } from '../materials/table.js';
import type { BlendFacts, Constituent } from './facts.js';

export { bringsSulfate, isGypsum, isHemihydrate, isLime } from '../materials/sorts.js';

/** A question about one material. */
export type Group = (material: Material) => boolean;

const tagged =
  (...tags: readonly string[]): Group =>
  (m) =>
    tags.some((tag) => m.tags?.includes(tag) === true);

const kindIs =
  (...kinds: readonly Material['kind'][]): Group =>
  (m) =>
    kinds.includes(m.kind);

const either =
  (...groups: readonly Group[]): Group =>
  (m) =>
    groups.some((group) => group(m));

export const both =
  (...groups: readonly Group[]): Group =>
  (m) =>
    groups.every((group) => group(m));

export const not =
  (group: Group): Group =>
  (m) =>
    !group(m);

// --- binders -----------------------------------------------------------------------------------------------------
export const isPortland: Group = (m) => m.binder?.family === 'portland' || tagged('portland-alkali')(m);
export const isAluminate: Group = (m) => m.binder?.family === 'aluminate';
export const isCsa: Group = (m) => m.binder?.family === 'csa';
/** Any cement, any lime, and whatever else is tagged alkaline when wet. */
export const isAlkaline: Group = either(isPortland, isLime, isAluminate, kindIs('cement'), tagged('alkali'));
/** Alkaline far above pH 12: counts as corrosive from 1 %. */
export const isStrongAlkali: Group = either(isPortland, isLime);
export const isBinder: Group = either(kindIs('cement', 'gypsum', 'lime', 'pozzolan'), (m) => m.binder !== undefined);
export const holdsChromate: Group = either(isPortland, tagged('chromate'));

// --- dust --------------------------------------------------------------------------------------------------------
export const isSilicaFume: Group = tagged('silica-fume');
export const isSilicaFlour: Group = tagged('silica-flour');
export const isFibre: Group = kindIs('fibre');
export const isGlassFibre: Group = either(tagged('fibre-glass'), both(isFibre, tagged('glass')));
export const isLightAggregate: Group = (m) =>
  m.kind === 'light-aggregate' || (tagged('light-dust')(m) && m.kind !== 'fibre');
export const isPigment: Group = kindIs('pigment');
/** Fine powders beside the binders, whose dust has a rule of its own. */
export const isFinePowder: Group = (m) =>
  (tagged('dusty')(m) || (m.kind === 'pigment' && m.solids === undefined)) && !isBinder(m);
export const isDusty: Group = tagged('dusty');

const isMineral: Group = kindIs('cement', 'gypsum', 'lime', 'pozzolan', 'filler', 'sand', 'light-aggregate');
/** Minerals are labelled for cancer or lung damage because of the quartz in them. */
const labelledForSilica: Group = (m) =>
  Array.isArray(m.hazards) && m.hazards.some((h) => /^H(350|372|373)/.test(h.code));

/** Fraction of the material that is crystalline silica; null: it may hold some and nobody said how much. */
export function crystallineSilica(m: Material): number | null {
  if (m.crystallineSilica !== undefined) return isGap(m.crystallineSilica) ? null : m.crystallineSilica.value;
  if (tagged('silica-sand', 'silica-flour')(m)) return 1;
  if (isMineral(m) && labelledForSilica(m)) return null;
  return m.kind === 'sand' && !tagged('carbonate', 'glass')(m) ? null : 0;
}

/** Fraction of the material that is respirable crystalline silica; null: not known. A silica flour of no figure counts whole. */
export function respirableSilica(m: Material): number | null {
  const crystalline = crystallineSilica(m);
  if (m.respirableSilica !== undefined && !isGap(m.respirableSilica)) return m.respirableSilica.value;
  if (isSilicaFlour(m)) return crystalline ?? 1;
  return crystalline === 0 ? 0 : null;
}

export const holdsSilica: Group = (m) => crystallineSilica(m) !== 0 || respirableSilica(m) !== 0;
export const shedsSilica: Group = (m) => respirableSilica(m) !== 0;

// --- chemicals ---------------------------------------------------------------------------------------------------
export const isBorate: Group = tagged('borate');
export const isLithium: Group = tagged('lithium');
export const isAcid: Group = tagged('acid');
/** Wet goods are kept with preservatives; a powder needs none unless its row says so. */
export const holdsPreservative: Group = either(tagged('preservative'), both(kindIs('polymer'), isPoured));
export const holdsCarbonate: Group = tagged('carbonate');
/** A salt that travels with water; plaster and gypsum dissolve too little to count. */
export const holdsSolubleSulfate: Group = (m) =>
  tagged('soluble-sulfate')(m) && m.kind !== 'gypsum' && !isHemihydrate(m);

const names = (m: Material): string => [m.id, m.name, ...(m.also ?? [])].join(' ').toLowerCase();
const POISON_WORDS = /\b(cadmium|lead|arsenic|mercury|antimony|chromate|orpiment|vermilion)\b(?![- ]free)/;
const METAL_WORDS = /\b(chromium|chrome|cobalt|manganese|nickel)\b/;

/** A pigment named after a poisonous metal, or labelled as able to cause cancer, genetic damage or harm to the unborn. */
export const isPoisonPigment: Group = (m) =>
  isPigment(m) &&
  (POISON_WORDS.test(names(m)) || (Array.isArray(m.hazards) && m.hazards.some((h) => /^H(340|350|360)/.test(h.code))));
export const isMetalPigment: Group = (m) => isPigment(m) && (tagged('pigment-metal')(m) || METAL_WORDS.test(names(m)));

// --- looking through a blend -------------------------------------------------------------------------------------

/** What of a blend belongs to a group. */
export interface Found {
  readonly parts: readonly Constituent[];
  /** g in the batch. */
  readonly grams: number;
  /** Fraction of the dry blend. */
  readonly share: number;
}

/** The part of the blend that belongs to the group; null when there is none, however small the rest. */
export function find(facts: BlendFacts, group: Group): Found | null {
  const parts = facts.constituents.filter((c) => group(c.material));
  if (parts.length === 0) return null;
  return {
    parts,
    grams: parts.reduce((sum, p) => sum + p.grams, 0),
    share: parts.reduce((sum, p) => sum + p.share, 0),
  };
}

/** At or above a limit, forgiving the last bits of a sum of fractions. */
export const reaches = (share: number, limit: number): boolean => share >= limit * (1 - 1e-9);

/** A fraction as percent with two significant digits. */
export function percent(fraction: number): string {
  const value = fraction * 100;
  if (value === 0) return '0 %';
  if (value < 0.01) return 'under 0.01 %';
  return `${Number(value.toPrecision(value >= 10 ? 3 : 2))} %`;
}

/** Names with shares: "grey Portland cement 40 %, silica sand 55 % of the dry blend". */
export function listed(found: Found): string {
  return `${found.parts.map((p) => `${p.material.name} ${percent(p.share)}`).join(', ')} of the dry blend`;
}
