import { parseQuantity, proposalResult, proposeSurely, refuse, surenessResult } from '../../core/index.js';
import type { Folder } from './folder.js';
import { briefOnly, type Opener } from './open.js';
import { type Told, toldOfProposal } from './told.js';

/** The same bounds as the command line's: with 2,000 draws, more cannot be told apart from certainty. */
const [LEAST, MOST] = [0.01, 0.99];

function chanceOf(text: string): number {
  const where = { path: 'chance' };
  const chance = parseQuantity(text, 'fraction', where, { assume: 'fraction' });
  if (chance >= LEAST && chance <= MOST) return chance;
  const expected = `a chance from ${LEAST} to ${MOST}, such as 0.9 or "90 %"`;
  return refuse({ code: 'option-invalid', where, found: text, expected });
}

/** The blend that meets all targets at once with the chance asked for, as `propose --sure` tells it. */
export function sureOf(open: Opener, folder: Folder, file: string, chance: string): Told {
  const wanted = chanceOf(chance);
  const { brief, shelf, invented } = briefOnly(open, folder, file, 'a chance to ask for');
  const { proposal, sureness } = proposeSurely(brief.question, wanted);
  const result = { ...proposalResult(brief, proposal, shelf, invented), sureness: surenessResult(sureness) };
  return toldOfProposal(file, brief.question, proposal, result, shelf.shop.units, false);
}
