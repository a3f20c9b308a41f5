import { CAUTION_SEVERITIES, type Caution, type CautionSet, type Region } from './caution.js';
import type { BlendFacts } from './facts.js';
import { FIRST_AID } from './first-aid.js';
import { type Rule, raise } from './rule.js';
import { ALKALI_RULES } from './rules/alkali.js';
import { ALWAYS_RULES } from './rules/always.js';
import { CHEMICAL_RULES } from './rules/chemicals.js';
import { DUST_RULES } from './rules/dust.js';
import { HEAT_RULES } from './rules/heat.js';
import { LABEL_RULES } from './rules/labels.js';
import { PEOPLE_RULES } from './rules/people.js';
import { SERVICE_RULES } from './rules/service.js';
import { CLOSING } from './words.js';

/** Every rule, in the order in which cautions of the same severity are shown. Ids are unique. */
export const CAUTION_RULES: readonly Rule[] = [
  ...PEOPLE_RULES,
  ...HEAT_RULES,
  ...ALKALI_RULES,
  ...LABEL_RULES,
  ...DUST_RULES,
  ...CHEMICAL_RULES,
  ...SERVICE_RULES,
  ...ALWAYS_RULES,
];

const rank = (c: Caution): number => CAUTION_SEVERITIES.indexOf(c.severity);

/**
 * All cautions for one blend in the words of one region, gravest first, with first aid and the closing note.
 *
 * There is no option to leave any out: `shorten` is the only thing that can be done to a set.
 */
export function cautionsFor(facts: BlendFacts, options: { readonly region: Region }): CautionSet {
  const { region } = options;
  const raised = CAUTION_RULES.map((rule) => raise(rule, { facts, region })).filter((c) => c !== null);
  return {
    form: 'full',
    region,
    cautions: raised.sort((a, b) => rank(a) - rank(b)),
    firstAid: FIRST_AID,
    closing: CLOSING,
  };
}

const cutShort = ({ us, ...c }: Caution): Caution => ({
  ...c,
  text: c.short,
  ...(us === undefined ? {} : { us: { ...us, text: us.short ?? c.short } }),
});

/** The same set with each caution's text cut to its one line. First aid and closing stay whole. */
export function shorten(set: CautionSet): CautionSet {
  return { ...set, form: 'short', cautions: set.cautions.map(cutShort) };
}
