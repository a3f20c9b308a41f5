import { execFile } from 'node:child_process';
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { promisify } from 'node:util';
import type { Page } from 'playwright-core';

/** The page's files and the built command over them. */

const run = promisify(execFile);

/** What the built command prints with --json in a folder. */
export async function commandLine(folder: string, ...words: string[]): Promise<Record<string, unknown>> {
  const { stdout } = await run(process.execPath, [resolve('dist/pourwright.cjs'), ...words, '--json'], {
    cwd: folder,
  }).catch((error: { code: number; stdout: string }) => {
    if (error.code !== 1) throw error;
    return error;
  });
  return JSON.parse(stdout) as Record<string, unknown>;
}

/** Every file the page keeps, laid out in a folder. */
export async function folderOf(page: Page): Promise<string> {
  await page.waitForTimeout(700);
  const papers = await page.evaluate(
    () =>
      new Promise<{ name: string; text: string }[]>((done) => {
        const open = indexedDB.open('pourwright-bench');
        open.onsuccess = () => {
          const all = open.result.transaction('papers').objectStore('papers').getAll();
          all.onsuccess = () => done(all.result);
        };
      }),
  );
  const folder = mkdtempSync(join(tmpdir(), 'bench-folder-'));
  for (const { name, text } of papers) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}
