import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, openBench, settled, skipPageTests } from '../support/browser.js';

/** Every flow by keyboard alone: what can be done can be reached by Tab, shows that it is reached, and obeys the keys. */

const MOST_TABS = 220;
const LONG = { timeout: 80_000 } as const;

interface Focus {
  readonly name: string;
  readonly outlined: boolean;
  /** Nothing of the page's own bars lies over it. */
  readonly clear: boolean;
}

const focused = (page: Page): Promise<Focus> =>
  page.evaluate(() => {
    const at = document.activeElement as HTMLInputElement;
    if (at.localName === 'body') return { name: 'page', outlined: true, clear: true };
    const label = at.labels?.[0]?.textContent ?? '';
    const name = at.getAttribute('aria-label') ?? (label === '' ? (at.textContent ?? '') : label);
    const shown = [at, at.closest('label'), at.closest('.button')].filter((e) => e !== null);
    const ring = (e: Element, part?: string): boolean => {
      const style = getComputedStyle(e, part);
      return style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 2;
    };
    // A slider's ring is about its thumb, which no script can read; the rule itself is looked for.
    const thumbRule = [...document.styleSheets].some((sheet) =>
      [...sheet.cssRules].some((r) => r.cssText.startsWith('.thumb:focus-visible::-webkit-slider-thumb')),
    );
    const outlined = shown.some((e) => ring(e)) || (at.classList.contains('thumb') && thumbRule);
    const seen = (at.closest('label') ?? at).getBoundingClientRect();
    const top = document.elementFromPoint(
      Math.min(innerWidth - 1, Math.max(0, seen.left + Math.min(seen.width / 2, 40))),
      Math.min(innerHeight - 1, Math.max(0, seen.top + Math.min(seen.height, innerHeight) / 2)),
    );
    const bar = top?.closest('.top, .foot') ?? null;
    return { name: name.trim(), outlined, clear: bar === null || bar.contains(at) };
  });

/** Tabs on until something of that name has the focus; everything on the way shows its focus and lies clear. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let tabs = 0; tabs < MOST_TABS; tabs++) {
    await page.keyboard.press('Tab');
    const at = await focused(page);
    // Between the last thing of the page and the first.
    if (at.name === 'page') continue;
    expect(at.outlined, `“${at.name}” does not show its focus`).toBe(true);
    expect(at.clear, `“${at.name}” lies under a bar`).toBe(true);
    if (name.test(at.name)) return;
  }
  throw new Error(`nothing named ${name} within ${MOST_TABS} tabs`);
}

describe.skipIf(skipPageTests)('by keyboard alone', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('a brief is opened, changed, made surer, understood, traced along its frontier, weighed out and timed', async () => {
    const { page, context, errors } = await openBench(browser, { size: 'small' });
    await page.keyboard.press('Tab');
    expect((await focused(page)).name).toBe('To the bench');
    await page.keyboard.press('Enter');
    await tabTo(page, /^Hexagonal herb planter/);
    await page.keyboard.press('Enter');
    await settled(page, 'Hexagonal herb planter');
    await tabTo(page, /^dry weight, at most$/);
    const limit = page.getByRole('textbox', { name: 'dry weight, at most' });
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => limit.inputValue()).toBe('1340 g');
    await page.keyboard.press('PageDown');
    await expect.poll(() => limit.inputValue()).toBe('1240 g');
    await page.keyboard.press('ArrowUp');
    await expect.poll(() => limit.inputValue()).toBe('1250 g');
    await page.waitForTimeout(600);
    await settled(page);
    await tabTo(page, /^90 %$/);
    await page.keyboard.press('ArrowLeft');
    expect((await focused(page)).name).toBe('80 %');
    await tabTo(page, /^Look for a surer blend$/);
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Keep this blend as a recipe' }).waitFor(LONG);
    await tabTo(page, /^Look into it$/);
    await page.keyboard.press('Space');
    await page.getByRole('heading', { name: 'What it does without' }).waitFor(LONG);
    await tabTo(page, /^lightest$/);
    await page.keyboard.press('Space');
    await page.locator('.frontier .point').first().waitFor(LONG);
    await tabTo(page, /^Along the line$/);
    for (let i = 0; i < 12; i++) await page.keyboard.press('ArrowRight');
    const wanted = Number(
      /([\d.]+) g/.exec((await page.locator('input[aria-valuetext*=EUR]').last().getAttribute('aria-valuetext'))!)![1],
    );
    await tabTo(page, /^Take this blend$/);
    await page.keyboard.press('Enter');
    await page.waitForTimeout(600);
    await settled(page);
    const has = await page.locator('.verdicts li', { hasText: 'dry weight' }).locator('.has').first().textContent();
    expect(Math.abs(Number.parseFloat(has!) / wanted - 1)).toBeLessThan(0.01);
    await tabTo(page, /^Weigh it out$/);
    await page.keyboard.press('Enter');
    await page.locator('.addition').first().waitFor();
    await tabTo(page, /grey portland cement/);
    await page.keyboard.press('Space');
    expect(await page.getByRole('checkbox', { name: /grey portland cement/ }).isChecked()).toBe(true);
    await tabTo(page, /^Start the clock/);
    await page.keyboard.press('Enter');
    await page.locator('.clock .since').waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });

  it('a way out is taken, and a stand-in', async () => {
    const { page, context } = await openBench(browser);
    await tabTo(page, /^A planter that cannot be/);
    await page.keyboard.press('Enter');
    await settled(page, 'A planter that cannot be');
    await page.getByText('Give way in any one of these').waitFor(LONG);
    await tabTo(page, /^allow at most 1\d+ g$/);
    await page.keyboard.press('Enter');
    await page.waitForTimeout(600);
    await settled(page);
    expect(await page.locator('.verdict b').first().textContent()).toBe('All targets met');
    await page.evaluate(() => {
      location.hash = 'start';
    });
    await tabTo(page, /^Hard gypsum casting cement/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'How close the shelf comes' }).waitFor(LONG);
    await tabTo(page, /^gypsum plaster, /);
    await page.keyboard.press('ArrowRight');
    const chosen = (await focused(page)).name.split(',')[0]!;
    expect(chosen).not.toBe('gypsum plaster');
    await tabTo(page, /^Take this blend$/);
    await page.keyboard.press('Enter');
    await settled(page, 'Stand-in for Hard gypsum casting cement');
    await context.close();
  });
});
