import { scaleLinear, scaleLog } from 'd3-scale';
import { line } from 'd3-shape';
import { propertyById, roundTicks, type Wording } from '../../core/index.js';
import type { FrontierTold } from '../worker/frontier.js';
import { Foot, Levels } from './axes.js';

const W = 340;
const H = 240;
const PAD = { left: 66, right: 22, top: 14, bottom: 40 } as const;
const FRAME = { left: PAD.left, right: W - PAD.right, bottom: H - PAD.bottom } as const;

interface FrontierPlotProps {
  readonly told: FrontierTold;
  readonly wording: Wording;
  /** Where the blend on the bench stands; null: not known. */
  readonly bench: { readonly of: number; readonly against: number } | null;
  /** The point that is looked at. */
  readonly at: number;
  readonly onTake: (index: number) => void;
}

/** Times and strengths range over decades. */
const isLog = (id: string): boolean => ['set-time', 'strength'].includes(propertyById(id)?.quantity ?? '');

const scaleOf = (id: string, values: readonly number[], from: number, to: number) => {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = 0.06 * Math.max(high - low, 1e-9 + 0.01 * Math.abs(high));
  const log = isLog(id) && low > 0 && high / low > 5;
  const scale = log ? scaleLog().domain([low / 1.1, high * 1.1]) : scaleLinear().domain([low - room, high + room]);
  return Object.assign(scale.range([from, to]), { log });
};

const ticksOf = (id: string, scale: ReturnType<typeof scaleOf>, count: number, wording: Wording) => {
  const [low = 0, high = 0] = scale.domain();
  return roundTicks(propertyById(id)!.quantity, [low, high], count, wording, scale.log);
};

/** How near a tap has to come to a point, in the drawing's own units. */
const REACH = 24;

/** The frontier as a line of points; a tap takes the blend of the nearest. */
export function FrontierPlot({ told, bench, wording, at, onTake }: FrontierPlotProps) {
  const { points, of, against } = told;
  const x = scaleOf(
    against,
    points.map((p) => p.against),
    PAD.left,
    W - PAD.right,
  );
  const y = scaleOf(
    of,
    points.map((p) => p.of),
    H - PAD.bottom,
    PAD.top,
  );
  const path = line<(typeof points)[number]>(
    (p) => x(p.against),
    (p) => y(p.of),
  )([...points]);
  const tapped = (event: MouseEvent): void => {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const [px, py] = [((event.clientX - box.left) * W) / box.width, ((event.clientY - box.top) * H) / box.height];
    const far = points.map((p) => Math.hypot(x(p.against) - px, y(p.of) - py));
    const nearest = far.indexOf(Math.min(...far));
    if (far[nearest]! <= REACH) onTake(nearest);
  };
  return (
    // Points lie close together: the nearest one to the tap counts. The slider beside it is for keyboards and readers.
    // biome-ignore lint/a11y/noStaticElementInteractions: the slider and its button do the same
    // biome-ignore lint/a11y/useKeyWithClickEvents: the slider and its button do the same
    <div class="frontier" onClick={tapped}>
      <svg viewBox={`0 0 ${W} ${H}`} aria-hidden="true">
        <Levels ticks={ticksOf(of, y, 4, wording)} at={y} frame={FRAME} />
        <Foot ticks={ticksOf(against, x, 3, wording)} at={x} frame={FRAME} name={propertyById(against)!.name} />
        {path !== null && <path class="curve" d={path} />}
        {points.map((p, i) => (
          <circle
            key={`${p.of} ${p.against}`}
            class={`point${i === at ? ' at' : ''}`}
            cx={x(p.against)}
            cy={y(p.of)}
            r={i === at ? 6 : 3.6}
          />
        ))}
        {bench !== null && (
          <path
            class="here"
            d={`M${x(bench.against)} ${y(bench.of) - 9}v18M${x(bench.against) - 9} ${y(bench.of)}h18`}
          />
        )}
      </svg>
    </div>
  );
}
