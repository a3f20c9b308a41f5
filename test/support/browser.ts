import { existsSync, mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { vi } from 'vitest';

/** Debian's Chromium. Without it the page tests are left out on a maker's machine, and fail where CI is set. */
export const CHROMIUM = '/usr/bin/chromium';
export const hasChromium = existsSync(CHROMIUM);
if (!hasChromium && process.env['CI'] === undefined) {
  console.warn(`page tests are left out: ${CHROMIUM} is not there (apt-get install chromium)`);
}
export const skipPageTests = !hasChromium && process.env['CI'] === undefined;

export const PAGE = pathToFileURL(resolve('dist/page/bench.html')).href;
export const SHOTS = process.env['POURWRIGHT_SHOTS'] ?? join(tmpdir(), 'pourwright-shots');

export const SIZES = {
  small: { width: 320, height: 640 },
  phone: { width: 360, height: 740 },
  desktop: { width: 1280, height: 900 },
} as const;
export type Size = keyof typeof SIZES;

/** ms; several browsers may share two cores. */
const PATIENCE = 90_000;
vi.setConfig({ testTimeout: 3 * PATIENCE, hookTimeout: PATIENCE });

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const launch = (): Promise<Browser> => chromium.launch({ executablePath: CHROMIUM, args: FLAGS });

export interface Bench {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Everything the page asked of a network, and every error it printed. */
  readonly asked: string[];
  readonly errors: string[];
}

export interface OpenOptions {
  readonly size?: Size;
  readonly scheme?: 'light' | 'dark';
  readonly context?: BrowserContext;
}

/** A fresh bench from disk; anything it asks of a network is refused and noted. */
export async function openBench(browser: Browser, options: OpenOptions = {}): Promise<Bench> {
  const context =
    options.context ??
    (await browser.newContext({
      viewport: SIZES[options.size ?? 'desktop'],
      colorScheme: options.scheme ?? 'light',
      reducedMotion: 'reduce',
      acceptDownloads: true,
    }));
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  const asked: string[] = [];
  const errors: string[] = [];
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith('file:') && !url.startsWith('blob:')) asked.push(url);
  });
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(PAGE);
  await page.waitForSelector('h1');
  return { page, context, asked, errors };
}

export async function openExample(page: Page, title: string): Promise<void> {
  await page.goto(`${PAGE}#start`);
  await page.getByRole('button', { name: title }).first().click();
  await settled(page, title);
}

/** Waits until the blend of a title is there in full, not as a quick look. */
export async function settled(page: Page, title?: string): Promise<void> {
  await page.waitForFunction(
    (wanted) => {
      const hero = document.querySelector('.hero');
      const named = wanted === undefined || hero?.querySelector('h1')?.textContent === wanted;
      return hero !== null && named && !/settling/.test(hero.querySelector('.sure')?.textContent ?? 'settling');
    },
    title,
    { timeout: PATIENCE },
  );
}

export async function goTo(page: Page, step: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Steps' }).getByRole('link', { name: step, exact: true }).click();
  await page.waitForFunction((name) => document.querySelector('nav [aria-current]')?.textContent === name, step);
}

/** What a button hands to the browser's downloads, as text. */
export async function saved(page: Page, press: () => Promise<void>): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  const stream = await download.createReadStream();
  const parts: Buffer[] = [];
  for await (const part of stream) parts.push(part as Buffer);
  return { name: download.suggestedFilename(), text: Buffer.concat(parts).toString('utf8') };
}

export async function shoot(page: Page, name: string): Promise<void> {
  mkdirSync(SHOTS, { recursive: true });
  await page.screenshot({ path: join(SHOTS, `${name}.png`), animations: 'disabled' });
}

/** Pixels by which the page is wider than its window. */
export const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
