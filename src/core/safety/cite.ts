import type { CautionStatus, Region } from './caution.js';
import { DOCUMENTS, type Document, type DocumentKey } from './documents.js';

const STATUS_WORDS: Readonly<Record<CautionStatus, string>> = {
  'looked-up': 'looked up',
  'from-memory': 'from memory',
  'common-practice': 'common practice',
  ours: 'ours',
};

/** Best first; a caution is only as well founded as the weakest document it needs. */
const WEAKNESS: readonly CautionStatus[] = ['looked-up', 'from-memory', 'common-practice', 'ours'];

/**
 * Names of the documents that speak for the region, each with how it was come by, and the weakest status among them.
 * Without a region all are named.
 */
export function cite(
  keys: readonly DocumentKey[],
  region?: Region,
): { readonly source: string; readonly status: CautionStatus } {
  const documents = keys
    .map((key): Document => DOCUMENTS[key])
    .filter((d) => region === undefined || d.region === undefined || d.region === region);
  return {
    source: documents
      .map((d) =>
        d.status === 'ours' || d.status === 'common-practice' ? d.title : `${d.title} (${STATUS_WORDS[d.status]})`,
      )
      .join('; '),
    status: documents.reduce<CautionStatus>(
      (worst, d) => (WEAKNESS.indexOf(d.status) > WEAKNESS.indexOf(worst) ? d.status : worst),
      'looked-up',
    ),
  };
}
