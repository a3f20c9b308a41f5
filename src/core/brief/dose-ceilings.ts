import { central, numbersOf } from '../blend/numbers.js';
import { inBase } from '../blend/state/amounts.js';
import type { Material } from '../materials/schema.js';
import { DOSE_BASES } from '../materials/words.js';
import type { AskedDose } from '../optimise/question.js';
import { MOST_PIGMENT, MOST_POZZOLAN } from '../optimise/standing-limits.js';
import { BINDER_SYSTEMS } from '../optimise/systems.js';
import type { Problem, Where } from '../problems/problem.js';
import { BASE_WORDS } from '../risks/dose.js';

/** A dose with the maker's own words for it, and where they stand. */
export interface WrittenDose {
  readonly dose: AskedDose;
  readonly material: Material;
  readonly text: string;
  readonly where: Where;
}

/** Above rounding of what was written. */
const HAIR = 1e-9;

/** Every blend has some binder, and that is at most all of the dry blend: so is what counts from either. */
const ofEveryBlend = ({ dose }: WrittenDose): boolean => dose.of === 'binder' || dose.of === 'dry-blend';

/** Doses that count together, and the most that any blend can have of them [percent]. */
interface Ceiling {
  readonly belongs: (asked: WrittenDose) => boolean;
  readonly most: number;
  readonly expected: string;
}

const CEILINGS: readonly Ceiling[] = [
  {
    belongs: (asked) => asked.material.kind === 'pigment' && ofEveryBlend(asked),
    most: MOST_PIGMENT,
    expected: `at most ${MOST_PIGMENT} % of the binder (ASTM C979)`,
  },
  {
    belongs: (asked) => asked.material.kind === 'pozzolan' && ofEveryBlend(asked),
    most: MOST_POZZOLAN,
    expected: `at most ${MOST_POZZOLAN} % of the binder in pozzolan (ours: the rest has to set)`,
  },
  ...DOSE_BASES.map(
    (base): Ceiling => ({
      belongs: ({ dose, material }) => dose.of === base && inBase(numbersOf(material, central), base) > 0,
      most: 100,
      expected: `at most 100 % of ${BASE_WORDS[base]} in what is part of it`,
    }),
  ),
];

const wordsOf = (group: readonly WrittenDose[]): string =>
  group.length === 1 ? group[0]!.text : group.map((g) => `${g.text} ${g.dose.material}`).join(', ');

/** Doses of which no blend can have so much; each is told once, by what it breaks first. */
function tooMuch(asked: readonly WrittenDose[]): Problem[] {
  const told = new Set<WrittenDose>();
  return CEILINGS.flatMap(({ belongs, most, expected }): Problem[] => {
    const group = asked.filter((a) => belongs(a) && !told.has(a));
    const sum = group.reduce((s, { dose }) => s + dose.percent, 0);
    if (sum <= most * (1 + HAIR)) return [];
    for (const each of group) told.add(each);
    const { where } = group.at(-1)!;
    return [{ code: 'field-out-of-range', severity: 'error', where, found: wordsOf(group), expected }];
  });
}

/** Binders asked for that no binder system has side by side. */
function apart(asked: readonly WrittenDose[]): Problem[] {
  const binders = asked.filter((a) => a.material.binder !== undefined && ofEveryBlend(a));
  const families = binders.map((a) => a.material.binder!.family);
  if (BINDER_SYSTEMS.some((system) => families.every((f) => system.families.includes(f)))) return [];
  return [
    {
      code: 'brief-contradicts',
      severity: 'error',
      where: binders.at(-1)!.where,
      found: binders.map((a) => a.dose.material).join(', '),
      expected:
        'binders that may share one piece: portland cement with lime, limes, or plaster with portland and pozzolan',
      hint: 'others set in the bowl or swell when they are mixed',
    },
  ];
}

/** What no blend can keep of the doses that were asked for, whatever else is in it. */
export const impossibleDoses = (asked: readonly WrittenDose[]): Problem[] => [...tooMuch(asked), ...apart(asked)];
