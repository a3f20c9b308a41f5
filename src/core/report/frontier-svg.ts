import { frontierAxes } from './frontier-axes.js';
import type { FrontierResult } from './frontier-schema.js';
import { type Markup, markup } from './markup.js';
import { printProperty, type Wording } from './print.js';

const WIDTH = 640;
const HEIGHT = 420;
const AREA = { left: 78, right: 20, top: 34, bottom: 78 } as const;

/** Marks that tell binder systems apart in black and white. */
const MARKS: readonly ((x: number, y: number) => Markup)[] = [
  (x, y) => markup`<circle cx="${n(x)}" cy="${n(y)}" r="3.2"/>`,
  (x, y) => markup`<rect x="${n(x - 3)}" y="${n(y - 3)}" width="6" height="6" fill="#fff" stroke="#000"/>`,
  (x, y) => markup`<path d="M${n(x)} ${n(y - 4)}l4 7h-8z"/>`,
  (x, y) => markup`<path d="M${n(x - 3)} ${n(y - 3)}l6 6m0 -6l-6 6" stroke="#000" stroke-width="1.6"/>`,
  (x, y) => markup`<path d="M${n(x)} ${n(y - 4)}l4 4l-4 4l-4 -4z" fill="#fff" stroke="#000"/>`,
  (x, y) => markup`<path d="M${n(x - 4)} ${n(y)}h8m-4 -4v8" stroke="#000" stroke-width="1.6"/>`,
];

const n = (value: number): string => value.toFixed(1);

/** A frontier as one picture: `against` to the right, `of` upwards, one mark a binder system. No script, no colour. */
export function frontierSvg(result: FrontierResult, wording: Wording): Markup {
  const { points, systems, of, against } = result;
  const title = `${of.name} against ${against.name}: ${result.title}`;
  if (points.length === 0) {
    return markup`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} 60" role="img" font-family="sans-serif" font-size="13"><title>${title}</title><text x="12" y="34">No blend meets the brief.</text></svg>`;
  }
  const axes = frontierAxes(result, wording, { x: 6, y: 6 });
  const x = (value: number): number => AREA.left + axes.x.place(value) * (WIDTH - AREA.left - AREA.right);
  const y = (value: number): number => HEIGHT - AREA.bottom - axes.y.place(value) * (HEIGHT - AREA.top - AREA.bottom);
  const [first, last] = [points[0]!, points.at(-1)!];
  const say = (p: typeof first): string =>
    `${of.name} ${printProperty(of.property, p.of, wording)}, ${against.name} ${printProperty(against.property, p.against, wording)}`;
  const desc = `${points.length} points, from ${say(first)} to ${say(last)}.`;
  const bottom = HEIGHT - AREA.bottom;
  const right = WIDTH - AREA.right;
  const upright = axes.x.ticks.map((t) => {
    const at = AREA.left + t.at * (right - AREA.left);
    return markup`<path d="M${n(at)} ${AREA.top}V${bottom}" stroke="#ccc" stroke-width="0.6"/><text x="${n(at)}" y="${bottom + 15}" text-anchor="middle">${t.text}</text>`;
  });
  const level = axes.y.ticks.map((t) => {
    const at = bottom - t.at * (bottom - AREA.top);
    return markup`<path d="M${AREA.left} ${n(at)}H${right}" stroke="#ccc" stroke-width="0.6"/><text x="${AREA.left - 6}" y="${n(at + 4)}" text-anchor="end">${t.text}</text>`;
  });
  const index = (system: string): number => systems.findIndex((s) => s.system === system);
  const marks = points.map((p) => MARKS[index(p.system) % MARKS.length]!(x(p.against), y(p.of)));
  const room = (right - AREA.left) / Math.min(3, Math.max(1, systems.length));
  const keys = systems.map((s, i) => {
    const [left, top] = [AREA.left + (i % 3) * room, HEIGHT - 24 + 15 * Math.floor(i / 3)];
    return markup`${MARKS[i % MARKS.length]!(left, top - 4)}<text x="${n(left + 9)}" y="${top}">${s.name}</text>`;
  });
  return markup`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" font-family="sans-serif" font-size="11"><title>${title}</title><desc>${desc}</desc><rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/><text x="${AREA.left}" y="18" font-size="13">${title}</text>${upright}${level}${runs(points, x, y)}${marks}<text x="${n((AREA.left + right) / 2)}" y="${bottom + 33}" text-anchor="middle">${axes.x.title}</text><text transform="translate(14 ${n((AREA.top + bottom) / 2)}) rotate(-90)" text-anchor="middle">${axes.y.title}</text>${keys}</svg>`;
}

type Scale = (value: number) => number;

/** A line through each run of points of one binder system; from one system to another there is no blend between. */
function runs(points: FrontierResult['points'], x: Scale, y: Scale): Markup[] {
  const lines: string[][] = [];
  points.forEach((p, i) => {
    if (i === 0 || points[i - 1]!.system !== p.system) lines.push([]);
    lines.at(-1)!.push(`${n(x(p.against))},${n(y(p.of))}`);
  });
  return lines
    .filter((l) => l.length > 1)
    .map((l) => markup`<polyline points="${l.join(' ')}" fill="none" stroke="#000" stroke-width="1.2"/>`);
}
