import type { CardLayer } from './card-schema.js';

/**
 * Hatchings that tell the layers apart in black and white, as plain strokes: pattern fills would be printed as blurred
 * pictures. Numbers only; no text of anyone's goes in.
 */

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface Hatching {
  /** Path data of strokes, and their width; empty: none. */
  readonly strokes: string;
  readonly width: number;
  /** Path data of filled marks; empty: none. */
  readonly marks: string;
}

const n = (value: number): string => Number(value.toFixed(2)).toString();

/** A filled dot as two arcs. */
const dot = (x: number, y: number, r: number): string =>
  `M${n(x - r)} ${n(y)}a${n(r)} ${n(r)} 0 1 0 ${n(2 * r)} 0a${n(r)} ${n(r)} 0 1 0 ${n(-2 * r)} 0`;

/** Cells of a grid that cover the box, odd rows shifted by half a cell. */
function* cells(box: Box, step: number): Generator<readonly [number, number, number]> {
  const rows = Math.ceil(box.height / step);
  const columns = Math.ceil(box.width / step) + 1;
  for (let row = 0; row < rows; row++) {
    const shift = row % 2 === 0 ? 0 : -step / 2;
    for (let column = 0; column < columns; column++) {
      yield [box.left + shift + column * step, box.top + row * step, row * columns + column];
    }
  }
}

const each = (box: Box, step: number, draw: (x: number, y: number, i: number) => string): string =>
  [...cells(box, step)].map(([x, y, i]) => draw(x, y, i)).join('');

function slanted(box: Box, step: number, rising: boolean): string {
  let d = '';
  const right = box.left + box.width;
  for (let x = box.left - box.height; x < right; x += step) {
    d += rising
      ? `M${n(x)} ${n(box.top + box.height)}l${n(box.height)} ${n(-box.height)}`
      : `M${n(x)} ${n(box.top)}l${n(box.height)} ${n(box.height)}`;
  }
  return d;
}

function upright(box: Box, step: number): string {
  let d = '';
  for (let x = box.left + step / 2; x < box.left + box.width; x += step) d += `M${n(x)} ${n(box.top)}v${n(box.height)}`;
  return d;
}

function level(box: Box, step: number): string {
  let d = '';
  for (let y = box.top + step / 2; y < box.top + box.height; y += step) d += `M${n(box.left)} ${n(y)}h${n(box.width)}`;
  return d;
}

function waves(box: Box, step: number, long: number): string {
  let d = '';
  for (let y = box.top + step / 2; y < box.top + box.height; y += step) {
    d += `M${n(box.left)} ${n(y)}q${n(long / 4)} ${n(-step / 3)} ${n(long / 2)} 0`;
    for (let x = box.left + long / 2; x < box.left + box.width; x += long / 2) d += `t${n(long / 2)} 0`;
  }
  return d;
}

const strokes = (d: string, width: number): Hatching => ({ strokes: d, width, marks: '' });
const marks = (d: string): Hatching => ({ strokes: '', width: 0, marks: d });
const whole = (b: Box): string => `M${n(b.left)} ${n(b.top)}h${n(b.width)}v${n(b.height)}h${n(-b.width)}z`;

/** Marks of a second material of the same kind are this much further apart. */
const SPREAD = 1.6;

/** The hatching of a layer. `nth`: 0 for the first of its kind, 1 for the second. */
export function hatching(kind: CardLayer['kind'], box: Box, nth: number): Hatching {
  const wider = SPREAD ** nth;
  switch (kind) {
    case 'sand':
      return marks(
        each(box, 5.2 * wider, (x, y, i) => dot(x + 1.5, y + 2 + (i % 3) * 0.5, 0.5 + ((i * 7) % 4) * 0.13)),
      );
    case 'filler':
      return strokes(upright(box, 3 * wider), 0.4);
    case 'cement':
      return strokes(slanted(box, 4.5 * wider, nth % 2 === 0), 0.6);
    case 'gypsum':
      return strokes(level(box, 4 * wider) + upright(box, 4 * wider), 0.35);
    case 'lime':
      return strokes(
        each(box, 5 * wider, (x, y) => `M${n(x)} ${n(y + 2.5)}h3`),
        0.6,
      );
    case 'pozzolan':
      return strokes(slanted(box, 5 * wider, true) + slanted(box, 5 * wider, false), 0.4);
    case 'pigment':
      return nth === 0 ? marks(whole(box)) : strokes(level(box, 1.6 * wider), 0.9);
    case 'polymer':
      return strokes(waves(box, 3.2 * wider, 6), 0.5);
    case 'admixture':
      return marks(each(box, 2.6 * wider, (x, y) => dot(x + 1, y + 1, 0.4)));
    case 'fibre':
      return strokes(
        each(box, 6 * wider, (x, y, i) => `M${n(x)} ${n(y + 2)}l${n(3 + (i % 3))} ${n(((i * 5) % 7) - 3)}`),
        0.6,
      );
    case 'light-aggregate':
      return strokes(
        each(box, 8 * wider, (x, y, i) => dot(x + 3.5, y + 4, 2 + (i % 3) * 0.6)),
        0.5,
      );
    case 'water':
      return strokes(waves(box, 7 * wider, 12), 0.5);
    case 'air':
      return strokes(
        each(box, 9, (x, y) => dot(x + 4, y + 4.5, 0.8)),
        0.4,
      );
    case 'doses':
      return strokes(level(box, 2), 0.7);
  }
}
