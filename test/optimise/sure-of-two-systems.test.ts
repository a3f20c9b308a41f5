import { describe, expect, it } from 'vitest';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { proposeSurely } from '../../src/core/optimise/sure.js';
import { questionOf } from '../support/hand-question.js';

const FEW = { draws: 100 };

describe('of two binder systems', () => {
  const SHELF = ['water', 'casting-plaster', 'portland-cement-grey'] as const;
  const asking = (ids: readonly string[], min: number, cement = 0.0005): Question =>
    questionOf(ids, {
      targets: [{ property: 'strength', min }],
      prices: new Map([
        ['casting-plaster', 0.0006],
        ['portland-cement-grey', cement],
      ]),
    });
  const told = (ids: readonly string[], min: number, cement?: number) =>
    proposeSurely(asking(ids, min, cement), 0.9, FEW);

  it.each([4, 12, 14])('the one is proposed that is the better of the two by itself: at least %d MPa', (min) => {
    const both = told(SHELF, min);
    const alone = (['gypsum', 'portland'] as const).map((system, i) => ({
      system,
      ...told(['water', SHELF[i + 1]!], min),
    }));
    const sure = alone.filter((a) => a.sureness.reached);
    expect(sure.length).toBeGreaterThan(0);
    const [best] = sure.sort((a, b) => a.sureness.sure! - b.sureness.sure!);
    expect(both.proposal.system).toBe(best!.system);
    expect(both.sureness.sure!).toBeCloseTo(best!.sureness.sure!, 2);
  });

  it('the one is proposed that is the cheaper once both are sure, though it was the dearer', () => {
    const [both, plaster, cement] = [SHELF, SHELF.slice(0, 2), [SHELF[0], SHELF[2]]].map((ids) =>
      told(ids, 10, 0.00036),
    );
    expect(plaster!.sureness.unsure!).toBeLessThan(cement!.sureness.unsure!);
    expect(plaster!.sureness.sure!).toBeGreaterThan(cement!.sureness.sure!);
    expect(both!.proposal.system).toBe('portland');
    expect(both!.sureness.unsure).toBe(plaster!.sureness.unsure);
  });

  it('the dearer one is proposed where only that can be sure, however far behind it was', () => {
    // Plaster just reaches 14 MPa and cannot be kept clear of it; cement costs a third more and is sure.
    const { proposal, sureness } = told(SHELF, 14);
    expect(told(SHELF.slice(0, 2), 14).sureness.reached).toBe(false);
    expect(proposal.system).toBe('portland');
    expect(sureness.reached).toBe(true);
    expect(sureness.sure! / sureness.unsure!).toBeGreaterThan(1.3);
    expect(proposal.systems.find((s) => s.system === 'gypsum')!.outcome).toBe('possible');
  });

  it('what being sure costs is not put down to least doses', () => {
    const { proposal, sureness } = told(SHELF, 14);
    expect(sureness.sure!).toBeGreaterThan(sureness.unsure!);
    expect(proposal.limits).toMatchObject({ ingredients: null, without: null, enough: null });
    // Of the blend that is sure as it is, what few ingredients cost is told as ever.
    const few: Question = {
      ...questionOf([...SHELF, 'perlite'], { targets: [{ property: 'dry-weight', max: 320 }] }),
      limits: { ingredients: 1, leastDose: null },
      objective: 'lightest',
    };
    const plain = propose(few, FEW);
    const sure = proposeSurely(few, 0.1, FEW);
    expect(plain.limits!.without).not.toBeNull();
    expect(sure.proposal.limits).toEqual(plain.limits);
    expect(sure.sureness.held).toEqual([]);
  });

  it('each report is of what it came to in the end', () => {
    const { proposal } = told(SHELF, 14);
    const chosen = proposal.systems.filter((s) => s.outcome === 'chosen');
    expect(chosen.map((s) => [s.system, s.value])).toEqual([[proposal.system, proposal.objective.exact]]);
  });
});
