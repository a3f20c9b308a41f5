import { describe, expect, it } from 'vitest';
import { keptClear } from '../../src/core/optimise/keeping-clear.js';
import type { Proposal } from '../../src/core/optimise/propose.js';
import type { SettledSystems, SystemReport } from '../../src/core/optimise/settle-systems.js';
import { lastWord, onItsOwnLimits, proposeSurely } from '../../src/core/optimise/sure.js';
import { normalBelow } from '../support/normal.js';
import { systemOf } from '../support/small-shelf.js';
import {
  chanceAt,
  DEVIATION,
  handSearch,
  LIMIT,
  PURE,
  shareOf,
  sulfateQuestion,
  UNSURE,
} from '../support/sulfate-draws.js';

const FEW = { draws: 100 };

describe('the last word on a blend, on draws that the search did not see', () => {
  const reportOf = (system: string, outcome: SystemReport['outcome']): SystemReport => ({
    system,
    name: system,
    outcome,
    value: 1,
    why: null,
  });

  it('keeps clearer where they are less sure than the search was', () => {
    // The search was told of moves a tenth as large as they are.
    const small = handSearch([UNSURE, PURE], {}, [-0.1, 0, 0.1]);
    const leader = keptClear(small.search, small.start, [0.05])!;
    expect(leader.chance).toBe(1);
    const settled: SettledSystems = { ranked: [small.from], reports: [reportOf('portland', 'chosen')] };
    const { proposal, sureness } = lastWord(small.search, settled, leader, 0.8, { draws: 200, seed: 1 });
    const before = chanceAt(small.share(leader, 'cheap'));
    expect(before).toBeLessThan(0.7);
    expect(sureness.chance).toBeGreaterThan(before + 0.01);
    expect(sureness.held[0]!.to).toBeLessThan(LIMIT - 0.05);
    expect(proposal.status).toBe('met');
    expect(Math.abs(chanceAt(shareOf(proposal.ingredients)) - sureness.chance!)).toBeLessThan(0.04);
  });

  it('is four times clearer at most, each time by a tenth and a fiftieth of the spread', () => {
    const moves = [-0.1, 0, 0.1];
    const small = handSearch([UNSURE, PURE], {}, moves);
    const leader = keptClear(small.search, small.start, [0.05])!;
    const settled: SettledSystems = { ranked: [small.from], reports: [reportOf('portland', 'chosen')] };
    const { sureness } = lastWord(small.search, settled, leader, 0.95, { draws: 200, seed: 1 });
    let clear = 0.05;
    for (let time = 0; time < 4; time++) {
      const share = (LIMIT - clear - 2.4) / 0.6;
      clear = 1.1 * clear + (0.02 * share * 0.5 * Math.hypot(...moves)) / Math.sqrt(3);
    }
    expect(sureness.held[0]!.to).toBeCloseTo(LIMIT - clear, 4);
    expect(sureness.reached).toBe(false);
  });

  it('ends where no blend is any clearer', () => {
    // Next to all of it pure, and that as unsure as the cheap one: there is nothing left to give.
    const both = handSearch([UNSURE, { ...PURE, unsure: 0.5 }], {}, [-0.1, 0, 0.1]);
    const leader = keptClear(both.search, both.start, [0.345])!;
    expect(keptClear(both.search, leader, [0.36])).toBeNull();
    const settled: SettledSystems = { ranked: [both.from], reports: [reportOf('portland', 'chosen')] };
    const { sureness } = lastWord(both.search, settled, leader, 0.95, { draws: 200, seed: 1 });
    expect(sureness.held[0]!.to).toBeCloseTo(LIMIT - 0.345, 9);
    expect(sureness.reached).toBe(false);
    expect(sureness.chance).toBeCloseTo(normalBelow(0.345 / DEVIATION), 1);
  });

  it('is all there is to say of a blend that was not sure to begin with', () => {
    const { search, from, start, share } = handSearch([UNSURE, PURE]);
    const settled: SettledSystems = { ranked: [from], reports: [reportOf('portland', 'chosen')] };
    const { proposal, sureness } = lastWord(search, settled, start, 0.8, { draws: 200, seed: 1 });
    expect(shareOf(proposal.ingredients)).toBeCloseTo(share(start, 'cheap'), 2);
    expect(sureness).toMatchObject({ reached: false, held: [], wanted: 0.8 });
    expect(sureness.chance).toBeCloseTo(0.5, 1);
  });

  it('tells the system that it came from as chosen, with what it costs now, and the others as they were', () => {
    const { search, from, start } = handSearch([UNSURE, PURE]);
    const leader = keptClear(search, start, [0.2])!;
    const reports = [
      reportOf('gypsum', 'chosen'),
      reportOf('portland', 'possible'),
      reportOf('csa', 'behind'),
      reportOf('lime', 'absent'),
    ];
    const { proposal } = lastWord(search, { ranked: [from], reports }, leader, 0.6, { draws: 100, seed: 1 });
    expect(proposal.systems).toEqual([
      { ...reports[0]!, outcome: 'possible' },
      { ...reports[1]!, outcome: 'chosen', value: leader.answer.value },
      reports[2],
      reports[3],
    ]);
  });
});

describe('a rounding held to tighter limits than the brief’s', () => {
  const { search, world } = handSearch([UNSURE, PURE]);
  const portland = systemOf('portland');
  const proposal = (cheap: number, pure: number, status: 'met' | 'nearest') =>
    ({
      status,
      ingredients: [
        { material: 'water', pieceGrams: 150, batchGrams: 150 },
        { material: 'cheap', pieceGrams: cheap, batchGrams: cheap },
        { material: 'pure', pieceGrams: pure, batchGrams: pure },
      ],
    }) as unknown as Proposal;

  it('meets the brief where it keeps that, whatever it was held to', () => {
    // A third of the cheap cement: 2.6 %, and the water of neat cement that pours.
    const kept = proposal(150, 300, 'nearest');
    const told = { ...kept, status: 'met', conflict: null };
    expect(onItsOwnLimits(search.question, portland, kept, world)).toEqual(told);
    // Nor is it told of any more why tighter limits were missed.
    const coarse = { ...kept, coarse: { step: 1 } } as unknown as Proposal;
    expect(onItsOwnLimits(search.question, portland, coarse, world)).toEqual(told);
    const met = proposal(150, 300, 'met');
    expect(onItsOwnLimits(search.question, portland, met, world)).toBe(met);
  });

  it('misses it where it breaks a limit of the brief, or one that every blend keeps', () => {
    const impure = proposal(300, 150, 'nearest');
    expect(onItsOwnLimits(search.question, portland, impure, world)).toBe(impure);
    const stiff = proposal(250, 500, 'nearest');
    expect(onItsOwnLimits(search.question, portland, stiff, world)).toBe(stiff);
    // What was said to be met is not judged again.
    const said = proposal(300, 150, 'met');
    expect(onItsOwnLimits(search.question, portland, said, world)).toBe(said);
  });
});

describe('a scale too coarse for keeping clear', () => {
  const settledBy = (more: Parameters<typeof handSearch>[1], clear: readonly number[]) => {
    const one = handSearch([UNSURE, PURE], { limits: { ingredients: null, leastDose: 1 }, ...more });
    const leader = keptClear(one.search, one.start, clear)!;
    const settled: SettledSystems = { ranked: [one.from], reports: [] };
    return lastWord(one.search, settled, leader, 0.5, { draws: 20, seed: 1 });
  };

  it('weighs what keeps as clear as the blend did, where a rounding does', () => {
    // By the 40 g; 280 g of the cheap cement to 200 g of the pure one would only just keep the brief.
    const { proposal } = settledBy({ batch: { pieces: 1, step: 40, fine: null } }, [0.2]);
    expect(2.4 + 0.6 * shareOf(proposal.ingredients)).toBeLessThanOrEqual(LIMIT - 0.2 + 1e-9);
    expect(proposal.status).toBe('met');
  });

  it('is never sure of a piece that does not pour, however surely it would keep the targets', () => {
    // By the 100 g and from 200 g of each cement there is too little water or too much; what misses least of what it was
    // held to is told as it is.
    const targets = [
      { property: 'fresh-weight', min: 590, max: 650 },
      { property: 'sulfate', min: 2.5, max: LIMIT },
    ];
    const { proposal, sureness } = settledBy(
      {
        targets,
        batch: { pieces: 1, step: 100, fine: null },
        limits: { ingredients: null, leastDose: 160 },
        stock: new Map([
          ['cheap', 240],
          ['pure', 340],
        ]),
      },
      [0, 0, 0.08, 0.08],
    );
    expect(proposal.ingredients.map((i) => [i.material, i.batchGrams])).toEqual([
      ['water', 100],
      ['cheap', 200],
      ['pure', 200],
    ]);
    expect(proposal.status).toBe('nearest');
    expect(sureness.chance).toBeGreaterThan(0.5);
    expect(sureness).toMatchObject({ wanted: 0.5, reached: false });
  });

  it('weighs what keeps the brief where no rounding is as clear', () => {
    // From 2.61 to 2.64 %: shares from 0.35 to 0.4, and of six times 75 g of cement there are a third and a half.
    const targets = [{ property: 'sulfate', min: 2.5, max: LIMIT }];
    const { proposal } = settledBy({ targets, batch: { pieces: 1, step: 75, fine: null } }, [0.11, 0.11]);
    const percent = 2.4 + 0.6 * shareOf(proposal.ingredients);
    expect(percent < 2.61 || percent > 2.64).toBe(true);
    expect(percent).toBeGreaterThanOrEqual(2.5);
    expect(percent).toBeLessThanOrEqual(LIMIT);
    expect(proposal.status).toBe('met');
  });

  it('still weighs out a blend that keeps the brief itself', () => {
    // By the 75 g there are only so many shares: what keeps the brief is weighed, how sure it is is told.
    const question = sulfateQuestion([UNSURE, PURE], {
      batch: { pieces: 1, step: 75, fine: null },
      limits: { ingredients: null, leastDose: 1 },
    });
    const { proposal, sureness } = proposeSurely(question, 0.9, FEW);
    expect(proposal.ingredients.every((i) => i.batchGrams % 75 === 0)).toBe(true);
    expect(proposal.status).toBe('met');
    const share = shareOf(proposal.ingredients);
    expect(2.4 + 0.6 * share).toBeLessThanOrEqual(LIMIT);
    expect(Math.abs(chanceAt(share) - sureness.chance!)).toBeLessThan(0.06);
    expect(sureness.reached).toBe(sureness.chance! >= 0.9);
  });
});
