import type { EnvelopeVerdict } from '../science/grading.js';
import type { UnitSystem } from '../units/print.js';
import { sieveName } from './sieve-sizes.js';

const figure = (value: number, digits: number): string => Number(value.toPrecision(digits)).toString();

const MM_PER_INCH = 25.4;

/** A sieve's opening [mm] as a maker reads it: "0.6 mm", in the United States "No. 30"; 0 is the pan. */
export function sieveWords(mm: number, system: UnitSystem): string {
  if (mm === 0) return 'pan';
  if (system === 'metric') return `${figure(mm, 3)} mm`;
  return sieveName(mm) ?? `${figure(mm / MM_PER_INCH, 3)} in`;
}

/** What a plot writes under its sieves, and what it says of them. */
export const sieveMark = (mm: number, system: UnitSystem): string =>
  sieveWords(mm, system).replace(system === 'us' ? /^No\. / : / mm$/, '');
export const SIEVE_AXIS: Readonly<Record<UnitSystem, string>> = { metric: 'sieve, mm', us: 'sieve number' };

const whole = (percent: number): string => `${Math.round(percent)} %`;

/** What keeps a sand out of C33's envelope, in words; empty when nothing does. */
export function missWords(verdict: EnvelopeVerdict, system: UnitSystem): string[] {
  const sieves = verdict.sieves
    .filter((s) => !s.ok)
    .map((s) => {
      const limit = s.passing < s.low ? `at least ${whole(s.low)}` : `at most ${whole(s.high)}`;
      return `${sieveWords(s.sieve, system)}: ${figure(s.passing, 3)} % passes, ${limit} asked`;
    });
  return [
    ...sieves,
    ...(verdict.modulusOk ? [] : [`fineness modulus ${verdict.finenessModulus.toFixed(2)}, 2.3 to 3.1 asked`]),
    ...(verdict.stepOk ? [] : [`${whole(verdict.largestStep)} lies between two sieves, at most 45 % asked`]),
  ];
}

/** What the packing of a mix means for its paste. */
export function packingNote(voids: number, leastAlone: number): string {
  const saved = leastAlone - voids;
  const holes = `${Math.round(100 * voids)} % of its loose volume is holes that paste has to fill`;
  return saved > 0.005
    ? `${holes}, ${Math.round(100 * saved)} points less than the best of the sands alone.`
    : `${holes}: no better than the best of the sands alone.`;
}
