import { portions } from '../optimise/portions.js';
import { significant } from './print.js';
import type { ProposalResult } from './result-schema.js';

/** "0.994 moulds", to three figures. */
export function mouldsWords(count: number): string {
  const told = significant(count, 3);
  return `${told} ${told === 1 ? 'mould' : 'moulds'}`;
}

/** A share that shows between what one piece has and what is weighed out. Ours. */
const SHOWS = 0.005;

/** How much a batch as weighed fills, where that shows beside the pieces asked for; else null. */
export function fillsWords({ batch, fills }: Pick<ProposalResult, 'batch' | 'fills'>): string | null {
  if (fills === undefined || Math.abs(fills / portions(batch, batch.waste) - 1) < SHOWS) return null;
  return `fills ${mouldsWords(fills)}${batch.waste > 0 ? ' with the waste' : ''}`;
}
