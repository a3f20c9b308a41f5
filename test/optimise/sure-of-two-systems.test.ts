import { describe, expect, it } from 'vitest';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { proposeSurely } from '../../src/core/optimise/sure.js';
import { questionOf } from '../support/hand-question.js';
import { material } from '../support/shipped-table.js';
import { PURE, sulfateQuestion, UNSURE } from '../support/sulfate-draws.js';

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

  it.each([4, 12])('the one is proposed that is the better of the two by itself: at least %d MPa', (min) => {
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

  it('one far behind is proposed where being sure makes the other dearer still', () => {
    // Nothing but a dear pure cement keeps the sulfate down; aluminate cement has none to speak of and costs between.
    const two = sulfateQuestion([UNSURE, { ...PURE, price: 0.02 }]);
    const third = material('calcium-aluminate-cement');
    const three: Question = {
      ...two,
      materials: [...two.materials, third],
      prices: new Map([...two.prices, [third.id, 0.012]]),
    };
    const [without, beside] = [two, three].map((question) => proposeSurely(question, 0.95, FEW));
    expect(without!.sureness.reached).toBe(true);
    expect(beside!.proposal.system).toBe('aluminate');
    expect(beside!.sureness.sure!).toBeGreaterThan(1.3 * beside!.sureness.unsure!);
    expect(beside!.sureness.sure!).toBeLessThan(0.9 * without!.sureness.sure!);
    expect(beside!.sureness.unsure).toBeCloseTo(without!.sureness.unsure!, 9);
  });

  it.each([
    [0.001, 0.0011],
    [0.0011, 0.001],
  ])('the surer one is proposed where neither is sure, whichever is the cheaper (%f and %f a gram)', (plaster, csa) => {
    const asked = (ids: readonly string[]): Question =>
      questionOf(ids, {
        // Neat plaster demoulds within the hour and this cement after it, give or take.
        targets: [{ property: 'demould-time', min: 40, max: 100 }],
        prices: new Map([
          ['casting-plaster', plaster],
          ['csa-rapid-cement', csa],
        ]),
      });
    const sureOf = (...ids: string[]) => proposeSurely(asked(['water', ...ids]), 0.99, FEW);
    const alone = [sureOf('casting-plaster'), sureOf('csa-rapid-cement')];
    for (const one of alone) expect(one.sureness).toMatchObject({ reached: false, unsure: expect.any(Number) });
    const [first, second] = alone.sort((a, b) => b.sureness.chance! - a.sureness.chance!);
    expect(first!.sureness.chance! - second!.sureness.chance!).toBeGreaterThan(0.05);
    expect(sureOf('casting-plaster', 'csa-rapid-cement').proposal.system).toBe(first!.proposal.system);
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
