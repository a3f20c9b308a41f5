import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goTo, launch, openBench, openExample, settled, skipPageTests } from '../support/browser.js';

/** What the fields of the page hint at: quantities in the units of the shop. */

const STEPS = ['Blend', 'Assess', 'Stand-in', 'Shelf', 'Card', 'Pours'] as const;
const METRIC = /\d ?(?:g|kg|mL|L|mm|cm|°C|MPa)(?![\w/])|⟦/;
const US = /\d ?(?:oz|lb|fl oz|cups?|in|°F)(?!\w)/;

/** Every hint of a step, folded parts too. */
async function hintsOf(page: Page, step: string): Promise<string[]> {
  await goTo(page, step);
  if (step === 'Stand-in') {
    const begin = page.getByRole('button', { name: 'Describe a medium' });
    if (await begin.isVisible()) await begin.click();
    await page.getByRole('textbox', { name: 'Volume of a weighed piece' }).waitFor();
  }
  const all = await page
    .locator('main input, main textarea')
    .evaluateAll((fields) => fields.map((f) => (f as HTMLInputElement).placeholder));
  return all.filter((hint) => hint !== '');
}

describe.skipIf(skipPageTests)('hints of fields', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('have the units of the shop, and what is typed is read in either', async () => {
    const { page, context, errors } = await openBench(browser, { size: 'desktop' });
    await openExample(page, "The stall's old planter mix");
    await openExample(page, 'Incense dish');
    const metric = Object.fromEntries(await all(page));
    expect(Object.values(metric).flat().join('\n')).not.toMatch(/\d (?:oz|lb|fl oz|°F)/);
    await goTo(page, 'Shelf');
    await page.getByRole('combobox', { name: 'Units' }).selectOption('us');
    const us = Object.fromEntries(await all(page));
    for (const step of STEPS) {
      for (const hint of us[step]!) expect(hint, step).not.toMatch(METRIC);
      // A record counts in grams where nothing else is said.
      const plain = step === 'Pours' ? /3 d: 249$/ : METRIC;
      expect(
        metric[step]!.some((hint) => plain.test(hint)),
        step,
      ).toBe(true);
      expect(
        us[step]!.some((hint) => US.test(hint)),
        step,
      ).toBe(true);
    }
    await goTo(page, 'Blend');
    const mould = page.getByRole('region', { name: /^Mould/ });
    await mould.getByText('water fill', { exact: true }).click();
    const water = mould.getByRole('textbox', { name: 'Water that fills it' });
    for (const typed of ['250 mL', '8.4535 fl oz']) {
      await water.fill(typed);
      await water.blur();
      await settled(page, 'Incense dish');
      await mould.getByText('(now 8.45 fl oz)').waitFor();
      expect(await water.inputValue()).toBe(typed);
    }
    // A shape begins with sides in those units.
    await mould.getByText('shape', { exact: true }).click();
    expect(await mould.getByRole('textbox', { name: 'diameter' }).first().inputValue()).toBe('3 in');
    expect(errors).toEqual([]);
    await context.close();
  });
});

const all = async (page: Page): Promise<[string, string[]][]> => {
  const told: [string, string[]][] = [];
  for (const step of STEPS) told.push([step, await hintsOf(page, step)]);
  return told;
};
