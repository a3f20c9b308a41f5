import type { GLPK, LP } from 'glpk.js/node';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';

/** A program in the words of glpk.js. */
export function glpkModel(program: LinearProgram, glpk: GLPK): LP {
  const sided = (low: number | undefined, high: number | undefined) => {
    const [lb, ub] = [low ?? Number.NEGATIVE_INFINITY, high ?? Number.POSITIVE_INFINITY];
    const from = Number.isFinite(lb);
    const to = Number.isFinite(ub);
    const type = from ? (to ? (lb === ub ? glpk.GLP_FX : glpk.GLP_DB) : glpk.GLP_LO) : to ? glpk.GLP_UP : glpk.GLP_FR;
    return { type, lb: from ? lb : 0, ub: to ? ub : 0 };
  };
  const terms = (coefficients: readonly number[]) =>
    coefficients.flatMap((coef, j) => (coef === 0 ? [] : [{ name: `x${j}`, coef }]));
  return {
    name: 'blend',
    objective: {
      direction: program.sense === 'min' ? glpk.GLP_MIN : glpk.GLP_MAX,
      name: 'goal',
      // Every column is named here, so that one that no row speaks of is known too.
      vars: program.objective.map((coef, j) => ({ name: `x${j}`, coef })),
    },
    subjectTo: program.rows.flatMap((row, i) => {
      const vars = terms(row.coefficients);
      return vars.length === 0 ? [] : [{ name: `r${i}`, vars, bnds: sided(row.low, row.high) }];
    }),
    bounds: program.columns.map((c, j) => ({ name: `x${j}`, ...sided(c.lower ?? 0, c.upper) })),
  };
}
