import { describe, expect, it } from 'vitest';
import { cleared, withoutSuspects } from '../../src/core/optimise/keeping-clear.js';
import { CHEAP, handSearch, LIMIT, PURE } from '../support/sulfate-draws.js';

/** Share of the cheap cement at which the blend holds so much sulfate: 2.4 % and 0.6 % more of the cheap one. */
const shareAt = (percent: number): number => (percent - 2.4) / 0.6;

describe('a cement that spoils the chance', () => {
  // As pure as the pure one and a little cheaper, but nobody knows how pure.
  const DUBIOUS = { id: 'dubious', sulfate: 2.4, price: 0.0019, unsure: 3 };
  const KNOWN = { ...CHEAP, unsure: 0 };

  it('is done without where that makes the blend sure', () => {
    const { search, start, share } = handSearch([KNOWN, PURE, DUBIOUS]);
    expect(share(start, 'dubious')).toBeGreaterThan(0.3);
    const held = cleared(search, start, 0.9);
    expect(held.chance).toBeLessThan(0.9);
    const found = withoutSuspects(search, held, 0.9);
    expect([...found.barred]).toEqual(['dubious']);
    expect(found.chance).toBe(1);
    // What is left is known for sure, so it may stand right at the limit.
    expect(share(found, 'cheap')).toBeCloseTo(shareAt(LIMIT), 3);
    expect(share(found, 'dubious')).toBe(0);
    expect(found.clear).toEqual([0]);
    expect(found.targets).toEqual(search.question.targets);
  });

  it('is done without together with a second one like it', () => {
    const other = { id: 'doubtful', sulfate: 2.4, price: 0.00195, unsure: 2 };
    const { search, start } = handSearch([KNOWN, PURE, DUBIOUS, other]);
    const found = withoutSuspects(search, cleared(search, start, 0.9), 0.9);
    expect([...found.barred].sort()).toEqual(['doubtful', 'dubious']);
    expect(found.chance).toBe(1);
  });

  it('is done without together with one more like it, but not with two', () => {
    const more = [2, 1].map((unsure, k) => ({
      id: `doubtful-${k}`,
      sulfate: 2.4,
      price: 0.00193 + 0.00003 * k,
      unsure,
    }));
    const { search, start } = handSearch([KNOWN, PURE, DUBIOUS, ...more]);
    const found = withoutSuspects(search, cleared(search, start, 0.9), 0.9);
    expect([...found.barred]).toEqual(['dubious', 'doubtful-0']);
    expect(found.chance).toBeLessThan(0.9);
  });

  it('is kept where the brief asks for it, or where nothing keeps the limit without', () => {
    const doses = [{ material: 'dubious', percent: 60, of: 'binder' as const }];
    const asked = handSearch([KNOWN, PURE, DUBIOUS], { doses });
    const held = cleared(asked.search, asked.start, 0.9);
    expect(withoutSuspects(asked.search, held, 0.9)).toBe(held);
    const only = handSearch([KNOWN, DUBIOUS]);
    const left = cleared(only.search, only.start, 0.9);
    expect(left.chance).toBeLessThan(0.9);
    expect(withoutSuspects(only.search, left, 0.9)).toBe(left);
  });

  it('is kept where it does no harm', () => {
    const { search, start } = handSearch([CHEAP, PURE]);
    const held = cleared(search, start, 0.6);
    expect(withoutSuspects(search, held, 0.6).barred.size).toBe(0);
  });
});
