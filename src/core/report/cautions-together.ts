import { CAUTION_SEVERITIES } from '../safety/caution.js';
import type { AssessmentResult } from './result-schema.js';

type CautionSet = AssessmentResult['cautions'];
type Caution = CautionSet['cautions'][number];

const rank = (caution: Caution): number => CAUTION_SEVERITIES.indexOf(caution.severity);

/** One caution in the words of two blends: a short line that names other bags is told beside the first. */
function both(known: Caution, other: Caution): Caution {
  if (known.short.includes(other.short)) return known;
  const us = known.us?.short === undefined && other.us?.short === undefined ? {} : usOf(known, other);
  return { ...known, short: `${known.short} ${other.short}`, ...us };
}

const usOf = (known: Caution, other: Caution): Pick<Caution, 'us'> => ({
  us: { ...known.us, short: `${known.us?.short ?? known.short} ${other.us?.short ?? other.short}` },
});

/** The cautions of one or more blends as one set: each once, as grave as the gravest of them has it, gravest first. */
export function cautionsTogether(sets: readonly CautionSet[]): CautionSet {
  const seen = new Map<string, Caution>();
  for (const caution of sets.flatMap((set) => set.cautions)) {
    const known = seen.get(caution.id);
    if (known === undefined || rank(caution) < rank(known)) seen.set(caution.id, caution);
    else if (rank(caution) === rank(known)) seen.set(caution.id, both(known, caution));
  }
  return { ...sets[0]!, cautions: [...seen.values()].sort((a, b) => rank(a) - rank(b)) };
}
