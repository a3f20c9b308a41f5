import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { frontierCsv } from '../../src/core/report/frontier-result.js';
import type { FrontierResult } from '../../src/core/report/frontier-schema.js';
import { frontierSvg } from '../../src/core/report/frontier-svg.js';
import type { Wording } from '../../src/core/report/print.js';
import { axeFindings } from '../support/axe.js';
import { launch, skipPageTests } from '../support/browser.js';
import { readTable } from '../support/read-table.js';

/** What a frontier is kept in: a table for a spreadsheet and a picture. The figures are invented. */
const metric: Wording = { system: 'metric', currency: 'EUR' };

const point = (of: number, against: number, system: string, blend: Readonly<Record<string, number>>) => ({
  of,
  against,
  system,
  blend: Object.entries(blend).map(([material, pieceGrams]) => ({ material, pieceGrams })),
  cautions: [],
  barred: false,
});
const RESULT: FrontierResult = {
  format: 'pourwright.frontier/1',
  title: 'Small dish',
  invented: true,
  currency: 'EUR',
  of: { property: 'cost', name: 'materials cost', unit: 'currency', better: 'min' },
  against: { property: 'dry-weight', name: 'dry weight', unit: 'g', better: 'min' },
  points: [
    point(0.3, 520.25, 'portland', { water: 120, 'portland-cement-grey': 300.5 }),
    point(0.35, 500, 'portland', { water: 118, 'portland-cement-grey': 290, perlite: 4 }),
    point(0.5, 430, 'gypsum', { water: 200, 'casting-plaster': 300 }),
    point(0.9, 300, 'gypsum', { water: 150, 'casting-plaster': 200, perlite: 30 }),
  ],
  dominated: 3,
  systems: [
    { system: 'gypsum', name: 'gypsum plaster' },
    { system: 'portland', name: 'portland cement' },
  ],
  cautions: null,
};
const HOSTILE = `</title><script>document.title='broken'</script><text>"&'`;
const PICTURES: Readonly<Record<string, FrontierResult>> = {
  whole: RESULT,
  'nothing fits': { ...RESULT, points: [], systems: [] },
  'one point': { ...RESULT, points: RESULT.points.slice(0, 1), systems: RESULT.systems.slice(1) },
  'a wide span': {
    ...RESULT,
    of: { property: 'demould-time', name: 'time to demoulding', unit: 'min', better: 'min' },
    points: RESULT.points.map((p, i) => ({ ...p, of: 30 * 6 ** i })),
  },
  'hostile words': {
    ...RESULT,
    title: HOSTILE,
    systems: RESULT.systems.map((s) => ({ ...s, name: HOSTILE })),
  },
};

describe('the table of a frontier', () => {
  const read = (result: FrontierResult) => readTable(frontierCsv(result));

  it('is read back by another reader, point by point, blanks where a blend has nothing of a material', () => {
    const { data, errors, meta } = read(RESULT);
    expect(errors).toEqual([]);
    expect(meta.fields).toEqual([
      'cost [EUR]',
      'dry-weight [g]',
      'system',
      'casting-plaster [g]',
      'perlite [g]',
      'portland-cement-grey [g]',
      'water [g]',
    ]);
    expect(data.length).toBe(RESULT.points.length);
    data.forEach((row, i) => {
      const { of, against, system, blend } = RESULT.points[i]!;
      expect([Number(row['cost [EUR]']), Number(row['dry-weight [g]']), row['system']]).toEqual([of, against, system]);
      for (const field of meta.fields!.slice(3)) {
        const used = blend.find((b) => `${b.material} [g]` === field);
        expect(row[field]).toBe(used === undefined ? '' : String(used.pieceGrams));
      }
    });
  });

  it('has only its heading where nothing fits, and says currency where none is known', () => {
    expect(read({ ...RESULT, points: [] }).data).toEqual([]);
    expect(read({ ...RESULT, currency: null }).meta.fields![0]).toBe('cost [currency]');
  });
});

describe.skipIf(skipPageTests)('the picture of a frontier, in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(async () => {
    await browser.close();
  });

  it.each(Object.entries(PICTURES))(
    '%s: is well-formed XML with a title, no script, and nothing cut off',
    async (_, result) => {
      const { html } = frontierSvg(result, metric);
      const page = await browser.newPage();
      const asked: string[] = [];
      page.on('request', (request) => asked.push(request.url()));
      await page.setContent(`<!doctype html><html lang="en"><title>x</title><main><h1>x</h1>${html}</main></html>`);
      const seen = await page.evaluate((svg) => {
        const xml = new DOMParser().parseFromString(svg, 'image/svg+xml');
        const root = xml.documentElement;
        const drawn = document.querySelector('svg')!;
        const frame = drawn.getBoundingClientRect();
        return {
          faults: xml.querySelectorAll('parsererror').length,
          root: [root.namespaceURI, root.localName, root.getAttribute('role'), root.firstElementChild!.localName],
          title: root.firstElementChild!.textContent,
          desc: root.querySelector('desc')?.textContent ?? null,
          scripts: xml.querySelectorAll('script, foreignObject, image, a, [onload]').length,
          marks: root.querySelectorAll('circle[r="3.2"], rect[stroke="#000"]').length,
          lines: [...root.querySelectorAll('polyline')].map((l) => l.getAttribute('points')!.split(' ').length),
          numbers: /NaN|Infinity|undefined/.test(svg),
          outside: [...drawn.querySelectorAll('text, circle, rect, polyline')]
            .map((e) => ({ box: e.getBoundingClientRect(), text: e.textContent }))
            .filter(
              ({ box }) =>
                box.left < frame.left - 1 ||
                box.top < frame.top - 1 ||
                box.right > frame.right + 1 ||
                box.bottom > frame.bottom + 1,
            )
            .map(({ text }) => text),
        };
      }, html);
      expect(seen.faults).toBe(0);
      expect(seen.root).toEqual(['http://www.w3.org/2000/svg', 'svg', 'img', 'title']);
      expect(seen.title).toBe(`${result.of.name} against ${result.against.name}: ${result.title}`);
      expect(seen.scripts).toBe(0);
      expect(seen.numbers).toBe(false);
      // Words that are no words may be longer than the picture is wide.
      if (!result.title.includes('<')) expect(seen.outside).toEqual([]);
      if (result.points.length > 0)
        expect(seen.desc).toMatch(new RegExp(`^${result.points.length} points, from .* to .*\\.$`));
      // A mark each, and a line through each run of one binder, never from one binder to another.
      expect(seen.marks).toBe(result.points.length + (result.points.length > 0 ? result.systems.length : 0));
      expect(seen.lines).toEqual(result.points.length > 2 ? [2, 2] : []);
      expect(await axeFindings(page)).toEqual([]);
      expect(await page.getByRole('img', { name: 'against' }).count()).toBe(1);
      expect(await page.title()).toBe('x');
      expect(asked.filter((url) => !url.startsWith('about:'))).toEqual([]);
      await page.close();
    },
  );

  it('puts every point where its values are: further right is more, higher up is more', async () => {
    const page = await browser.newPage();
    await page.setContent(frontierSvg(RESULT, metric).html);
    const marks = await page.evaluate(() =>
      [...document.querySelectorAll('circle, rect[stroke="#000"]')].map((m) => {
        const box = m.getBoundingClientRect();
        return [box.left + box.width / 2, box.top + box.height / 2] as const;
      }),
    );
    const at = marks.slice(0, RESULT.points.length);
    const [first, last] = [at[0]!, at.at(-1)!];
    const [a, b] = [RESULT.points[0]!, RESULT.points.at(-1)!];
    RESULT.points.forEach((p, i) => {
      const x = first[0] + ((last[0] - first[0]) * (p.against - a.against)) / (b.against - a.against);
      const y = first[1] + ((last[1] - first[1]) * (p.of - a.of)) / (b.of - a.of);
      expect(Math.hypot(at[i]![0] - x, at[i]![1] - y)).toBeLessThan(1);
    });
    expect(last[0]).toBeLessThan(first[0]);
    expect(last[1]).toBeLessThan(first[1]);
    await page.close();
  });
});
