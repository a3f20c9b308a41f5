import { evaluate } from '../blend/assess.js';
import { leanBlend } from '../blend/drawn.js';
import { demouldTime, workingTime } from '../blend/properties/setting.js';
import { latinHypercube, likelyRange } from '../blend/sampling.js';
import { type Grams, type World, type WorldInput, worldOf } from '../blend/world.js';
import { hoursUntilDry } from './drying-time.js';

/** What decides how an order of a blend runs. */
export interface Times {
  /** min from the water to the last moment the mix still pours; null: nothing in it sets. */
  readonly working: number | null;
  /** min to demoulding. */
  readonly demould: number | null;
  /** h from the water until the piece is at constant weight; Infinity when it never is. */
  readonly dry: number;
}

export interface LikelyTimes extends Times {
  /** Working time at its 5th percentile, demoulding and drying at their 95th: a slow week with a quick bag. */
  readonly careful: Times;
}

const DRAWS = 200;

const timesOf = (world: World, grams: Grams): Times => {
  const { state, value } = evaluate(world, grams);
  return { working: value(workingTime), demould: value(demouldTime), dry: hoursUntilDry(world, state) };
};

/** Times of a blend, and the careful ones from the ranges of the figures. */
export function likelyTimes(input: WorldInput, grams: Grams, seed = 1): LikelyTimes {
  const lean = leanBlend(input, grams);
  const draws = latinHypercube(DRAWS, seed, input.together);
  const drawn = Array.from({ length: DRAWS }, (_v, j) => timesOf(worldOf(lean.input, draws.reading(j)), lean.grams));
  const likely = (of: (t: Times) => number | null, end: 'low' | 'high'): number | null => {
    const sample = drawn.map(of).filter((v): v is number => v !== null);
    return sample.length === 0 ? null : likelyRange(sample)[end];
  };
  const careful: Times = {
    working: likely((t) => t.working, 'low'),
    demould: likely((t) => t.demould, 'high'),
    dry: drawn.some((t) => t.dry === Number.POSITIVE_INFINITY)
      ? Number.POSITIVE_INFINITY
      : likely((t) => t.dry, 'high')!,
  };
  return { ...timesOf(worldOf(lean.input), lean.grams), careful };
}
