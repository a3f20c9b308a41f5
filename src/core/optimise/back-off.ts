import { drawnValues, leanBlend } from '../blend/drawn.js';
import { propertyById } from '../blend/properties/index.js';
import { type Link, type Property, propertyValue } from '../blend/property.js';
import type { Draws } from '../blend/sampling.js';
import { type BlendState, stateOf } from '../blend/state/state.js';
import { holdsWithout, type Target } from '../blend/target.js';
import { type Grams, type World, type WorldInput, worldOf } from '../blend/world.js';

/** One side of a target. */
export interface Side {
  readonly target: Target;
  readonly side: 'min' | 'max';
  readonly limit: number;
}

export const sidesOf = (targets: readonly Target[]): Side[] =>
  targets.flatMap((target) =>
    (['min', 'max'] as const).flatMap((side) => {
      const limit = target[side];
      return limit === undefined ? [] : [{ target, side, limit }];
    }),
  );

/**
 * The targets of a brief with only these sides of theirs. A target without sides stays as an open window: who gives way
 * in a property still decides on it, so that no standing limit steps in.
 */
export const withSides = (targets: readonly Target[], sides: readonly Side[]): Target[] =>
  targets.map(({ property, path }) => ({
    property,
    ...(path === undefined ? {} : { path }),
    ...Object.fromEntries(sides.filter((s) => s.target.property === property).map((s) => [s.side, s.limit])),
  }));

/**
 * How a side of a target fares in the draws. Moves and margins are on the scale of the property's own ratio (see Link),
 * where the spread of a set time or a strength is about even, and count towards the limit.
 */
export interface SideSpread extends Side {
  readonly link: Link;
  /** From the central value to the limit; negative where it is missed. */
  readonly margin: number;
  /** What a settled blend may miss the limit by for arithmetic alone; rounding to the scale gets none. */
  readonly slack: number;
  /** Standard deviation of the moves. */
  readonly size: number;
  /** From the central value, one a draw. */
  readonly moves: readonly number[];
}

/** Share of a limit, a little above what `settle` lets a blend miss it by. */
const AGREE = 2e-5;

/** Sides of the targets under the draws. A side that holds for want of the property has no move that breaks it. */
export function sideSpreads(input: WorldInput, grams: Grams, sides: readonly Side[], draws: Draws): SideSpread[] {
  const lean = leanBlend(input, grams);
  const world = worldOf(lean.input);
  const state = stateOf(world, lean.grams);
  const properties = [...new Set(sides.map((s) => s.target.property))].map((id) => propertyById(id)!);
  const values = drawnValues(lean, properties, draws);
  return sides.map((side) => {
    const p = properties.findIndex((one) => one.id === side.target.property);
    return sideSpread(side, properties[p]!, world, state, values[p]!);
  });
}

function sideSpread(
  side: Side,
  property: Property,
  world: World,
  state: BlendState,
  values: readonly (number | null)[],
): SideSpread {
  const { link } = property.form(world, state);
  const towards = (side.side === 'max') === link.rising ? 1 : -1;
  const { value } = propertyValue(property, world, state);
  const without = holdsWithout(property, side.target, world, state)
    ? Number.NEGATIVE_INFINITY
    : Number.POSITIVE_INFINITY;
  if (value === null) {
    return { ...side, link, margin: -without, slack: 0, size: 0, moves: values.map(() => without) };
  }
  const centre = link.inverse(value);
  const moves = values.map((v) => (v === null ? without : towards * (link.inverse(v) - centre)));
  const margin = towards * (link.inverse(side.limit) - centre);
  const slack = Math.abs(link.inverse(side.limit * (1 + AGREE)) - link.inverse(side.limit)) || 0;
  return { ...side, link, margin, slack, size: deviation(moves), moves };
}

function deviation(moves: readonly number[]): number {
  const known = moves.filter(Number.isFinite);
  if (known.length === 0) return 0;
  const mean = known.reduce((s, m) => s + m, 0) / known.length;
  return Math.sqrt(known.reduce((s, m) => s + (m - mean) ** 2, 0) / known.length);
}

/** Whether a side does not hold in a draw. */
export const breaks = (s: SideSpread, j: number): boolean => s.moves[j]! > s.margin + s.slack;

/** Share of the draws in which all sides hold at once. */
export function jointChance(spreads: readonly SideSpread[], count: number): number {
  let held = 0;
  for (let j = 0; j < count; j++) if (!spreads.some((s) => breaks(s, j))) held++;
  return held / count;
}

/**
 * Standard deviations by which sides are to be kept clear of their limits so that the wanted share of the draws would
 * hold, if the blend's spread stayed as it is: the sample quantile, over the draws, of the furthest move that breaks a
 * side. Infinity where no distance would do.
 */
export function clearance(spreads: readonly SideSpread[], count: number, wanted: number): number {
  const needs = Array.from({ length: count }, (_v, j) =>
    spreads.reduce(
      (most, s) => (breaks(s, j) ? Math.max(most, s.size > 0 ? s.moves[j]! / s.size : Number.POSITIVE_INFINITY) : most),
      0,
    ),
  ).sort((a, b) => a - b);
  return needs[Math.min(count - 1, Math.max(0, Math.ceil(wanted * count) - 1))]!;
}

/** The targets with every side moved inwards by a distance on the scale of its ratio, one a side. */
export function backedOff(
  targets: readonly Target[],
  spreads: readonly SideSpread[],
  distances: readonly number[],
): Target[] {
  return targets.map((target) => {
    const held: { min?: number; max?: number } = {};
    spreads.forEach((s, i) => {
      if (s.target.property !== target.property) return;
      const inwards = (s.side === 'max') === s.link.rising ? -1 : 1;
      const moved = s.link.of(s.link.inverse(s.limit) + inwards * distances[i]!);
      held[s.side] = Number.isFinite(moved) ? moved : s.limit;
    });
    return { ...target, ...held };
  });
}
