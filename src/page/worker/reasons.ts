import { type ReasonsResult, reasonsResult, unpricedOf, whatHoldsBack } from '../../core/index.js';
import type { Folder } from './folder.js';
import { briefOnly, type Opener } from './open.js';

/** What holds the blend back, and the prices at which others would come in, as `propose --reasons` tells it. */
export function reasonsOf(open: Opener, folder: Folder, file: string): ReasonsResult | null {
  const { brief, shelf } = briefOnly(open, folder, file, 'reasons to look for');
  const reasons = whatHoldsBack(brief.question, unpricedOf(brief, shelf));
  return reasons === null ? null : reasonsResult(brief, reasons, shelf);
}
