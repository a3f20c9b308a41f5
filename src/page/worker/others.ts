import { alternatives, type ProposalResult, proposalResult } from '../../core/index.js';
import type { Folder } from './folder.js';
import { briefOnly, type Opener } from './open.js';

/** Proposals of other ingredients for the same brief, the first being the one on the bench. */
export interface Others {
  readonly blends: readonly {
    readonly result: ProposalResult;
    /** Names of what the first blend has and this one lacks, and the other way round. */
    readonly without: readonly string[];
    readonly instead: readonly string[];
  }[];
}

const MOST = 4;
const DRAWS = 200;

export function othersOf(open: Opener, folder: Folder, file: string): Others {
  const { brief, shelf, invented } = briefOnly(open, folder, file, 'alternatives');
  const found = alternatives(brief.question, MOST, { draws: DRAWS });
  const name = (id: string): string => shelf.find(id).name;
  const first = { proposal: found.first, without: [], instead: [] };
  return {
    blends: [first, ...found.others].map(({ proposal, without, instead }) => ({
      result: proposalResult(brief, proposal, shelf, invented),
      without: without.map(name),
      instead: instead.map(name),
    })),
  };
}
