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

/** mm of a numbered sieve such as "No. 8" or "#8"; undefined when it is not written so, or there is no such number. */
export function numberedSieve(text: string): number | undefined {
  const match = /^(?:no\.?|#)\s*(\d+)$/i.exec(text.trim());
  return match === null ? undefined : NUMBERED_SIEVES[match[1]!];
}
