import { describe, expect, it } from 'vitest';
import { cardHtml } from '../../src/core/report/card-html.js';
import { scoopWords, timerWords } from '../../src/core/report/card-print.js';
import { cardResult } from '../../src/core/report/card-result.js';
import type { CardAddition, CardResult } from '../../src/core/report/card-schema.js';
import { fillSvg } from '../../src/core/report/fill-svg.js';
import { escaped, markup } from '../../src/core/report/markup.js';
import { printProperty } from '../../src/core/report/print.js';
import { onScale } from '../../src/core/report/weighed.js';
import { recipeOf, shopOf } from '../support/bench-shelf.js';

const SHOP = shopOf({ currency: 'EUR', scale: { step: '1 g', fine: { step: '0.1 g', most: '100 g' } } });
const plain = cardResult(
  recipeOf(
    {
      title: 'Dish',
      mould: { water: '250 mL' },
      amounts: { 'casting-plaster': '250 g', 'iron-oxide-red': '5 g', water: '170 g' },
    },
    SHOP,
  ),
  SHOP,
);

const HOSTILE = [
  `<script>alert(1)</script>`,
  `"><img src=x onerror=alert(1)>`,
  `' onmouseover='alert(1)`,
  `</style><style>*{display:none}</style>`,
  `--><svg onload=alert(1)>`,
  `&lt;b&gt; &amp; &#60;i>`,
  `javascript:alert(1)`,
];

/** The card with a hostile text in every place a maker's or a table's words can stand. */
const hostile = (text: string): CardResult => ({
  ...plain,
  title: text,
  warnings: [{ code: 'other', severity: 'warning', message: text }],
  targets: [
    {
      property: 'x',
      name: text,
      unit: text,
      min: null,
      max: null,
      value: null,
      met: false,
      margin: null,
      chance: null,
    },
  ],
  weighing: plain.weighing.map((w) => ({ ...w, additions: w.additions.map((a) => ({ ...a, name: text })) })),
  layers: plain.layers.map((l) => ({ ...l, name: text })),
  expected: [{ property: 'dry-weight', name: text, grams: 1 }],
  cautions: {
    ...plain.cautions,
    closing: text,
    cautions: plain.cautions.cautions.map((c) => ({ ...c, short: text })),
    firstAid: plain.cautions.firstAid.map((l) => ({ ...l, when: text, act: text })),
  },
});

const tags = (html: string) => [...html.matchAll(/<([a-z][a-z0-9]*)/gi)].map((m) => m[1]!.toLowerCase());

describe('names can never become markup', () => {
  it('escapes every sign that opens a tag, an attribute or a name', () => {
    expect(escaped(`<a href="x" title='y'>&</a>`)).toBe(
      '&lt;a href=&quot;x&quot; title=&#39;y&#39;&gt;&amp;&lt;/a&gt;',
    );
    expect(escaped('a\u202eb\u0000c\nd')).toBe('ab c d');
    expect(markup`<p>${'<b>'}${markup`<i>${'&'}</i>`}</p>`.html).toBe('<p>&lt;b&gt;<i>&amp;</i></p>');
    expect(markup`${[markup`<i>1</i>`, markup`<i>2</i>`]}${null}${Number.NaN}`.html).toBe('<i>1</i><i>2</i>');
  });

  it.each(HOSTILE)('shows %s as the text it is', (text) => {
    const [safe, tried] = [cardHtml(plain, PAGE), cardHtml(hostile(text), PAGE)];
    const allowed = new Set(tags(safe));
    expect(tags(tried).filter((t) => !allowed.has(t))).toEqual([]);
    expect(tried).not.toContain('<script');
    expect(tried).not.toContain('<img');
    expect(tried.match(/<style/g)).toHaveLength(1);
    if (/[<>"']/.test(text)) expect(tried).not.toContain(text);
    expect(tried).toContain(escaped(text));
  });

  it('runs and fetches nothing', () => {
    const html = cardHtml(plain, PAGE);
    expect(html).toContain(`default-src 'none'`);
    expect(html).not.toMatch(/<(script|link|iframe|img)|url\((?!#)|https?:\/\/(?!www\.w3\.org)/i);
  });

  it('prints on the paper asked for', () => {
    expect(cardHtml(plain, { paper: 'a4', system: 'metric' })).toContain('@page{size:A4 portrait');
    expect(cardHtml(plain, { paper: 'letter', system: 'us' })).toContain('@page{size:letter portrait');
  });
});

const PAGE = { paper: 'a4', system: 'metric' } as const;

describe('the drawing', () => {
  it('gives each layer its share of the height', () => {
    const { html } = fillSvg(plain.layers);
    const heights = [
      ...html.matchAll(/<clipPath id="fill-\d+"><rect x="6" y="[\d.]+" width="108" height="([\d.]+)"/g),
    ].map((m) => Number(m[1]));
    expect(heights).toHaveLength(plain.layers.length);
    const whole = heights.reduce((s, h) => s + h, 0);
    plain.layers.forEach((layer, i) => {
      expect(heights[i]! / whole).toBeCloseTo(layer.share, 2);
    });
  });

  it('keeps labels apart and on the page, however thin the layers', () => {
    for (const thick of [0, 13]) {
      const thin = Array.from({ length: 14 }, (_v, i) => ({
        ...plain.layers[0]!,
        name: `layer ${i}`,
        share: i === thick ? 0.935 : 0.005,
      }));
      const at = [...fillSvg(thin).html.matchAll(/<text x="138" y="([\d.]+)"/g)].map((m) => Number(m[1]));
      expect(at).toHaveLength(14);
      for (let i = 1; i < at.length; i++) expect(at[i - 1]! - at[i]!).toBeGreaterThanOrEqual(13.9);
      expect(Math.min(...at)).toBeGreaterThan(0);
      expect(Math.max(...at)).toBeLessThan(230);
    }
  });

  it('hatches two of a kind differently', () => {
    const two = [0, 1].map((i) => ({ ...plain.layers[0]!, kind: 'cement' as const, name: `c${i}`, share: 0.5 }));
    const strokes = [...fillSvg(two).html.matchAll(/<g clip-path="[^"]+"><path d="([^"]+)"/g)].map((m) => m[1]);
    expect(strokes).toHaveLength(2);
    expect(strokes[0]!.length / strokes[1]!.length).toBeGreaterThan(1.3);
  });
});

describe('words on the card', () => {
  const addition = (grams: number, scoops: CardAddition['scoops']): CardAddition => ({
    material: 'x',
    name: 'x',
    grams,
    step: 1,
    apart: false,
    running: 0,
    cm3: null,
    scoops,
  });

  it('writes an amount as its scale shows it', () => {
    expect(onScale(250, 1)).toBe('250 g');
    expect(onScale(7.1, 0.1)).toBe('7.1 g');
    expect(onScale(250, 5)).toBe('250 g');
    // A scale of 0.1 oz: 100 oz are 2834.9523125 g (NIST Handbook 44).
    expect(onScale(2834.9523125, 2.8349523125)).toBe('6 lb 4.0 oz');
    expect(onScale(1417.47615625, 28.349523125)).toBe('3 lb 2 oz');
  });

  it('counts quarters of a scoop, with the error', () => {
    expect(scoopWords(addition(1, { value: 3.26, least: 2, most: 4, error: 0.28 }))).toBe('3¼ ±28 %');
    expect(scoopWords(addition(1, { value: 0.9, least: 0.9, most: 0.9, error: 0.001 }))).toBe('1');
    expect(scoopWords(addition(1, { value: 0.3, least: 0.2, most: 0.4, error: 0.3 }))).toBe('¼ ±30 %');
    expect(scoopWords(addition(1, null))).toBe('weigh it');
  });

  it('tells times no finer than they are known', () => {
    const timer = (value: number | null, unit: 'min' | 'h', low: number | null = null, high: number | null = null) =>
      timerWords({ id: 'dry', name: 'n', value, low, high, unit });
    expect(timer(8.4, 'min', 5.1, 14.6)).toMatchObject({ value: '8.4 min', range: 'likely 5.1 to 15 min' });
    expect(timer(190, 'h', null, 331)).toMatchObject({ value: '7.9 days', range: 'perhaps 14 days' });
    expect(timer(210, 'min', 110, 670)).toMatchObject({ range: 'likely 110 min to 11 h 15 min' });
    expect(timer(null, 'h').value).toBe('never in this room');
  });

  it('tells a time as every other verb does, hours rounded as hours', () => {
    const told = (value: number) =>
      timerWords({ id: 'demould', name: 'n', value, low: null, high: null, unit: 'min' }).value;
    for (const [minutes, words] of [
      [125.4, '2 h 5 min'],
      [1343.2, '22 h 30 min'],
      [1549.7, '26 h'],
      [3.04, '3 min'],
    ] as const) {
      expect(told(minutes)).toBe(words);
      expect(printProperty('demould-time', minutes, { system: 'metric', currency: null })).toBe(words);
    }
  });
});
