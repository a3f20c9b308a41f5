import { describe, expect, it } from 'vitest';
import { assess } from '../../src/core/blend/assess.js';
import { worldOf } from '../../src/core/blend/world.js';
import { better } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { inWholeParts } from '../../src/core/optimise/parts.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { PartsAsked, Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { Settled } from '../../src/core/optimise/settled.js';
import { standingTargets } from '../../src/core/optimise/standing-limits.js';
import type { BinderSystem } from '../../src/core/optimise/systems.js';
import { smallQuestion } from '../support/small-shelf.js';

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

describe('a blend in whole-number parts', () => {
  it.each(['mass', 'scoop'] as const)(
    'by %s is weighed out in just these parts and judged by the forward model',
    (by) => {
      let told = 0;
      let met = 0;
      for (let seed = 1; seed <= 30; seed++) {
        const { question } = smallQuestion(seed);
        const asked: Question = { ...question, parts: { by, most: 9 } };
        const proposal = propose(asked, { draws: 0 });
        const { parts } = proposal;
        if (parts === undefined || !parts.found) continue;
        told++;
        expect(parts.parts.map((p) => p.parts).reduce(divisor)).toBe(1);
        expect(Math.max(...parts.parts.map((p) => p.parts))).toBeLessThanOrEqual(9);
        const world = worldOf(question);
        for (const { material, parts: n } of parts.parts) {
          const grams = proposal.ingredients.find((i) => i.material === material)!.batchGrams;
          const loose = by === 'mass' ? 1 : world.materials.find((m) => m.id === material)!.bulkDensity!;
          expect(grams / loose / n, `seed ${seed}, ${material}`).toBeCloseTo(parts.part, 4);
        }
        const named = [...parts.parts.map((p) => p.material), ...parts.apart].sort();
        expect(named).toEqual(proposal.ingredients.map((i) => i.material).sort());
        const pieceGrams = question.materials.map(
          (m) => proposal.ingredients.find((i) => i.material === m.id)?.pieceGrams ?? 0,
        );
        const limits = [...question.targets, ...standingTargets(question.targets)];
        const holds = assess(question, pieceGrams, limits, { draws: 0 }).met;
        if (proposal.status === 'met') {
          expect(holds, `seed ${seed}`).toBe(true);
          met++;
        }
      }
      expect(told).toBeGreaterThan(20);
      expect(met).toBeGreaterThan(12);
    },
  );

  it('loses the least of all parts there are, by settling every one', { timeout: 120_000 }, () => {
    let compared = 0;
    let alike = 0;
    for (let seed = 1; seed <= 40 && compared < 10; seed++) {
      const { question, system } = smallQuestion(seed);
      const world = worldOf(question);
      const aim = AIMS[question.objective];
      const exact = settle(question, world, system, { aim });
      if (exact === null || !exact.feasible) continue;
      const bulk = world.materials.flatMap((m, i) =>
        exact.grams[i]! > 0 && m.kind !== 'water' && m.kind !== 'admixture' ? [i] : [],
      );
      if (bulk.length !== 2) continue;
      const asked: PartsAsked = { by: 'mass', most: 5 };
      const found = inWholeParts(question, world, system, exact, aim, asked)!;
      const best = byTryingAll(question, system, bulk, exact, 5);
      compared++;
      expect(found.answer.feasible).toBe(best.feasible);
      const worse = ((aim.sense === 'min' ? 1 : -1) * (found.answer.value! - best.value!)) / Math.abs(best.value!);
      if (worse < 1e-3) alike++;
      expect(worse, `seed ${seed}`).toBeLessThan(0.02);
      if (!found.answer.feasible) continue;
      // Whole numbers never gain on the blend without them.
      expect((aim.sense === 'min' ? 1 : -1) * (found.answer.value! - exact.value!)).toBeGreaterThan(
        -1e-4 * exact.value!,
      );
    }
    expect(compared).toBe(10);
    expect(alike).toBeGreaterThanOrEqual(9);
  });

  it('has nothing to count out where nothing on the shelf has a loose density', () => {
    const { question, system } = smallQuestion(1);
    const bare: Question = { ...question, materials: question.materials.map(({ bulkDensity: _none, ...m }) => m) };
    const world = worldOf(bare);
    const aim = AIMS[bare.objective];
    const exact = settle(bare, world, system, { aim })!;
    expect(inWholeParts(bare, world, system, exact, aim, { by: 'scoop', most: 5 })).toBeNull();
    const { parts } = propose({ ...bare, parts: { by: 'scoop', most: 5 } }, { draws: 0 });
    expect(parts!.found).toBe(false);
    expect(parts!.parts).toEqual([]);
  });

  it('weighs what a scoop weighs in each draw: the chances count how loosely the stuff lies', () => {
    const { question } = smallQuestion(4);
    const spread = (by: PartsAsked['by']): number => {
      const { assessment } = propose({ ...question, parts: { by, most: 9 } }, { draws: 200 });
      const dry = assessment.properties.find((p) => p.property === 'fresh-weight')!;
      return dry.high! - dry.low!;
    };
    // What is weighed in is known; what is scooped in is not.
    expect(spread('mass')).toBeLessThan(1e-9);
    expect(spread('scoop')).toBeGreaterThan(5);
  });
});

/** The best of all two-ingredient parts up to `most`, each settled with its ratio held. */
function byTryingAll(
  question: Question,
  system: BinderSystem,
  bulk: readonly number[],
  exact: Settled,
  most: number,
): Settled {
  const world = worldOf(question);
  const aim = AIMS[question.objective];
  const [a, b] = bulk as [number, number];
  let best: Settled | null = null;
  for (let p = 0; p <= most; p++) {
    for (let q = 0; q <= most; q++) {
      if (p + q === 0 || divisor(p, q) !== 1) continue;
      const held: BinderSystem = {
        ...system,
        rows: (w) => [
          ...system.rows(w),
          {
            name: 'held',
            coefficients: w.materials.map((_m, i) => (i === a ? q : i === b ? -p : 0)),
            low: 0,
            high: 0,
            scale: 1,
          },
        ],
      };
      const bounds = world.materials.map((_m, i) => ({
        lower: 0,
        upper: exact.grams[i]! > 0 && !(i === a && p === 0) && !(i === b && q === 0) ? Number.POSITIVE_INFINITY : 0,
      }));
      const answer = settle(question, world, held, { aim, bounds, start: exact.grams });
      if (answer !== null && (best === null || better(answer, best, aim))) best = answer;
    }
  }
  return best!;
}
