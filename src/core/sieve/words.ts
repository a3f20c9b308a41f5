import type { EnvelopeVerdict } from '../science/grading.js';

const figure = (value: number, digits: number): string => Number(value.toPrecision(digits)).toString();

/** A sieve's opening as a maker reads it: "0.6 mm"; 0 is the pan. */
export const sieveWords = (mm: number): string => (mm === 0 ? 'pan' : `${figure(mm, 3)} mm`);

const whole = (percent: number): string => `${Math.round(percent)} %`;

/** What keeps a sand out of C33's envelope, in words; empty when nothing does. */
export function missWords(verdict: EnvelopeVerdict): string[] {
  const sieves = verdict.sieves
    .filter((s) => !s.ok)
    .map((s) => {
      const limit = s.passing < s.low ? `at least ${whole(s.low)}` : `at most ${whole(s.high)}`;
      return `${sieveWords(s.sieve)}: ${figure(s.passing, 3)} % passes, ${limit} asked`;
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
