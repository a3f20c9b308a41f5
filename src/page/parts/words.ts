import {
  type AssessmentResult,
  inUnits,
  type ProposalResult,
  printQuantity,
  significant,
  type Wording,
} from '../../core/index.js';
import type { Told } from '../worker/told.js';

/** Words shared by the parts; the same as the command line's. */

/** Units and currency of an answer; metric without one. */
export const wordingOf = (told: Told | null): Wording =>
  told === null ? { system: 'metric', currency: null } : { system: told.system, currency: told.result.currency };

/** An answer with its words in the units it is shown in; the answer itself has them in metric, as its JSON does. */
export const shownOf = (told: Told | null): Told | null => (told === null ? null : inUnits(told, told.system));

export const grams = (g: number, wording: Wording): string =>
  printQuantity(significant(g, 6), 'mass', { system: wording.system });

export const roughly = (g: number, wording: Wording): string =>
  printQuantity(significant(g, 4), 'mass', { system: wording.system });

export const percent = (share: number): string =>
  `${share < 0.0995 ? (100 * share).toFixed(1) : Math.round(100 * share)} %`;

export const count = (n: number, one: string, many = `${one}s`): string => (n === 1 ? `1 ${one}` : `${n} ${many}`);

export const isProposal = (result: ProposalResult | AssessmentResult): result is ProposalResult => 'system' in result;

export const propertyOf = (result: AssessmentResult | ProposalResult, id: string): number | null =>
  result.properties.find((p) => p.property === id)?.value ?? null;

/** Names for the words of briefs that are not plain by themselves. */
export const SERVICE_WORDS: Readonly<Record<string, string>> = {
  'dry-indoor': 'dry, indoors',
  damp: 'damp',
  wet: 'wet',
  warm: 'warm, near a small flame',
};

export const OBJECTIVE_WORDS: Readonly<Record<string, string>> = {
  cheapest: 'cheapest',
  lightest: 'lightest',
  heaviest: 'heaviest',
  strongest: 'strongest',
  quickest: 'quickest to demould',
};

export const spaced = (word: string): string => word.replaceAll('-', ' ');
