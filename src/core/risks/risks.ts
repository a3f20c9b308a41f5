import { propertyById } from '../blend/properties/index.js';
import { propertyValue } from '../blend/property.js';
import { stateOf } from '../blend/state/state.js';
import { type Grams, type WorldInput, worldOf } from '../blend/world.js';
import type { Use } from '../safety/facts.js';
import { blooming, converting, flashing, glassSwelling, overRetarded, quickened, swelling } from './chemistry.js';
import { chilled } from './cold.js';
import { dulled, overPigmented } from './colour.js';
import { groundless, overdosed } from './dose.js';
import { freezing } from './frost.js';
import { overheating } from './heat.js';
import { carbonating, limeShrinking } from './lime.js';
import { RISK_LEVELS, type Risk, type RiskCase, type Screen, type Screens } from './risk.js';
import { neverSetting } from './setting.js';
import { cracking, driedTooHot, growing, steaming } from './shape.js';

/** Every screen, in the order it is printed within a level. */
const SCREENS: readonly (Screen | Screens)[] = [
  flashing,
  quickened,
  overRetarded,
  overdosed,
  groundless,
  neverSetting,
  chilled,
  overheating,
  swelling,
  glassSwelling,
  overPigmented,
  cracking,
  freezing,
  blooming,
  dulled,
  converting,
  steaming,
  driedTooHot,
  growing,
  carbonating,
  limeShrinking,
];

/** The case of a blend: one piece, or a batch assessed by itself. Parts of 0 g are left out. */
export function riskCase(input: WorldInput, grams: Grams, uses: readonly Use[] = []): RiskCase {
  const used = input.materials.map((_m, i) => i).filter((i) => grams[i]! > 0);
  const world = worldOf({ ...input, materials: used.map((i) => input.materials[i]!) });
  const state = stateOf(
    world,
    used.map((i) => grams[i]!),
  );
  return {
    parts: used.map((i) => ({ material: input.materials[i]!, grams: grams[i]! })),
    conditions: input.conditions,
    uses,
    world,
    state,
    value: (id) => propertyValue(propertyById(id)!, world, state).value,
  };
}

/** What may spoil a piece of these grams that is for these uses, the worst first. */
export function risksOf(input: WorldInput, grams: Grams, uses: readonly Use[] = []): Risk[] {
  const mix = riskCase(input, grams, uses);
  const found = SCREENS.flatMap((screen) => screen(mix) ?? []);
  return found.sort((a, b) => RISK_LEVELS.indexOf(b.level) - RISK_LEVELS.indexOf(a.level));
}
