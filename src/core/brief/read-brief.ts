import type { Objective, Question } from '../optimise/question.js';
import { gather } from '../problems/gather.js';
import type { Where } from '../problems/problem.js';
import { inPlay, readDoses } from './in-play.js';
import { wallsOf } from './mould.js';
import { noPrices } from './no-prices.js';
import { readLimits, readParts } from './read-limits.js';
import { readMould } from './read-mould.js';
import { readSetting, type Setting } from './read-setting.js';
import { readTargets } from './read-targets.js';
import type { WrittenBrief } from './schema.js';
import type { Shelf } from './shelf.js';

export interface Brief {
  readonly title: string;
  readonly question: Question;
  readonly setting: Setting;
  /** Materials of the shelf that are not in play, and why. */
  readonly leftOut: readonly { readonly material: string; readonly why: string }[];
  /** Ids of materials that the brief names under “materials”, and where. */
  readonly named: ReadonlyMap<string, Where>;
}

/**
 * A brief in core units. `written` as `checkShape` gives it: its fields are not looked over here.
 * @throws InputProblems with everything that is wrong, each with its place.
 */
export function readBrief(written: WrittenBrief, shelf: Shelf, at: (path: string) => Where): Brief {
  const all = gather();
  const { shop } = shelf;
  const setting = readSetting(written, { written: written.batch?.waste, path: 'batch.waste' }, shop, all, at);
  const mould = all.attempt(() => readMould(written.mould, shelf, setting.conditions, at));
  const targets = readTargets(written.targets ?? {}, shop.currency, all, at);
  const doses = readDoses(written, shelf, setting.conditions.service, at, all);
  const wantsPrices = needsPrices(written.objective, targets);
  const play = inPlay(written, shelf, setting.safety, doses, wantsPrices, at, all);
  const limits = readLimits(written.limits, doses, play.materials, all, at);
  if (wantsPrices && shelf.prices.size === 0) {
    all.add(noPrices(shelf, at(written.objective === 'cheapest' ? 'objective' : 'targets.cost')));
  }
  all.finish();
  const conditions = {
    ...setting.conditions,
    volume: mould!.volume,
    ...wallsOf(written.wall, mould, setting.conditions),
  };
  return {
    title: written.title ?? 'untitled brief',
    setting: { ...setting, conditions },
    leftOut: play.leftOut,
    named: play.named,
    question: {
      objective: written.objective,
      targets,
      conditions,
      materials: play.materials,
      doses,
      figures: shelf.figures,
      ...(shelf.learned === null ? {} : { together: shelf.learned.together }),
      prices: shelf.prices,
      stock: shelf.stock,
      batch: { pieces: written.batch?.pieces ?? 1, ...shop.scale },
      limits,
      placeOf: at,
      ...(written.parts === undefined ? {} : { parts: readParts(written.parts) }),
    },
  };
}

const needsPrices = (objective: Objective, targets: readonly { property: string }[]): boolean =>
  objective === 'cheapest' || targets.some((t) => t.property === 'cost');
