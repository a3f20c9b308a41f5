import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { printQuantity, roundTicks, type ShownPour, significant, type Wording } from '../../core/index.js';
import { Foot, Levels, plainTicks } from '../draw/axes.js';
import { grams, roughly } from '../parts/words.js';

const W = 340;
const H = 156;
const PAD = { left: 66, right: 10, top: 10, bottom: 34 } as const;
const FRAME = { left: PAD.left, right: W - PAD.right, bottom: H - PAD.bottom } as const;

const VERDICTS: Readonly<Record<ShownPour['constantWeight']['verdict'], string>> = {
  dry: 'at constant weight: it is dry',
  drying: 'still drying',
  'too-soon': 'weighed too soon after each other to tell',
  'not-weighed-twice': 'weigh it twice, a day apart, to tell whether it is dry',
};

/** One pour: its weighings, the curve fitted to them, and whether it is dry. */
export function PourDrawing({ pour, wording }: { readonly pour: ShownPour; readonly wording: Wording }) {
  const { curve, weights } = pour;
  const about = [
    pour.date,
    pour.brief,
    pour.flow === '' ? null : `flow ${pour.flow}`,
    pour.bubbles === '' ? null : `bubbles ${pour.bubbles}`,
    pour.cracks === '' ? null : `cracks ${pour.cracks}`,
    pour.note === '' ? null : pour.note,
  ].filter((part) => part !== null);
  return (
    <section class="group" aria-label={`Pour ${pour.pour}`}>
      <h2>Pour {pour.pour}</h2>
      <p class="hint">{about.join(' · ')}</p>
      {curve !== null && <Chart curve={curve} weights={weights} wording={wording} />}
      <p>
        {VERDICTS[pour.constantWeight.verdict]}
        {curve !== null && `; ${dryWhen(curve)} at ${roughly(curve.dryGrams, wording)}`}.
      </p>
      {pour.why !== null && <p class="hint">No curve: {pour.why}</p>}
    </section>
  );
}

type Curve = NonNullable<ShownPour['curve']>;

/** "by the curve dry after 6 days", "dry by the curve: never in this room". */
const dryWhen = ({ dryAfterHours, why }: Curve): string =>
  dryAfterHours === null
    ? `dry by the curve: ${why}`
    : `by the curve dry after ${printQuantity(significant(dryAfterHours, 2), 'time')}`;

interface ChartProps {
  readonly curve: Curve;
  readonly weights: ShownPour['weights'];
  readonly wording: Wording;
}

function Chart({ curve, weights, wording }: ChartProps) {
  const all = [...curve.points, ...weights];
  const until = Math.max(...all.map((p) => p.hours)) / 24;
  const x = scaleLinear()
    .domain([0, until])
    .range([PAD.left, W - PAD.right]);
  const [least, most] = [Math.min(...all.map((p) => p.grams)) - 2, Math.max(...all.map((p) => p.grams)) + 2];
  const y = scaleLinear()
    .domain([least, most])
    .range([H - PAD.bottom, PAD.top]);
  const path = line<Curve['points'][number]>(
    (p) => x(p.hours / 24),
    (p) => y(p.grams),
  )(curve.points);
  return (
    <figure class="chart">
      <svg
        viewBox={`0 0 ${W} ${H}`}
        role="img"
        aria-label={`Weighings: ${weights.map((w) => `${grams(w.grams, wording)} after ${printQuantity(w.hours, 'time')}`).join(', ') || 'none'}`}
      >
        <Levels ticks={roundTicks('mass', [least, most], 3, wording)} at={y} frame={FRAME} />
        <Foot ticks={plainTicks(x.ticks(5))} at={x} frame={FRAME} name="days after the pour" />
        {path !== null && <path class="curve" d={path} />}
        {weights.map((w) => (
          <circle key={w.hours} class="weighed" cx={x(w.hours / 24)} cy={y(w.grams)} r="4" />
        ))}
      </svg>
    </figure>
  );
}
