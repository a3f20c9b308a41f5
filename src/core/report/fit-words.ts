import type { FitResult } from './pours-schema.js';
import { significant } from './print.js';

/** Something in a fit to look at before it is believed. */
export interface FitDoubt {
  readonly lead: 'LEFT OUT' | 'LOOK AGAIN' | 'WARNING';
  /** Goes on from the lead in one sentence or more. */
  readonly text: string;
}

/** Pours that were left out or fit badly, and whether the fit came to rest. */
export function fitDoubts({ left, used, settled }: FitResult): readonly FitDoubt[] {
  const bad = used.filter((pour) => pour.contradicts);
  return [
    ...left.map(({ pour, why }): FitDoubt => ({ lead: 'LEFT OUT', text: `pour ${pour}: ${why}` })),
    ...bad.map(
      ({ pour, misfit }): FitDoubt => ({
        lead: 'LOOK AGAIN',
        text:
          `at pour ${pour}: it fits badly (misfit ${significant(misfit, 2)}). A slip of the pen, another bag, or something ` +
          'the model does not know.',
      }),
    ),
    ...(settled
      ? []
      : [{ lead: 'WARNING', text: 'the fit did not come to rest; take the figures with care.' } as const]),
  ];
}

/** Why figures that a pour contradicts are not kept. */
export const UNTRUSTED_FIT = 'Nothing was written: put the pour right, or take it out of the record, and fit again.';
