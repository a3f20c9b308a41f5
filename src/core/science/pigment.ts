import { atLeast } from './guard.js';

/** Most pigment C979 allows [percent of cement]. Source: c979, c979-reprint (looked up). */
export const C979_MOST = 10;

export interface Pigment {
  readonly grams: number;
  /** Percent of cement this pigment may reach; its maker's figure, at most 10. */
  readonly limit?: number;
}

export interface PigmentVerdict {
  /** Percent of cement. */
  readonly percent: number;
  /** What all pigments together may reach, percent of cement: the smallest of their limits. */
  readonly limit: number;
  /** g that may go in altogether. */
  readonly most: number;
  readonly ok: boolean;
}

/**
 * Pigment against ASTM C979. All pigments together must stay within the SMALLEST of their own limits, none over 10 %.
 *
 * cement [g of all cementitious binder; plaster is outside the standard and taken by analogy]; pigments. Without cement
 * nothing is allowed. Source: c979 (looked up); its ruling reads "cement" as all cementitious.
 */
export function pigmentVerdict(cement: number, pigments: readonly Pigment[]): PigmentVerdict {
  const used = pigments.filter((p) => atLeast(0, p.grams, 'grams') > 0);
  const limit = used.reduce((least, p) => Math.min(least, p.limit ?? C979_MOST), C979_MOST);
  const grams = used.reduce((sum, p) => sum + p.grams, 0);
  const most = (limit / 100) * atLeast(0, cement, 'cement');
  const percent = cement > 0 ? (100 * grams) / cement : grams > 0 ? Number.POSITIVE_INFINITY : 0;
  return { percent, limit, most, ok: grams <= most + 1e-9 };
}

/** What colour asks of the binder. Common practice, no source. */
export const WHITE_BINDER_ADVICE: readonly {
  readonly colour: string;
  readonly binder: 'white' | 'grey-will-do';
  readonly why: string;
}[] = [
  { colour: 'white', binder: 'white', why: 'Grey cement cannot be whitened with pigment in any sound dose.' },
  { colour: 'pastel', binder: 'white', why: 'Grey cement muddies pale shades; light sand matters as much.' },
  { colour: 'yellow', binder: 'white', why: 'Yellow over grey turns olive.' },
  { colour: 'green', binder: 'white', why: 'Chromium oxide on grey cement reads as grey-green.' },
  { colour: 'blue', binder: 'white', why: 'Blue needs white; ultramarine fades in wet lime.' },
  { colour: 'red', binder: 'grey-will-do', why: 'Red on grey gives brick; on white it is brighter.' },
  { colour: 'brown', binder: 'grey-will-do', why: 'Earth shades are made on grey.' },
  { colour: 'black', binder: 'grey-will-do', why: 'Black on grey costs less; white bloom shows most on it.' },
];
