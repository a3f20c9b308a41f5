import { describe, expect, it } from 'vitest';
import { cleared, keptClear, tilted } from '../../src/core/optimise/keeping-clear.js';
import { CHEAP, handSearch, LIMIT, MOVES, PURE } from '../support/sulfate-draws.js';

/** Share of the cheap cement at which the blend holds so much sulfate: 2.4 % and 0.6 % more of the cheap one. */
const shareAt = (percent: number): number => (percent - 2.4) / 0.6;
/** Share that keeps so far clear of the limit that a move of the cheap cement is borne: 2.4 + 0.6 s + s m = 2.75. */
const shareBearing = (move: number): number => (LIMIT - 2.4) / (0.6 + move);

describe('a blend kept clear of its limit by a distance', () => {
  const { search, start, share, from } = handSearch([CHEAP, PURE]);

  it('starts right at the limit, where half of the draws break it', () => {
    expect(share(start, 'cheap')).toBeCloseTo(shareAt(LIMIT), 4);
    expect(start).toMatchObject({ chance: 0.5, clear: [0], targets: search.question.targets });
    expect(start.spreads[0]!.moves.map((m) => m / start.spreads[0]!.moves.at(-1)!)).toEqual(
      MOVES.map((m) => expect.closeTo(m / 0.95, 6)),
    );
  });

  it('holds so much less of the cheap cement, and tells what it was held to', () => {
    const kept = keptClear(search, start, [0.1])!;
    expect(kept.targets).toEqual([{ property: 'sulfate', max: expect.closeTo(LIMIT - 0.1, 12) }]);
    expect(share(kept, 'cheap')).toBeCloseTo(shareAt(LIMIT - 0.1), 4);
    expect(kept.clear).toEqual([0.1]);
    expect(kept.from).toBe(from);
    // Its own spread is smaller, as there is less of what is unsure: moves of up to 0.1 / share hold.
    const borne = MOVES.filter((m) => m * shareAt(LIMIT - 0.1) <= 0.1 + 1e-4);
    expect(kept.chance).toBe(borne.length / 20);
    expect(kept.answer.value!).toBeGreaterThan(start.answer.value!);
  });

  it('is none where no cement is as pure', () => {
    expect(keptClear(search, start, [0.36])).toBeNull();
    expect(keptClear(search, start, [0.34])).not.toBeNull();
  });

  it('is none where so little of a cement as that takes cannot be weighed', () => {
    const targets = [{ property: 'sulfate', min: 2.44, max: LIMIT }];
    const limits = (leastDose: number) => ({ ingredients: null, leastDose });
    // From 2.44 to 2.46 % it takes a tenth of the cheap cement at most: under 50 g.
    const kept = (leastDose: number) => {
      const one = handSearch([CHEAP, PURE], { targets, limits: limits(leastDose) });
      return keptClear(one.search, one.start, [0, 0.29]);
    };
    expect(kept(1)!.answer.grams[1]).toBeLessThan(50);
    expect(kept(100)).toBeNull();
  });

  it('does without what is barred', () => {
    const kept = keptClear(search, { ...start, barred: new Set(['cheap']) }, [0.1])!;
    expect(share(kept, 'cheap')).toBe(0);
    expect(kept.barred.has('cheap')).toBe(true);
    expect(kept.chance).toBe(1);
    expect(keptClear(search, { ...start, barred: new Set(['pure']) }, [0.1])).toBeNull();
  });
});

describe('a blend kept clear just enough', () => {
  const { search, start, share } = handSearch([CHEAP, PURE]);

  it('is the one it starts from where that is sure enough', () => {
    expect(cleared(search, start, 0.5)).toBe(start);
    expect(cleared(search, start, 0.3)).toBe(start);
  });

  it.each([
    // So many of the twenty draws have to hold: the last of them moves the cheap cement by so much.
    [0.6, 0.15],
    [0.75, 0.45],
    [0.9, 0.75],
    [0.95, 0.85],
  ])('holds with a chance of %f, and hardly more of the pure cement than that takes', (wanted, move) => {
    const found = cleared(search, start, wanted);
    expect(found.chance).toBeGreaterThanOrEqual(wanted);
    const most = shareBearing(move);
    const next = shareBearing(move + 0.1);
    expect(share(found, 'cheap')).toBeLessThan(most + 1e-3);
    expect(share(found, 'cheap')).toBeGreaterThan(next - 0.01);
  });

  it('is the first try where that is hardly surer than it was asked to be', () => {
    // Six tenths of the draws move the cheap cement by no more than 0.15; at first there are seven twelfths of it.
    const found = cleared(search, start, 0.6);
    expect(found.clear).toEqual([expect.closeTo((0.15 * 7) / 12, 4)]);
    expect(found.chance).toBe(0.6);
  });

  it('is certain where it is kept clear of every move; tilting takes back what was too much of it', () => {
    const found = cleared(search, start, 1);
    expect(found.chance).toBe(1);
    expect(share(found, 'cheap')).toBeLessThan(shareBearing(0.95) + 1e-3);
    const tilt = tilted(search, found, 1);
    expect(tilt.chance).toBe(1);
    expect(share(tilt, 'cheap')).toBeLessThan(shareBearing(0.95) + 1e-3);
    expect(share(tilt, 'cheap')).toBeGreaterThan(0.95 * shareBearing(0.95));
  });

  it('goes on where being clearer makes it less sure: of the pure cement it takes more, and that is the unsure one', () => {
    // Clear by c the pure cement's share is (0.25 + c) / 0.6; nine in ten of its draws stay below 0.75 x 0.4 of that.
    const turned = handSearch([
      { ...CHEAP, unsure: 0 },
      { ...PURE, unsure: 0.4 },
    ]);
    const found = cleared(turned.search, turned.start, 0.9);
    expect(found.chance).toBeGreaterThanOrEqual(0.9);
    // 0.3 (1 - s) = 0.35 - 0.6 s for nine in ten, and 0.34 (1 - s) for nineteen in twenty.
    expect(turned.share(found, 'cheap')).toBeLessThan(0.05 / 0.3 + 1e-3);
    expect(turned.share(found, 'cheap')).toBeGreaterThan(0.01 / 0.26 - 1e-3);
  });

  it('is the surest there is, where none is as sure', () => {
    // The purer cement barely keeps the limit: it bears next to no sulfate of the other.
    const tight = handSearch([CHEAP, { ...PURE, sulfate: 2.7, unsure: 0.1 }]);
    const found = cleared(tight.search, tight.start, 0.95);
    expect(tight.start.chance).toBe(0.5);
    expect(found.chance).toBeGreaterThan(0.5);
    expect(found.chance).toBeLessThan(0.95);
    // All of it pure bears moves of up to half a per cent.
    expect(found.chance).toBeCloseTo(MOVES.filter((m) => m <= 0.5).length / 20, 1);
  });

  it('stays where it is when no distance would do', () => {
    // Known for sure, and missed: there is nothing that keeping clear of it could gain.
    const sure = handSearch([
      { ...CHEAP, unsure: 0 },
      { ...PURE, unsure: 0 },
    ]);
    const missed = {
      ...sure.start,
      chance: 0,
      spreads: [{ ...sure.start.spreads[0]!, margin: -1, slack: 0, size: 0 }],
    };
    expect(cleared(sure.search, missed, 0.9)).toBe(missed);
  });
});

describe('a blend that was kept too clear, or not clear enough', () => {
  const { search, start, share } = handSearch([CHEAP, PURE]);

  it('is kept less clear as long as it stays as sure', () => {
    const wasteful = keptClear(search, start, [0.3])!;
    expect(wasteful.chance).toBe(1);
    const found = tilted(search, wasteful, 0.9);
    expect(found.chance).toBeGreaterThanOrEqual(0.9);
    expect(found.answer.value!).toBeLessThan(wasteful.answer.value!);
    // Within the last step of a tilt of what 0.9 takes.
    expect(share(found, 'cheap')).toBeGreaterThan(0.9 * shareBearing(0.75));
    expect(share(found, 'cheap')).toBeLessThan(shareBearing(0.75) + 1e-3);
  });

  it('is kept clearer where it is not as sure', () => {
    const short = keptClear(search, start, [0.1])!;
    expect(short.chance).toBeLessThan(0.9);
    expect(short.chance).toBe(MOVES.filter((m) => m <= 0.1 / shareAt(LIMIT - 0.1)).length / 20);
    // Three tenths clearer it holds in two more draws; half as much on top of that in none.
    const found = tilted(search, short, 0.9);
    expect(found.clear).toEqual([expect.closeTo(0.13, 9)]);
    expect(found.chance).toBe(MOVES.filter((m) => m <= 0.13 / shareAt(LIMIT - 0.13)).length / 20);
    expect(found.chance).toBeGreaterThan(short.chance);
  });

  it('is kept clearer by three tenths, half of that and half again, as long as each makes it surer', () => {
    const many = handSearch(
      [CHEAP, PURE],
      {},
      Array.from({ length: 400 }, (_v, j) => (j - 199.5) / 200),
    );
    const short = keptClear(many.search, many.start, [0.1])!;
    expect(tilted(many.search, short, 0.99).clear).toEqual([expect.closeTo(0.1 * 1.3 * 1.15 * 1.075, 9)]);
    // From nothing it starts at three tenths of a standard deviation.
    const first = tilted(many.search, many.start, 0.99);
    expect(first.clear).toEqual([expect.closeTo(0.3 * many.start.spreads[0]!.size * 1.3 * 1.15 * 1.075, 9)]);
    expect(first.chance).toBeGreaterThan(many.start.chance);
  });

  it('is left as it is where it need not be kept clear of anything', () => {
    expect(tilted(search, start, 0.5)).toBe(start);
  });

  it('gives nothing up where nothing can be gained', () => {
    // At the pure end there is nothing surer to be had, nor anything cheaper that is as sure.
    const pure = handSearch([PURE]);
    expect(pure.start.chance).toBe(1);
    const held = { ...pure.start, clear: [0.1] };
    expect(tilted(pure.search, held, 0.9)).toBe(held);
  });
});

/** Two limits at odds: less of the cheap cement for its sulfate makes the blend dearer than it may be. */
describe('two sides of which one is the less sure', () => {
  it('share the room between them by what each of them takes', () => {
    const targets = [{ property: 'sulfate', min: 2.45, max: LIMIT }];
    const { search, start, share } = handSearch([CHEAP, PURE], { targets });
    expect(search.sides.map((s) => s.side)).toEqual(['min', 'max']);
    // By hand: at a share s the draws from 0.05 / s - 0.6 to 0.35 / s - 0.6 hold.
    const held = (s: number): number => MOVES.filter((m) => m >= 0.05 / s - 0.6 && m <= 0.35 / s - 0.6).length / 20;
    const best = Math.max(...Array.from({ length: 100 }, (_v, k) => held((k + 1) / 100)));
    const found = tilted(search, cleared(search, start, 0.9), 0.9);
    expect(start.chance).toBe(held(share(start, 'cheap') - 1e-4));
    expect(found.chance).toBeCloseTo(held(share(found, 'cheap')), 9);
    expect(best).toBe(0.7);
    expect(found.chance).toBeGreaterThan(best - 0.06);
  });
});
