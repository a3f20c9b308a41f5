import { DEFAULT_CONDITIONS, type Pour } from '../../src/core/blend/conditions.js';
import type { Reading } from '../../src/core/blend/numbers.js';
import { figureAt, normalQuantile, uniform } from '../../src/core/blend/sampling.js';
import type { Figure } from '../../src/core/materials/figure.js';
import type { Measured } from '../../src/core/shop/pours-fit.js';
import { type KnownPour, measuredPour, NOISE, wasteFigure } from '../../src/core/shop/pours-measured.js';
import { material, model } from './shipped-table.js';

/** Invented pours of invented shops, for the fit to be tried on. */

export const SHOP_WASTE = wasteFigure(0.06);
export const SCALE_STEP = 1;

export interface Plan {
  readonly parts: Readonly<Record<string, number>>;
  readonly volume: number | null;
  readonly wall?: number;
  readonly humidity?: number;
  readonly pour?: Pour;
  readonly weighedAt: readonly number[];
  readonly timed?: boolean;
  readonly batch?: boolean;
}

/** A pour as it was planned, with numbers still to be measured; they only say what is measured. */
export function planned(plan: Plan): KnownPour {
  const materials = Object.keys(plan.parts).map(material);
  return {
    input: {
      materials,
      figures: model,
      conditions: {
        ...DEFAULT_CONDITIONS,
        volume: plan.volume,
        wall: plan.wall ?? 1.2,
        humidity: plan.humidity ?? 0.5,
        pour: plan.pour ?? 'tapped',
      },
    },
    grams: Object.values(plan.parts),
    batch: plan.batch === false ? null : { grams: 1, pieces: 1 },
    setMinutes: plan.timed === false ? null : 1,
    demouldMinutes: plan.timed === false ? null : 1,
    weights: plan.weighedAt.map((hours) => ({ hours, grams: 1 })),
  };
}

/** One true set of figures, drawn from the table's own ranges by a seed. */
export function truth(seed: number): {
  readonly read: Reading;
  readonly value: (key: string, figure: Figure) => number;
} {
  const known = new Map<string, number>();
  const value = (key: string, figure: Figure): number => {
    if (figure.low >= figure.high) return figure.value;
    const z = known.get(key) ?? normal(`${seed} ${key}`);
    known.set(key, z);
    return figureAt(figure, z);
  };
  return { read: value, value };
}

/** Standard normal number that depends on a text only. */
function normal(text: string): number {
  let hash = 2166136261;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
  const next = uniform(hash);
  for (let i = 0; i < 4; i++) next();
  return normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, next())));
}

/**
 * What a maker would write down at these pours if the figures were as drawn: moulds a little over or under full, dust and
 * flash, a scale that rounds to its step, times judged by eye. The sizes are NOISE's; how they act is written anew here.
 */
export function simulated(pours: readonly KnownPour[], read: Reading, seed: number): KnownPour[] {
  return pours.map((pour, n) => {
    const ideal = measuredPour(pour, SCALE_STEP, SHOP_WASTE)!.predict(read);
    const by = (what: string): number => normal(`${what} ${seed} ${n}`);
    const fill = 1 + (pour.input.conditions.volume === null ? 0 : NOISE.fill * by('fill'));
    const weights = pour.weights.map((w, i) => {
      const held = ideal[i]! * fill * (1 + NOISE.handling * by(`hand ${i}`));
      return { hours: w.hours, grams: SCALE_STEP * Math.round(held / SCALE_STEP) };
    });
    const rest = ideal.slice(pour.weights.length);
    const times = [pour.setMinutes === null ? null : NOISE.set, pour.demouldMinutes === null ? null : NOISE.demould];
    const sizes = [...times.filter((t) => t !== null), NOISE.leavings];
    const seen = rest.map((v, i) => v + sizes[i]! * by(`eye ${i}`));
    return written(pour, weights, [...weights.map((w) => w.grams), ...seen]);
  });
}

function written(pour: KnownPour, weights: KnownPour['weights'], numbers: readonly number[]): KnownPour {
  let next = weights.length;
  const take = () => Math.exp(numbers[next++]!);
  return {
    ...pour,
    weights,
    setMinutes: pour.setMinutes === null ? null : take(),
    demouldMinutes: pour.demouldMinutes === null ? null : take(),
    batch: pour.batch === null || pour.input.conditions.volume === null ? null : { grams: take(), pieces: 1 },
  };
}

export const measuredPours = (pours: readonly KnownPour[]): Measured[] =>
  pours.flatMap((p) => measuredPour(p, SCALE_STEP, SHOP_WASTE) ?? []);
