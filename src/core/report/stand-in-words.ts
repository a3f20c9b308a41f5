import { propertyById } from '../blend/properties/index.js';
import { tenthsOff } from '../optimise/stand-in.js';
import { wordsIn } from '../units/marked.js';
import type { UnitSystem } from '../units/print.js';
import { printLimit, printWindow, significant, significantShown, type Wording } from './print.js';
import type { CandidateResult, StandInResult } from './stand-in-schema.js';

/** What a medium is sold as, in words. */
export const MEDIUM_WORDS: Readonly<Record<NonNullable<StandInResult['medium']['kind']>, string>> = {
  'gypsum-cement': 'gypsum cement',
  'rapid-cement': 'rapid-setting cement',
  'polymer-gypsum': 'polymer-modified gypsum',
};

/** What follows from the description of a medium itself, a line each; empty where nothing does. */
export function tellsWords({ medium }: Pick<StandInResult, 'medium'>, system: UnitSystem): readonly string[] {
  const { bound, plaster, powderDensity, polymer } = medium;
  if (bound === null && powderDensity === null) return [];
  const lines: string[] = [];
  const [each, of] = system === 'us' ? ['ounce', 'oz'] : ['gram', 'g'];
  if (bound !== null && bound > 0) {
    const about =
      plaster! > 1.08
        ? 'more than any plaster can: there is cement in it, or it was not dry yet'
        : plaster! < 0.5
          ? 'about half of what pure plaster would, or less: there is much in it that does not set, or it is a cement'
          : `as a powder with ${Math.round(100 * Math.min(1, plaster!))} % of plaster would, or as a cement`;
    lines.push(`Each ${each} of its powder keeps ${significant(bound, 2)} ${of} of the water for good: ${about}.`);
  }
  if (powderDensity !== null) {
    const weight = wordsIn(`⟦${significant(powderDensity, 2)} g/cm3⟧`, system);
    lines.push(`Its powder weighs about ${weight}, if the piece holds no air.`);
  }
  if (polymer > 0) {
    lines.push(
      `Each 100 ${of} of powder come with ${significant(100 * polymer, 2)} ${of} of polymer; the water of the liquid counts as mixing water.`,
    );
  }
  return lines;
}

/** Figures of what is wanted: it follows from a description and has a tolerance, unlike a limit. */
const WANTED_DIGITS = 3;

/** "just 669 g", "22 MPa to 45 MPa": what is wanted of a property. */
export function printWanted(
  { property, low, high }: Pick<StandInResult['wanted'][number], 'property' | 'low' | 'high'>,
  wording: Wording,
): string {
  const { quantity } = propertyById(property)!;
  const told = (end: number | null): number | null =>
    end === null ? null : significantShown(end, WANTED_DIGITS, quantity, wording.system);
  if (low !== null && low === high) return `just ${printLimit(told(low)!, quantity, wording)}`;
  return printWindow(property, told(low), told(high), wording);
}

/** How far off a blend is, in tolerances: to the tenth by which blends are ranked, so that order and figure agree. */
export const farnessWords = ({ farness }: Pick<CandidateResult, 'farness'>): string =>
  (tenthsOff(farness) / 10).toFixed(1);

/** "misses a target" before what is out of tolerance; "all within tolerance" where nothing is. */
export function offWords(
  { wanted }: Pick<StandInResult, 'wanted'>,
  one: Pick<CandidateResult, 'got' | 'holds'>,
): string {
  const off = wanted.filter((_w, k) => !one.got[k]!.within).map((w) => w.name);
  const close = off.length === 0 ? 'all within tolerance' : `off in ${off.join(', ')}`;
  return one.holds ? close : `misses a target or a limit; ${close}`;
}
