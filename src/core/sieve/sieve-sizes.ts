/**
 * Openings of the numbered sieves [mm], as C33 and C136 pair number and opening (ASTM E11). Source: c33 table 1 for
 * numbers 4 to 200; the rest from memory.
 */
export const NUMBERED_SIEVES: Readonly<Record<string, number>> = {
  '4': 4.75,
  '6': 3.35,
  '8': 2.36,
  '10': 2,
  '12': 1.7,
  '16': 1.18,
  '20': 0.85,
  '30': 0.6,
  '40': 0.425,
  '50': 0.3,
  '60': 0.25,
  '70': 0.212,
  '80': 0.18,
  '100': 0.15,
  '140': 0.106,
  '200': 0.075,
};

/** Openings [mm] that go by inches, as E11 pairs them with their other name. From memory. */
const INCH_SIEVES: Readonly<Record<number, string>> = {
  6.3: '1/4 in',
  9.5: '3/8 in',
  12.5: '1/2 in',
  19: '3/4 in',
  25: '1 in',
};

/** The number, or the inches, that an opening [mm] goes by in the United States; undefined for one of no standard sieve. */
export const sieveName = (mm: number): string | undefined => {
  const number = Object.entries(NUMBERED_SIEVES).find(([, opening]) => opening === mm)?.[0];
  return number === undefined ? INCH_SIEVES[mm] : `No. ${number}`;
};

/** mm of a numbered sieve such as "No. 8" or "#8"; undefined when it is not written so, or there is no such number. */
export function numberedSieve(text: string): number | undefined {
  const match = /^(?:no\.?|#)\s*(\d+)$/i.exec(text.trim());
  return match === null ? undefined : NUMBERED_SIEVES[match[1]!];
}
