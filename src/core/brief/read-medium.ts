import type { Conditions } from '../blend/conditions.js';
import type { Question } from '../optimise/question.js';
import type { Closeness } from '../optimise/wanted.js';
import { type Gather, gather } from '../problems/gather.js';
import { type Problem, refuse, type Where } from '../problems/problem.js';
import { waterDensity } from '../science/water-density.js';
import { gramsOf, parseAmount, parseQuantity } from '../units/quantity.js';
import { inPlay } from './in-play.js';
import type { WrittenMedium } from './medium-schema.js';
import { contradictions, type Observed, type Tells, tellsOf } from './medium-tells.js';
import { readWanted } from './medium-wanted.js';
import { wallsOf } from './mould.js';
import { noPrices } from './no-prices.js';
import { readLimits } from './read-limits.js';
import { readMould } from './read-mould.js';
import { readSetting, type Setting } from './read-setting.js';
import { readTargets } from './read-targets.js';
import type { Shelf } from './shelf.js';

/** A medium that a stand-in is sought for. */
export interface Medium {
  readonly title: string;
  readonly observed: Observed;
  readonly tells: Tells;
  readonly closeness: Closeness;
  readonly question: Question;
  readonly setting: Setting;
  readonly leftOut: readonly { readonly material: string; readonly why: string }[];
  readonly warnings: readonly Problem[];
}

type At = (path: string) => Where;

/** What all of the wanted price counts for as a tie-breaker, in tolerances. */
const THRIFT = 0.02;

/** g/cm³ of acrylic casting liquids at a quarter to a half of solids; from memory. */
const ACRYLIC_DENSITY = 1.04;

/**
 * A checked description of a medium in core units: what is wanted, each with its own tolerance, and the question that
 * says what may be used and must hold.
 * @throws InputProblems with everything that is wrong, each with its place.
 */
export function readMedium(written: WrittenMedium, shelf: Shelf, at: At): Medium {
  const all = gather();
  const { shop } = shelf;
  const setting = readSetting(written, { written: written.batch?.waste, path: 'batch.waste' }, shop, all, at);
  const sample = written.sample === undefined ? null : readSample(written.sample, setting.conditions, all, at);
  const mould =
    written.mould === undefined ? null : all.attempt(() => readMould(written.mould!, shelf, setting.conditions, at));
  const volume = mould?.volume ?? sample?.volume;
  if (written.mould === undefined && written.sample === undefined) {
    all.add({
      code: 'field-missing',
      severity: 'error',
      where: at('mould'),
      expected: 'a mould, or a sample with its volume',
    });
  }
  const mix = written.mix === undefined ? null : (all.attempt(() => readMix(written, all, at)) ?? null);
  const observed: Observed = {
    kind: written.kind ?? null,
    water: mix?.water ?? null,
    polymer: mix?.polymer ?? 0,
    demoulded: perVolume(sample?.demoulded, sample?.volume),
    dry: perVolume(sample?.dry, sample?.volume),
    liquidDensity: mix?.density ?? 1,
  };
  const wanted = readWanted(written, observed, volume ?? 1, setting.conditions, shelf, all, at);
  const targets = readTargets(written.targets ?? {}, shop.currency, all, at);
  const wantsPrices = [...wanted, ...targets].some((w) => w.property === 'cost');
  const acrylic = written.mix?.['liquid-is'] === 'acrylic';
  const play = inPlay(written, shelf, setting.safety, [], wantsPrices, at, all, (m) => acrylic && m.kind === 'polymer');
  const limits = readLimits(written.limits, [], play.materials, all, at);
  checkKind(written, all, at);
  // What was described and could not be read has been told.
  if (wanted.length === 0 && all.problems.length === 0) {
    const expected = 'something to come close to: a sample with its weights, times, hardness or a price';
    all.add({ code: 'field-missing', severity: 'error', where: at('sample'), expected });
  }
  if (wantsPrices && shelf.prices.size === 0) {
    all.add({ ...noPrices(shelf, at('price')), hint: 'or leave the price out' });
  }
  const tells = tellsOf(observed);
  const warnings = [...all.finish(), ...contradictions(observed, tells, at)];
  const conditions = {
    ...setting.conditions,
    volume: volume!,
    ...wallsOf(written.wall, mould, setting.conditions),
  };
  const price = wanted.find((w) => w.property === 'cost')?.high;
  return {
    title: written.title ?? 'untitled medium',
    observed,
    tells,
    closeness: { sense: 'min', wanted, thrift: price === undefined ? 0 : THRIFT / price },
    setting: { ...setting, conditions },
    leftOut: play.leftOut,
    warnings,
    question: {
      objective: 'cheapest',
      targets,
      conditions,
      materials: play.materials,
      doses: [],
      figures: shelf.figures,
      ...(shelf.learned === null ? {} : { together: shelf.learned.together }),
      prices: shelf.prices,
      stock: shelf.stock,
      batch: { pieces: written.batch?.pieces ?? 1, ...shop.scale },
      limits,
    },
  };
}

const perVolume = (weight: number | undefined, volume: number | undefined): number | null =>
  weight === undefined || volume === undefined ? null : weight / volume;

function readSample(
  sample: NonNullable<WrittenMedium['sample']>,
  conditions: Conditions,
  all: Gather,
  at: At,
): { volume: number; demoulded?: number; dry?: number } | undefined {
  const volume = all.attempt(() => {
    const fill = parseAmount(sample.volume, at('sample.volume'), { positive: true });
    return 'cm3' in fill ? fill.cm3 : fill.grams / waterDensity(conditions.temperature);
  });
  const weight = (name: 'demoulded' | 'dry') =>
    sample[name] === undefined
      ? undefined
      : all.attempt(() => parseQuantity(sample[name], 'mass', at(`sample.${name}`), { positive: true }));
  const [demoulded, dry] = [weight('demoulded'), weight('dry')];
  if (demoulded !== undefined && dry !== undefined && dry > demoulded) {
    all.add({
      code: 'target-contradicts',
      severity: 'error',
      where: at('sample.dry'),
      found: `${String(sample.dry)} dry, ${String(sample.demoulded)} when demoulded`,
      expected: 'a dry piece that is not heavier than when it left the mould',
    });
  }
  if (volume === undefined) return undefined;
  return { volume, ...(demoulded === undefined ? {} : { demoulded }), ...(dry === undefined ? {} : { dry }) };
}

/** Grams of water and polymer for each gram of powder, and the liquid's density. */
function readMix(written: WrittenMedium, all: Gather, at: At): { water: number; polymer: number; density: number } {
  const mix = written.mix!;
  const acrylic = mix['liquid-is'] === 'acrylic';
  const density = acrylic ? ACRYLIC_DENSITY : 1;
  const powder = parseQuantity(mix.powder, 'mass', at('mix.powder'), { positive: true, assume: 'g' });
  const liquid = gramsOf(parseAmount(mix.liquid, at('mix.liquid'), { positive: true, assume: 'g' }), density);
  const left = mix['left-when-dry'];
  if (!acrylic) {
    if (left !== undefined) {
      const expected = 'only beside liquid-is: acrylic';
      all.add({ code: 'brief-contradicts', severity: 'error', where: at('mix.left-when-dry'), expected });
    }
    return { water: liquid / powder, polymer: 0, density };
  }
  if (left === undefined) {
    refuse({
      code: 'field-missing',
      where: at('mix.left-when-dry'),
      expected: 'what is left of the liquid when it has dried, such as "28 %"',
      hint: 'weigh a spoonful of it, let it dry in a warm room for a few days, and weigh again',
    });
  }
  const solids = parseQuantity(left, 'fraction', at('mix.left-when-dry'), { positive: true, assume: '%' });
  if (solids >= 0.8) {
    const found = String(left);
    refuse({ code: 'field-out-of-range', where: at('mix.left-when-dry'), found, expected: 'less than 80 %' });
  }
  return { water: (liquid * (1 - solids)) / powder, polymer: (liquid * solids) / powder, density };
}

function checkKind(written: WrittenMedium, all: Gather, at: At): void {
  if (written.kind !== 'polymer-gypsum' || written.mix?.['liquid-is'] === 'acrylic') return;
  all.add({
    code: 'brief-contradicts',
    severity: 'error',
    where: at('mix.liquid-is'),
    found: 'a polymer-modified gypsum mixed with water',
    expected: 'liquid-is: acrylic, with powder, liquid and what is left of it when dry',
  });
}
