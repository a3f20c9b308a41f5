import { C33_ENVELOPE } from '../science/grading.js';
import { type Curve, curvesOf, envelopeAt, type PlotRange, place, plotRange } from '../sieve/curves.js';
import type { SieveResult } from '../sieve/sieve-schema.js';
import { SIEVE_AXIS, sieveMark } from '../sieve/words.js';
import type { UnitSystem } from '../units/print.js';
import { type Markup, markup } from './markup.js';

const WIDTH = 640;
const HEIGHT = 420;
const AREA = { left: 52, right: 16, top: 18, bottom: 92 } as const;
const STEPS = 160;
/** Dashes tell the lines apart in black and white. */
const DASHES = ['', '7 3', '2 3', '9 3 2 3', '4 2', '1 2'] as const;

const n = (value: number): string => value.toFixed(1);

/** Grading curves on a logarithmic size axis, with the envelope of ASTM C33 behind them. One picture, no script. */
export function gradingSvg(result: SieveResult, system: UnitSystem): Markup {
  const range = plotRange(result);
  const curves = curvesOf(result);
  const x = (size: number): number => AREA.left + place(size, range) * (WIDTH - AREA.left - AREA.right);
  const y = (passing: number): number => AREA.top + (1 - passing / 100) * (HEIGHT - AREA.top - AREA.bottom);
  const legend = curves.map((c) => c.name).join(', ');
  return markup`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" font-family="sans-serif" font-size="11"><title>Grading curves</title><desc>${`Percent passing against sieve opening: ${legend}. Shaded: the envelope of ASTM C33 for fine aggregate.`}</desc><rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>${envelope(x, y)}${axes(range, x, y, system)}${curves.map((c, i) => line(c, i, range, x, y))}${curves.map((c, i) => key(c, i))}</svg>`;
}

type Scale = (value: number) => number;

function envelope(x: Scale, y: Scale): Markup {
  const sizes = C33_ENVELOPE.map(([size]) => size);
  const upper = sizes.map((s) => `${n(x(s))},${n(y(envelopeAt(s)!.high))}`);
  const lower = [...sizes].reverse().map((s) => `${n(x(s))},${n(y(envelopeAt(s)!.low))}`);
  return markup`<polygon points="${[...upper, ...lower].join(' ')}" fill="#ddd"/>`;
}

function axes(range: PlotRange, x: Scale, y: Scale, system: UnitSystem): Markup {
  const sizes = C33_ENVELOPE.map(([size]) => size).filter((s) => s >= range.finest && s <= range.coarsest);
  const upright = sizes.map(
    (s) =>
      markup`<path d="M${n(x(s))} ${y(100)}V${y(0)}" stroke="#bbb" stroke-width="0.6"/><text x="${n(x(s))}" y="${n(y(0) + 14)}" text-anchor="middle">${sieveMark(s, system)}</text>`,
  );
  const level = [0, 20, 40, 60, 80, 100].map(
    (p) =>
      markup`<path d="M${AREA.left} ${n(y(p))}H${WIDTH - AREA.right}" stroke="#bbb" stroke-width="0.6"/><text x="${AREA.left - 6}" y="${n(y(p) + 4)}" text-anchor="end">${p}</text>`,
  );
  const middle = (AREA.left + WIDTH - AREA.right) / 2;
  return markup`${upright}${level}<text x="${n(middle)}" y="${n(y(0) + 30)}" text-anchor="middle">${SIEVE_AXIS[system]} (logarithmic)</text><text transform="translate(14 ${n(y(50))}) rotate(-90)" text-anchor="middle">percent passing</text>`;
}

const stroke = (curve: Curve, i: number): Markup => {
  const width = curve.name === 'mix' && curve.points.length === 0 ? 3 : 1.6;
  return markup`fill="none" stroke="#000" stroke-width="${width}" stroke-dasharray="${DASHES[i % DASHES.length]!}"`;
};

function line(curve: Curve, i: number, range: PlotRange, x: Scale, y: Scale): Markup {
  const sizes = Array.from(
    { length: STEPS + 1 },
    (_v, k) => range.finest * (range.coarsest / range.finest) ** (k / STEPS),
  );
  const path = sizes.map((s) => `${n(x(s))},${n(y(curve.passing(s)))}`).join(' ');
  const dots = curve.points.map((p) => markup`<circle cx="${n(x(p.sieve))}" cy="${n(y(p.passing))}" r="2.6"/>`);
  return markup`<polyline points="${path}" ${stroke(curve, i)}/>${dots}`;
}

const KEYS_A_ROW = 3;

function key(curve: Curve, i: number): Markup {
  const left = AREA.left + (i % KEYS_A_ROW) * ((WIDTH - AREA.left) / KEYS_A_ROW);
  const top = HEIGHT - 40 + 15 * Math.floor(i / KEYS_A_ROW);
  const name = [...curve.name].length > 26 ? `${[...curve.name].slice(0, 25).join('')}…` : curve.name;
  return markup`<path d="M${n(left)} ${n(top - 4)}h28" ${stroke(curve, i)}/><text x="${n(left + 34)}" y="${n(top)}">${name}</text>`;
}
