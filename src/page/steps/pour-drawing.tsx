import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { ShownPour } from '../../core/index.js';
import { printQuantity } from '../../core/index.js';

const W = 340;
const H = 150;
const PAD = { left: 46, right: 10, top: 10, bottom: 28 } as const;

const VERDICTS: Readonly<Record<ShownPour['constantWeight']['verdict'], string>> = {
  dry: 'at constant weight: it is dry',
  drying: 'still drying',
  'too-soon': 'weighed too soon after each other to tell',
  'not-weighed-twice': 'weigh it twice, a day apart, to tell whether it is dry',
};

/** One pour: its weighings, the curve fitted to them, and whether it is dry. */
export function PourDrawing({ pour }: { readonly pour: ShownPour }) {
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
      {curve !== null && <Chart curve={curve} weights={weights} />}
      <p>
        {VERDICTS[pour.constantWeight.verdict]}
        {curve?.dryAfterHours != null &&
          `; by the curve dry after ${printQuantity(curve.dryAfterHours, 'time')} at ${printQuantity(Math.round(curve.dryGrams), 'mass')}`}
        .
      </p>
      {pour.why !== null && <p class="hint">No curve: {pour.why}</p>}
    </section>
  );
}

type Curve = NonNullable<ShownPour['curve']>;

function Chart({ curve, weights }: { readonly curve: Curve; readonly weights: ShownPour['weights'] }) {
  const all = [...curve.points, ...weights];
  const until = Math.max(...all.map((p) => p.hours)) / 24;
  const x = scaleLinear()
    .domain([0, until])
    .range([PAD.left, W - PAD.right]);
  const y = scaleLinear()
    .domain([Math.min(...all.map((p) => p.grams)) - 2, Math.max(...all.map((p) => p.grams)) + 2])
    .range([H - PAD.bottom, PAD.top])
    .nice(3);
  const path = line<Curve['points'][number]>(
    (p) => x(p.hours / 24),
    (p) => y(p.grams),
  )(curve.points);
  return (
    <figure class="chart">
      <svg
        viewBox={`0 0 ${W} ${H}`}
        role="img"
        aria-label={`Weighings: ${weights.map((w) => `${printQuantity(w.grams, 'mass')} after ${printQuantity(w.hours, 'time')}`).join(', ') || 'none'}`}
      >
        {y.ticks(3).map((t) => (
          <g key={t}>
            <path class="grid" d={`M${PAD.left} ${y(t)}H${W - PAD.right}`} />
            <text class="tick" x={PAD.left - 5} y={y(t) + 3.5} text-anchor="end">
              {t} g
            </text>
          </g>
        ))}
        {x.ticks(5).map((t) => (
          <text key={t} class="tick" x={x(t)} y={H - PAD.bottom + 15} text-anchor="middle">
            {t}
          </text>
        ))}
        <text class="tick" x={W - PAD.right} y={H - 1} text-anchor="end">
          days after the pour
        </text>
        {path !== null && <path class="curve" d={path} />}
        {weights.map((w) => (
          <circle key={w.hours} class="weighed" cx={x(w.hours / 24)} cy={y(w.grams)} r="4" />
        ))}
      </svg>
    </figure>
  );
}
