import { evenSteps, mouldLoss, plasterConversion, semiAdiabaticPeak } from '../../science/heat.js';
import { grown } from '../../science/hydration.js';
import type { Grams, World } from '../world.js';
import { eventMinutes, type SettingState } from './setting-state.js';
import type { WaterState } from './water-state.js';

export interface HeatState {
  /** J/K that a gram of each material takes up. */
  readonly capacity: readonly number[];
  /** J that a gram of each material gives off in the first day. */
  readonly heat: readonly number[];
  /** Share of the adiabatic rise that is reached in the mould, 0..1. Worked out when first asked for. */
  readonly reached: () => number;
}

/** J/(g K). Water 4.18; dry powders and grains about 0.84 (quartz and clinker, from memory); gypsum 1.08 (thermoddem). */
const WATER_HEAT_CAPACITY = 4.18;
const SOLID_HEAT_CAPACITY = 0.84;

/** The first day holds the peak of any small cast. */
const FOLLOWED_HOURS = 24;
/** Plaster is followed in finer steps while it sets and while it cools: to so many times its final set. */
const SETTING = { sets: 2.5, steps: 24 } as const;
const COOLING = { sets: 12, steps: 8 } as const;
/**
 * After that, and of cement. Of random casts 95 in a hundred come within 0.2 K of a hundred times as many steps, and thick
 * blocks near boiling within 2.5 K (test/blend/heat-followed): what the figures behind it leave open is ten times as much.
 */
const STEPS = { plaster: 24, cement: 48 } as const;
/** A blend drowned in retarder never sets; a year stands for that here. */
const LONGEST_SET_MINUTES = 60 * 24 * 365;

/**
 * Ends of the steps [h] in which a cast's heat is followed. finalSet [h, of the plaster in it; null: none]; finer: so many times as many.
 */
export function followedTimes(finalSet: number | null, finer = 1): number[] {
  if (finalSet === null) return evenSteps(FOLLOWED_HOURS, finer * STEPS.cement);
  const times: number[] = [];
  for (const { sets, steps } of [SETTING, COOLING, { sets: Number.POSITIVE_INFINITY, steps: STEPS.plaster }]) {
    const from = times.at(-1) ?? 0;
    const to = Math.min(FOLLOWED_HOURS, sets * finalSet);
    if (to > from) times.push(...evenSteps(to - from, finer * steps, from));
  }
  return times;
}

const CEMENT_TIMES = followedTimes(null);

/**
 * Heat of the first day, and how much of it the piece keeps in its mould: one lump, losing heat through all its faces and a
 * silicone mould (science/heat.ts). A plate of thickness L has 2/L cm² of face per cm³; a solid of known shape counts as the
 * plate that has as much face as it.
 */
export function heatState(
  world: World,
  grams: Grams,
  setting: SettingState,
  water: WaterState,
  air: number,
): HeatState {
  const { model, conditions } = world;
  const dayOne = model('heat-day-one');
  const capacity = world.materials.map((m) => WATER_HEAT_CAPACITY * (1 - m.solids) + SOLID_HEAT_CAPACITY * m.solids);
  const quickDay = water.quickDegreeAt(24);
  const heat = world.materials.map((m) => {
    if (m.family === null) return 0;
    if (m.family === 'portland') return m.heat * dayOne;
    // Binders short of water give off only the heat of what reacts.
    if (m.family === 'gypsum') return m.heat * water.gypsumDegree;
    return m.heat * quickDay;
  });
  let known: number | undefined;
  const reached = (): number => {
    known ??= reachedShare();
    return known;
  };
  const reachedShare = (): number => {
    let ofGypsum = 0;
    let ofPortland = 0;
    let ofQuick = 0;
    let volume = 0;
    let thermalMass = 0;
    for (let i = 0; i < world.materials.length; i++) {
      const m = world.materials[i]!;
      const g = grams[i]!;
      const given = g * heat[i]!;
      if (m.family === 'gypsum') ofGypsum += given;
      else if (m.family === 'portland') ofPortland += given;
      else ofQuick += given;
      volume += (g * m.volume) / (1 - air);
      thermalMass += g * capacity[i]!;
    }
    const total = ofGypsum + ofPortland + ofQuick;
    const setsAt = eventMinutes(setting.form('finalSet'), grams);
    if (total <= 0 || setsAt === null) return 1;
    const finalSet = Math.min(setsAt, LONGEST_SET_MINUTES);
    const gypsum = ofGypsum / total;
    const portland = ofPortland / total;
    const quick = ofQuick / total;
    const shape = { tauHours: model('hydration-tau'), beta: model('hydration-beta') };
    const day = grown(FOLLOWED_HOURS, shape);
    const quickShape = { tauHours: model('csa-tau'), beta: 1 };
    const quickWhole = grown(FOLLOWED_HOURS, quickShape);
    const released = (hours: number): number =>
      (gypsum > 0 ? gypsum * plasterConversion(60 * hours, finalSet) : 0) +
      (portland > 0 ? portland * Math.min(1, grown(hours, shape) / day) : 0) +
      (quick > 0 ? quick * Math.min(1, grown(hours, quickShape) / quickWhole) : 0);
    const area = (2 * volume) / (conditions.coolingWall ?? conditions.wall);
    const { ofAdiabatic } = semiAdiabaticPeak({
      heat: total,
      thermalMass,
      loss: mouldLoss(area, model('mould-thickness'), model('mould-conductivity'), model('mould-film')),
      room: conditions.temperature,
      start: conditions.temperature,
      released,
      // Set times of plaster are measured on lumps that warm themselves: its clock is not sped up again.
      energy: model('set-energy-portland') * (1 - gypsum),
      times: gypsum > 0 ? followedTimes(finalSet / 60) : CEMENT_TIMES,
      oneWave: Math.max(gypsum, portland, quick) === 1,
    });
    return Math.min(1, Math.max(0, ofAdiabatic));
  };
  return { capacity, heat, reached };
}
