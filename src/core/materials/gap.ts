import type { Figure, Gap } from './figure.js';

/** Whether a figure is not known. */
export const isGap = (f: Figure | Gap): f is Gap => f.value === null;
