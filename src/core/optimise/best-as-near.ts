import type { World } from '../blend/world.js';
import { AS_NEAR, asNear } from './as-near.js';
import { type Side, sidesOf } from './back-off.js';
import { givenUp } from './given-up.js';
import { AGREE, better, missOf, missOfOne } from './miss.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';
import { searchOf } from './search-ground.js';
import { settle } from './settle.js';
import type { SystemAnswer } from './settle-systems.js';
import type { Settled } from './settled.js';
import { limitsIn } from './standing-limits.js';
import { supported } from './support.js';

/** Share of a limit that what is missed may give way by for the search to have room. */
const GIVE = 5e-4;
/** Times that every missed side is looked at. */
const ROUNDS = 2;

/**
 * A nearest blend with what the least sum of misses leaves undone. Where one limit is far out of reach the sum stands still
 * though others could come closer: so each missed side is brought as close as the others allow from where they stand. And
 * of all blends that come as near, the best by the objective is taken. The answer itself where neither finds another.
 */
export function bestAsNear(question: Question, world: World, answer: SystemAnswer, aim: Aim): SystemAnswer {
  const { system } = answer;
  const limits = limitsIn(question, system);
  const missed = ({ state }: Pick<Settled, 'state'>): number => missOf(limits, world, state);
  const asked = searchOf(question, world, system, { aim });
  let at = answer.answer;
  for (let round = 0; round < ROUNDS; round++) {
    const before = at.miss;
    for (const side of missedSides(question, world, at)) {
      const near = asNear(question, world, at.state, GIVE);
      const target = near.targets.find((t) => t.property === side.target.property)!;
      const { others, reach } = givenUp(near, { ...side, target });
      const found = settle(others, world, system, { aim: reach, start: at.grams });
      if (found?.feasible !== true || missed(found) >= at.miss - AGREE) continue;
      at = asked.finish(asked.judge(found.grams), found.still, at.solves + found.solves);
    }
    if (at.miss > (1 - AS_NEAR) * before) break;
  }
  const near = asNear(question, world, at.state, GIVE);
  const free = settle(near, world, system, { aim, start: at.grams });
  const kept = free?.feasible === true ? supported(near, world, system, free, aim) : null;
  if (kept === null || !kept.answer.feasible) return answer;
  const found = asked.finish(asked.judge(kept.answer.grams), kept.answer.still, at.solves + kept.answer.solves);
  const least = answer.answer;
  const nearer = found.miss < least.miss - AGREE;
  const asGood = found.miss <= (1 + AS_NEAR) * least.miss && better({ ...found, miss: 0 }, { ...least, miss: 0 }, aim);
  return nearer || asGood ? { system, answer: found, free: null, tried: kept.tried } : answer;
}

/** Sides of targets and standing limits that a blend misses. */
function missedSides(question: Question, world: World, { state }: Settled): Side[] {
  return sidesOf(limitsIn(question, { holds: [] })).filter(
    ({ target: { property }, side, limit }) => missOfOne({ property, [side]: limit }, world, state) > 0,
  );
}
