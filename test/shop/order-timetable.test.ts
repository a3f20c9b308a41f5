import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf, isoDate, momentText } from '../../src/core/shop/order-calendar.js';
import { fewestExtraMoulds, mouldsOrBlend } from '../../src/core/shop/order-moulds.js';
import { type Bench, timetable, turnsADay, type Work } from '../../src/core/shop/order-timetable.js';

/** Monday 2026-03-02, six hours from nine, Monday to Friday; 15 min between bowls. Every figure is invented. */
const bench = (due: string, closed: string[] = []): Bench => ({
  days: {
    weekdays: new Set(['mon', 'tue', 'wed', 'thu', 'fri']),
    closed: new Set(closed.map((d) => dayOf(d)!)),
    opens: 540,
    minutes: 360,
  },
  start: dayOf('2026-03-02')!,
  due: dayOf(due)!,
  betweenMinutes: 15,
});

const work = (more: Partial<Work>): Work => {
  const demouldMinutes = more.demouldMinutes ?? 60;
  return {
    pieces: 20,
    moulds: 2,
    perBowl: 2,
    mixMinutes: 4,
    fillMinutes: 1,
    demouldMinutes,
    readyMinutes: demouldMinutes,
    ...more,
  };
};

const starts = (works: Work[], b: Bench): string[] => timetable(works, b).bowls.map((x) => momentText(x.at).slice(5));

/** Source of the expected values in this block: worked by hand from the rule in the comment. */
describe('timetable by hand', () => {
  it('turns two moulds on the hour, six times a day', () => {
    // A bowl takes 6 min + 15 between, less than the 60 min to demould: pours at 0, 60, ... 300 min; 360 is closing.
    // 12 pieces on Monday, the other 8 in four pours on Tuesday.
    const plan = timetable([work({})], bench('2026-03-03'));
    expect(plan.bowls).toHaveLength(10);
    expect(momentText(plan.bowls[5]!.at)).toBe('2026-03-02T14:00');
    expect(momentText(plan.bowls[9]!.at)).toBe('2026-03-03T12:00');
    expect(plan.met).toBe(true);
    expect(isoDate(plan.lastReady)).toBe('2026-03-03');
    expect(turnsADay(work({}), bench('2026-03-03'))).toBe(6);
    expect(timetable([work({})], bench('2026-03-02')).met).toBe(false);
  });

  it('is held by the maker when moulds are plenty: a bowl every 21 minutes', () => {
    // Six moulds, two a bowl: the first pair is free again at 60 min, after the third bowl ended at 63.
    // floor((360 - 6)/21) + 1 = 17 bowls, 34 pieces on the first day.
    const plan = timetable([work({ pieces: 40, moulds: 6 })], bench('2026-03-31'));
    const monday = plan.bowls.filter((b) => momentText(b.at).startsWith('2026-03-02'));
    expect(monday).toHaveLength(17);
    expect(momentText(monday.at(-1)!.at)).toBe('2026-03-02T14:36');
  });

  it('has a piece that is free on a Saturday ready on Monday, when somebody takes it out', () => {
    // Poured on Friday 2026-03-06 at 9:00, free after 20 h at 5:00 on Saturday; the shop is shut until Monday.
    const friday = { ...bench('2026-03-31'), start: bench('2026-03-06').due };
    const plan = timetable([work({ pieces: 2, demouldMinutes: 1200 })], friday);
    expect(momentText(plan.bowls[0]!.at)).toBe('2026-03-06T09:00');
    expect(isoDate(plan.lastReady)).toBe('2026-03-09');
  });

  it('lets a mould that needs 26 hours slip by two hours a day, and start afresh', () => {
    // Mon 09:00 -> Tue 11:00 -> Wed 13:00 -> Thu 15:00 is closing, so Fri 09:00; weekend; Mon 09:00 again.
    const plan = starts([work({ pieces: 5, moulds: 1, demouldMinutes: 26 * 60 })], bench('2026-03-31'));
    expect(plan).toEqual(['03-02T09:00', '03-03T11:00', '03-04T13:00', '03-06T09:00', '03-09T09:00']);
  });

  it('works neither at weekends nor on closed days', () => {
    // One mould, one pour a day: Mon, (Tue closed), Wed, Thu, Fri, Mon.
    const plan = starts([work({ pieces: 5, moulds: 1, demouldMinutes: 1000 })], bench('2026-03-31', ['2026-03-03']));
    expect(plan.map((s) => s.slice(0, 5))).toEqual(['03-02', '03-04', '03-05', '03-06', '03-09']);
  });

  it('fills as many moulds as still fit before closing', () => {
    // 355 min are gone when the second pair is free: 5 min are left, 4 of them for mixing: one piece.
    const plan = timetable([work({ pieces: 4, demouldMinutes: 355 })], bench('2026-03-31'));
    expect(plan.bowls.map((b) => b.pieces)).toEqual([2, 1, 1]);
    expect(momentText(plan.bowls[1]!.at)).toBe('2026-03-02T14:55');
  });

  it('pours what dries longest first, so that both are dry in time', () => {
    // Quick and slow share the maker for one day; a bowl of ten takes 10 + 4 min. The slow one dries 3 days and must be
    // poured on Monday to be dry on Thursday.
    const slow = work({ pieces: 10, moulds: 10, perBowl: 10, readyMinutes: 3 * 1440 });
    const quick = work({ pieces: 200, moulds: 10, perBowl: 10, demouldMinutes: 20 });
    const plan = timetable([quick, slow], bench('2026-03-05'));
    expect(plan.bowls[0]!.work).toBe(1);
    expect(plan.met).toBe(true);
  });

  it('says what finds no mould, no bowl and no time', () => {
    for (const lacking of [{ moulds: 0 }, { perBowl: 0 }, { mixMinutes: 400 }]) {
      const plan = timetable([work(lacking)], bench('2026-03-31'));
      expect(plan.bowls).toEqual([]);
      expect(plan.unpoured).toEqual([20]);
      expect(plan.met).toBe(false);
      expect(plan.lastReady).toBe(Number.POSITIVE_INFINITY);
    }
    expect(timetable([work({ readyMinutes: Number.POSITIVE_INFINITY })], bench('2026-03-31')).lastReady).toBe(
      Number.POSITIVE_INFINITY,
    );
  });
});

describe('moulds to buy, by hand', () => {
  // Demoulds in 20 h, so one pour a mould and day; dry 2 days after the pour. Due Friday 13th: pours on Mon 2nd to Wed
  // 11th are 8 working days. 24 pieces / 8 days = 3 moulds: 2 more than the one on hand.
  const slow = work({ pieces: 24, moulds: 1, perBowl: 10, demouldMinutes: 1200, readyMinutes: 2 * 1440 });

  it('is the number of pieces over the days, less the moulds on hand', () => {
    const answer = fewestExtraMoulds([slow], bench('2026-03-13'));
    expect(answer).toMatchObject({ status: 'buy', extra: [2], fewest: true });
    expect(answer.timetable.met).toBe(true);
    expect(isoDate(answer.timetable.lastReady)).toBe('2026-03-13');
  });

  it('is none when those on hand do', () => {
    expect(fewestExtraMoulds([{ ...slow, moulds: 3 }], bench('2026-03-13'))).toMatchObject({
      status: 'none',
      extra: [0],
    });
  });

  it('starts from no mould at all', () => {
    expect(fewestExtraMoulds([{ ...slow, moulds: 0 }], bench('2026-03-13'))).toMatchObject({
      status: 'buy',
      extra: [3],
    });
  });

  it('knows when no number of moulds helps: drying alone takes longer', () => {
    const answer = fewestExtraMoulds([{ ...slow, readyMinutes: 20 * 1440 }], bench('2026-03-13'));
    expect(answer.status).toBe('no-help');
    // All 24 poured on Monday 2nd and 20 days on: Sunday 22nd.
    expect(isoDate(answer.timetable.lastReady)).toBe('2026-03-22');
  });

  it('knows when the maker is what holds it up', () => {
    // One piece a bowl, 5 + 15 min each: floor((360 - 5)/20) + 1 = 18 a day, 36 in two days, whatever the moulds.
    const busy = work({ pieces: 37, moulds: 1, perBowl: 1, demouldMinutes: 1200 });
    expect(fewestExtraMoulds([busy], bench('2026-03-04')).status).toBe('no-help');
    expect(fewestExtraMoulds([{ ...busy, pieces: 36 }], bench('2026-03-04'))).toMatchObject({
      status: 'buy',
      extra: [17],
    });
  });

  it('buys for each of several sorts', () => {
    const answer = fewestExtraMoulds([slow, { ...slow, pieces: 16 }], bench('2026-03-13'));
    expect(answer).toMatchObject({ status: 'buy', extra: [2, 1], fewest: true });
  });

  it('weighs moulds against a faster blend', () => {
    // 4 moulds at 18 are 72; 0.60 more on 60 pieces are 36: the blend is cheaper, up to 72/0.60 = 120 pieces.
    expect(mouldsOrBlend(18, 4, 0, 0.6, 60)).toEqual({
      mouldsCost: 72,
      blendCost: 36,
      breakEven: 120,
      cheaper: 'blend',
    });
    expect(mouldsOrBlend(18, 4, 0, 0.6, 150).cheaper).toBe('moulds');
    expect(mouldsOrBlend(18, 4, 0, 0.6, 120).cheaper).toBe('same');
    // A faster blend that costs no more never loses; one that needs all the moulds too never wins.
    expect(mouldsOrBlend(18, 4, 0, -0.1, 60).breakEven).toBe(Number.POSITIVE_INFINITY);
    expect(mouldsOrBlend(18, 4, 4, 0.6, 60)).toMatchObject({ breakEven: 0, cheaper: 'moulds' });
    // Two moulds still to buy: 36 of 72 saved, break-even 60.
    expect(mouldsOrBlend(18, 4, 2, 0.6, 60)).toMatchObject({ blendCost: 72, breakEven: 60, cheaper: 'same' });
  });
});

const anyWork = fc.record({
  pieces: fc.integer({ min: 1, max: 40 }),
  moulds: fc.integer({ min: 1, max: 8 }),
  perBowl: fc.integer({ min: 1, max: 6 }),
  mixMinutes: fc.integer({ min: 0, max: 20 }),
  fillMinutes: fc.integer({ min: 1, max: 6 }),
  demouldMinutes: fc.integer({ min: 5, max: 3000 }),
  drying: fc.integer({ min: 0, max: 8000 }),
});
const toWork = ({ drying, ...w }: { drying: number } & Omit<Work, 'readyMinutes'>): Work => ({
  ...w,
  readyMinutes: w.demouldMinutes + drying,
});

describe('laws of the timetable', () => {
  it('never pours two bowls at once, outside hours, or into a mould that is taken', () => {
    let bowls = 0;
    fc.assert(
      fc.property(fc.array(anyWork, { minLength: 1, maxLength: 3 }), (drawn) => {
        const works = drawn.map(toWork);
        const b = bench('2026-03-20', ['2026-03-10']);
        const plan = timetable(works, b);
        works.forEach((w, i) => {
          const mine = plan.bowls.filter((x) => x.work === i);
          expect(mine.reduce((s, x) => s + x.pieces, 0)).toBe(w.pieces);
          for (const x of mine) {
            const taken = mine.filter((y) => y.at <= x.at && y.demouldAt > x.at).reduce((s, y) => s + y.pieces, 0);
            expect(taken).toBeLessThanOrEqual(w.moulds);
            expect(x.pieces).toBeLessThanOrEqual(w.perBowl);
          }
        });
        plan.bowls.forEach((x, n) => {
          bowls++;
          const w = works[x.work]!;
          const end = x.at + w.mixMinutes + x.pieces * w.fillMinutes;
          const inDay = x.at % 1440;
          expect(inDay).toBeGreaterThanOrEqual(540);
          expect(inDay + end - x.at).toBeLessThanOrEqual(900);
          expect([0, 6]).not.toContain(new Date(x.at * 60_000).getUTCDay());
          expect(momentText(x.at).slice(0, 10)).not.toBe('2026-03-10');
          const next = plan.bowls[n + 1];
          if (next !== undefined) expect(next.at).toBeGreaterThanOrEqual(end);
        });
      }),
      { numRuns: 150 },
    );
    expect(bowls).toBeGreaterThan(1500);
  });

  it('turns a mould as often as the closed form says when one bowl fills all', () => {
    let cases = 0;
    fc.assert(
      fc.property(anyWork, (drawn) => {
        const w = { ...toWork(drawn), perBowl: 8 };
        const bowl = w.mixMinutes + w.moulds * w.fillMinutes;
        // 1 + floor((day - bowl)/round): a round is the demoulding time or the maker's own, whichever is longer.
        const round = Math.max(w.demouldMinutes, bowl + 15);
        expect(turnsADay(w, bench('2026-03-20'))).toBe(1 + Math.floor((360 - bowl) / round));
        cases++;
      }),
      { numRuns: 200 },
    );
    expect(cases).toBe(200);
  });

  it('fewest: one mould less of any sort does not do, and nothing is bought in vain', () => {
    let bought = 0;
    fc.assert(
      fc.property(fc.array(anyWork, { minLength: 1, maxLength: 2 }), (drawn) => {
        const works = drawn.map(toWork);
        const b = bench('2026-03-09');
        const answer = fewestExtraMoulds(works, b);
        if (answer.status !== 'buy' || !answer.fewest) return;
        bought++;
        works.forEach((_w, i) => {
          if (answer.extra[i] === 0) return;
          const less = works.map((w, j) => ({ ...w, moulds: w.moulds + answer.extra[j]! - (i === j ? 1 : 0) }));
          expect(timetable(less, b).met).toBe(false);
        });
        const met = works.map((w, j) => ({ ...w, moulds: w.moulds + answer.extra[j]! }));
        expect(timetable(met, b).met).toBe(true);
      }),
      { numRuns: 300 },
    );
    expect(bought).toBeGreaterThan(30);
  });
});
