import type { Region } from './caution.js';
import { CAUTION_RULES } from './cautions.js';
import type { BlendFacts } from './facts.js';

/** Titles of the cautions that say stop to a blend, without the words of any other. */
export const stopsOf = (facts: BlendFacts, region: Region): string[] =>
  CAUTION_RULES.filter((rule) => rule.when({ facts, region })?.severity === 'stop').map((rule) => rule.title);
