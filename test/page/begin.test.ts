import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings } from '../support/axe.js';
import {
  goTo,
  launch,
  openBench,
  openExample,
  overflow,
  SIZES,
  settled,
  shoot,
  skipPageTests,
} from '../support/browser.js';

/** What meets one who begins on a phone: the mould first, words for the page, tables and figures in one piece. */

const LONG = { timeout: 80_000 } as const;
const PHONES = ['small', 'phone'] as const;

/** Parts that scroll sideways, by name: what they hold is cut where nothing says so. */
const cut = (page: Page): Promise<(string | null)[]> =>
  page
    .locator('.scroll')
    .evaluateAll((all) =>
      all.filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.getAttribute('aria-label')),
    );

/** Figures whose unit has gone to the next line, of all texts that stand in one node. */
const parted = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = [];
    const walk = document.createTreeWalker(document.querySelector('main')!, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node !== null; node = walk.nextNode()) {
      const text = node.textContent ?? '';
      if (node.parentElement?.closest('label, button, option, textarea, .unseen') != null) continue;
      for (const m of text.matchAll(/\d(\s)(?:g|mL|mm|cm|°C|MPa|min|h|%|EUR)(?![\w/])/g)) {
        const range = document.createRange();
        range.setStart(node, m.index);
        range.setEnd(node, m.index + m[0].length);
        if (new Set([...range.getClientRects()].filter((r) => r.width > 0).map((r) => Math.round(r.top))).size > 1)
          found.push(text.slice(Math.max(0, m.index - 20), m.index + 10));
      }
    }
    return found;
  });

describe.skipIf(skipPageTests)('a newcomer', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('begins with the mould, above the blend and within the first window of a phone', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    await page.getByRole('button', { name: 'New brief' }).click();
    await settled(page);
    const topOf = async (name: string): Promise<number> =>
      (await page.getByRole('textbox', { name, exact: true }).boundingBox())!.y;
    expect(await topOf('Water that fills it')).toBeLessThan(SIZES.phone.height - 100);
    expect(await topOf('Name of the piece')).toBeLessThan(await topOf('Water that fills it'));
    expect((await page.locator('.hero').boundingBox())!.y).toBeGreaterThan(await topOf('Water that fills it'));
    await shoot(page, 'begin-phone');
    await context.close();
  });

  it('is told of missing prices and of wrong fields in the words of the page', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    await page.getByRole('button', { name: 'New brief' }).click();
    await settled(page);
    await page.getByRole('combobox', { name: 'Add a target' }).selectOption({ label: 'materials cost' });
    const wrong = page.getByRole('region', { name: 'What to put right' });
    await wrong.waitFor(LONG);
    const told = await wrong.textContent();
    expect(told).toContain('materials cost: A cost is asked for, and the shop has no prices');
    expect(told).not.toMatch(/--prices|\.yaml|targets\./);
    await wrong.getByRole('link', { name: 'Add prices on the Shelf' }).click();
    await page.getByRole('heading', { name: 'Prices', exact: true }).waitFor();
    await goTo(page, 'Blend');
    await page.getByRole('button', { name: 'Take out the target on materials cost' }).click();
    const water = page.getByRole('textbox', { name: 'Water that fills it' });
    await water.fill('3 potatoes');
    await expect.poll(() => water.getAttribute('aria-invalid'), LONG).toBe('true');
    const beside = await page.locator('.field .wrong').first().textContent();
    expect(beside).toMatch(/^This unit is not known: found “3 potatoes”/);
    expect(await wrong.locator('li').first().textContent()).toBe(`Water that fills it: ${beside}`);
    // What the form has no field for goes by its place in the file.
    await water.fill('250 mL');
    await page.getByText('The brief as a file').click();
    const paper = page.getByRole('textbox', { name: /^The brief,/ });
    await paper.fill(`${await paper.inputValue()}colr: red\n`);
    await expect.poll(() => wrong.textContent(), LONG).toMatch(/my-brief\.yaml line \d+, colr: /);
    await context.close();
  });

  it.each(PHONES)('sees every column of the tables, and figures beside their units (%s)', async (size) => {
    const { page, context } = await openBench(browser, { size });
    const sound = async (name: string): Promise<void> => {
      expect(await cut(page), name).toEqual([]);
      expect(await parted(page), name).toEqual([]);
      expect(await overflow(page), name).toBeLessThanOrEqual(0);
    };
    await openExample(page, 'Light wall pocket');
    await page.getByRole('button', { name: 'Look for them' }).click();
    await page.getByText('Taking one lists').waitFor(LONG);
    await sound('blends of other ingredients');
    expect(await axeFindings(page)).toEqual([]);
    const open = page.getByRole('textbox', { name: 'strength, an estimate, at most' });
    expect(await open.evaluate((e) => (e as HTMLInputElement).scrollWidth - e.clientWidth)).toBeLessThanOrEqual(0);
    expect(await open.getAttribute('placeholder')).toBe('no limit');
    await goTo(page, 'Price');
    await page.locator('fieldset.pills label').first().click();
    await page.getByRole('heading', { name: 'Side by side' }).waitFor(LONG);
    await sound('prices');
    await goTo(page, 'Start');
    await page.getByRole('button', { name: 'Hard gypsum casting cement' }).first().click();
    await page.getByRole('heading', { name: 'How close the shelf comes' }).waitFor(LONG);
    await sound('a stand-in');
    const closeness = page.getByRole('region', { name: 'Wanted and got' });
    for (const head of ['off by', 'chance'])
      expect(await closeness.locator(`td[data-label="${head}"]`).first().isVisible(), head).toBe(true);
    await context.close();
  });
});
