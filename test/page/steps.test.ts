import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings } from '../support/axe.js';
import { goTo, launch, openBench, openExample, overflow, type Size, shoot, skipPageTests } from '../support/browser.js';

/** Every step at every size: nothing sticks out, the cautions are in view, and axe-core finds nothing serious. */

const STEPS = ['Start', 'Shelf', 'Blend', 'Assess', 'Price', 'Card', 'Pours', 'Order'] as const;
const CASES = (['small', 'phone', 'desktop'] as const).flatMap((size) =>
  (['light', 'dark'] as const)
    .filter((scheme) => scheme === 'light' || size !== 'small')
    .map((scheme) => ({ size, scheme })),
) satisfies { size: Size; scheme: 'light' | 'dark' }[];

describe.skipIf(skipPageTests).each(CASES)('the steps at $size size, $scheme', ({ size, scheme }) => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('fit, keep the cautions in view and can be used by all', async () => {
    const { page, errors, asked } = await openBench(browser, { size, scheme });
    await openExample(page, "The stall's old planter mix");
    await openExample(page, 'Hexagonal herb planter');
    for (const step of STEPS) {
      await goTo(page, step);
      await page.waitForFunction(() => document.querySelector('.wait') === null);
      if (step === 'Card') await page.getByRole('button', { name: /Start the clock/ }).click();
      if (step === 'Pours') {
        await page.getByRole('textbox', { name: /Weights of a piece/ }).fill('1 h: 1260; 3 d: 1240; 9 d: 1150');
        await page.getByRole('button', { name: 'Write it down' }).click();
        await page.getByRole('heading', { name: 'Pour 1' }).waitFor();
      }
      if (step === 'Order') {
        await page.getByRole('button', { name: /^Plan/ }).click();
        await page.getByRole('heading', { name: 'Can it be met?' }).waitFor();
      }
      await shoot(page, `${size}-${scheme}-${step.toLowerCase()}`);
      expect(await overflow(page), `${step} is wider than its window`).toBeLessThanOrEqual(0);
      expect(await axeFindings(page), step).toEqual([]);
      if (step !== 'Start') {
        const strip = page.locator('.strip');
        expect(await strip.isVisible(), `${step} shows no caution`).toBe(true);
        const box = (await strip.boundingBox())!;
        expect(box.y + box.height).toBeLessThanOrEqual((await page.viewportSize()!).height + 1);
      }
    }
    expect(errors).toEqual([]);
    expect(asked).toEqual([]);
  }, 180_000);
});
