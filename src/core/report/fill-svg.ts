import type { CardLayer } from './card-schema.js';
import { hatching } from './fill-hatch.js';
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

interface Placed {
  readonly layer: CardLayer;
  readonly clip: string;
  /** 0 for the first layer of its kind. */
  readonly nth: number;
  readonly top: number;
  readonly height: number;
  readonly label: number;
}

/** `id` keeps names apart where one page holds several drawings; letters and digits only. */
export function fillSvg(layers: readonly CardLayer[], id = 'fill'): Markup {
  const placed = placedLayers(layers, id.replace(/[^a-z0-9]/gi, ''));
  const fromAbove = [...layers].reverse().map((l) => `${l.name} ${percent(l.share)}`);
  const { left, right, top, bottom } = MOULD;
  return markup`<svg class="fill" role="img" viewBox="0 0 ${WIDTH} ${HEIGHT}" xmlns="http://www.w3.org/2000/svg"><title>The mould filled by volume</title><desc>${`From the top down: ${fromAbove.join(', ')}`}</desc>${placed.map(drawn)}<path d="M${left - 3} ${top - 6}V${bottom + 3}H${right + 3}V${top - 6}" fill="none" stroke="#000" stroke-width="2.4" stroke-linejoin="round"/></svg>`;
}

function placedLayers(layers: readonly CardLayer[], prefix: string): Placed[] {
  const whole = MOULD.bottom - MOULD.top;
  let floor: number = MOULD.bottom;
  const stacked = layers.map((layer, i) => {
    const height = layer.share * whole;
    floor -= height;
    const nth = layers.slice(0, i).filter((l) => l.kind === layer.kind).length;
    return { layer, clip: `${prefix}-${i}`, nth, top: floor, height, label: floor + height / 2 };
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

function drawn({ layer, clip, nth, top, height, label }: Placed): Markup {
  const { left, right } = MOULD;
  const box = { left, top, width: right - left, height };
  const { strokes, width, marks } = hatching(layer.kind, box, nth);
  const middle = top + height / 2;
  const text = `${shortened(layer.name)} ${percent(layer.share)}`;
  const fit =
    text.length > LONGEST_LABEL ? markup` textLength="${LABEL_WIDTH - 2}" lengthAdjust="spacingAndGlyphs"` : null;
  const outline = markup`x="${left}" y="${n(top)}" width="${box.width}" height="${n(height)}"`;
  const lines =
    strokes === '' ? null : markup`<path d="${strokes}" fill="none" stroke="#000" stroke-width="${width}"/>`;
  const filled = marks === '' ? null : markup`<path d="${marks}"/>`;
  return markup`<g><clipPath id="${clip}"><rect ${outline}/></clipPath><g clip-path="url(#${clip})">${lines}${filled}</g><rect ${outline} fill="none" stroke="#000" stroke-width="0.8"/><path d="M${right} ${n(middle)}L${LABEL_LEFT - 14} ${n(label)}H${LABEL_LEFT - 3}" fill="none" stroke="#000" stroke-width="0.6"/><text x="${LABEL_LEFT}" y="${n(label + 3.8)}" font-size="11.5"${fit}>${text}</text></g>`;
}

const shortened = (name: string): string => {
  const letters = [...name];
  return letters.length > 38 ? `${letters.slice(0, 37).join('')}…` : name;
};

const percent = (share: number): string => `${share < 0.0995 ? (100 * share).toFixed(1) : Math.round(100 * share)} %`;
