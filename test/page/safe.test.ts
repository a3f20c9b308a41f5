import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goTo, launch, openBench, openExample, PAGE, saved, settled, skipPageTests } from '../support/browser.js';

/** Nothing leaves the device, nothing pasted becomes markup, nothing kept is thrown away. */

const HOSTILE = '<img src=x onerror="window.struck=1"><script>window.struck=1</script>';

const struck = (page: Page): Promise<boolean> =>
  page.evaluate(() => 'struck' in window || document.querySelector('#bench img, #bench script') !== null);

describe('the sources of the page', () => {
  const sources = (readdirSync('src/page', { recursive: true }) as string[])
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => ({ name, text: readFileSync(join('src/page', name), 'utf8') }));

  it('write text as text only', () => {
    expect(sources.length).toBeGreaterThan(40);
    for (const { name, text } of sources) {
      expect(text, name).not.toMatch(/innerHTML|outerHTML|insertAdjacentHTML|document\.write|dangerouslySet|\beval\(/);
    }
  });

  it('call no network', () => {
    for (const { name, text } of sources) {
      expect(text, name).not.toMatch(/\bfetch\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|importScripts/);
    }
  });

  it('take from the core by its public list alone', () => {
    for (const { name, text } of sources) {
      for (const [, from] of text.matchAll(/from '([^']*core[^']*)'/g)) expect(from, name).toMatch(/core\/index\.js$/);
    }
  });
});

describe.skipIf(skipPageTests)('the page in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('is fenced by a policy that names its script and allows no connection', async () => {
    const { page, context } = await openBench(browser);
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
    expect(policy).toContain("default-src 'none'");
    expect(policy).toMatch(/script-src 'sha256-[^']+'(;|$)/);
    expect(policy).toMatch(/style-src 'sha256-[^']+'(;|$)/);
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    const refused = await page.evaluate(() =>
      fetch('http://127.0.0.1:9/').then(
        () => 'sent',
        () => 'refused',
      ),
    );
    expect(refused).toBe('refused');
    const made = await page.evaluate(() => {
      try {
        document.body.innerHTML = '<b>x</b>';
        return 'markup';
      } catch {
        return 'refused';
      }
    });
    expect(made).toBe('refused');
    await context.close();
  });

  it('shows pasted markup as the letters it is, on every step', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Hexagonal herb planter');
    await page.getByRole('textbox', { name: 'Name of the piece' }).fill(HOSTILE);
    await page.waitForTimeout(400);
    await settled(page);
    expect(await page.locator('.hero h1').textContent()).toBe(HOSTILE);
    await page.getByRole('textbox', { name: 'dry weight, at most' }).fill(HOSTILE);
    await page.waitForSelector('.window .wrong');
    await page.getByRole('textbox', { name: 'dry weight, at most' }).fill('1.3 kg');
    for (const step of ['Price', 'Card', 'Pours', 'Order', 'Start']) {
      await goTo(page, step);
      await page.waitForTimeout(500);
      expect(await struck(page), step).toBe(false);
    }
    await goTo(page, 'Shelf');
    await page.getByText('Paste from a spreadsheet').click();
    await page
      .getByRole('textbox', { name: 'Price list to paste' })
      .fill(`material,pack,price\n"${HOSTILE.replaceAll('"', '""')}",25 kg,3\n`);
    await page.getByRole('button', { name: 'Use this list' }).click();
    await page.waitForSelector('.notices');
    expect(await page.locator('.notices').first().textContent()).toContain('no such material');
    expect(await struck(page)).toBe(false);
    await context.close();
  });

  it('prints a card whose title cannot strike', async () => {
    const { page, context, errors } = await openBench(browser);
    await openExample(page, 'Incense dish');
    await page.getByRole('textbox', { name: 'Name of the piece' }).fill(HOSTILE);
    await goTo(page, 'Card');
    await page.getByRole('button', { name: 'Print the card' }).waitFor();
    const printed = await page.evaluate(async () => {
      let seen: { text: string; shown: string } | null = null;
      window.print = () => {
        const shadow = document.getElementById('print')!.shadowRoot!;
        seen = { text: shadow.textContent ?? '', shown: String(shadow.querySelector('img, script')) };
        dispatchEvent(new Event('afterprint'));
      };
      [...document.querySelectorAll('button')].find((b) => b.textContent === 'Print the card')!.click();
      return { seen, left: document.getElementById('print') !== null };
    });
    expect(printed.seen).toMatchObject({ shown: 'null' });
    expect(printed.seen!['text' as never]).toContain('<img src=x');
    expect(printed.left).toBe(false);
    expect(await struck(page)).toBe(false);
    expect(errors).toEqual([]);
    await context.close();
  });

  it('tells of a record it cannot read, gives it out whole, and does not write over it', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Soap tray');
    await page.waitForTimeout(800);
    const spoil = (value: unknown) =>
      page.evaluate(
        (v) =>
          new Promise<void>((resolve, reject) => {
            const open = indexedDB.open('pourwright-bench');
            open.onsuccess = () => {
              const write = open.result.transaction('papers', 'readwrite');
              write.objectStore('papers').put(v, 'garden-stall/soap-tray.yaml');
              write.oncomplete = () => {
                open.result.close();
                resolve();
              };
              write.onerror = () => reject(write.error);
            };
          }),
        value,
      );
    await spoil({ format: 'pourwright.paper/1', name: 'garden-stall/soap-tray.yaml', text: { half: 'a file' } });
    await page.goto('about:blank');
    await page.goto(PAGE);
    const trouble = page.getByRole('alert', { name: /Trouble/ });
    await trouble.waitFor();
    expect(await trouble.textContent()).toContain('garden-stall/soap-tray.yaml');
    // A fresh copy may be opened, but what is kept stays as it is.
    await openExample(page, 'Soap tray');
    await page.getByRole('textbox', { name: 'Name of the piece' }).fill('Another name');
    await page.waitForTimeout(800);
    const { text } = await saved(page, () =>
      page.getByRole('button', { name: 'Save everything that is kept' }).click(),
    );
    expect(text).toContain('half');
    expect(text).not.toContain('Another name');
    await trouble.getByRole('button', { name: 'Set it aside' }).click();
    const after = await page.evaluate(
      () =>
        new Promise<string[]>((resolve) => {
          const open = indexedDB.open('pourwright-bench');
          open.onsuccess = () => {
            const keys = open.result.transaction('aside').objectStore('aside').getAllKeys();
            keys.onsuccess = () => resolve(keys.result.map(String));
          };
        }),
    );
    expect(after).toHaveLength(1);
    expect(after[0]).toContain('soap-tray.yaml');
    await context.close();
  });

  it('tells of a store that a newer page wrote, gives it out whole, and leaves it as it is', async () => {
    const { page, context } = await openBench(browser);
    await openExample(page, 'Soap tray');
    await page.waitForTimeout(800);
    await page.close();
    const later = await context.newPage();
    // Before the bench opens its store, a later version of it is there.
    await later.addInitScript(() => {
      const open = indexedDB.open('pourwright-bench', 2);
      open.onupgradeneeded = () => open.result.createObjectStore('later').put('kept by a later page', 'one');
      open.onsuccess = () => open.result.close();
    });
    await later.goto(PAGE);
    const trouble = later.getByRole('alert', { name: /Trouble/ });
    await trouble.waitFor();
    expect(await trouble.textContent()).toContain('newer copy of this page');
    await later.getByRole('button', { name: 'Incense dish' }).first().click();
    await settled(later, 'Incense dish');
    const { text } = await saved(later, () =>
      later.getByRole('button', { name: 'Save everything that is kept' }).click(),
    );
    expect(text).toContain('kept by a later page');
    expect(text).toContain('Soap tray');
    expect((JSON.parse(text) as { stores: { papers: { key: string }[] } }).stores.papers.length).toBeGreaterThan(3);
    await context.close();
  });
});
