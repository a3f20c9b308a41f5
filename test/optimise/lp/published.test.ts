import { describe, expect, test } from 'vitest';
import { solveLp } from '../../../src/core/optimise/lp/solve.js';
import type { Column, LinearProgram, Row } from '../../../src/core/optimise/lp/types.js';
import { optimalFaults } from '../../support/recheck.js';
import published from './data/published.json' with { type: 'json' };

type Printed = readonly number[];

interface Example {
  readonly name: string;
  readonly source: string;
  readonly seen: string;
  readonly columns: readonly Column[];
  readonly sense: string;
  readonly objective: readonly number[];
  readonly rows: readonly { name: string; coefficients: readonly number[]; low: number | null; high: number | null }[];
  readonly printed: {
    readonly objective?: Printed;
    readonly x?: readonly Printed[];
    readonly rowPrices?: readonly Printed[];
    readonly reducedCosts?: readonly Printed[];
    readonly ranges?: readonly { row: number; from: Printed; to: Printed }[];
  };
}

const examples = published.examples as readonly Example[];

function programOf(example: Example): LinearProgram {
  const rows = example.rows.map(
    ({ name, coefficients, low, high }): Row => ({
      name,
      coefficients,
      ...(low === null ? {} : { low }),
      ...(high === null ? {} : { high }),
    }),
  );
  return { columns: example.columns, rows, sense: example.sense as 'min' | 'max', objective: example.objective };
}

let compared = 0;

/** Equal to the last decimal printed (half a unit of it). */
function expectPrinted(found: number, [value, decimals]: Printed, what: string): void {
  compared += 1;
  expect(Math.abs(found - value!), what).toBeLessThanOrEqual(0.5 * 10 ** -decimals! + 1e-12);
}

describe('published linear programs', () => {
  test.each(examples.map((example) => [example.name, example] as const))('%s', (_, example) => {
    const program = programOf(example);
    const answer = solveLp(program, { ranges: true });
    if (answer.status !== 'optimal') throw new Error(`${answer.status}, printed as optimal in ${example.source}`);
    expect(optimalFaults(program, answer)).toEqual([]);
    const { objective, x, rowPrices, reducedCosts, ranges } = example.printed;
    if (objective) expectPrinted(answer.objective, objective, 'objective');
    x?.forEach((printed, j) => {
      expectPrinted(answer.x[j]!, printed, `x ${j}`);
    });
    rowPrices?.forEach((printed, i) => {
      expectPrinted(answer.rowPrices[i]!, printed, `price of row ${i}`);
    });
    reducedCosts?.forEach((printed, j) => {
      expectPrinted(answer.reducedCosts[j]!, printed, `reduced cost ${j}`);
    });
    for (const { row, from, to } of ranges ?? []) {
      const range = answer.priceRanges![row]!;
      expectPrinted(range.from, from, `row ${row} from`);
      expectPrinted(range.to, to, `row ${row} to`);
    }
  });

  test('all of them were compared, most looked up', () => {
    expect(examples.length).toBe(11);
    expect(examples.filter((example) => example.seen === 'looked up').length).toBe(6);
    expect(compared).toBe(79);
  });
});
