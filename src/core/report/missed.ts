import type { Problem } from '../problems/problem.js';
import type { AssessmentResult } from './result-schema.js';

type Told = Pick<AssessmentResult, 'targets'>;

/** Whether a blend keeps every target of its brief or recipe. */
export const isMet = ({ targets }: Told): boolean => targets.every((t) => t.met);

/** A warning that names the targets a blend misses, for what is told of it elsewhere than on its own sheet. */
export function missedWarning({ targets }: Told): Problem[] {
  const missed = targets.filter((t) => !t.met).map((t) => t.name);
  if (missed.length === 0) return [];
  const hint = `missed: ${missed.join(', ')}; its own sheet tells by how much`;
  return [{ code: 'target-missed', severity: 'warning', hint }];
}
