import type { Target } from '../blend/target.js';
import { gather } from '../problems/gather.js';
import type { Problem, Where } from '../problems/problem.js';
import { mixVolume } from './mix-volume.js';
import { wallsOf } from './mould.js';
import type { Part } from './read-amounts.js';
import { readAmounts } from './read-amounts.js';
import { readMould } from './read-mould.js';
import { readSetting, type Setting } from './read-setting.js';
import { readTargets } from './read-targets.js';
import { recipeWarnings } from './recipe-warnings.js';
import type { WrittenRecipe } from './schema.js';
import type { Shelf } from './shelf.js';

export interface Recipe {
  readonly title: string;
  readonly parts: readonly Part[];
  /** False when only proportions were given and there is no mould to fill: masses are then of 1 kg of mix. */
  readonly scaled: boolean;
  readonly setting: Setting;
  readonly targets: readonly Target[];
  /** Plain warnings about dangerous or nonsense proportions. */
  readonly warnings: readonly Problem[];
}

/**
 * A checked recipe in grams as written; assessing it per mould scales it (see recipe-blend.ts).
 * @throws InputProblems with everything that is wrong, each with its place.
 */
export function readRecipe(written: WrittenRecipe, shelf: Shelf, at: (path: string) => Where): Recipe {
  const all = gather();
  const setting = readSetting(written, { written: written.waste, path: 'waste' }, shelf.shop, all, at);
  const amounts = all.attempt(() => readAmounts(written, shelf, '', at));
  const mould = written.mould;
  const volume = mould === undefined ? null : all.attempt(() => readMould(mould, shelf, setting.conditions, at));
  const targets = readTargets(written.targets ?? {}, shelf.shop.currency, all, at);
  all.finish();
  const walls = wallsOf(written.wall, volume, setting.conditions);
  const conditions = { ...setting.conditions, volume: volume?.volume ?? null, ...walls };
  const parts = amounts!.parts;
  const cast =
    conditions.volume === null || !amounts!.scaled
      ? null
      : { mould: conditions.volume, mix: () => mixVolume(parts, shelf, conditions) };
  return {
    title: written.title ?? 'untitled recipe',
    parts,
    scaled: amounts!.scaled,
    setting: { ...setting, conditions },
    targets,
    warnings: recipeWarnings(parts, cast, at),
  };
}
