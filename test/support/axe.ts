import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Finding {
  readonly id: string;
  readonly impact: string | null;
  readonly nodes: readonly { readonly target: unknown; readonly failureSummary?: string }[];
}

/** Serious and critical findings of axe-core on the page as it stands, one line each. Rules of WCAG 2.0 to 2.2, A and AA, and best practice. */
export async function axeFindings(page: Page): Promise<string[]> {
  // Run by the browser's debugger, so that the page's content policy need not allow it.
  await page.evaluate(source);
  const found = (await page.evaluate(
    `axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations)`,
  )) as Finding[];
  return found
    .filter((f) => f.impact === 'serious' || f.impact === 'critical')
    .flatMap((f) => f.nodes.map((n) => `${f.id}: ${String(n.target)} ${n.failureSummary ?? ''}`));
}
