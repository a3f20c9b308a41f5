import type { Region } from './caution.js';
import type { DocumentKey } from './documents.js';
import {
  type Group,
  holdsChromate,
  holdsPreservative,
  holdsSilica,
  isAlkaline,
  isBorate,
  isLithium,
} from './groups.js';
import type { Warning } from './rule.js';

type Limit = Readonly<Record<Region, number>>;

const same = (limit: number): Limit => ({ US: limit, EU: limit });

/** Fraction from which a substance toxic to reproduction classes a mixture: CLP Table 3.7.2; US HazCom Appendix A. */
export const REPRODUCTIVE_LIMIT: Limit = { US: 0.001, EU: 0.003 };

/** One class of hazard statements and the share at which a mixture would carry it too. */
export interface HazardClass {
  readonly id: string;
  readonly title: string;
  /** Statements of the materials that add up; a code matches by its first letters, so H360 matches H360FD. */
  readonly codes: readonly string[];
  /** Fraction of the dry blend at which a mixture would be labelled. */
  readonly limit: Limit;
  readonly above: Warning['severity'];
  readonly below: Warning['severity'];
  /** Materials for which a rule of its own already says this; they count in the sum but do not raise the class alone. */
  readonly elsewhere?: Group;
  /** Materials that count even if their row lacks the code. */
  readonly also?: Group;
  readonly what: string;
  readonly short: string;
  readonly from: readonly DocumentKey[];
}

/**
 * The classes, with the limits that apply to a mixture put on the market. A private blend is not labelled; the limits
 * are used as triggers, which errs on the safe side.
 */
export const HAZARD_CLASSES: readonly HazardClass[] = [
  {
    id: 'eye-damage',
    title: 'Can blind an eye',
    codes: ['H318', 'H314'],
    limit: same(0.03),
    above: 'warn',
    below: 'caution',
    also: isAlkaline,
    what:
      'A splash of wet mix or a pinch of powder can damage an eye for good, alkalis worst of all. Tight goggles before ' +
      'the bag is opened, eye-wash or a running tap within a few steps, and at once 20 minutes of rinsing and a doctor.',
    short: 'Can blind an eye: tight goggles before the bag is opened; rinse 20 minutes, then a doctor.',
    from: ['clp-eye', 'icsc-0408', 'hse-cis26', 'hazcom-limits'],
  },
  {
    id: 'eye-irritation',
    title: 'Irritates eyes',
    codes: ['H319'],
    limit: same(0.1),
    above: 'caution',
    below: 'info',
    what: 'Powder and mix irritate eyes. Wear goggles, and rinse with plenty of water if any gets in.',
    short: 'Irritates eyes: goggles, rinse with plenty of water.',
    from: ['clp-eye', 'hazcom-limits'],
  },
  {
    id: 'skin-corrosion',
    title: 'Can burn skin',
    codes: ['H314'],
    limit: same(0.05),
    above: 'warn',
    below: 'caution',
    elsewhere: isAlkaline,
    what: 'A material here is labelled as causing severe burns. Gloves that stand it, long sleeves, and rinse 20 minutes.',
    short: 'A material here burns skin: gloves that stand it, rinse 20 minutes, see a doctor.',
    from: ['clp-skin', 'clp-ph', 'hazcom-limits'],
  },
  {
    id: 'skin-irritation',
    title: 'Irritates skin',
    codes: ['H315', 'EUH066'],
    limit: same(0.1),
    above: 'caution',
    below: 'info',
    elsewhere: isAlkaline,
    what: 'Powder and mix irritate skin. Wear gloves and wash with water and mild soap.',
    short: 'Irritates skin: gloves, wash with water and mild soap.',
    from: ['clp-skin', 'hazcom-limits'],
  },
  {
    id: 'skin-allergy',
    title: 'Can cause skin allergy',
    codes: ['H317', 'EUH203', 'EUH208'],
    limit: { US: 0.001, EU: 0.01 },
    above: 'caution',
    below: 'info',
    elsewhere: (m) => holdsChromate(m) || holdsPreservative(m),
    what: 'A material here can cause an allergy of the skin, which stays for life. Gloves throughout, and stop at the first rash.',
    short: 'Can cause lasting skin allergy: gloves throughout, stop at the first rash.',
    from: ['clp-allergy', 'hazcom-limits'],
  },
  {
    id: 'airway-irritation',
    title: 'Irritates the airways',
    codes: ['H335'],
    limit: same(0.2),
    above: 'caution',
    below: 'info',
    what: 'Dust or vapour of this blend irritates the airways. Work with moving air, keep the powder low, wear a respirator.',
    short: 'Irritates the airways: moving air, no dust, respirator.',
    from: ['clp-target-organs', 'hazcom-limits'],
  },
  {
    id: 'airway-allergy',
    title: 'Can cause asthma',
    codes: ['H334'],
    limit: { US: 0.001, EU: 0.01 },
    above: 'warn',
    below: 'caution',
    what: 'A material here can cause allergy or asthma when breathed in. Do not use it as a dry powder without extraction and a respirator.',
    short: 'Can cause asthma when breathed in: no dry powder without extraction and respirator.',
    from: ['clp-allergy', 'hazcom-limits'],
  },
  {
    id: 'organ-damage',
    title: 'Damages organs through repeated exposure',
    codes: ['H370', 'H371', 'H372', 'H373'],
    limit: same(0.01),
    above: 'warn',
    below: 'caution',
    elsewhere: holdsSilica,
    what: 'A material here damages organs when taken in, or breathed in again and again. Its data sheet says which; keep it off skin and out of the air.',
    short: 'A material here damages organs by repeated exposure: no dust, gloves, read its data sheet.',
    from: ['clp-target-organs', 'osha-target-organs', 'hazcom-limits'],
  },
  {
    id: 'reproductive-harm',
    title: 'May harm fertility or the unborn child',
    codes: ['H360', 'H361', 'H362'],
    limit: REPRODUCTIVE_LIMIT,
    above: 'warn',
    below: 'info',
    elsewhere: (m) => isBorate(m) || isLithium(m),
    what: 'A material here may harm fertility, the unborn or the breast-fed child. No part in it for anyone who is or may be pregnant; gloves, no dust.',
    short: 'May harm fertility or the unborn child: gloves, no dust, not for pregnant people.',
    from: ['clp-reproduction', 'hazcom-limits'],
  },
  {
    id: 'cancer-risk',
    title: 'May cause cancer',
    codes: ['H350', 'H351'],
    limit: same(0.001),
    above: 'warn',
    below: 'caution',
    elsewhere: holdsSilica,
    what: 'A material here is labelled as causing, or suspected of causing, cancer, mostly as dust. Replace it if you can; else no dust at all, extraction and a respirator.',
    short: 'A material here may cause cancer as dust: replace it, or no dust at all and a respirator.',
    from: ['clp-other-classes', 'hazcom-limits'],
  },
  {
    id: 'genetic-damage',
    title: 'May cause genetic damage',
    codes: ['H340', 'H341'],
    limit: same(0.001),
    above: 'warn',
    below: 'caution',
    what: 'A material here is labelled as causing, or suspected of causing, genetic damage. Replace it.',
    short: 'A material here may cause genetic damage: replace it.',
    from: ['clp-other-classes', 'hazcom-limits'],
  },
  {
    id: 'poison',
    title: 'Toxic if swallowed, breathed in or on skin',
    codes: ['H300', 'H301', 'H310', 'H311', 'H330', 'H331'],
    limit: same(0.01),
    above: 'warn',
    below: 'warn',
    what: 'A material here is labelled toxic. Do not use it for casting; if you already have it, lock it away and hand it in as hazardous waste.',
    short: 'A material here is labelled toxic: do not cast with it, lock it away.',
    from: ['clp-other-classes', 'hazcom-limits'],
  },
  {
    id: 'harmful-swallowed',
    title: 'Harmful if swallowed or breathed in',
    codes: ['H302', 'H312', 'H332'],
    limit: same(0.25),
    above: 'caution',
    below: 'info',
    what: 'A material here is harmful in small amounts. Label the tub, keep it from children and away from food, and wash hands.',
    short: 'A material here is harmful if taken in: labelled tub, away from children and food.',
    from: ['clp-other-classes', 'hazcom-limits'],
  },
];
