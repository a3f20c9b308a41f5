import type { Problem } from '../problems/problem.js';
import type { Risk } from './risk.js';

/** Risks that are a plain warning or a refusal about the recipe itself. */
const TOLD_AS: Readonly<Record<string, Partial<Record<Risk['level'], Problem['severity']>>>> = {
  'flash-set': { high: 'warning' },
  'over-retarded': { some: 'warning', high: 'error' },
  pigment: { high: 'warning' },
};

/** Warnings, and refusals as errors, that the risks call for. */
export function riskProblems(risks: readonly Risk[]): Problem[] {
  return risks.flatMap((risk): Problem[] => {
    const severity = TOLD_AS[risk.id]?.[risk.level];
    return severity === undefined ? [] : [{ code: 'recipe-outside-model', severity, hint: risk.text }];
  });
}
