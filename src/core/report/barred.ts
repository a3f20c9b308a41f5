import type { AssessmentResult } from './result-schema.js';

type CautionSet = AssessmentResult['cautions'];

/** The cautions that say: do not do this, or not like this. */
export const stopsIn = (set: CautionSet): CautionSet['cautions'] => set.cautions.filter((c) => c.severity === 'stop');

/** Whether what is told of a blend bars it: a caution says stop, or a warning is a refusal. */
export const barred = ({ cautions, warnings }: Pick<AssessmentResult, 'cautions' | 'warnings'>): boolean =>
  stopsIn(cautions).length > 0 || warnings.some((w) => w.severity === 'error');
