import { describe, expect, it } from 'vitest';
import type { LinearProgram, Row } from '../../src/core/optimise/lp/types.js';
import { bestParts, type InParts } from '../../src/core/optimise/ratio-search.js';

/** Whole-number parts on programs whose boxes can be walked by hand: how far parts are from what is wanted. */

/**
 * A gram of the first; the others are to be these many times it, each at a price for what it is off by. `boxes` counts
 * the programs that are solved: each takes over the program, and once more its rows.
 */
function wantedTimes(times: readonly number[], sense: 'min' | 'max' = 'min') {
  const n = times.length;
  const row = (entries: readonly (readonly [number, number])[], side: Partial<Row>): Row => {
    const coefficients = new Array<number>(1 + 2 * n).fill(0);
    for (const [column, value] of entries) coefficients[column] = value;
    return { name: 'row', coefficients, scale: 1, ...side };
  };
  const rows = [
    row([[0, 1]], { low: 1, high: 1 }),
    ...times.flatMap((t, i) => [
      row(
        [
          [1 + i, 1],
          [0, -t],
          [1 + n + i, -1],
        ],
        { high: 0 },
      ),
      row(
        [
          [1 + i, 1],
          [0, -t],
          [1 + n + i, 1],
        ],
        { low: 0 },
      ),
    ]),
  ];
  let boxes = 0;
  const program: LinearProgram = {
    columns: Array.from({ length: 1 + 2 * n }, (_v, j) => ({ name: String(j) })),
    get rows() {
      boxes++;
      return rows;
    },
    sense,
    objective: Array.from({ length: 1 + 2 * n }, (_v, j) => (j > n ? (sense === 'min' ? 1 : -1) : 0)),
  };
  const columns: InParts[] = Array.from({ length: 1 + n }, (_v, column) => ({ column, unit: 1 }));
  return (most: number, keep = 1) => {
    boxes = 0;
    const found = bestParts(program, columns, most, keep);
    return { parts: found.map((f) => f.parts), off: found.map((f) => f.objective), boxes: boxes / 2 };
  };
}

describe('boxes of parts', () => {
  it('are halved at what is furthest from whole, and the nearer half is looked at first', () => {
    // 1 to 1 to 2 is off by 0.4 and 0.1; two of the first would be off by 0.6 and are not looked into.
    // One box, its two halves, two halves of the nearer one; then one each for two and three parts to share out.
    expect(wantedTimes([1.4, 2.1])(3)).toEqual({ parts: [[1, 1, 2]], off: [expect.closeTo(0.5, 7)], boxes: 7 });
    // Off by 0.7; two of the first are off by 0.6 at first, and both halves of that by more.
    expect(wantedTimes([1.4, 2.3])(3)).toEqual({ parts: [[1, 1, 2]], off: [expect.closeTo(0.7, 7)], boxes: 9 });
    // The nearer half may be the upper one.
    expect(wantedTimes([1.6, 1.95])(3)).toEqual({ parts: [[1, 2, 2]], off: [expect.closeTo(0.45, 7)], boxes: 7 });
  });

  it('are the same the other way about, where more is better', () => {
    expect(wantedTimes([1.4, 2.1], 'max')(3)).toEqual({ parts: [[1, 1, 2]], off: [expect.closeTo(-0.5, 7)], boxes: 7 });
    const list = wantedTimes([1.4], 'max')(3, 3);
    expect(list.off).toEqual([...list.off].sort((a, b) => b - a));
  });

  it('are looked into while there is room for more, best first', () => {
    // 3 to 4 is 1.333, 2 to 3 is 1.5, 1 to 1; no more than five parts, and of them no 5 to 5.
    const { parts, off } = wantedTimes([1.4])(5, 3);
    expect(parts[0]).toEqual([3, 4]);
    expect(off).toEqual([...off].sort((a, b) => a - b));
    expect(parts).toHaveLength(3);
    expect(new Set(parts.map((p) => p.join(':'))).size).toBe(3);
    expect(wantedTimes([1.4])(5, 1).parts).toEqual([[3, 4]]);
    // 2 to 2 is 1 to 1, and told once.
    expect(wantedTimes([1])(3, 9).parts.filter((p) => p[0] === p[1])).toEqual([[1, 1]]);
  });

  it('reach from none of the others to the most', () => {
    expect(wantedTimes([0])(2).parts).toEqual([[1, 0]]);
    expect(wantedTimes([0.1])(2).parts).toEqual([[1, 0]]);
    expect(wantedTimes([9])(4).parts).toEqual([[1, 4]]);
    expect(wantedTimes([0.2])(4).parts).toEqual([[4, 1]]);
  });
});

describe('parts', () => {
  it('are none where the first is best left out altogether, or nothing can be done', () => {
    const rows: Row[] = [{ name: 'all', coefficients: [1, 1, 1], low: 100, high: 100 }];
    const program: LinearProgram = {
      columns: [{ name: 'a' }, { name: 'b' }, { name: 'c' }],
      rows,
      sense: 'min',
      objective: [2, 1, 0.1],
    };
    const columns = [0, 1].map((column) => ({ column, unit: 1 }));
    expect(bestParts(program, columns, 3, 2)).toEqual([]);
    const torn = [...rows, { name: 'more', coefficients: [1, 1, 1], low: 200 }];
    expect(bestParts({ ...program, rows: torn }, columns, 3, 2)).toEqual([]);
    expect(bestParts(program, columns.slice(0, 1), 3, 2)).toEqual([]);
  });

  it('of a single stuff are one', () => {
    const program: LinearProgram = {
      columns: [{ name: 'a' }],
      rows: [{ name: 'all', coefficients: [1], low: 100, high: 100 }],
      sense: 'min',
      objective: [2],
    };
    expect(bestParts(program, [{ column: 0, unit: 4 }], 3, 2)).toEqual([{ parts: [1], x: [100], objective: 200 }]);
  });

  it('count by what a part of each holds', () => {
    // 10 g of a to 30 g of b; a part of a is 5 g, of b 3 g: one to five.
    const program: LinearProgram = {
      columns: [{ name: 'a' }, { name: 'b' }],
      rows: [
        { name: 'all', coefficients: [1, 1], low: 40, high: 40 },
        { name: 'lean', coefficients: [-3, 1], low: 0, high: 0, scale: 1 },
      ],
      sense: 'min',
      objective: [1, 1],
    };
    const [found] = bestParts(
      program,
      [
        { column: 0, unit: 5 },
        { column: 1, unit: 3 },
      ],
      5,
      1,
    );
    expect(found!.parts).toEqual([1, 5]);
    expect(found!.x).toEqual([expect.closeTo(10, 9), expect.closeTo(30, 9)]);
  });
});
