import type { Problem, ProblemCode } from '../problems/problem.js';
import type { Risk } from './risk.js';

/** Risks that are a plain warning or a refusal about the recipe itself. */
const TOLD_AS: Readonly<Record<string, Partial<Record<Risk['level'], Problem['severity']>>>> = {
  'flash-set': { high: 'warning' },
  'csa-mixed': { some: 'warning', high: 'warning' },
  'over-retarded': { some: 'warning', high: 'error' },
  pigment: { high: 'warning' },
  'never-sets': { high: 'error' },
  'sets-too-late': { high: 'warning' },
  dose: { some: 'note', high: 'warning' },
  'dose-of-nothing': { low: 'note', some: 'warning' },
};

/** Where the usual code would say too much, as doses up to the most are what the models are for, or too little. */
const CODE_OF: Readonly<Record<string, ProblemCode>> = { dose: 'recipe-overdosed', 'never-sets': 'recipe-never-sets' };

/** Warnings, and refusals as errors, that the risks call for. */
export function riskProblems(risks: readonly Risk[]): Problem[] {
  return risks.flatMap((risk): Problem[] => {
    const severity = TOLD_AS[risk.id]?.[risk.level];
    return severity === undefined
      ? []
      : [{ code: CODE_OF[risk.id] ?? 'recipe-outside-model', severity, hint: risk.text }];
  });
}
