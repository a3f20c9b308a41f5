import { describe, expect, it } from 'vitest';
import { proposeSurely } from '../../src/core/optimise/sure.js';
import { questionOf } from '../support/hand-question.js';
import { normalBelow } from '../support/normal.js';
import { codesOf } from '../support/problems.js';
import { CHEAP, chanceAt, LIMIT, PURE, shareOf, sulfateQuestion, UNSURE } from '../support/sulfate-draws.js';

const FEW = { draws: 100 };

describe('a proposal of two cements that is to be sure', () => {
  it.each([0.7, 0.85, 0.95])('of %f holds as much of the cheap one as keeps the limit with that chance', (wanted) => {
    const { proposal, sureness } = proposeSurely(sulfateQuestion([UNSURE, PURE]), wanted, FEW);
    expect(proposal.status).toBe('met');
    expect(sureness).toMatchObject({ wanted, reached: true });
    expect(sureness.chance).toBeGreaterThanOrEqual(wanted);
    const share = shareOf(proposal.ingredients);
    expect(Math.abs(chanceAt(share) - sureness.chance!)).toBeLessThan(0.03);
    expect(chanceAt(share)).toBeGreaterThan(wanted - 0.03);
    expect(chanceAt(share)).toBeLessThan(wanted + 0.06);
    // What was held to in place of the brief's limit, and what that costs.
    expect(sureness.held).toEqual([{ property: 'sulfate', side: 'max', limit: LIMIT, to: expect.any(Number) }]);
    expect(sureness.held[0]!.to).toBeCloseTo(2.4 + 0.6 * share, 1);
    // Weighed out it keeps that too, not only the brief's own limit.
    expect(2.4 + 0.6 * share).toBeLessThanOrEqual(sureness.held[0]!.to * (1 + 1e-9));
    expect(sureness.sure).toBe(proposal.objective.weighed);
    expect(sureness.sure!).toBeGreaterThan(sureness.unsure!);
  });

  it('is held to the side that is unsure, and to no other', () => {
    const targets = [
      { property: 'fresh-weight', max: 1000 },
      { property: 'sulfate', max: LIMIT },
    ];
    const { sureness } = proposeSurely(sulfateQuestion([UNSURE, PURE], { targets }), 0.85, FEW);
    expect(sureness.reached).toBe(true);
    expect(sureness.held.map((h) => [h.property, h.side, h.limit])).toEqual([['sulfate', 'max', LIMIT]]);
    expect(sureness.held[0]!.to).toBeLessThan(LIMIT);
  });

  it('is refused as ever where no binder is in play', () => {
    const bare = questionOf(['water', 'masonry-sand'], { targets: [{ property: 'fresh-weight', max: 1000 }] });
    expect(codesOf(() => proposeSurely(bare, 0.9, FEW))).toEqual(['brief-contradicts']);
  });

  it('is the plain one where that is sure enough, and is held to nothing else', () => {
    const { proposal, sureness } = proposeSurely(sulfateQuestion([UNSURE, PURE]), 0.3, FEW);
    expect(shareOf(proposal.ingredients)).toBeCloseTo((LIMIT - 2.4) / 0.6, 2);
    expect(sureness).toMatchObject({ reached: true, held: [] });
    expect(sureness.unsure).toBeCloseTo(proposal.objective.exact!, 9);
  });

  it('is not reached where no blend is as sure, and is then the surest that keeps the brief', () => {
    const cements = [
      { ...CHEAP, unsure: 2 },
      { ...PURE, unsure: 2 },
    ];
    const { proposal, sureness } = proposeSurely(sulfateQuestion(cements), 0.9, FEW);
    expect(sureness.reached).toBe(false);
    expect(proposal.status).toBe('met');
    // Two like spreads in a mixture are smallest where they share: that is worth more than being purer.
    const best = Math.max(
      ...Array.from({ length: 99 }, (_v, k) => {
        const s = k / 100;
        return normalBelow((LIMIT - 2.4 - 0.6 * s) / ((2 * Math.hypot(s, 1 - s)) / 1.644854));
      }),
    );
    expect(sureness.chance).toBeGreaterThan(best - 0.06);
    expect(sureness.chance).toBeLessThan(best + 0.06);
  });

  it('has no chance to tell without targets, and nothing that is left to reach', () => {
    const { proposal, sureness } = proposeSurely(sulfateQuestion([UNSURE, PURE], { targets: [] }), 0.9, FEW);
    expect(sureness).toEqual({
      wanted: 0.9,
      reached: true,
      chance: null,
      held: [],
      unsure: proposal.objective.exact,
      sure: proposal.objective.exact,
    });
    expect(shareOf(proposal.ingredients)).toBe(1);
    expect(
      proposeSurely(sulfateQuestion([UNSURE, PURE], { targets: [{ property: 'sulfate' }] }), 0.9, FEW).sureness.chance,
    ).toBeNull();
  });

  it('is not reached, and has no cost of being unsure, where nothing keeps the brief', () => {
    const none = sulfateQuestion([UNSURE, PURE], { targets: [{ property: 'sulfate', max: 2 }] });
    const { proposal, sureness } = proposeSurely(none, 0.9, FEW);
    expect(proposal.status).toBe('nearest');
    expect(sureness).toMatchObject({ reached: false, unsure: null, held: [] });
  });

  it('is the same for the same seed, 1 if none is given, by two thousand draws', () => {
    const question = sulfateQuestion([UNSURE, PURE]);
    const plain = proposeSurely(question, 0.9);
    expect(plain).toEqual(proposeSurely(question, 0.9, { draws: 2000, seed: 1 }));
    expect(plain.sureness.chance! * 2000).toBeCloseTo(Math.round(plain.sureness.chance! * 2000), 9);
    expect((plain.sureness.chance! * 100) % 1).not.toBe(0);
    const other = proposeSurely(question, 0.9, { draws: 100, seed: 5 });
    expect(other.proposal.assessment).not.toEqual(
      proposeSurely(question, 0.9, { draws: 100, seed: 6 }).proposal.assessment,
    );
  });
});
