import { CAUTION_SEVERITIES } from '../safety/caution.js';
import type { AssessmentResult } from './result-schema.js';

type CautionSet = AssessmentResult['cautions'];
type Caution = CautionSet['cautions'][number];

const rank = (caution: Caution): number => CAUTION_SEVERITIES.indexOf(caution.severity);

/** The cautions of one or more blends as one set: each once, as grave as the gravest of them has it, gravest first. */
export function cautionsTogether(sets: readonly CautionSet[]): CautionSet {
  const seen = new Map<string, Caution>();
  for (const caution of sets.flatMap((set) => set.cautions)) {
    const known = seen.get(caution.id);
    if (known === undefined || rank(caution) < rank(known)) seen.set(caution.id, caution);
  }
  return { ...sets[0]!, cautions: [...seen.values()].sort((a, b) => rank(a) - rank(b)) };
}
