import type { LinearProgram } from '../../src/core/optimise/lp/types.js';

/** A program in the words of YALPS, which has no upper bounds on columns: they are left out. */
export function yalpsModel(program: LinearProgram) {
  const constraints = new Map(
    program.rows.map(
      (row, i) =>
        [
          `r${i}`,
          { ...(row.low === undefined ? {} : { min: row.low }), ...(row.high === undefined ? {} : { max: row.high }) },
        ] as const,
    ),
  );
  const variables = new Map(
    program.columns.map((_, j) => {
      const terms = program.rows.flatMap((row, i) =>
        row.coefficients[j] === 0 ? [] : [[`r${i}`, row.coefficients[j]!] as const],
      );
      return [`x${j}`, new Map([['goal', program.objective[j]!] as const, ...terms])] as const;
    }),
  );
  return {
    direction: program.sense === 'min' ? ('minimize' as const) : ('maximize' as const),
    objective: 'goal',
    constraints,
    variables,
  };
}
