import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { ratioOf } from '../blend/property.js';
import { eventMinutes } from '../blend/state/setting-state.js';
import { stateOf } from '../blend/state/state.js';
import { type Grams, type WorldInput, worldOf } from '../blend/world.js';
import type { Figure } from '../materials/figure.js';
import { weightAfter } from './drying-time.js';
import type { Measured } from './pours-fit.js';

/** One pour with its blend known, in core units. */
export interface KnownPour {
  /** Materials of the blend and the conditions of this pour (its own room). Volume null: no mould is known. */
  readonly input: WorldInput;
  /** Proportions of the blend, in the order of the materials. */
  readonly grams: Grams;
  /** g mixed for how many pieces, where both are written. */
  readonly batch: { readonly grams: number; readonly pieces: number } | null;
  readonly setMinutes: number | null;
  readonly demouldMinutes: number | null;
  /** Weighings of one piece, hours from the water, in the order of time. */
  readonly weights: readonly { readonly hours: number; readonly grams: number }[];
}

/** How well a maker measures. All ours, no source: judgements to be corrected. */
export const NOISE = {
  /** Share of a weighing that dust, flash and handling come to, beside the scale's own step. */
  handling: 0.001,
  /** Share by which moulds are filled more or less from piece to piece. */
  fill: 0.01,
  /** ln of a set time judged by eye, and of a demoulding time. */
  set: 0.1,
  demould: 0.15,
  /** Share by which the leavings of a batch differ from batch to batch, of what is mixed. */
  leavings: 0.03,
} as const;

/** Without a mould the size of the piece is not known: only how its weight changes is told. */
const ANY_SIZE = 1;

export const WASTE_KEY = 'shop.waste';

/** The shop's waste share as a figure with a range: from five parts in a hundred below what is written to ten above. Ours. */
export const wasteFigure = (waste: number): Figure => ({
  value: waste,
  low: Number(Math.max(0, waste - 0.05).toFixed(6)),
  high: Number(Math.min(0.9, waste + 0.1).toFixed(6)),
  unit: 'fraction',
  source: 'none',
  status: 'ours',
});

/**
 * A pour's measurements for the fit: weighings in grams, logarithms of the times, and the logarithm of the grams mixed a
 * piece. step: g the scale can tell apart. Null when nothing was measured.
 *
 * Weighings share the fill of their mould, so their errors go together: covariance = noise + fill^2 w w'.
 */
export function measuredPour(pour: KnownPour, step: number, waste: Figure): Measured | null {
  const { input, grams, weights, setMinutes, demouldMinutes } = pour;
  const { volume } = input.conditions;
  const first = weights[0];
  const batch = volume === null ? null : pour.batch;
  const times: { readonly minutes: number; readonly event: 'initialSet' | 'demould'; readonly noise: number }[] = [];
  if (setMinutes !== null) times.push({ minutes: setMinutes, event: 'initialSet', noise: NOISE.set });
  if (demouldMinutes !== null) times.push({ minutes: demouldMinutes, event: 'demould', noise: NOISE.demould });
  const observed = [
    ...weights.map((w) => w.grams),
    ...times.map((t) => Math.log(t.minutes)),
    ...(batch === null ? [] : [Math.log(batch.grams / batch.pieces)]),
  ];
  if (observed.length === 0 || (volume === null && weights.length === 1 && times.length === 0)) return null;

  const fill = volume === null ? ANY_SIZE : NOISE.fill;
  const covariance = observed.map((_v, i) =>
    observed.map((_w, j) => {
      const [a, b] = [weights[i], weights[j]];
      const shared = a === undefined || b === undefined ? 0 : fill ** 2 * a.grams * b.grams;
      return shared + (i === j ? ownVariance(i) : 0);
    }),
  );
  function ownVariance(i: number): number {
    const weight = weights[i];
    if (weight !== undefined) return step ** 2 / 12 + (NOISE.handling * weight.grams) ** 2;
    const time = times[i - weights.length];
    return (time === undefined ? NOISE.leavings : time.noise) ** 2;
  }

  return {
    observed,
    covariance,
    predict: (read) => {
      const world = worldOf(input, read);
      const state = stateOf(world, grams);
      const curve = weights.map((w) => weightAfter(world, state, w.hours));
      const size =
        volume === null
          ? first === undefined
            ? 1
            : first.grams / curve[0]!
          : volume / ratioOf(freshVolume.form(world, state), grams);
      const mixed = (size * grams.reduce((s, g) => s + g, 0)) / (1 - read(WASTE_KEY, waste));
      return [
        ...curve.map((w) => w * size),
        ...times.map((t) => Math.log(eventMinutes(state.setting.form(t.event), grams) ?? t.minutes)),
        ...(batch === null ? [] : [Math.log(mixed)]),
      ];
    },
  };
}
