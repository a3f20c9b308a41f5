import { printQuantity } from '../../core/index.js';
import { percent, roughly, wordingOf } from '../parts/words.js';
import type { Told } from '../worker/told.js';
import { type Band, bandsOf } from './bands.js';
import { Grains } from './grains.js';

/** The mould cut open, each layer as high as its share of the volume, and the same blend on the scale, by mass. */

const TOP = 22;
const BOTTOM = 236;
const MOULD = { left: 26, right: 142 } as const;
const WALL = 12;
const STACK = { left: 226, right: 326 } as const;

interface Placed extends Band {
  readonly y: number;
  readonly height: number;
  readonly massY: number;
  readonly massHeight: number;
}

function placed(bands: readonly Band[]): Placed[] {
  const whole = BOTTOM - TOP;
  let [floor, massFloor] = [BOTTOM, BOTTOM];
  return bands.map((band) => {
    const [height, massHeight] = [band.volume * whole, band.mass * whole];
    floor -= height;
    massFloor -= massHeight;
    return { ...band, y: floor, height, massY: massFloor, massHeight };
  });
}

const n = (v: number): string => v.toFixed(2);

/** From the mould's side to the scale's: wide where a material is light for its room, narrow where it is heavy. */
function ribbon(p: Placed): string {
  const [a, b] = [MOULD.right + WALL, STACK.left];
  const middle = (a + b) / 2;
  return `M${a} ${n(p.y)}C${middle} ${n(p.y)} ${middle} ${n(p.massY)} ${b} ${n(p.massY)}V${n(p.massY + p.massHeight)}C${middle} ${n(p.massY + p.massHeight)} ${middle} ${n(p.y + p.height)} ${a} ${n(p.y + p.height)}Z`;
}

export function Mould({ told }: { readonly told: Told }) {
  const bands = placed(bandsOf(told));
  const wording = wordingOf(told);
  const { result } = told;
  const weight = result.blend.reduce((s, i) => s + i.pieceGrams, 0);
  const { volume } = result.piece;
  const summary = [...bands]
    .reverse()
    .map((b) => `${b.name} ${percent(b.volume)} of the volume, ${percent(b.mass)} of the mass`)
    .join('; ');
  return (
    <svg class="mould" viewBox="0 0 352 284" role="img" aria-label={`The mould filled, from the top down: ${summary}`}>
      <defs>
        {bands.map((b, i) => (
          <Grains key={b.key} id={`grain-${i}`} kind={b.kind} />
        ))}
        <clipPath id="cavity">
          <path d={`M${MOULD.left} ${TOP}H${MOULD.right}V${BOTTOM - 8}q0 8-8 8H${MOULD.left + 8}q-8 0-8-8Z`} />
        </clipPath>
      </defs>
      <path
        class="silicone"
        d={`M${MOULD.left - WALL} ${TOP - 6}H${MOULD.right + WALL}V${BOTTOM + 4}q0 12-12 12H${MOULD.left}q-12 0-12-12Z`}
      />
      <rect
        class="cavity"
        x={MOULD.left}
        y={TOP - 6}
        width={MOULD.right - MOULD.left}
        height={BOTTOM - TOP + 6}
        rx="8"
      />
      <g clip-path="url(#cavity)">
        {bands.map((b, i) => (
          <g key={b.key} class="layer">
            <rect x={MOULD.left} y={n(b.y)} width={MOULD.right - MOULD.left} height={n(b.height)} fill={b.tone} />
            <rect
              x={MOULD.left}
              y={n(b.y)}
              width={MOULD.right - MOULD.left}
              height={n(b.height)}
              fill={`url(#grain-${i})`}
            />
          </g>
        ))}
      </g>
      {bands
        .filter((b) => b.mass > 0)
        .map((b) => (
          <path key={b.key} class="ribbon" d={ribbon(b)} fill={b.tone} />
        ))}
      {bands
        .filter((b) => b.mass > 0)
        .map((b) => (
          <g key={b.key} class="layer">
            <rect
              x={STACK.left}
              y={n(b.massY)}
              width={STACK.right - STACK.left}
              height={n(b.massHeight)}
              fill={b.tone}
            />
            <rect
              x={STACK.left}
              y={n(b.massY)}
              width={STACK.right - STACK.left}
              height={n(b.massHeight)}
              fill={`url(#grain-${bands.indexOf(b)})`}
            />
          </g>
        ))}
      <path class="scale" d={`M${STACK.left - 12} ${BOTTOM + 1}H${STACK.right + 12}v5H${STACK.left - 12}Z`} />
      <path
        class="scale"
        d={`M${STACK.left - 2} ${BOTTOM + 9}H${STACK.right + 2}l6 28q1 4-4 4H${STACK.left - 4}q-5 0-4-4Z`}
      />
      <text class="readout" x={(STACK.left + STACK.right) / 2} y={BOTTOM + 31} text-anchor="middle">
        {roughly(weight, wording)}
      </text>
      <text class="caption" x={(MOULD.left + MOULD.right) / 2} y={BOTTOM + 36} text-anchor="middle">
        {volume === null ? 'by volume' : `${printQuantity(volume, 'volume', { system: wording.system })} mould`}
      </text>
      <text class="caption" x={(MOULD.left + MOULD.right) / 2} y="11" text-anchor="middle">
        by volume
      </text>
      <text class="caption" x={(STACK.left + STACK.right) / 2} y="11" text-anchor="middle">
        by mass
      </text>
    </svg>
  );
}
