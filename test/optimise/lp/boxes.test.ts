import { describe, expect, it } from 'vitest';
import { type Box, halves, middleOf, tightenByReducedCost, wholeBox } from '../../../src/core/optimise/lp/boxes.js';
import { checkProgram } from '../../../src/core/optimise/lp/checked-program.js';

const of = (...values: number[]) => Float64Array.from(values);
const endless = Number.POSITIVE_INFINITY;

const boxed = (bounds: readonly (readonly [number, number])[], integers: readonly number[]) =>
  wholeBox(
    checkProgram({
      columns: bounds.map(([lower, upper], j) => ({ name: `x${j}`, lower, upper })),
      rows: [],
      sense: 'min',
      objective: bounds.map(() => 0),
    }),
    integers,
  );

describe('the box of whole numbers', () => {
  it('moves the bounds of whole columns inwards and leaves the others', () => {
    const bounds = [
      [0.2, 3.7],
      [0.2, 3.7],
      [-3.7, -0.2],
      [1, 1],
      [-endless, endless],
    ] as const;
    expect(boxed(bounds, [0, 2, 3, 4])).toEqual({
      lower: of(1, 0.2, -3, 1, -endless),
      upper: of(3, 3.7, -1, 1, endless),
    });
  });

  it('has no minus zero', () => {
    expect(boxed([[-0.5, 0]], [0])).toEqual({ lower: of(0), upper: of(0) });
  });

  it('takes a bound for the whole number it is by a billionth of its size, and of 1 for the small ones', () => {
    for (const [size, blurred, sharp] of [
      [0, 5e-10, 4e-9],
      [1e6, 5e-4, 2e-3],
      [-1e6, 5e-4, 2e-3],
    ] as const) {
      expect(boxed([[size + blurred, size + 3 - blurred]], [0])).toEqual({ lower: of(size), upper: of(size + 3) });
      expect(boxed([[size + sharp, size + 3 - sharp]], [0])).toEqual({ lower: of(size + 1), upper: of(size + 2) });
    }
  });

  it('leaves the bounds of the program alone', () => {
    const program = checkProgram({
      columns: [{ name: 'x', lower: 0.5, upper: 2.5 }],
      rows: [],
      sense: 'min',
      objective: [0],
    });
    wholeBox(program, [0]);
    expect([program.lower, program.upper]).toEqual([of(0.5), of(2.5)]);
  });

  it('names a column whose bounds hold no whole number', () => {
    const bounds = [
      [0, 9],
      [0.2, 0.8],
    ] as const;
    expect(boxed(bounds, [0, 1])).toEqual({ emptyColumn: 1 });
    expect(boxed(bounds, [0])).toEqual({ lower: of(0, 0.2), upper: of(9, 0.8) });
  });
});

describe('cutting a box', () => {
  it('gives two halves that share no whole number and lose none, each with what is proven of the whole', () => {
    const prices = of(7);
    const node = { lower: of(0, 0), upper: of(9, 5), bound: 3, prices, depth: 4 };
    expect(halves(node, 0, 2)).toEqual([
      { lower: of(0, 0), upper: of(2, 5), bound: 3, prices, depth: 5 },
      { lower: of(3, 0), upper: of(9, 5), bound: 3, prices, depth: 5 },
    ]);
    expect(node).toEqual({ lower: of(0, 0), upper: of(9, 5), bound: 3, prices, depth: 4 });
  });

  it('goes through the middle, at an open end further out the further the other end is, and at zero without ends', () => {
    expect(middleOf(0, 9)).toBe(4);
    expect(middleOf(-9, 2)).toBe(-4);
    expect(middleOf(3, endless)).toBe(11);
    expect(middleOf(100, endless)).toBe(200);
    expect(middleOf(-100, endless)).toBe(0);
    // The half above begins one further: at most 5, then at most -4.
    expect(middleOf(-endless, 5)).toBe(-4);
    expect(middleOf(-endless, -100)).toBe(-201);
    expect(middleOf(-endless, 100)).toBe(-1);
    expect(middleOf(-endless, endless)).toBe(0);
  });
});

describe('reduced costs close the slabs that cost more than there is room for', () => {
  const tighten = (x: number[], reducedCosts: number[], room: number, box: Box, integers = x.map((_, j) => j)) => {
    const slabs: Box[] = [];
    const optimum = {
      x: Float64Array.from(x),
      rowPrices: of(),
      reducedCosts: Float64Array.from(reducedCosts),
      cost: 0,
    };
    const rest = tightenByReducedCost(box, integers, optimum, room, (slab) => slabs.push(slab));
    return { rest, slabs };
  };
  const box = { lower: of(0), upper: of(10) };

  it('at a lower bound: with 2 a step and room for 5, three steps are too many', () => {
    expect(tighten([0], [2], 5, box)).toEqual({
      rest: { lower: of(0), upper: of(2) },
      slabs: [{ lower: of(3), upper: of(10) }],
    });
  });

  it('at an upper bound likewise', () => {
    expect(tighten([10], [-2], 5, box)).toEqual({
      rest: { lower: of(8), upper: of(10) },
      slabs: [{ lower: of(0), upper: of(7) }],
    });
  });

  it('leaves what costs just as much as there is room for, were it but rounding', () => {
    expect(tighten([0], [2], 4, box).rest.upper).toEqual(of(2));
    expect(tighten([0], [2], 4 - 1e-12, box).rest.upper).toEqual(of(2));
    expect(tighten([0], [2], 4 - 1e-6, box).rest.upper).toEqual(of(1));
  });

  it('closes a slab of one value, and none beyond the box', () => {
    expect(tighten([0], [1], 9, box).slabs).toEqual([{ lower: of(10), upper: of(10) }]);
    expect(tighten([10], [-1], 9, box).slabs).toEqual([{ lower: of(0), upper: of(0) }]);
    expect(tighten([0], [1], 10, box)).toEqual({ rest: box, slabs: [] });
    expect(tighten([10], [-1], 10, box)).toEqual({ rest: box, slabs: [] });
  });

  it('says nothing of a column that stands elsewhere, costs nothing, pulls the other way or is not whole', () => {
    for (const [x, d] of [
      [1, 2],
      [9, -2],
      [0, 0],
      [0, -2],
      [10, 2],
    ] as const) {
      expect(tighten([x], [d], 5, box)).toEqual({ rest: box, slabs: [] });
    }
    expect(tighten([0], [2], 5, box, [])).toEqual({ rest: box, slabs: [] });
  });

  it('says nothing as long as no point is known, nor of what costs nothing, be the box without an end', () => {
    const open = { lower: of(0), upper: of(endless) };
    expect(tighten([0], [2], endless, open)).toEqual({ rest: open, slabs: [] });
    expect(tighten([0], [0], 5, open)).toEqual({ rest: open, slabs: [] });
    expect(tighten([0], [2], 5, open).rest.upper).toEqual(of(2));
    const down = { lower: of(-endless), upper: of(0) };
    expect(tighten([0], [0], 5, down)).toEqual({ rest: down, slabs: [] });
    expect(tighten([0], [-2], 5, down).rest.lower).toEqual(of(-2));
    expect(tighten([0], [2], endless, box)).toEqual({ rest: box, slabs: [] });
  });

  it('cuts several columns into slabs and a rest that tile the box', () => {
    const two = { lower: of(0, 0), upper: of(4, 4) };
    expect(tighten([0, 4], [1, -1], 1, two)).toEqual({
      rest: { lower: of(0, 3), upper: of(1, 4) },
      slabs: [
        { lower: of(2, 0), upper: of(4, 4) },
        { lower: of(0, 0), upper: of(1, 2) },
      ],
    });
    expect(two).toEqual({ lower: of(0, 0), upper: of(4, 4) });
  });
});
