import { scaleLinear, scaleLog } from 'd3-scale';
import { propertyById } from '../blend/properties/index.js';
import type { FrontierResult } from './frontier-schema.js';
import type { Wording } from './print.js';
import { roundTicks } from './ticks.js';

/** One axis of a frontier's picture. */
export interface Axis {
  readonly title: string;
  /** Place of a value, 0 at the lower end and 1 at the upper. */
  readonly place: (value: number) => number;
  readonly ticks: readonly { readonly at: number; readonly text: string }[];
}

/** A property that spans more than this factor is drawn on a logarithmic axis. */
const LOGARITHMIC = 20;
const MARGIN = 0.04;

/** Axes that hold every point; `count` is about how many ticks there is room for. */
export function frontierAxes(
  result: FrontierResult,
  wording: Wording,
  count: { readonly x: number; readonly y: number },
): { readonly x: Axis; readonly y: Axis } {
  const axis = (of: FrontierResult['of'], values: readonly number[], ticks: number): Axis => {
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const log = low > 0 && high / low > LOGARITHMIC;
    const scale = log ? scaleLog() : scaleLinear();
    const span = log ? Math.log(high / low) : high - low;
    const edge = span === 0 ? Math.max(Math.abs(low) * MARGIN, 1e-9) : span * MARGIN;
    const ends: [number, number] = log ? [low * Math.exp(-edge), high * Math.exp(edge)] : [low - edge, high + edge];
    scale.domain(ends).range([0, 1]);
    const { quantity } = propertyById(of.property)!;
    return {
      title: `${of.name}${log ? ' (logarithmic)' : ''}`,
      place: (value) => scale(value),
      ticks: roundTicks(quantity, ends, ticks, wording, log).map((t) => ({ at: scale(t.value), text: t.text })),
    };
  };
  return {
    x: axis(
      result.against,
      result.points.map((p) => p.against),
      count.x,
    ),
    y: axis(
      result.of,
      result.points.map((p) => p.of),
      count.y,
    ),
  };
}
