import { significant } from './print.js';

/** "1.24 moulds". */
export function mouldCount(count: number): string {
  const told = significant(count, 3);
  return `${told} ${told === 1 ? 'mould' : 'moulds'}`;
}

export const wastePercent = (waste: number): string => `${significant(100 * waste, 2)} % waste`;

/** ", 6 % waste taken off", beside moulds that are filled after what is wasted; empty where nothing is. */
export const wasteTakenOff = (waste: number): string => (waste > 0 ? `, ${wastePercent(waste)} taken off` : '');
