import { portions } from '../optimise/portions.js';
import { mouldCount } from './mould-words.js';
import type { ProposalResult } from './result-schema.js';

/** A share that shows between what one piece has and what is weighed out. Ours. */
const SHOWS = 0.005;

/** How much a batch as weighed fills, where that shows beside the pieces asked for; else null. */
export function fillsWords({ batch, fills }: Pick<ProposalResult, 'batch' | 'fills'>): string | null {
  if (fills === undefined || Math.abs(fills / portions(batch, batch.waste) - 1) < SHOWS) return null;
  return `fills ${mouldCount(fills)}${batch.waste > 0 ? ' with the waste' : ''}`;
}
