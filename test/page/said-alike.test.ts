import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings } from '../support/axe.js';
import {
  goTo,
  launch,
  openBench,
  openExample,
  overflow,
  PAGE,
  saved,
  settled,
  shoot,
  skipPageTests,
} from '../support/browser.js';
import { said } from '../support/cli.js';
import { expectSameData } from '../support/nearly.js';
import { commandLine, folderOf } from './kept-folder.js';

/** What the page asks and tells as the command line does, at the narrowest size and at a desk. */

const LONG = { timeout: 80_000 } as const;
const bare = (text: string): string => text.replace(/\s+/g, '');
const printed = async (...argv: string[]): Promise<string> => bare((await said(argv, '', { columns: 240 })).out);

const proposalOf = async (page: Page): Promise<unknown> => {
  const button = page.getByRole('button', { name: 'Save proposal.json' });
  if (!(await button.isVisible())) await page.getByText('This result as JSON').click();
  return JSON.parse((await saved(page, () => button.click())).text);
};

const briefOf = async (page: Page): Promise<string> => {
  const paper = page.getByRole('textbox', { name: /^The brief,/ });
  if (!(await paper.isVisible())) await page.getByText('The brief as a file').click();
  return paper.inputValue();
};

const sound = async (page: Page, name: string): Promise<void> => {
  expect(await overflow(page), `${name} is wider than its window`).toBeLessThanOrEqual(0);
  expect(await axeFindings(page), name).toEqual([]);
};

const SIZES = ['small', 'desktop'] as const;

describe.skipIf(skipPageTests)('the page', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it.each(SIZES)(
    'asks for few ingredients, least dose and whole-number parts in the brief’s own YAML (%s)',
    async (size) => {
      const { page, context } = await openBench(browser, { size });
      await openExample(page, 'Light wall pocket');
      const form = page.getByRole('region', { name: 'Weighing out' });
      const most = form.getByRole('textbox', { name: 'Dry ingredients, at most' });
      await most.fill('4');
      await form.getByRole('textbox', { name: 'No ingredient below' }).fill('12 g');
      await form.getByRole('radio', { name: 'by scoop' }).check({ force: true });
      await form.getByRole('textbox', { name: 'Parts of one ingredient, at most' }).fill('6');
      await page.waitForTimeout(700);
      await settled(page, 'Light wall pocket');
      const text = await briefOf(page);
      expect(text).toMatch(/ingredients: 4\b/);
      expect(text).toMatch(/least-dose: 12 g/);
      expect(text).toMatch(/by: scoop\b/);
      expect(text).toMatch(/most: 6\b/);
      const folder = await folderOf(page);
      const told = await commandLine(folder, 'propose', 'garden-stall/wall-pocket.yaml');
      expectSameData(await proposalOf(page), told);
      expect(told['limits']).toMatchObject({ ingredients: 4, leastDose: 12 });
      expect(told['parts']).toMatchObject({ by: 'scoop' });
      // The words of both come out under the blend as the command line prints them.
      const lines = await page.locator('.hero .parts p').allTextContents();
      expect(lines.length).toBeGreaterThan(1);
      const print = await printed('propose', join(folder, 'garden-stall/wall-pocket.yaml'));
      for (const line of lines.slice(1)) expect(print).toContain(bare(line));
      await form.scrollIntoViewIfNeeded();
      await shoot(page, `limits-${size}`);
      await sound(page, 'limits');

      // The other way round: what the file says is in the fields, and what is wrong is said at its field.
      const paper = page.getByRole('textbox', { name: /^The brief,/ });
      await paper.fill(
        (await paper.inputValue())
          .replace(/^parts:\n(?: .*\n)+/m, 'parts: mass\n')
          .replace('ingredients: 4', 'ingredients: 3'),
      );
      await expect.poll(() => form.getByRole('radio', { name: 'by weight' }).isChecked()).toBe(true);
      expect(await most.inputValue()).toBe('3');
      expect(await form.getByRole('textbox', { name: 'Parts of one ingredient, at most' }).inputValue()).toBe('');
      await most.fill('0');
      await expect.poll(() => most.getAttribute('aria-invalid')).toBe('true');
      await most.fill('');
      await form.getByRole('textbox', { name: 'No ingredient below' }).fill('');
      await form.getByRole('radio', { name: 'no', exact: true }).check({ force: true });
      await expect.poll(() => briefOf(page)).not.toMatch(/limits|parts/);
      await context.close();
    },
  );

  it.each(SIZES)(
    'tells what a description tells, and ranks by the figure it shows, as stand-in does (%s)',
    async (size) => {
      const { page, context } = await openBench(browser, { size });
      for (const [file, title] of [
        ['stand-in-gypsum.yaml', 'Hard gypsum casting cement'],
        ['stand-in-acrylic-gypsum.yaml', 'Tough acrylic gypsum'],
      ] as const) {
        await page.goto(`${PAGE}#start`);
        await page.getByRole('button', { name: title }).first().click();
        await page.getByRole('heading', { name: title, exact: false }).first().waitFor();
        await page.getByRole('heading', { name: 'How close the shelf comes' }).waitFor(LONG);
        const tells = page.getByRole('region', { name: 'What the description tells' });
        const print = await printed('stand-in', resolve('examples/garden-stall', file));
        const lines = await tells.locator('li').allTextContents();
        expect(lines.length).toBeGreaterThan(1);
        for (const line of lines) expect(print).toContain(bare(line));
        // Every figure of the list, in the list's order, is the command line's.
        const pills = await page.getByRole('group', { name: 'Blend of' }).locator('label').allTextContents();
        const { candidates } = (await commandLine(resolve('examples/garden-stall'), 'stand-in', file)) as {
          candidates: { name: string; holds: boolean }[];
        };
        expect(pills.map((p) => p.replace(/, [\d.]+ off$/, ''))).toEqual(candidates.map((c) => c.name));
        const figures = pills.map((p) => / ([\d.]+) off$/.exec(p)![1]!);
        expect(print).toContain(`Offby${figures[0]}tolerances`);
        for (const figure of figures.slice(1)) expect(print).toContain(bare(`${figure} tolerances`));
        for (const holds of [true, false]) {
          const group = figures.filter((_f, i) => candidates[i]!.holds === holds).map(Number);
          expect(group).toEqual([...group].sort((a, b) => a - b));
        }
        await tells.scrollIntoViewIfNeeded();
        await shoot(page, `tells-${size}-${file}`);
        await sound(page, 'tells');
        await page.getByRole('button', { name: 'Put this description away' }).click();
      }
      await context.close();
    },
  );

  it.each(SIZES)('says which figures are the shop’s own wherever a blend is told (%s)', async (size) => {
    const { page, context } = await openBench(browser, { size });
    await openExample(page, 'Incense dish');
    expect(await page.locator('.own-figures').count()).toBe(0);
    await goTo(page, 'Pours');
    await page.getByRole('button', { name: 'Fit the figures to the pours' }).click();
    await page.getByRole('button', { name: 'Use them from now on' }).click(LONG);
    const line = page.locator('.own-figures');
    const toldAs = async (...argv: string[]): Promise<void> => {
      await line.waitFor(LONG);
      const words = (await line.textContent())!;
      expect(words).toMatch(/^Uses your own figures for: /);
      expect(await printed(...argv)).toContain(bare(words));
    };
    await goTo(page, 'Blend');
    const folder = await folderOf(page);
    const at = (file: string): string => join(folder, 'garden-stall', file);
    await toldAs('propose', at('incense-dish.yaml'));
    await page.evaluate(() => scrollTo(0, 0));
    await shoot(page, `own-${size}`);
    await sound(page, 'own figures');
    await openExample(page, 'Window-sill dish');
    await toldAs('assess', at('recipes/window-dish.yaml'));
    await page.goto(`${PAGE}#start`);
    await page.getByRole('button', { name: 'Hard gypsum casting cement' }).first().click();
    await page.getByRole('heading', { name: 'How close the shelf comes' }).waitFor(LONG);
    await toldAs('stand-in', at('stand-in-gypsum.yaml'));
    await page.evaluate(() => document.querySelector('#close-title')!.scrollIntoView());
    await shoot(page, `close-${size}`);
    await page.goto(`${PAGE}#start`);
    await page.getByRole('button', { name: /Spring market/ }).click();
    await page.getByRole('heading', { name: 'Can it be met?' }).waitFor(LONG);
    await toldAs('order', at('spring-market.yaml'));
    await context.close();
  });

  it('lets no fit be used that a pour contradicts, and says which', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Incense dish');
    await goTo(page, 'Pours');
    // A piece that weighs more days later than when it was poured: a slip of the pen.
    await page.getByLabel('Weights of a piece since the water').fill('2 h: 200; 200 h: 842');
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByRole('heading', { name: 'Pour 5', exact: true }).waitFor(LONG);
    await page.getByRole('button', { name: 'Fit the figures to the pours' }).click();
    await page.getByText('LOOK AGAIN').first().waitFor(LONG);
    expect(await page.locator('main').textContent()).toContain('at pour 5: it fits badly');
    expect(await page.locator('main').textContent()).toContain('put the pour right');
    expect(await page.getByRole('button', { name: 'Use them from now on' }).isDisabled()).toBe(true);
    await context.close();
  });

  it.each(SIZES)('hands out what was set aside at any time (%s)', async (size) => {
    const { page, context } = await openBench(browser, { size });
    await openExample(page, 'Soap tray');
    await page.waitForTimeout(800);
    await page.evaluate(
      () =>
        new Promise<void>((done) => {
          const open = indexedDB.open('pourwright-bench');
          open.onsuccess = () => {
            const write = open.result.transaction('papers', 'readwrite');
            write.objectStore('papers').put({ half: 'a file' }, 'garden-stall/soap-tray.yaml');
            write.oncomplete = () => {
              open.result.close();
              done();
            };
          };
        }),
    );
    await page.goto('about:blank');
    await page.goto(`${PAGE}#start`);
    await page
      .getByRole('alert', { name: /Trouble/ })
      .getByRole('button', { name: 'Set it aside' })
      .click();
    await page.getByRole('alert', { name: /Trouble/ }).waitFor({ state: 'detached' });
    // No trouble any more, today or later: what was set aside can still be had.
    for (const again of [false, true]) {
      if (again) {
        await page.goto('about:blank');
        await page.goto(`${PAGE}#start`);
      }
      const kept = page.getByRole('region', { name: 'What this device keeps' });
      await kept.getByRole('button', { name: 'Save what was set aside' }).waitFor();
      expect(await page.getByRole('alert', { name: /Trouble/ }).count()).toBe(0);
      expect(await kept.textContent()).toMatch(/1 record set aside.*soap-tray.yaml, set aside 20\d\d-\d\d-\d\d/);
      const { name, text } = await saved(page, () =>
        kept.getByRole('button', { name: 'Save what was set aside' }).click(),
      );
      expect(name).toBe('pourwright-set-aside.json');
      const held = JSON.parse(text) as { name: string; value: unknown }[];
      expect(held).toHaveLength(1);
      expect(held[0]!.name).toContain('garden-stall/soap-tray.yaml');
      expect(held[0]!.value).toEqual({ half: 'a file' });
      const all = await saved(page, () => kept.getByRole('button', { name: 'Save everything that is kept' }).click());
      expect(all.text).toContain('half');
      expect(all.text).toContain('Workshop behind the garden stall');
      await kept.scrollIntoViewIfNeeded();
    }
    await shoot(page, `kept-${size}`);
    await sound(page, 'kept');
    await context.close();
  });

  it('has the shop’s units in every word, as the command line has, and metric in its JSON', async () => {
    const { page, context } = await openBench(browser, { size: 'desktop' });
    await openExample(page, 'Incense dish');
    await goTo(page, 'Shelf');
    await page.getByRole('combobox', { name: 'Units' }).selectOption('us');
    await goTo(page, 'Blend');
    await page.waitForTimeout(600);
    await settled(page, 'Incense dish');
    const folder = await folderOf(page);
    const at = (file: string): string => join(folder, 'garden-stall', file);
    const degrees = /\d °F/;
    /** Every text of the list as the command line prints it; how many there are with a temperature in it. */
    const alike = async (texts: readonly string[], print: string): Promise<number> => {
      for (const text of texts) expect(print).toContain(bare(text));
      for (const text of texts) expect(text).not.toMatch(/\d °C|\d kg\b|\d cm\b|⟦/);
      return texts.filter((text) => degrees.test(text)).length;
    };
    await page.getByRole('button', { name: 'In full' }).click();
    const print = await printed('propose', at('incense-dish.yaml'), '--cautions');
    expect(await alike(await page.locator('.risks p:not(.small)').allTextContents(), print)).toBeGreaterThan(0);
    const cautions = (await page.locator('.caution-list p').allTextContents()).filter((t) => degrees.test(t));
    expect(await alike(cautions, print)).toBeGreaterThan(4);
    // The JSON is the command line’s, whatever the units.
    const told = await commandLine(folder, 'propose', 'garden-stall/incense-dish.yaml');
    expectSameData(await proposalOf(page), told);
    await goTo(page, 'Card');
    await page.getByRole('heading', { name: 'A piece should weigh' }).waitFor(LONG);
    const card = (await page.locator('main').textContent())!;
    expect(card).toMatch(/ oz of mix/);
    expect(card).toMatch(/water at 6\d °F/);
    await goTo(page, 'Price');
    await page.getByRole('table').first().waitFor(LONG);
    expect(await page.locator('table').first().textContent()).toMatch(/\d oz/);
    await page.goto(`${PAGE}#start`);
    await page.getByRole('button', { name: /Spring market/ }).click();
    await page.getByRole('heading', { name: 'Can it be met?' }).waitFor(LONG);
    const pours = await page.locator('.pour').allTextContents();
    expect(pours.length).toBeGreaterThan(0);
    for (const pour of pours) expect(pour).toMatch(/\d (?:lb|oz)/);
    await page.goto(`${PAGE}#start`);
    await page.getByRole('button', { name: 'Hard gypsum casting cement' }).first().click();
    await page.getByRole('heading', { name: 'How close the shelf comes' }).waitFor(LONG);
    const tells = await page
      .getByRole('region', { name: 'What the description tells' })
      .locator('li')
      .allTextContents();
    expect(tells.join(' ')).toMatch(/Each ounce of its powder keeps [\d.]+ oz .* lb\/ft3/);
    expect(await page.locator('.risks').textContent()).toMatch(degrees);
    await context.close();
  });

  it.each(SIZES)('marks axes at round figures of the units shown (%s)', async (size) => {
    const { page, context } = await openBench(browser, { size });
    await openExample(page, 'Hexagonal herb planter');
    await goTo(page, 'Shelf');
    await page.getByRole('combobox', { name: 'Units' }).selectOption('us');
    await goTo(page, 'Blend');
    await page.waitForTimeout(600);
    await settled(page, 'Hexagonal herb planter');
    await page.getByRole('radio', { name: 'strongest' }).last().check({ force: true });
    await page.locator('.frontier .point').first().waitFor(LONG);
    const ticks = await page.locator('.frontier .tick').allTextContents();
    const strengths = ticks.filter((t) => t.endsWith(' psi')).map(Number.parseFloat);
    expect(strengths.length).toBeGreaterThan(1);
    for (const psi of strengths) expect(psi % 100, ticks.join(', ')).toBe(0);
    const weights = (await page.locator('.chart .tick').allTextContents()).filter((t) => / (?:lb|oz)$/.test(t));
    expect(weights.length).toBeGreaterThan(1);
    for (const weight of weights) expect(weight).toMatch(/^\d+ (?:lb|oz)(?: \d+ oz)?$/);
    // Words beside each other do not run into each other.
    const boxes = await page.locator('.frontier .tick[text-anchor=middle]').evaluateAll((list) =>
      list.map((e) => {
        const { left, right } = e.getBoundingClientRect();
        return { left, right };
      }),
    );
    boxes.sort((a, b) => a.left - b.left);
    for (const [i, box] of boxes.slice(1).entries()) expect(box.left).toBeGreaterThan(boxes[i]!.right);
    await page.locator('.frontier').scrollIntoViewIfNeeded();
    await shoot(page, `ticks-${size}`);
    await sound(page, 'ticks');
    await context.close();
  });
});
