import { atLeast } from './guard.js';
import { SO3_FRACTION } from './stoichiometry.js';

/** SO3 of portland cement when the bag does not say [percent]. From memory. */
export const DEFAULT_CEMENT_SO3 = 2.8;

/**
 * SO3 of a blend of portland cement and plaster [percent of the two].
 *
 *   (s0 C + 55.16 P + 58.81 A + 100 S) / (C + P + A)
 *
 * portland C, hemihydrate P, anhydrite A, SO3 of whatever else is added S [g, >= 0]; cementSo3 s0 [percent]. 0 when there
 * is none of C, P and A. What S comes with is not counted as binder: that errs on the high side.
 * Source: iupac-2021 for the factors; rule d3 of binders.md.
 */
export function binderSo3(
  portland: number,
  hemihydrate: number,
  cementSo3 = DEFAULT_CEMENT_SO3,
  anhydrite = 0,
  addedSo3 = 0,
): number {
  const total =
    atLeast(0, portland, 'portland') + atLeast(0, hemihydrate, 'hemihydrate') + atLeast(0, anhydrite, 'anhydrite');
  if (total === 0) return 0;
  const sulfate = 100 * (SO3_FRACTION.hemihydrate * hemihydrate + SO3_FRACTION.anhydrite * anhydrite);
  return (cementSo3 * portland + sulfate + 100 * atLeast(0, addedSo3, 'addedSo3')) / total;
}

/**
 * SO3 limit of ASTM C150 for type I portland cement [percent]: 3.0 with C3A <= 8 %, 3.5 above.
 * tricalciumAluminate [percent of the cement]. A cement may exceed it if bars in water (C1038) expand no more than
 * 0.020 % in 14 days. Source: c150-reprint (two pages looked up).
 */
export const c150So3Limit = (tricalciumAluminate: number): number =>
  atLeast(0, tricalciumAluminate, 'tricalciumAluminate') > 8 ? 3.5 : 3;

/**
 * Most hemihydrate that keeps a binder inside an SO3 limit [percent of portland + hemihydrate].
 *
 *   100 (limit - s0) / (55.16 - s0), at least 0
 *
 * cementSo3 s0, limit [percent]. 0.4-1.8 % for usual cements: any deliberate plaster dose fails the cement limit.
 * Source: solved from binderSo3.
 */
export const mostHemihydrate = (cementSo3: number, limit: number): number =>
  Math.max(0, (100 * (limit - cementSo3)) / (100 * SO3_FRACTION.hemihydrate - cementSo3));

/** Where a piece will live. */
export type SulfateService = 'dry-indoor' | 'damp' | 'wet' | 'warm';

/** °C below which thaumasite forms, best at 0-5 °C. Source: Shi, Wang and Behnood 2012, a review (looked up). */
export const THAUMASITE_BELOW = 15;

/** Pozzolan in the blend, counted by its activity (1 silica fume, metakaolin, natural; 0.5 fly ash and slag, a guess). */
export interface ActivePozzolan {
  readonly grams: number;
  readonly activity: number;
  /** Natural pozzolan was only tested sound at 0.44 of the portland; silica fume and metakaolin at 0.25. */
  readonly natural?: boolean;
}

export interface SulfateCase {
  readonly portland: number;
  readonly hemihydrate: number;
  /** g SO3 of other additions: ground gypsum, anhydrite, soluble sulfates. */
  readonly addedSo3?: number;
  readonly pozzolans?: readonly ActivePozzolan[];
  /** Percent. */
  readonly cementSo3?: number;
  /** Percent of the portland; unknown is taken as the stricter limit. */
  readonly c3a?: number;
  /** Limestone filler, marble or limestone sand in the mix. */
  readonly carbonate?: boolean;
  /** It may stand wet below 15 °C. */
  readonly cold?: boolean;
  readonly service: SulfateService;
}

export type SulfateReason =
  | 'within-cement-limit'
  | 'no-portland'
  | 'no-plaster'
  | 'pozzolan-enough'
  | 'pozzolan-short'
  | 'carbonate-damp'
  | 'thaumasite'
  | 'gypsum-in-wet-service'
  | 'gypsum-near-heat'
  | 'plaster-sets-the-clock';

export interface SulfateVerdict {
  readonly verdict: 'pass' | 'note' | 'warn' | 'refuse';
  readonly reasons: readonly SulfateReason[];
  /** Percent of portland + hemihydrate. */
  readonly so3: number;
  readonly limit: number;
  /** Reactive pozzolan per portland, g/g, and what is asked of this blend. */
  readonly pozzolanRatio: number;
  readonly pozzolanAsked: number;
}

/** Reactive pozzolan per portland found sound with plaster. Sources: kovler-technion (0.25), us-6197107, colak-2002. */
export const SOUND_POZZOLAN = { siliceous: 0.25, natural: 0.4 } as const;

/** Share of the ratio asked for that is dust of arithmetic: no scale tells it. */
const DUST = 1e-6;

const worst = (a: SulfateVerdict['verdict'], b: SulfateVerdict['verdict']): SulfateVerdict['verdict'] => {
  const order = ['pass', 'note', 'warn', 'refuse'] as const;
  return order.indexOf(a) >= order.indexOf(b) ? a : b;
};

/**
 * Reactive pozzolan per portland to ask of a blend with plaster [g/g]: the mean of both ratios, weighted by reactive mass.
 *
 *   (0.25 siliceous + 0.40 natural) / (siliceous + natural)
 *
 * siliceous, natural: reactive mass of either [any unit, >= 0]; without any, that of siliceous pozzolan. Source: mixtures
 * were not tested; the mean is ours.
 */
function soundRatio(siliceous: number, natural: number): number {
  const total = siliceous + natural;
  const share = total === 0 ? 0 : natural / total;
  return SOUND_POZZOLAN.siliceous + share * (SOUND_POZZOLAN.natural - SOUND_POZZOLAN.siliceous);
}

/**
 * Portland that stays sound with plaster by one gram more of either reactive pozzolan [g/g]: the slopes of what both bear
 * together, (siliceous + natural) / ratio.
 *
 *   2 / ratio - own / ratio^2, with `own` the pozzolan's own ratio and `ratio` that of the mixture
 *
 * siliceous, natural: reactive mass of either [any unit, >= 0]; without any each bears what it does by itself. What both
 * bear is (siliceous + natural)^2 over a weighted sum: convex, so it is never less than these slopes say, here or elsewhere.
 * Source: solved from the ratio that the screen asks for.
 */
export function portlandBorne(siliceous: number, natural: number): { siliceous: number; natural: number } {
  const alone = siliceous + natural === 0;
  const ratio = soundRatio(siliceous, natural);
  const by = (own: number): number => (alone ? 1 / own : 2 / ratio - own / ratio ** 2);
  return { siliceous: by(SOUND_POZZOLAN.siliceous), natural: by(SOUND_POZZOLAN.natural) };
}

function askedRatio(pozzolans: readonly ActivePozzolan[]): { ratioMass: number; asked: number } {
  let natural = 0;
  let siliceous = 0;
  for (const p of pozzolans) {
    const active = atLeast(0, p.grams, 'grams') * p.activity;
    if (p.natural === true) natural += active;
    else siliceous += active;
  }
  return { ratioMass: natural + siliceous, asked: soundRatio(siliceous, natural) };
}

/**
 * Screen for portland cement with plaster or other sulfate. An ENGINEERING SCREEN of this project, not a standard.
 *
 *   1 SO3 of the binder within C150's limit: pass
 *   2 else reactive pozzolan / portland >= 0.25 (natural 0.40), and no carbonate in damp, wet or cold service: warn
 *     (dry indoor use is what the evidence supports; cast test bars and watch them for 28-90 days)
 *   3 else: refuse (ettringite cracking; thaumasite too with carbonate, wet and cold)
 *   4 any plaster in damp or wet service: at least warn, gypsum softens and dissolves; near heat: at least note
 *
 * Masses [g, >= 0]. Without portland only rule 4 speaks; without plaster or other added sulfate nothing does (a cement
 * over the limit was tested by its maker, C1038). Sulfate counts by its SO3, whatever it comes in; blends with other
 * sulfates were not tested, and are held to what is asked of plaster (ours). Between siliceous and natural pozzolan the asked ratio is
 * weighted. Validity: HH:PC about 0.1-4; lowest sound ratios tested were 0.25 (silica fume), 0.26 (silica and alumina),
 * 0.44 (natural). Source: kovler-technion, us-6197107, colak-2002, c150 (looked up); thresholds ours.
 */
export function sulfateScreen(mix: SulfateCase): SulfateVerdict {
  const damp = mix.service === 'damp' || mix.service === 'wet';
  const { addedSo3 = 0 } = mix;
  const so3 = binderSo3(mix.portland, mix.hemihydrate, mix.cementSo3, 0, addedSo3);
  const limit = c150So3Limit(mix.c3a ?? 0);
  const { ratioMass, asked } = askedRatio(mix.pozzolans ?? []);
  const pozzolanRatio = mix.portland > 0 ? ratioMass / mix.portland : 0;
  const reasons: SulfateReason[] = [];
  let verdict: SulfateVerdict['verdict'] = 'pass';
  if (mix.portland === 0) reasons.push('no-portland');
  else if (mix.hemihydrate === 0 && addedSo3 === 0) reasons.push('no-plaster');
  else if (so3 <= limit) reasons.push('within-cement-limit');
  else {
    const enough = pozzolanRatio >= asked * (1 - DUST);
    const carbonateRisk = mix.carbonate === true && (damp || mix.cold === true);
    if (carbonateRisk) reasons.push('carbonate-damp');
    if (carbonateRisk && mix.cold === true) reasons.push('thaumasite');
    if (enough && !carbonateRisk) {
      reasons.push('pozzolan-enough');
      verdict = 'warn';
    } else {
      if (!enough) reasons.push('pozzolan-short');
      verdict = 'refuse';
    }
  }
  if (mix.hemihydrate > 0 && mix.portland > 0 && so3 > limit) reasons.push('plaster-sets-the-clock');
  if (mix.hemihydrate > 0 && damp) {
    reasons.push('gypsum-in-wet-service');
    verdict = worst(verdict, 'warn');
  }
  if (mix.hemihydrate > 0 && mix.service === 'warm') {
    reasons.push('gypsum-near-heat');
    verdict = worst(verdict, 'note');
  }
  return { verdict, reasons, so3, limit, pozzolanRatio, pozzolanAsked: asked };
}
