import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cardHtml } from '../../src/core/report/card-html.js';
import { cardResult } from '../../src/core/report/card-result.js';
import type { CardResult } from '../../src/core/report/card-schema.js';
import { PAPERS, type Paper } from '../../src/core/report/card-style.js';
import { recipeOf, shopOf } from '../support/bench-shelf.js';

/** The printed card in a real browser: one page, nothing cut off, legible in black and white. */

const CHROMIUM = '/usr/bin/chromium';
const OUT = process.env['POURWRIGHT_SHOTS'] ?? join(tmpdir(), 'pourwright-shots');

const SHOP = shopOf({ currency: 'EUR', scale: { step: '1 g', fine: { step: '0.1 g', most: '100 g' } }, bowl: '2 kg' });
const cardOf = (written: unknown, options = {}): CardResult => cardResult(recipeOf(written, SHOP, options), SHOP);

/** Invented recipes that between them hold every kind of material. */
const CARDS: Readonly<Record<string, CardResult>> = {
  planter: cardOf(
    {
      title: 'Light herb planter',
      mould: { water: '640 mL' },
      service: 'damp',
      uses: ['planter'],
      amounts: {
        'portland-cement-grey': '330 g',
        metakaolin: '30 g',
        'masonry-sand': '450 g',
        perlite: '30 g',
        'iron-oxide-red': '9.4 g',
        'ar-glass-fibre': '8 g',
        'plasticiser-liquid': '3.3 g',
        'acrylic-emulsion': '25 g',
        water: '190 g',
      },
      targets: { 'dry-weight': { max: '900 g' } },
    },
    { pieces: 6 },
  ),
  dish: cardOf({
    title: 'Dish of plaster, cement and sand',
    mould: { water: '250 mL' },
    people: ['child-present', 'asthma'],
    finish: 'dry-sanding',
    amounts: {
      'casting-plaster': '75 g',
      'portland-cement-grey': '75 g',
      metakaolin: '20 g',
      'silica-sand-fine': '150 g',
      'iron-oxide-red': '9 g',
      'citric-acid': '0.1 g',
      'methyl-cellulose': '0.2 g',
      water: '90 g',
    },
  }),
  plaster: cardOf({
    title: 'Plain plaster',
    mould: { water: '250 mL' },
    amounts: { 'casting-plaster': '250 g', water: '170 g' },
  }),
};

/** A card far fuller than any that was met: forty lines to weigh, sixty cautions. */
const monster = (): CardResult => {
  const base = CARDS['planter']!;
  const [addition] = base.weighing[0]!.additions;
  const additions = Array.from({ length: 9 }, () => ({
    ...addition!,
    name: 'an ingredient with quite a long name of its own',
  }));
  const weighing = Array.from({ length: 6 }, () => ({ ...base.weighing.at(-1)!, additions }));
  const [caution] = base.cautions.cautions;
  return { ...base, weighing, cautions: { ...base.cautions, cautions: Array.from({ length: 60 }, () => caution!) } };
};

/** Pages of a PDF: the /Count of its page tree. Chromium may pack objects, so streams are unpacked too. */
function pagesOf(pdf: Buffer): number {
  const raw = pdf.toString('latin1');
  const unpacked = [...raw.matchAll(/stream\r?\n/g)].map((m) => {
    try {
      return inflateSync(pdf.subarray(m.index! + m[0].length)).toString('latin1');
    } catch {
      return '';
    }
  });
  const counts = [raw, ...unpacked].flatMap((text) => [
    ...text.matchAll(/\/Type\s*\/Pages\b[^>]*?\/Count\s+(\d+)|\/Count\s+(\d+)[^>]*?\/Type\s*\/Pages\b/g),
  ]);
  return Math.max(0, ...counts.map((m) => Number(m[1] ?? m[2])));
}

describe.skipIf(!existsSync(CHROMIUM))('the printed card in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    mkdirSync(OUT, { recursive: true });
    const quiet = [
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ];
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu', ...quiet] });
  });
  afterAll(() => browser?.close());

  const opened = async (card: CardResult, paper: Paper) => {
    const page = await browser.newPage({ viewport: { width: 794, height: 1123 } });
    const asked: string[] = [];
    page.on('request', (r) => asked.push(r.url()));
    await page.setContent(cardHtml(card, { paper, system: paper === 'a4' ? 'metric' : 'us' }));
    return { page, asked };
  };

  for (const paper of PAPERS) {
    it.each(Object.keys(CARDS))(`fits %s on one page of ${paper}`, async (name) => {
      const { page, asked } = await opened(CARDS[name]!, paper);
      const pdf = await page.pdf({ preferCSSPageSize: true, path: join(OUT, `card-${name}-${paper}.pdf`) });
      expect(pagesOf(pdf)).toBe(1);
      const size = await page.evaluate(() => Number.parseFloat(getComputedStyle(document.body).fontSize) * 0.75);
      // Common practice, no source: smaller than 7.5 pt is hard to read at the bench.
      expect(size).toBeGreaterThanOrEqual(7.5);
      expect(asked).toEqual([]);
      await page.close();
    });
  }

  it('counts pages: a card too full for one takes a second and loses nothing', async () => {
    const card = monster();
    const { page } = await opened(card, 'letter');
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pagesOf(pdf)).toBe(2);
    expect(await page.locator('.cautions li').count()).toBe(60);
    const points = await page.evaluate(() => Number.parseFloat(getComputedStyle(document.body).fontSize) * 0.75);
    expect(points).toBeCloseTo(6.4, 1);
    await page.close();
  });

  it('shows every amount, every caution and the closing, with no script and nothing wider than the page', async () => {
    const card = CARDS['planter']!;
    const { page } = await opened(card, 'a4');
    await page.emulateMedia({ media: 'print' });
    const text = ((await page.locator('body').textContent()) ?? '').replace(/\s+/g, ' ');
    for (const step of card.weighing) for (const a of step.additions) expect(text).toContain(a.name);
    for (const caution of card.cautions.cautions) expect(text).toContain(caution.short);
    for (const line of card.cautions.firstAid) expect(text).toContain(line.act);
    expect(text).toContain(card.cautions.closing);
    expect(await page.evaluate(() => document.scripts.length)).toBe(0);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    await page.close();
  });

  it('is black on white and really drawn', async () => {
    const { page } = await opened(CARDS['planter']!, 'a4');
    await page.emulateMedia({ media: 'print' });
    const file = join(OUT, 'card-planter.png');
    await page.screenshot({ path: file, fullPage: true });
    expect(readFileSync(file).subarray(1, 4).toString()).toBe('PNG');
    const colours = await page.evaluate(() => {
      const seen = new Set<string>();
      for (const e of document.querySelectorAll('*')) {
        const { color, backgroundColor, stroke, fill } = getComputedStyle(e);
        for (const c of [color, backgroundColor, stroke, fill]) seen.add(c);
      }
      return [...seen];
    });
    const grey = /^(none|rgb\((\d+), \2, \2\)|rgba\(0, 0, 0, 0\))$/;
    expect(colours.filter((c) => !grey.test(c))).toEqual([]);
    // Each layer of the drawing has ink in it, and layers of different kinds differ.
    const marks = await page
      .locator('svg.fill g[clip-path] path')
      .evaluateAll((paths) => paths.map((p) => p.getAttribute('d')!));
    expect(marks.length).toBeGreaterThanOrEqual(CARDS['planter']!.layers.length);
    expect(new Set(marks).size).toBe(marks.length);
    await page.close();
  });

  it('reads on a phone without scrolling sideways', async () => {
    const { page } = await opened(CARDS['planter']!, 'a4');
    await page.setViewportSize({ width: 360, height: 740 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.close();
  });

  it('shows hostile names as text in a real browser', async () => {
    const hostile = `<img src=x onerror="document.title='broken'"><script>document.title='broken'</script>`;
    const card = {
      ...CARDS['plaster']!,
      title: hostile,
      layers: CARDS['plaster']!.layers.map((l) => ({ ...l, name: hostile })),
    };
    const { page, asked } = await opened(card, 'a4');
    expect(await page.locator('h1').textContent()).toBe(hostile);
    expect(await page.locator('img, script').count()).toBe(0);
    expect(await page.title()).toContain('<img');
    expect(asked).toEqual([]);
    await page.close();
  });
});
