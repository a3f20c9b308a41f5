import { execFile } from 'node:child_process';
import { resolve } from 'node:path';
import { promisify } from 'node:util';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, openBench, openExample, saved, settled, skipPageTests } from '../support/browser.js';
import { expectSameData } from '../support/nearly.js';

/** The page stands on the command line's own core: for the same files both give the same numbers. */

const run = promisify(execFile);
/** Run beside the folder, so that places are named as on the page. */
const BESIDE = { cwd: 'examples' };
const COMMAND = resolve('dist/pourwright.cjs');

async function commandLine(verb: string, file: string): Promise<unknown> {
  // 1 is an answer too: a target fails or no blend exists.
  const { stdout } = await run(process.execPath, [COMMAND, verb, `garden-stall/${file}`, '--json'], BESIDE).catch(
    (error: { code: number; stdout: string }) => {
      if (error.code !== 1) throw error;
      return error;
    },
  );
  return JSON.parse(stdout);
}

const BRIEFS = {
  'herb-planter.yaml': 'Hexagonal herb planter',
  'wall-pocket.yaml': 'Light wall pocket',
  'bookends.yaml': 'Heavy bookends',
  'incense-dish.yaml': 'Incense dish',
  'soap-tray.yaml': 'Soap tray',
  'impossible-planter.yaml': 'A planter that cannot be',
} as const;

const RECIPES = {
  'recipes/old-planter.yaml': "The stall's old planter mix",
  'recipes/far-too-wet.yaml': 'One cup to one cup',
  'recipes/plaster-and-cement.yaml': 'Sand, cement and plaster',
} as const;

describe.skipIf(skipPageTests)('the page and the command line', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it.each(Object.entries(BRIEFS))('propose the same blend for %s', async (file, title) => {
    const { page, errors, context } = await openBench(browser);
    await openExample(page, title);
    await page.getByText('This result as JSON').click();
    const { text } = await saved(page, () => page.getByRole('button', { name: 'Save proposal.json' }).click());
    expectSameData(JSON.parse(text), await commandLine('propose', file));
    expect(errors).toEqual([]);
    await context.close();
  });

  it.each(Object.entries(RECIPES))('assess %s alike', async (file, title) => {
    const { page, context } = await openBench(browser);
    await openExample(page, title);
    await page.getByText('This result as JSON').click();
    const { text } = await saved(page, () => page.getByRole('button', { name: 'Save assessment.json' }).click());
    expectSameData(JSON.parse(text), await commandLine('assess', file));
    await context.close();
  });

  it('agrees again after many changes, wherever the quick looks have been', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Soap tray');
    const most = page.getByRole('slider', { name: 'materials cost, at most' });
    const limit = page.getByRole('textbox', { name: 'materials cost, at most' });
    const before = await limit.inputValue();
    for (let i = 0; i < 12; i++) await most.press('ArrowLeft');
    expect(Number.parseFloat(await limit.inputValue())).toBeLessThan(Number.parseFloat(before) - 0.1);
    for (let i = 0; i < 12; i++) await most.press('ArrowRight');
    await page.getByRole('textbox', { name: 'materials cost, at most' }).fill('0.40 EUR');
    await page.waitForTimeout(600);
    await settled(page, 'Soap tray');
    await page.getByText('This result as JSON').click();
    const { text } = await saved(page, () => page.getByRole('button', { name: 'Save proposal.json' }).click());
    expectSameData(JSON.parse(text), await commandLine('propose', 'soap-tray.yaml'));
    await context.close();
  });
});
