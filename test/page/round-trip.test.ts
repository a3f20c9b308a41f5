import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goTo, launch, openBench, openExample, PAGE, saved, settled, skipPageTests } from '../support/browser.js';
import { expectSameData } from '../support/nearly.js';
import { commandLine, folderOf } from './kept-folder.js';

/** From an empty brief to a pour: what the page saves, the command line reads, with the same outcome. */

describe.skipIf(skipPageTests)('a maker’s own files', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('go from an empty brief with pasted prices to a blend, and the command line agrees', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    await page.getByRole('button', { name: 'New brief' }).click();
    await settled(page, 'My piece');
    await goTo(page, 'Shelf');
    await page.getByText('Paste from a spreadsheet').click();
    // As a spreadsheet copies it: tabs, decimal commas, another order of columns.
    const list = [
      'price\tmaterial\tpack',
      '31,00\tcasting-plaster\t25 kg',
      '8,90\tportland-cement-grey\t25 kg',
      '4,30\tmasonry-sand\t25 kg',
      '21,00\tperlite\t100 L',
      '9,60\tsilica-fume\t2 kg',
    ].join('\n');
    await page.getByRole('textbox', { name: 'Price list to paste' }).fill(list);
    await page.getByRole('button', { name: 'Use this list' }).click();
    await page.getByRole('row', { name: /31.00 EUR/ }).waitFor();
    await goTo(page, 'Blend');
    await page.getByRole('radio', { name: 'cheapest' }).check({ force: true });
    await page.getByRole('combobox', { name: 'Add a target' }).selectOption('dry-weight');
    await page.getByRole('textbox', { name: 'dry weight, at most' }).fill('0,4 kg');
    await page.getByRole('radio', { name: 'shape', exact: true }).check({ force: true });
    await page.getByRole('textbox', { name: 'diameter' }).fill('8,5 cm');
    await page.waitForTimeout(600);
    await settled(page, 'My piece');
    await page.getByText('This result as JSON').click();
    const { text } = await saved(page, () => page.getByRole('button', { name: 'Save proposal.json' }).click());
    const folder = await folderOf(page);
    const told = await commandLine(folder, 'propose', 'my-brief.yaml');
    expectSameData(JSON.parse(text), told);
    expect(told['status']).toBe('met');
    // The price the page tells is the one the command line prints.
    await goTo(page, 'Price');
    const price = (await commandLine(folder, 'price', 'my-brief.yaml')) as { blends: { total: string }[] };
    await expect.poll(() => page.locator('tr.sum td').last().textContent()).toBe(`${price.blends[0]!.total} EUR`);
    await context.close();
  });

  it('keep a maker’s comments, and are there again after a reload', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Light wall pocket');
    await page.getByRole('textbox', { name: 'strength, an estimate, at least' }).fill('6 MPa');
    await page.waitForTimeout(700);
    await page.goto('about:blank');
    await page.goto(PAGE);
    await settled(page, 'Light wall pocket');
    await page.getByText('The brief as a file').click();
    const { text } = await saved(page, () => page.getByRole('button', { name: 'Save wall-pocket.yaml' }).click());
    expect(text).toContain('# INVENTED. A pocket that hangs on an indoor wall');
    expect(text).toContain('strength: { min: 6 MPa }');
    await context.close();
  });

  it('weigh out as the card of the command line, and the clock goes on through a reload', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    await openExample(page, 'Incense dish');
    await page.getByRole('button', { name: 'Weigh it out' }).click();
    await page.getByRole('button', { name: /Start the clock/ }).waitFor();
    const folder = await folderOf(page);
    const card = (await commandLine(folder, 'card', 'garden-stall/incense-dish.yaml')) as {
      weighing: { additions: { name: string; grams: number; step: number }[] }[];
    };
    const wanted = card.weighing.flatMap((w) => w.additions.map((a) => `${a.grams.toFixed(a.step < 1 ? 1 : 0)} g`));
    expect(await page.locator('.addition .amount-of b').allTextContents()).toEqual(wanted);
    await page.getByRole('button', { name: /Start the clock/ }).click();
    await page.waitForTimeout(2600);
    await page.goto('about:blank');
    await page.goto(`${PAGE}#card`);
    const since = page.locator('.clock .since');
    await since.waitFor();
    expect(await since.textContent()).toMatch(/^0:0[2-9]$|^0:[1-5]\d$/);
    await context.close();
  });

  it('ring the bell of a clock when its time has come', async () => {
    const { page, context } = await openBench(browser);
    await page.clock.install();
    await page.goto('about:blank');
    await page.goto(PAGE);
    await openExampleUnderFakeClock(page);
    await page.clock.fastForward('01:30:00');
    await expect.poll(() => page.locator('.clock .due').count()).toBeGreaterThan(0);
    await expect.poll(() => page.locator('[role=status][aria-live]').textContent()).toContain('Incense dish');
    await context.close();
  });

  it('record pours in the CSV that the command line reads', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    await openExample(page, 'Incense dish');
    await goTo(page, 'Pours');
    await page
      .getByRole('textbox', { name: 'Weights of a piece since the water' })
      .fill('1 h: 265; 3 d: 250; 9 d: 215');
    await page.getByRole('textbox', { name: 'Minutes until it stopped moving' }).fill('14,5');
    await page.getByRole('textbox', { name: 'Note' }).fill('=SUM(1,2) "quoted", and a comma');
    await page.getByRole('radio', { name: 'pours', exact: true }).check({ force: true });
    await page.getByRole('button', { name: 'Write it down' }).click();
    const written = page.locator('[role=status][aria-live]');
    await expect.poll(() => written.textContent(), { timeout: 10_000 }).toMatch(/^Pour \d+ is in the record/);
    const number = /\d+/.exec((await written.textContent())!)![0];
    await page.getByText('Weigh an earlier pour again').click();
    await page.getByRole('textbox', { name: /Time since the water/ }).fill('12 d: 214');
    await page.getByRole('button', { name: 'Write the weight down' }).click();
    await expect
      .poll(() =>
        page
          .getByRole('region', { name: `Pour ${number}`, exact: true })
          .locator('circle.weighed')
          .count(),
      )
      .toBe(4);
    const { text, name } = await saved(page, () => page.getByRole('button', { name: 'Save pours.csv' }).click());
    expect(name).toBe('pours.csv');
    expect(text).toContain("'=SUM");
    const folder = await folderOf(page);
    const shown = await commandLine(
      folder,
      ...['pours', 'show', '--file', 'garden-stall/pours.csv', '--shop', 'garden-stall/shop.yaml'],
    );
    const pours = shown['pours'] as {
      pour: string;
      weights: unknown[];
      setMinutes: number;
      note: string;
      curve: unknown;
    }[];
    const pour = pours.find((p) => p.pour === number);
    expect(pour!.weights).toHaveLength(4);
    expect(pour!.setMinutes).toBe(14.5);
    expect(pour!.note).toBe('=SUM(1,2) "quoted", and a comma');
    expect(pour!.curve).not.toBeNull();
    await page.getByRole('button', { name: 'Fit the figures to the pours' }).click();
    await page.getByText(/From \d+ measurements of \d+ pour/).waitFor({ timeout: 40_000 });
    await context.close();
  });

  it('are those of the command line, taken in by the file picker, and go back to it with the shop changed', async () => {
    const { page, context } = await openBench(browser);
    const proposal = async (): Promise<unknown> => {
      const opener = page.getByText('This result as JSON');
      if (!(await page.getByRole('button', { name: 'Save proposal.json' }).isVisible())) await opener.click();
      const { text } = await saved(page, () => page.getByRole('button', { name: 'Save proposal.json' }).click());
      return JSON.parse(text);
    };
    for (const file of ['shop.yaml', 'prices.csv', 'soap-tray.yaml']) {
      await goTo(page, 'Start');
      await page.getByLabel('Open a file').setInputFiles(resolve('examples/garden-stall', file));
      await page.waitForFunction(() => location.hash !== '#start');
    }
    await settled(page, 'Soap tray');
    expectSameData(await proposal(), await commandLine(resolve('examples/garden-stall'), 'propose', 'soap-tray.yaml'));
    await goTo(page, 'Shelf');
    await page.getByRole('textbox', { name: 'Room temperature' }).fill('23,5 °C');
    await page.getByRole('textbox', { name: 'Scale tells apart', exact: true }).fill('0,5 g');
    await goTo(page, 'Blend');
    await page.waitForTimeout(600);
    await settled(page, 'Soap tray');
    const folder = await folderOf(page);
    const shop = readFileSync(join(folder, 'shop.yaml'), 'utf8');
    expect(shop).toContain('# the kitchen scale');
    expect(shop).toMatch(/step: "?0,5 g/);
    const told = await commandLine(folder, 'propose', 'soap-tray.yaml');
    expect(told['batch']).toMatchObject({ step: 0.5 });
    expectSameData(await proposal(), told);
    await context.close();
  });

  it('are never lost to another of the same name: the one before is handed out', async () => {
    const { page, context } = await openBench(browser);
    const folder = mkdtempSync(join(tmpdir(), 'bench-pick-'));
    const brief = (title: string): string =>
      `title: ${title}\nmould: { water: 100 mL }\nservice: dry-indoor\nobjective: strongest\n`;
    const pick = async (title: string): Promise<void> => {
      writeFileSync(join(folder, 'mine.yaml'), brief(title));
      await goTo(page, 'Start');
      await page.getByLabel('Open a file').setInputFiles(join(folder, 'mine.yaml'));
    };
    await pick('First');
    await settled(page, 'First');
    const { name, text } = await saved(page, () => pick('Second'));
    expect(name).toBe('mine-before.yaml');
    expect(text).toBe(brief('First'));
    await settled(page, 'Second');
    await context.close();
  });

  it('take a record of pours in as the command line wrote it', async () => {
    const { page, context } = await openBench(browser);
    await goTo(page, 'Pours');
    await page.getByLabel('Load a record').setInputFiles(resolve('examples/garden-stall/pours.csv'));
    await page.getByRole('heading', { name: 'Pour 1', exact: true }).waitFor();
    const shown = await commandLine(resolve('.'), 'pours', 'show', '--file', 'examples/garden-stall/pours.csv');
    const names = (shown['pours'] as { pour: string }[]).map((p) => `Pour ${p.pour}`);
    expect((await page.getByRole('heading', { name: /^Pour / }).allTextContents()).sort()).toEqual(names.sort());
    const { text } = await saved(page, () => page.getByRole('button', { name: 'Save pours.csv' }).click());
    expect(text).toBe(readFileSync('examples/garden-stall/pours.csv', 'utf8'));
    await context.close();
  });

  it('plan an order as the command line does', async () => {
    const { page, context } = await openBench(browser);
    await page.getByRole('button', { name: /Spring market/ }).click();
    await page.getByRole('heading', { name: 'Can it be met?' }).waitFor({ timeout: 60_000 });
    const folder = await folderOf(page);
    const order = (await commandLine(folder, 'order', 'garden-stall/spring-market.yaml')) as {
      met: boolean;
      lastReady: string;
      days: { pours: unknown[] }[];
      materialsCost: string;
    };
    const big = await page.locator('.big').textContent();
    expect(big).toContain(order.met ? 'Yes' : 'No');
    expect(big).toContain(order.lastReady);
    expect(await page.locator('.pour').count()).toBe(order.days.reduce((s, d) => s + d.pours.length, 0));
    expect(await page.locator('#packs-title').textContent()).toContain(Number(order.materialsCost).toFixed(2));
    await context.close();
  });
});

async function openExampleUnderFakeClock(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Incense dish' }).first().click();
  for (let i = 0; i < 60 && (await page.locator('.mould').count()) === 0; i++) await page.clock.runFor(500);
  await page.evaluate(() => {
    location.hash = 'card';
  });
  const start = page.getByRole('button', { name: /Start the clock/ });
  for (let i = 0; i < 60 && (await start.count()) === 0; i++) await page.clock.runFor(500);
  await start.click();
  await page.clock.runFor(1000);
}
