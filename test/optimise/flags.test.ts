import { beforeAll, describe, expect, it } from 'vitest';
import { type World, worldOf } from '../../src/core/blend/world.js';
import { type BlendProgram, blendProgram, columnsOf } from '../../src/core/optimise/blend-program.js';
import { type Flagged, flagsUp, mostOfEach, withFlags } from '../../src/core/optimise/flags.js';
import { solveMilp } from '../../src/core/optimise/lp/milp.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';
import { AIMS, soughtProgram } from '../../src/core/optimise/objective.js';
import { settle } from '../../src/core/optimise/settle.js';
import { neighbourhood } from '../../src/core/optimise/tangent.js';
import { highsReference, type ReferenceSolver } from '../support/highs-reference.js';
import { smallQuestion, subsets } from '../support/small-shelf.js';

interface Case {
  readonly seed: number;
  readonly world: World;
  readonly program: BlendProgram;
  readonly linear: LinearProgram;
  readonly flagged: readonly Flagged[];
}

const LEAST = 3;
let cases: readonly Case[] = [];
let reference: ReferenceSolver;

beforeAll(async () => {
  reference = await highsReference();
  cases = Array.from({ length: 40 }, (_v, k) => k + 1).flatMap((seed): Case[] => {
    const { question, system } = smallQuestion(seed);
    const world = worldOf(question);
    const aim = AIMS[question.objective];
    const settled = settle(question, world, system, { aim });
    if (settled === null) return [];
    const columns = columnsOf(question, world, system);
    const hood = neighbourhood(
      world,
      settled.grams,
      columns.map((c) => (c.upper ?? 1) > 0),
    );
    const program = blendProgram(question, world, hood, system, columns);
    const most = mostOfEach(program, world);
    const flagged = world.materials.flatMap((m, i): Flagged[] =>
      m.kind === 'water' ? [] : [{ material: i, least: LEAST, most: most[i]!, counted: true, kept: false }],
    );
    return [{ seed, world, program, linear: soughtProgram(aim, program, world, hood), flagged }];
  });
});

/** The best blend of just this set by the rows, each of the set at its least or more. */
function bestOf({ linear, flagged }: Case, set: readonly number[]): number | null {
  const columns = linear.columns.map((column, i) => {
    if (!flagged.some((f) => f.material === i)) return column;
    return set.includes(i) ? { ...column, lower: LEAST } : { ...column, upper: 0 };
  });
  const answer = solveLp({ ...linear, columns });
  return answer.status === 'optimal' ? answer.objective : null;
}

const better = (sense: 'min' | 'max', a: number, b: number): boolean => (sense === 'min' ? a < b : a > b);

describe('ingredients by branch and bound over the rows', () => {
  it.each([1, 2, 3])('are the best of all sets of at most %i, by trying every set', (most) => {
    let solved = 0;
    let impossible = 0;
    for (const one of cases) {
      const answer = solveMilp(withFlags(one.linear, one.flagged, most, []));
      let best: number | null = null;
      for (const set of subsets(
        one.flagged.map((f) => f.material),
        most,
      )) {
        const value = bestOf(one, set);
        if (value !== null && (best === null || better(one.linear.sense, value, best))) best = value;
      }
      if (best === null) {
        expect(answer.status, `seed ${one.seed}`).toBe('infeasible');
        impossible++;
        continue;
      }
      if (answer.status !== 'optimal') throw new Error(`seed ${one.seed}: ${answer.status}`);
      expect(Math.abs(answer.objective - best), `seed ${one.seed}`).toBeLessThan(1e-5 * Math.max(1, Math.abs(best)));
      expect(flagsUp(answer.x, one.linear.columns.length, one.flagged).length).toBeLessThanOrEqual(most);
      solved++;
    }
    expect(solved).toBeGreaterThan(most === 1 ? 1 : 10);
    expect(solved + impossible).toBe(cases.length);
  });

  it('agree with HiGHS', () => {
    let agreed = 0;
    for (const one of cases) {
      const program = withFlags(one.linear, one.flagged, 2, []);
      const ours = solveMilp(program);
      const theirs = reference(program, { integers: true });
      if (theirs.status === 'unclear') continue;
      expect(ours.status, `seed ${one.seed}`).toBe(theirs.status);
      if (ours.status !== 'optimal') continue;
      expect(Math.abs(ours.objective - theirs.objective)).toBeLessThan(1e-4 * Math.max(1, Math.abs(theirs.objective)));
      agreed++;
    }
    expect(agreed).toBeGreaterThan(10);
  });

  it('never repeat a set that was tried, and find the next best', () => {
    let again = 0;
    for (const one of cases.slice(0, 12)) {
      const tried: number[][] = [];
      let last: number | null = null;
      for (let round = 0; round < 4; round++) {
        const answer = solveMilp(withFlags(one.linear, one.flagged, 3, tried));
        if (answer.status !== 'optimal') break;
        const set = flagsUp(answer.x, one.linear.columns.length, one.flagged);
        expect(tried.map(String)).not.toContain(String(set));
        // The next best set is never better than the one before.
        const worse = one.linear.sense === 'min' ? 1 : -1;
        if (last !== null) expect(worse * (answer.objective - last)).toBeGreaterThan(-1e-6 * Math.abs(last) - 1e-9);
        last = answer.objective;
        tried.push(set);
        again++;
      }
    }
    expect(again).toBeGreaterThan(20);
  });

  it('have a big-M that no blend of the rows exceeds and some blend reaches, never more than the mould holds', () => {
    let reached = 0;
    for (const { world, program, flagged } of cases) {
      for (const { material, most } of flagged) {
        const filled = world.conditions.volume! / world.materials[material]!.volume;
        expect(most).toBeLessThanOrEqual(filled);
        const objective = program.columns.map((_c, j) => Number(j === material));
        const theirs = reference({ ...program, sense: 'max', objective });
        if (theirs.status !== 'optimal') continue;
        expect(most).toBeGreaterThanOrEqual(Math.min(filled, theirs.objective) - 1e-6);
        expect(most).toBeLessThan(theirs.objective + 1e-3 + 1e-6 * theirs.objective);
        reached++;
      }
    }
    expect(reached).toBeGreaterThan(100);
  });
});
