import type { Batch } from './question.js';

/** Pieces' worth of mix in a batch: waste is a share of what is mixed. */
export const portions = (batch: Batch, waste: number): number => batch.pieces / (1 - waste);
