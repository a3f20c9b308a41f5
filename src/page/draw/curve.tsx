import { scaleLinear, scalePow } from 'd3-scale';
import { area, curveMonotoneX, line } from 'd3-shape';
import { printProperty, roundTicks } from '../../core/index.js';
import { wordingOf } from '../parts/words.js';
import type { Told } from '../worker/told.js';
import { Foot, Levels, plainTicks } from './axes.js';

const W = 340;
const H = 190;
const PAD = { left: 66, right: 12, top: 12, bottom: 34 } as const;
const FRAME = { left: PAD.left, right: W - PAD.right, bottom: H - PAD.bottom } as const;
const DAYS = [0, 1, 3, 7, 14, 28] as const;

/** Weight of one piece over four weeks, with the likely range at the days that are forecast. */
export function Curve({ told }: { readonly told: Told }) {
  const { curve, result } = told;
  const wording = wordingOf(told);
  const days = result.properties.flatMap((p) => {
    const day = /^weight-day-(\d+)$/.exec(p.property)?.[1];
    return day === undefined || Number(day) > DAYS.at(-1)! || p.low === null || p.high === null
      ? []
      : [{ day: Number(day), low: p.low, high: p.high }];
  });
  const all = [...curve.map((c) => c.grams), ...days.flatMap((d) => [d.low, d.high])];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const margin = 0.08 * Math.max(1e-6, most - least);
  // Early days get more room: most of the water leaves then.
  const x = scalePow()
    .exponent(0.5)
    .domain([0, 28])
    .range([PAD.left, W - PAD.right]);
  const y = scaleLinear()
    .domain([least - margin, most + margin])
    .range([H - PAD.bottom, PAD.top]);
  const path = line<Told['curve'][number]>(
    (d) => x(d.days),
    (d) => y(d.grams),
  ).curve(curveMonotoneX)(curve as Told['curve'][number][]);
  const band = area<(typeof days)[number]>(
    (d) => x(d.day),
    (d) => y(d.low),
    (d) => y(d.high),
  ).curve(curveMonotoneX)(days);
  const dry = result.properties.find((p) => p.property === 'dry-weight')?.value ?? null;
  const words = ['demould-weight', 'weight-day-1', 'weight-day-7', 'dry-weight']
    .map((id) => result.properties.find((p) => p.property === id))
    .flatMap((p) => (p?.value == null ? [] : [`${p.name} ${printProperty(p.property, p.value, wording)}`]));
  return (
    <figure class="chart">
      <figcaption>Weight of a piece as it dries</figcaption>
      <svg viewBox={`0 0 ${W} ${H}`} role="img" aria-label={`Weight over four weeks: ${words.join(', ')}`}>
        <Levels ticks={roundTicks('mass', [least - margin, most + margin], 4, wording)} at={y} frame={FRAME} />
        <Foot ticks={plainTicks(DAYS)} at={x} frame={FRAME} name="days after the pour" />
        {band !== null && <path class="band" d={band} />}
        {dry !== null && <path class="dry" d={`M${PAD.left} ${y(dry)}H${W - PAD.right}`} />}
        {path !== null && <path class="curve" d={path} />}
      </svg>
    </figure>
  );
}
