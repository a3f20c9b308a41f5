import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { propertyValue } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { marginOf, type Target } from '../../src/core/blend/target.js';
import { dot, type World, worldOf } from '../../src/core/blend/world.js';
import { blendProgram, columnsOf } from '../../src/core/optimise/blend-program.js';
import { type Frontier, type FrontierPoint, frontier } from '../../src/core/optimise/frontier.js';
import { leastDose } from '../../src/core/optimise/least-dose.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import { missOf } from '../../src/core/optimise/miss.js';
import { type Aim, soughtProgram } from '../../src/core/optimise/objective.js';
import { portions } from '../../src/core/optimise/portions.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle, settleNear } from '../../src/core/optimise/settle.js';
import { settleSystems } from '../../src/core/optimise/settle-systems.js';
import { doseRows, standingTargets } from '../../src/core/optimise/standing-limits.js';
import { openSystems } from '../../src/core/optimise/systems.js';
import { neighbourhood } from '../../src/core/optimise/tangent.js';
import { weighable } from '../../src/core/optimise/weighable.js';
import { seededRandom } from '../support/random-programs.js';
import { randomQuestion } from '../support/random-shelf.js';
import { material, model } from '../support/shipped-table.js';
import { smallQuestion } from '../support/small-shelf.js';

const aim = (id: string, sense: 'min' | 'max'): Aim => ({ property: propertyById(id)!, sense });
const PAIRS: readonly (readonly [Aim, Aim])[] = [
  [aim('cost', 'min'), aim('dry-weight', 'min')],
  [aim('demould-time', 'min'), aim('strength', 'max')],
];

/** What a settled blend may miss a limit by, in shares of it. */
const SLACK = 1e-5;
/** What a frontier tells apart, in shares of a value. */
const APART = 2e-5;
const LEAST_POINTS = 25;

interface Case {
  readonly name: string;
  readonly question: Question;
  readonly of: Aim;
  readonly against: Aim;
  readonly found: Frontier;
}

const questions = [
  ...Array.from({ length: 24 }, (_v, k) => ({ name: `small ${k + 1}`, question: smallQuestion(k + 1).question })),
  ...Array.from({ length: 22 }, (_v, k) => ({ name: `random ${k + 1}`, question: randomQuestion(k + 1) })),
];
const cases: readonly Case[] = questions.flatMap(({ name, question }) =>
  PAIRS.map(([of, against]) => ({
    name: `${name} ${of.property.id}`,
    question,
    of,
    against,
    found: frontier(question, of, against),
  })),
);
const drawn = cases.filter((c) => c.found.points.length > 0);
const traded = drawn.filter((c) => c.found.points.length > 1);

/** Smaller is better. */
const up = ({ sense }: Aim, value: number): number => (sense === 'min' ? value : -value);
/** By how much a value is worse than another, in shares of the other. */
const worse = (one: Aim, value: number, than: number): number => (up(one, value) - up(one, than)) / Math.abs(than);
const limitsOf = (question: Question): readonly Target[] => [...question.targets, ...standingTargets(question.targets)];

/** The brief with a property held at least as good as a value. */
function heldTo(question: Question, { property, sense }: Aim, bound: number): Question {
  const { min, max } = limitsOf(question).find((t) => t.property === property.id) ?? {};
  const target: Target =
    sense === 'min'
      ? { property: property.id, max: Math.min(bound, max ?? bound), ...(min === undefined ? {} : { min }) }
      : { property: property.id, min: Math.max(bound, min ?? bound), ...(max === undefined ? {} : { max }) };
  return { ...question, targets: [...question.targets.filter((t) => t.property !== property.id), target] };
}

/** Whether a blend has more of something than its dose window lets a proposal have. */
const overdosed = (question: Question, world: World, grams: readonly number[]): boolean =>
  doseRows(question, world).some(
    ({ coefficients, high }) => high !== undefined && dot(coefficients, grams) > high + 1e-6,
  );

/** Whether an ingredient is less than a proposal would weigh out. */
const tooLittle = (question: Question, grams: number, i: number): boolean =>
  question.materials[i]!.kind !== 'water' &&
  !question.doses.some((d) => d.material === question.materials[i]!.id) &&
  grams > 1e-6 &&
  grams < leastDose(question) / portions(question.batch, question.conditions.waste);

describe('frontiers on random briefs', () => {
  it('are many, of both pairs, and have at least 25 points wherever there is something to trade', () => {
    for (const [of] of PAIRS) expect(traded.filter((c) => c.of === of).length).toBeGreaterThan(12);
    // Two points: a blend of one binder and a blend of another, and nothing between them.
    const full = traded.filter((c) => c.found.points.length >= LEAST_POINTS);
    for (const c of traded) {
      if (full.includes(c)) continue;
      expect(c.found.points.length, c.name).toBe(new Set(c.found.points.map((p) => p.system)).size);
    }
    expect(full.length / traded.length).toBeGreaterThan(0.9);
  });

  it('go from the best of one property to the best of the other, each step better in one and worse in the other', () => {
    for (const { name, of, against, found } of traded) {
      found.points.slice(1).forEach((q, i) => {
        const p = found.points[i]!;
        expect(up(of, q.of), name).toBeGreaterThan(up(of, p.of));
        expect(up(against, q.against), name).toBeLessThan(up(against, p.against));
      });
    }
  });

  it('hold no point that another one beats, by comparing all pairs', () => {
    let pairs = 0;
    for (const { name, of, against, found } of traded) {
      for (const p of found.points) {
        for (const q of found.points) {
          if (p === q) continue;
          const beats = up(of, q.of) <= up(of, p.of) && up(against, q.against) <= up(against, p.against);
          expect(beats, name).toBe(false);
          pairs++;
        }
      }
    }
    expect(pairs).toBeGreaterThan(20_000);
  });

  it('hold only points that settling can tell apart', () => {
    for (const { name, of, against, found } of traded) {
      found.points.slice(1).forEach((q, i) => {
        const p = found.points[i]!;
        expect(worse(against, p.against, q.against), name).toBeGreaterThan(0.9 * APART);
        // A step taken for the last one's sake may be short; the one after is not.
        const after = found.points[i + 2];
        if (after !== undefined) expect(worse(of, after.of, p.of), name).toBeGreaterThan(0.9 * APART);
      });
    }
  });

  it('end at the optima of either property by itself, as settled for a proposal', () => {
    let close = 0;
    let ends = 0;
    for (const { name, question, of, against, found } of drawn) {
      const world = worldOf(question);
      for (const [one, value] of [
        [of, found.points[0]!.of],
        [against, found.points.at(-1)!.against],
      ] as const) {
        const best = settleSystems(question, world, one).ranked[0]!.answer;
        expect(best.feasible, name).toBe(true);
        const loss = worse(one, value, best.value!);
        // Beyond a millionth only where a last step too small to tell apart is not told.
        expect(loss, `${name} ${one.property.id}`).toBeLessThan(1.1 * APART);
        ends++;
        if (Math.abs(loss) < 1.01e-6) close++;
      }
    }
    expect(ends).toBeGreaterThan(100);
    // Seven in a hundred or fewer: mostly ends that beat the proposal, whose search stopped in another valley.
    expect(close / ends).toBeGreaterThan(0.93);
  });

  it('are blends that keep every target, assessed again from their grams', () => {
    let points = 0;
    for (const { name, question, of, against, found } of drawn) {
      const world = worldOf(question);
      for (const p of found.points) {
        const state = stateOf(worldOf(question), p.grams);
        const value = (id: string): number | null => propertyValue(propertyById(id)!, world, state).value;
        expect(value(of.property.id), name).toBeCloseTo(p.of, 9);
        expect(value(against.property.id), name).toBeCloseTo(p.against, 9);
        const filled = value('fresh-volume')!;
        expect(Math.abs(filled / question.conditions.volume - 1), name).toBeLessThan(1e-9);
        for (const target of question.targets) {
          const got = value(target.property);
          if (got === null) continue;
          const size = Math.max(Math.abs(target.max ?? 0), Math.abs(target.min ?? 0));
          expect(marginOf(target, got), `${name} ${target.property}`).toBeGreaterThan(-1.01 * SLACK * size);
        }
        expect(missOf(limitsOf(question), world, state), name).toBe(0);
        points++;
      }
    }
    expect(points).toBeGreaterThan(1000);
  });

  it('are not beaten by settling afresh, or from a neighbour, what a point is held to', () => {
    let looked = 0;
    let beaten = 0;
    for (const { question, of, against, found } of traded) {
      const world = worldOf(question);
      for (let i = 1; i < found.points.length - 1; i += 5) {
        const p = found.points[i]!;
        const held = heldTo(question, against, p.against);
        const near = (q: FrontierPoint) => openSystems(question, world).find((s) => s.id === q.system)!;
        const tries = [
          ...openSystems(question, world).map((s) => ({ s, found: settle(held, world, s, { aim: of }) })),
          ...[found.points[i - 1]!, found.points[i + 1]!].map((q) => ({
            s: near(q),
            found: settleNear(held, world, near(q), { aim: of, start: q.grams }),
          })),
        ];
        looked++;
        const better = tries.some(
          ({ s, found: a }) =>
            a?.feasible === true &&
            worse(of, p.of, a.value!) > 1e-4 &&
            // What no scale can weigh is no blend of the frontier.
            weighable(held, world, s, a, of) === a,
        );
        if (better) beaten++;
      }
    }
    expect(looked).toBeGreaterThan(200);
    expect(beaten / looked).toBeLessThan(0.03);
  });

  it('are not beaten by blends stirred at random from those on them', () => {
    let tried = 0;
    for (const [k, { name, question, of, against, found }] of traded.entries()) {
      const world = worldOf(question);
      const random = seededRandom(k + 1);
      const limits = limitsOf(question);
      for (let n = 0; n < 60; n++) {
        const [p, q] = [random.pick(found.points), random.pick(found.points)];
        if (p.system !== q.system) continue;
        const share = random.between(-0.2, 1.2);
        const spread = random.pick([0.003, 0.02, 0.1]);
        const mixed = p.grams.map((g, i) =>
          Math.max(0, (g + share * (q.grams[i]! - g)) * (1 + random.between(-spread, spread))),
        );
        const filled = propertyValue(propertyById('fresh-volume')!, world, stateOf(world, mixed)).value!;
        const grams = mixed.map((g) => (g * question.conditions.volume) / filled);
        const state = stateOf(world, grams);
        if (missOf(limits, world, state, 0) > 0 || grams.some((g, i) => tooLittle(question, g, i))) continue;
        if (overdosed(question, world, grams)) continue;
        const value = ({ property }: Aim) => propertyValue(property, world, state).value;
        const [a, b] = [value(of), value(against)];
        if (a === null || b === null) continue;
        tried++;
        // Worse in neither than a point, and better in one by more than a thousandth.
        for (const point of found.points) {
          const [x, y] = [worse(of, a, point.of), worse(against, b, point.against)];
          expect(x <= -1e-3 && y <= -1e-3, `${name}: ${a} and ${b} beat ${point.of} and ${point.against}`).toBe(false);
        }
      }
    }
    expect(tried).toBeGreaterThan(300);
  });
});

describe('as many points as are asked for', () => {
  const { question, of, against } = traded.find((c) => c.found.points.length >= LEAST_POINTS)!;

  it.each([2, 9, 60])('%i', (points) => {
    expect(frontier(question, of, against, { points }).points.length).toBe(points);
  });

  it('with the same ends', () => {
    const [few, many] = [9, 40].map((points) => frontier(question, of, against, { points }).points);
    expect(few![0]).toEqual(many![0]);
    expect(few!.at(-1)).toEqual(many!.at(-1));
  });

  it('and tells how far it has come, up to the whole', () => {
    const told: number[] = [];
    frontier(question, of, against, { progress: (share) => told.push(share) });
    expect(told.length).toBeGreaterThan(1);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
  });
});

describe('a brief that nothing meets', () => {
  it('has no frontier, whichever two properties', () => {
    const none = cases.filter((c) => c.found.points.length === 0);
    expect(none.length).toBeGreaterThan(5);
    const { question } = smallQuestion(1);
    const impossible = { ...question, targets: [{ property: 'strength', min: 500 }] };
    for (const [of, against] of PAIRS) {
      expect(frontier(impossible, of, against)).toEqual({ points: [], dominated: 0 });
    }
    const noBinder = { ...question, materials: question.materials.filter((m) => m.binder === undefined) };
    expect(frontier(noBinder, PAIRS[0]![0], PAIRS[0]![1])).toEqual({ points: [], dominated: 0 });
  });
});

/**
 * Two plasters, both with R of water, and a filler of which there may be three of the plaster. With V' = V (1 - air) and
 * each gram taking up 1/d, and a plaster R / d(water) besides, a full mould is a mixture of three corners: either plaster
 * by itself, or the second one with all its filler. Cost and fresh weight are sums, so the frontier is the broken line
 * between these corners. (The first plaster with filler lies behind it.)
 */
describe('a frontier told by hand', () => {
  const R = 0.7;
  const WASTE = 0.04;
  const LEAN = 3;
  const WATER = 1 / 0.9982;
  const AIR = 0.025;
  const VOLUME = 500;
  const shelf = ['casting-plaster', 'alpha-gypsum-cement', 'limestone-flour'] as const;
  const PRICES = [0.003, 0.0012, 0.0003] as const;
  const DENSITIES = [2.63, 2.75, 2.71] as const;
  const question: Question = {
    objective: 'cheapest',
    targets: [
      { property: 'water-to-binder', min: R, max: R },
      { property: 'sand-to-binder', max: LEAN },
      { property: 'flow', min: 0.05, max: 20 },
      { property: 'strength', min: 0.01 },
    ],
    conditions: { ...DEFAULT_CONDITIONS, volume: VOLUME, waste: WASTE },
    materials: ['water', ...shelf].map((id) => material(id)),
    doses: [],
    figures: model,
    prices: new Map(shelf.map((id, i) => [id, PRICES[i]!])),
    stock: new Map(),
    batch: { pieces: 1, step: 0.1, fine: null },
  };
  /** A full mould of one plaster with so much filler to each gram of it. */
  const corner = (plaster: 0 | 1, filler: number) => {
    const grams = (VOLUME * (1 - AIR)) / (1 / DENSITIES[plaster] + R * WATER + filler / DENSITIES[2]);
    const cost = (grams * (PRICES[plaster] + filler * PRICES[2])) / (1 - WASTE);
    return { cost, weight: grams * (1 + R + filler) };
  };
  const [cheap, middle, light] = [corner(1, LEAN), corner(1, 0), corner(0, 0)] as const;
  const atWeight = (weight: number): number => {
    const [a, b] = weight > middle.weight ? [cheap, middle] : [middle, light];
    return a.cost + ((b.cost - a.cost) * (weight - a.weight)) / (b.weight - a.weight);
  };
  const { points } = frontier(question, aim('cost', 'min'), aim('fresh-weight', 'min'));

  it('has the figures that the shelf says', () => {
    shelf.forEach((id, i) => {
      expect(material(id).density.value).toBe(DENSITIES[i]);
    });
    expect(model['air-poured']!.value).toBe(AIR);
    // The other plaster with filler is beaten by the line.
    const behind = corner(0, LEAN);
    expect(behind.cost).toBeGreaterThan(1.2 * atWeight(behind.weight));
  });

  it('is the broken line between the corners', () => {
    expect(points.length).toBeGreaterThanOrEqual(LEAST_POINTS);
    expect(points[0]!.of / cheap.cost).toBeCloseTo(1, 5);
    expect(points[0]!.against / cheap.weight).toBeCloseTo(1, 4);
    expect(points.at(-1)!.of / light.cost).toBeCloseTo(1, 4);
    expect(points.at(-1)!.against / light.weight).toBeCloseTo(1, 5);
    for (const p of points) expect(p.of / atWeight(p.against)).toBeCloseTo(1, 4);
    // Some on either side of the kink.
    const heavier = points.filter((p) => p.against > middle.weight).length;
    expect(heavier).toBeGreaterThan(5);
    expect(points.length - heavier).toBeGreaterThan(2);
  });

  it('is convex, as the optimum of a linear program is in its right-hand side', () => {
    const slopes = points.slice(1).map((q, i) => {
      const p = points[i]!;
      return (q.of - p.of) / (p.against - q.against);
    });
    // From the cheapest on, each gram less costs as much as the one before or more.
    slopes.slice(1).forEach((slope, i) => {
      expect(slope).toBeGreaterThan(slopes[i]! * (1 - 0.02) - 1e-9);
    });
    expect(slopes.at(-1)!).toBeGreaterThan(20 * slopes[0]!);
  });
});

/**
 * With the rows frozen at a blend, the least cost as a function of the bound on the weight is the optimum of a linear
 * program as a function of its right-hand side: convex, and never rising as the bound gives way (Bertsimas and Tsitsiklis
 * 1997, Introduction to Linear Optimization, section 5.2, from memory).
 */
describe('cost against dry weight with the rows of one blend', () => {
  const STEPS = 16;

  it('is convex', () => {
    let curves = 0;
    let kinks = 0;
    for (const { name, question, of, against, found } of traded) {
      if (of !== PAIRS[0]![0]) continue;
      const middle = found.points[Math.floor(found.points.length / 2)]!;
      const ends = [found.points[0]!, found.points.at(-1)!].map((p) => p.against);
      const world = worldOf(question);
      const system = openSystems(question, world).find((s) => s.id === middle.system)!;
      const columns = columnsOf(question, world, system);
      const open = columns.map((c) => (c.upper ?? Number.POSITIVE_INFINITY) > 0);
      const hood = neighbourhood(world, middle.grams, open);
      const least = Array.from({ length: STEPS + 1 }, (_v, k) => {
        const bound = ends[1]! + ((ends[0]! - ends[1]!) * k) / STEPS;
        const held = heldTo(question, against, bound);
        const answer = solveLp(soughtProgram(of, blendProgram(held, world, hood, system, columns), world, hood));
        return answer.status === 'optimal' ? answer.objective : Number.POSITIVE_INFINITY;
      });
      const known = least.filter(Number.isFinite);
      // Where a bound leaves no blend, a tighter one leaves none either.
      expect(least.slice(STEPS + 1 - known.length), name).toEqual(known);
      if (known.length < 3) continue;
      curves++;
      const falls = known.slice(1).map((v, k) => known[k]! - v);
      const dust = 1e-8 * known[0]!;
      falls.forEach((fall, k) => {
        expect(fall, name).toBeGreaterThan(-dust);
        if (k === 0) return;
        expect(fall, name).toBeLessThan(falls[k - 1]! + dust);
        if (fall < falls[k - 1]! - 1e-4 * known[0]!) kinks++;
      });
    }
    expect(curves).toBeGreaterThan(12);
    expect(kinks).toBeGreaterThan(10);
  });
});
