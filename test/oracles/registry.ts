import { blendRuns } from './runs/blend.js';
import type { Run } from './runs/given.js';
import { hydrationRuns } from './runs/hydration.js';
import { mixRuns } from './runs/mix.js';
import { plasterRuns } from './runs/plaster.js';
import { rulesRuns } from './runs/rules.js';
import { sandRuns } from './runs/sand.js';
import { strengthRuns } from './runs/strength.js';

/** What each example's `run` key computes. Runs call only src/core functions; units come and go in given.ts. */
export const REGISTRY: Readonly<Record<string, Run>> = {
  ...mixRuns,
  ...plasterRuns,
  ...hydrationRuns,
  ...strengthRuns,
  ...sandRuns,
  ...rulesRuns,
  ...blendRuns,
};
