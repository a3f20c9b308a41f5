import type { Assessment } from '../blend/assess.js';
import type { Problem } from '../problems/problem.js';
import { hurried } from './hurried.js';

interface Bound {
  readonly property: string;
  readonly outside: (value: number) => boolean;
  readonly found: (value: string) => string;
  readonly hint: string;
}

/** Bounds of common sense on a recipe's figures. Common practice, no source. */
const BOUNDS: readonly Bound[] = [
  {
    property: 'flow',
    outside: (v) => v > 1.3,
    found: (v) => `a flow index of ${v}`,
    hint: 'far more water than these powders want: it will bleed, stay weak and dust',
  },
  {
    property: 'flow',
    outside: (v) => v < 0.8,
    found: (v) => `a flow index of ${v}`,
    hint: 'too little water to pour: expect a crumbly mix and holes, or the powder takes less than the table says',
  },
  {
    property: 'paste-to-voids',
    outside: (v) => v < 1,
    found: (v) => `paste for ${v} of the holes between the grains`,
    hint: 'the paste does not fill the sand: expect a honeycombed piece',
  },
  {
    property: 'water-to-cement',
    outside: (v) => v > 0.75,
    found: (v) => `⟦${v} g of water for each gram|${v} oz of water for each ounce⟧ of cement`,
    hint: 'above about 0.7 a cement paste stays weak and porous',
  },
];

/** Plain warnings that the figures of an assessment call for. */
export function plainWarnings(assessment: Assessment): Problem[] {
  const beyond = BOUNDS.flatMap(({ property, outside, found, hint }): Problem[] => {
    const value = assessment.properties.find((p) => p.property === property)?.value ?? null;
    if (value === null || !outside(value)) return [];
    return [{ code: 'recipe-implausible', severity: 'warning', found: found(value.toPrecision(2)), hint }];
  });
  return [...beyond, ...hurried(assessment)];
}
