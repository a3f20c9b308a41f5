import { hardens } from '../blend/state/strength-state.js';
import type { World } from '../blend/world.js';
import { sidesOf } from './back-off.js';
import { bestAsNear } from './best-as-near.js';
import { givenUp } from './given-up.js';
import { AGREE, better, missOf } from './miss.js';
import type { Aim, Sought } from './objective.js';
import type { Question } from './question.js';
import { searchOf } from './search-ground.js';
import { settle, settleNear } from './settle.js';
import type { SystemAnswer } from './settle-systems.js';
import { limitsIn } from './standing-limits.js';
import { supported } from './support.js';
import type { BinderSystem } from './systems.js';

/** A blend to look from for one that misses less, and what it misses itself. */
interface Place {
  readonly system: BinderSystem;
  readonly grams: readonly number[];
  readonly miss: number;
}

/**
 * Answers of which none keeps every limit, with one that comes nearer than all of them, the nearest as good as can be.
 * Standing limits go last here: what does not pour is no use, however near it comes to the brief.
 */
export function withNearer(
  question: Question,
  world: World,
  systems: readonly BinderSystem[],
  answers: readonly SystemAnswer[],
  aim: Sought,
): readonly SystemAnswer[] {
  if ('wanted' in aim || answers.length === 0) return answers;
  const asked = { ...question, unmet: true };
  const standing = answers.map((a) => keepingStanding(asked, world, a, aim));
  const all = withPlace(asked, world, systems, standing, aim);
  const first = all.reduce((a, b) => (better(b.answer, a.answer, aim) ? b : a));
  return all.map((a) => (a === first ? bestAsNear(asked, world, a, aim) : a));
}

/** An answer judged by dear standing limits; where it misses one, the best that the search comes to with them. */
function keepingStanding(asked: Question, world: World, answer: SystemAnswer, aim: Aim): SystemAnswer {
  const { system } = answer;
  const { grams, still, solves, miss } = answer.answer;
  const search = searchOf(asked, world, system, { aim });
  const same = { ...answer, answer: search.finish(search.judge(grams), still, solves) };
  if (same.answer.miss <= miss + AGREE) return same;
  const others = [{ aim }, { aim, start: grams }].flatMap((options): SystemAnswer[] => {
    const free = settle(asked, world, system, options);
    const kept = free && supported(asked, world, system, free, aim);
    return kept === null ? [] : [{ system, ...kept }];
  });
  return others.reduce((a, b) => (better(b.answer, a.answer, aim) ? b : a), same);
}

/**
 * Answers of which none keeps every limit, with one that comes nearer than all of them in place of its system's, where
 * there is one. The search for the nearest goes downhill, and the least sum of misses may lie beyond a hill: so each
 * side of the targets is given up by itself, and the search is begun anew where it can still come to with all the
 * others kept.
 */
function withPlace(
  question: Question,
  world: World,
  systems: readonly BinderSystem[],
  answers: readonly SystemAnswer[],
  aim: Aim,
): readonly SystemAnswer[] {
  const place = nearestPlace(question, world, systems, Math.min(...answers.map((a) => a.answer.miss)));
  if (place === null) return answers;
  const { system, grams } = place;
  const free = settleNear(question, world, system, { aim, start: grams });
  const kept = supported(question, world, system, free, aim);
  if (kept === null || answers.some((a) => !better(kept.answer, a.answer, aim))) return answers;
  return [...answers.filter((a) => a.system !== system), { system, ...kept }];
}

/** Where one side can still come to with all the others kept: the nearest such blend, if it misses less than `least`. */
function nearestPlace(question: Question, world: World, systems: readonly BinderSystem[], least: number): Place | null {
  let place: Place | null = null;
  for (const side of sidesOf(question.targets)) {
    const { others, reach } = givenUp(question, side);
    for (const system of systems) {
      const found = settle(others, world, system, { aim: reach });
      if (found?.feasible !== true || !hardens(world, found.grams)) continue;
      const miss = missOf(limitsIn(question, system), world, found.state);
      if (miss < (place?.miss ?? least) - AGREE) place = { system, grams: found.grams, miss };
    }
  }
  return place;
}
