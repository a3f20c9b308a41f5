import type { Region } from './caution.js';
import { CAUTION_RULES } from './cautions.js';
import type { BlendFacts } from './facts.js';

const STOPPING = CAUTION_RULES.filter((rule) => rule.stops);

/** Titles of the cautions that say stop to a blend, without the words of any other. */
export const stopsOf = (facts: BlendFacts, region: Region): string[] =>
  STOPPING.filter((rule) => rule.when({ facts, region })?.severity === 'stop').map((rule) => rule.title);
