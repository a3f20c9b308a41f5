import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderReasons } from '../../src/cli/render/reasons.js';
import { axeFindings } from '../support/axe.js';
import {
  goTo,
  launch,
  openBench,
  openExample,
  overflow,
  PAGE,
  type Size,
  settled,
  shoot,
  skipPageTests,
} from '../support/browser.js';
import { said } from '../support/cli.js';

/** What is worked out only when asked for: sureness, reasons, the frontier, other blends, ways out and stand-ins. */

const FOLDER = 'examples/garden-stall';
const LONG = { timeout: 80_000 } as const;

/** Letters alone: terminals fold lines and pad columns. */
const bare = (text: string): string => text.replace(/\s+/g, '');
const printed = async (...argv: string[]): Promise<string> => bare((await said(argv, '', { columns: 240 })).out);
const told = async (...argv: string[]): Promise<Record<string, unknown>> =>
  JSON.parse((await said([...argv, '--json'])).out) as Record<string, unknown>;

/** The rows of tables that the command line prints of a result's reasons, before a terminal folds them. */
function rowsOf(result: unknown): string[] {
  const rows: string[] = [];
  const sheet = {
    heading: () => {},
    paragraph: () => {},
    table: (table: readonly (readonly string[])[]) => rows.push(...table.map((row) => bare(row.join(' ')))),
  };
  const wording = { system: 'metric', currency: 'EUR' } as const;
  renderReasons(sheet as never, result as never, { wording, fullCautions: false, why: false });
  return rows;
}

const partOf = (page: Page, title: string) =>
  page.locator('section', { has: page.getByRole('heading', { name: title }) });

async function askSure(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look for a surer blend' }).click();
  await page.getByRole('button', { name: 'Keep this blend as a recipe' }).waitFor(LONG);
}

async function askReasons(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look into it' }).click();
  await page.getByRole('heading', { name: 'What it does without' }).waitFor(LONG);
}

async function openMedium(page: Page, title: string): Promise<void> {
  await page.goto(`${PAGE}#start`);
  await page.getByRole('button', { name: title }).first().click();
  await page.getByRole('heading', { name: 'How close the shelf comes' }).waitFor(LONG);
}

const CASES = [
  { size: 'small', scheme: 'light' },
  { size: 'phone', scheme: 'dark' },
  { size: 'desktop', scheme: 'light' },
] as const satisfies readonly { size: Size; scheme: 'light' | 'dark' }[];

describe.skipIf(skipPageTests).each(CASES)('what is asked for at $size size, $scheme', ({ size, scheme }) => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  const sound = async (page: Page, name: string): Promise<void> => {
    await shoot(page, `${size}-${scheme}-${name}`);
    expect(await overflow(page), `${name} is wider than its window`).toBeLessThanOrEqual(0);
    expect(await axeFindings(page), name).toEqual([]);
    // The gravest caution of the blend in view, at the foot of the window.
    const strip = page.locator('.strip');
    const box = (await strip.boundingBox())!;
    expect(box.y + box.height).toBeLessThanOrEqual(page.viewportSize()!.height + 1);
    expect(await page.locator('.caution-list:not(.risks) li p').first().textContent()).toBe(
      await strip.locator('.strip-text').textContent(),
    );
  };

  it('fits and can be used by all', async () => {
    const { page, errors, asked, context } = await openBench(browser, { size, scheme });
    await openExample(page, 'Hexagonal herb planter');
    await askSure(page);
    await askReasons(page);
    await page.getByRole('radio', { name: 'lightest' }).last().check({ force: true });
    await page.locator('.frontier .point').first().waitFor(LONG);
    await page.getByRole('button', { name: 'Look for them' }).click();
    await page.locator('.beside').waitFor(LONG);
    await sound(page, 'asked');
    await openExample(page, 'A planter that cannot be');
    await page.getByText('Give way in any one of these').waitFor(LONG);
    await sound(page, 'ways-out');
    await openMedium(page, 'Tough acrylic gypsum');
    await sound(page, 'stand-in');
    await page.getByRole('button', { name: 'Put this description away' }).click();
    await page.getByRole('button', { name: 'Describe a medium' }).waitFor();
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeFindings(page)).toEqual([]);
    expect(errors).toEqual([]);
    expect(asked).toEqual([]);
    await context.close();
  });
});

describe.skipIf(skipPageTests)('what is asked for', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('tells how sure the blend can be as propose --sure does, and keeps it as a recipe that stays so sure', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Hexagonal herb planter');
    await page.getByRole('textbox', { name: 'or another chance' }).fill('0,85');
    await askSure(page);
    const part = partOf(page, 'How sure of all targets at once');
    const verb = ['propose', `${FOLDER}/herb-planter.yaml`, '--sure', '0.85'];
    const text = await printed(...verb);
    const lines = await part.locator('ul.plain li').allTextContents();
    expect(lines.length).toBeGreaterThan(0);
    for (const line of [...lines, (await part.locator('p b').first().textContent())!])
      expect(text).toContain(bare(line));
    const result = await told(...verb);
    const grams = (result['blend'] as { batchGrams: number }[]).map((i) => i.batchGrams);
    const shown = await part.locator('table.blend td b').allTextContents();
    expect(shown.map((s) => Number.parseFloat(s))).toEqual(grams);
    const chance = (result['sureness'] as { chance: number }).chance;
    await page.getByRole('button', { name: 'Keep this blend as a recipe' }).click();
    await settled(page, 'Hexagonal herb planter, surer');
    const sure = Number(/(\d+) % sure/.exec((await page.locator('.sure').textContent())!)![1]);
    // The same blend judged on other draws.
    expect(Math.abs(sure / 100 - chance)).toBeLessThan(0.05);
    await goTo(page, 'Card');
    await page.getByRole('button', { name: /Start the clock/ }).waitFor();
    const weighed = (await page.locator('.addition .amount-of b').allTextContents()).map((s) => Number.parseFloat(s));
    expect(weighed.reduce((s, g) => s + g, 0)).toBeCloseTo(
      grams.reduce((s, g) => s + g, 0),
      0,
    );
    await context.close();
  });

  it('says at the field what is wrong with a chance, and does not chase a brief that changes', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Incense dish');
    const field = page.getByRole('textbox', { name: 'or another chance' });
    await field.fill('120 %');
    await page.getByRole('button', { name: 'Look for a surer blend' }).click();
    await expect.poll(() => field.getAttribute('aria-invalid'), { timeout: 15_000 }).toBe('true');
    expect(await partOf(page, 'How sure of all targets at once').locator('.wrong').textContent()).toContain(
      '0.01 to 0.99',
    );
    await field.fill('80 %');
    await askSure(page);
    await page.getByRole('textbox', { name: 'Name of the piece' }).fill('Another dish');
    await page.getByText('The brief has changed since: look again.').waitFor();
    expect(await page.getByRole('button', { name: 'Keep this blend as a recipe' }).isDisabled()).toBe(true);
    await context.close();
  });

  it('tells what holds the blend back in the words of propose --reasons', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Soap tray');
    await askReasons(page);
    const part = partOf(page, 'What holds it back');
    const rows = rowsOf(await told('propose', `${FOLDER}/soap-tray.yaml`, '--reasons'));
    const held = part.locator('dl').first().locator(':scope > div');
    expect(await held.count()).toBeGreaterThan(0);
    const without = part.locator('dl').nth(1).locator(':scope > div');
    expect(await without.count()).toBeGreaterThan(3);
    for (const row of [...(await held.all()), ...(await without.all())]) {
      expect(rows).toContain(bare((await row.textContent())!));
    }
    await context.close();
  });

  it('tells what may spoil the piece as propose and assess do', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    for (const [file, title, verb] of [
      ['herb-planter.yaml', 'Hexagonal herb planter', 'propose'],
      ['recipes/far-too-wet.yaml', 'One cup to one cup', 'assess'],
    ] as const) {
      await openExample(page, title);
      const { risks } = (await told(verb, `${FOLDER}/${file}`)) as { risks: { level: string; text: string }[] };
      expect(risks.length).toBeGreaterThan(0);
      const list = partOf(page, 'What may spoil it').locator('li');
      await expect
        .poll(async () => (await list.locator('p:first-child').allTextContents()).join('\n'))
        .toBe(risks.map((r) => r.text).join('\n'));
      expect(await list.locator('.tag').allTextContents()).toEqual(risks.map((r) => `${r.level} risk`));
    }
    await context.close();
  });

  it('says beside the blend what a caution stops, on its card and price too', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    await openExample(page, 'Sand, cement and plaster');
    expect(await page.getByRole('region', { name: 'Stop' }).count()).toBe(0);
    await page.getByText('The recipe as a file').click();
    await page
      .getByRole('textbox', { name: /^The recipe,/ })
      .fill(
        'title: Plaster in the rain\nshop: ../shop.yaml\nuses: [outdoor]\nmould: { water: 300 mL }\namounts: { casting-plaster: 300 g, water: 200 g }\n',
      );
    await expect.poll(() => page.locator('.verdict b').first().textContent()).toBe('Do not cast this');
    const stop = page.getByRole('region', { name: 'Stop' });
    expect(await stop.textContent()).toContain('Plaster softens and dissolves in water');
    // Above the drawing and what to weigh, not only among the cautions.
    const above = await stop.evaluate((s) => {
      const table = document.querySelector('.hero table')!;
      return (s.compareDocumentPosition(table) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
    });
    expect(above).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await shoot(page, 'stop');
    for (const step of ['Card', 'Price']) {
      await goTo(page, step);
      await stop.first().waitFor();
      expect(await axeFindings(page), step).toEqual([]);
    }
    await context.close();
  });

  it('says plainly what must not be cast', async () => {
    const { page, context } = await openBench(browser, { size: 'phone' });
    await openExample(page, 'Sand, cement and plaster');
    await page.getByText('The recipe as a file').click();
    await page
      .getByRole('textbox', { name: /^The recipe,/ })
      .fill('title: Held too long\namounts: { casting-plaster: 100 g, water: 60 g, citric-acid: 3 g }\n');
    await expect.poll(() => page.locator('.verdict b').first().textContent()).toBe('Do not cast this');
    expect(await page.locator('.verdict').getAttribute('class')).toContain('missed');
    await context.close();
  });
});
