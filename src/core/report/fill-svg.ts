import type { CardLayer } from './card-schema.js';
import { type Markup, markup } from './markup.js';

/**
 * The mould filled layer by layer, each as high as its share of the volume. Straight walls, so that height is volume;
 * every kind has its own hatching, so that it reads in black and white.
 */

const WIDTH = 300;
const HEIGHT = 230;
const MOULD = { left: 6, right: 114, top: 10, bottom: 222 } as const;
const LABEL_LEFT = 138;
const LABEL_STEP = 14;
const LABEL_WIDTH = WIDTH - LABEL_LEFT;
/** Letters that fit beside the mould at the label's size. */
const LONGEST_LABEL = 27;

interface Hatch {
  readonly size: number;
  readonly shapes: string;
}

const line = (d: string, width = 0.7): string => `<path d="${d}" fill="none" stroke="#000" stroke-width="${width}"/>`;
const dot = (x: number, y: number, r: number): string => `<circle cx="${x}" cy="${y}" r="${r}"/>`;
const ring = (x: number, y: number, r: number): string =>
  `<circle cx="${x}" cy="${y}" r="${r}" fill="none" stroke="#000" stroke-width="0.7"/>`;

/** Fixed drawings, no text of anyone's in them. */
const HATCHES: Readonly<Record<CardLayer['kind'], Hatch>> = {
  sand: { size: 7, shapes: dot(1.5, 1.5, 0.9) + dot(5, 3.5, 0.6) + dot(2.4, 5.4, 0.75) },
  filler: { size: 4, shapes: line('M2 0V4', 0.6) },
  cement: { size: 5, shapes: line('M0 5L5 0', 1) },
  gypsum: { size: 5, shapes: line('M0 2.5H5M2.5 0V5', 0.45) },
  lime: { size: 6, shapes: line('M0 1.5H3.5M3 4.5H6', 0.8) },
  pozzolan: { size: 5, shapes: line('M0 0L5 5M0 5L5 0', 0.7) },
  pigment: { size: 4, shapes: '<rect width="4" height="4"/>' },
  polymer: { size: 8, shapes: line('M0 2Q2 0 4 2T8 2M0 6Q2 4 4 6T8 6', 0.8) },
  admixture: { size: 3, shapes: dot(0.8, 0.8, 0.55) + dot(2.3, 2.3, 0.55) },
  fibre: { size: 9, shapes: line('M1 2L5 3M6 6L8 3M2 8L5 6', 0.9) },
  'light-aggregate': { size: 10, shapes: ring(3, 3, 2.2) + ring(8, 7.5, 1.7) },
  water: { size: 10, shapes: line('M0 3Q2.5 1 5 3T10 3', 0.7) },
  air: { size: 12, shapes: ring(6, 6, 0.9) },
  doses: { size: 3, shapes: line('M0 1.5H3', 1.1) },
};

/** A second material of a kind is hatched wider and turned, a third wider still. */
const variation = (nth: number): string =>
  nth === 0 ? '' : ` patternTransform="rotate(${35 * nth}) scale(${1 + 0.5 * nth})"`;

interface Placed {
  readonly layer: CardLayer;
  readonly pattern: string;
  readonly top: number;
  readonly height: number;
  readonly label: number;
}

/** `id` keeps pattern names apart where one page holds several drawings; letters and digits only. */
export function fillSvg(layers: readonly CardLayer[], id = 'fill'): Markup {
  const prefix = id.replace(/[^a-z0-9]/gi, '');
  const placed = placedLayers(layers, prefix);
  const patterns = placed.map(({ layer, pattern }, i): Markup => {
    const { size, shapes } = HATCHES[layer.kind];
    const nth = layers.slice(0, i).filter((l) => l.kind === layer.kind).length;
    return {
      html: `<pattern id="${pattern}" width="${size}" height="${size}" patternUnits="userSpaceOnUse"${variation(nth)}>${shapes}</pattern>`,
    };
  });
  const summary = layers.map((l) => `${l.name} ${percent(l.share)}`).join(', ');
  const { left, right, top, bottom } = MOULD;
  return markup`<svg class="fill" role="img" viewBox="0 0 ${WIDTH} ${HEIGHT}" xmlns="http://www.w3.org/2000/svg"><title>The mould filled by volume</title><desc>${`From the top down: ${[...summary.split(', ')].reverse().join(', ')}`}</desc><defs>${patterns}</defs>${placed.map(drawn)}<path d="M${left - 3} ${top - 6}V${bottom + 3}H${right + 3}V${top - 6}" fill="none" stroke="#000" stroke-width="2.4" stroke-linejoin="round"/></svg>`;
}

function placedLayers(layers: readonly CardLayer[], prefix: string): Placed[] {
  const whole = MOULD.bottom - MOULD.top;
  let floor: number = MOULD.bottom;
  const stacked = layers.map((layer, i) => {
    const height = layer.share * whole;
    floor -= height;
    return { layer, pattern: `${prefix}-${i}`, top: floor, height, label: floor + height / 2 };
  });
  return spaced(stacked);
}

/** Labels at their layers, moved apart where layers are thin: up from the bottom, then down from the top. */
function spaced(placed: readonly Placed[]): Placed[] {
  const at = placed.map((p) => p.label);
  const most = HEIGHT - 6;
  for (let i = 0; i < at.length; i++) at[i] = Math.min(at[i]!, i === 0 ? most : at[i - 1]! - LABEL_STEP);
  for (let i = at.length - 1; i >= 0; i--) at[i] = Math.max(at[i]!, i === at.length - 1 ? 9 : at[i + 1]! + LABEL_STEP);
  return placed.map((p, i) => ({ ...p, label: at[i]! }));
}

const n = (value: number): string => value.toFixed(2);

function drawn({ layer, pattern, top, height, label }: Placed): Markup {
  const { left, right } = MOULD;
  const middle = top + height / 2;
  const text = `${shortened(layer.name)} ${percent(layer.share)}`;
  const fit =
    text.length > LONGEST_LABEL ? markup` textLength="${LABEL_WIDTH - 2}" lengthAdjust="spacingAndGlyphs"` : null;
  return markup`<g><rect x="${left}" y="${n(top)}" width="${right - left}" height="${n(height)}" fill="#fff"/><rect x="${left}" y="${n(top)}" width="${right - left}" height="${n(height)}" fill="url(#${pattern})" stroke="#000" stroke-width="0.8"/><path d="M${right} ${n(middle)}L${LABEL_LEFT - 14} ${n(label)}H${LABEL_LEFT - 3}" fill="none" stroke="#000" stroke-width="0.6"/><text x="${LABEL_LEFT}" y="${n(label + 3.8)}" font-size="11.5"${fit}>${text}</text></g>`;
}

const shortened = (name: string): string => {
  const letters = [...name];
  return letters.length > 38 ? `${letters.slice(0, 37).join('')}…` : name;
};

const percent = (share: number): string => `${share < 0.0995 ? (100 * share).toFixed(1) : Math.round(100 * share)} %`;
