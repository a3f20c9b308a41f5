import type { Batch } from './question.js';

/** Pieces' worth of mix in a batch: waste is a share of what is mixed. */
export const portions = ({ pieces }: Pick<Batch, 'pieces'>, waste: number): number => pieces / (1 - waste);
