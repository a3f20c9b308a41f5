import type { Assessment } from '../blend/assess.js';
import { isBinder } from '../blend/numbers.js';
import type { Part } from '../brief/read-amounts.js';
import type { Kind } from '../materials/words.js';
import type { Problem } from '../problems/problem.js';
import { hurried } from './hurried.js';

interface Bound {
  readonly property: string;
  readonly outside: (value: number) => boolean;
  readonly found: (value: string) => string;
  readonly hint: string;
  /** What is said instead while the likely range still reaches back inside. */
  readonly perhaps?: string;
}

/** Bounds of common sense on a blend's figures. Common practice, no source. */
const BOUNDS: readonly Bound[] = [
  {
    property: 'flow',
    outside: (v) => v > 1.3,
    found: (v) => `a flow index of ${v}`,
    hint: 'far more water than these powders want: it will bleed, stay weak and dust',
    perhaps: 'it may be runnier than it need be, and bleed: try less water, or a plasticiser',
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
];

/** Grams of water for each of binder above which a cement paste is weak. Common practice, no source. */
const MOST_WATER = 0.75;

/**
 * The bound of a cement paste, where most of what sets is cement with its pozzolan: plaster and lime usually take more water
 * than that. What porous grains drink is not in the paste, and pozzolan shares its water.
 */
function pasteBound(parts: readonly Part[]): readonly Bound[] {
  const grams = (belongs: (kind: Kind) => boolean): number =>
    parts.reduce((s, { material, grams: g }) => s + (belongs(material.kind) ? g : 0), 0);
  const cement = grams((kind) => kind === 'cement');
  const binder = grams((kind) => isBinder({ kind }));
  if (cement === 0 || cement + grams((kind) => kind === 'pozzolan') < binder / 2) return [];
  return [
    {
      property: 'water-to-binder',
      outside: (v) => v > MOST_WATER,
      found: (v) =>
        `⟦${v} g of water for each gram|${v} oz of water for each ounce⟧ of ${cement < binder ? 'binder' : 'cement'}`,
      hint: 'above about 0.7 a cement paste stays weak and porous',
    },
  ];
}

const NOTHING = { value: null, low: null, high: null };
const told = ({ properties }: Assessment, id: string) => properties.find((p) => p.property === id) ?? NOTHING;
/** Water was poured in, and none of it is left for what sets. */
function allDrunk({ properties }: Assessment): Problem[] {
  const value = (id: string): number | null => properties.find((p) => p.property === id)?.value ?? null;
  if (value('water-to-binder') !== 0 || (value('water-to-powder') ?? 0) <= 0) return [];
  return [
    {
      code: 'recipe-implausible',
      severity: 'warning',
      found: 'no water left for the binder: the grains drink it all',
      hint: 'add water; neither when it sets nor how strong it gets can be told as it is',
    },
  ];
}

/** Plain warnings that the figures of an assessment call for; `parts` are what was assessed. */
export function plainWarnings(assessment: Assessment, parts: readonly Part[]): Problem[] {
  const paste = told(assessment, 'paste-to-voids').value;
  const hollow = paste !== null && paste < 1;
  const beyond = [...BOUNDS, ...pasteBound(parts)].flatMap(({ property, outside, found, hint, perhaps }): Problem[] => {
    const { value, low, high } = told(assessment, property);
    if (value === null || !outside(value)) return [];
    const sure = perhaps === undefined || low === null || high === null || (outside(low) && outside(high));
    // Paste that does not fill the sand is not what runs.
    if (!sure && hollow) return [];
    return [
      {
        code: sure ? 'recipe-implausible' : 'recipe-runny',
        severity: 'warning',
        found: found(value.toPrecision(2)),
        hint: sure ? hint : perhaps,
      },
    ];
  });
  return [...beyond, ...allDrunk(assessment), ...hurried(assessment)];
}
