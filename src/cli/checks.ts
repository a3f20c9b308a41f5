import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Check } from '../core/science/provenance/check.js';

/** What the published checks of the models found, as the build shipped it; read only when it is asked for. */
export function shippedChecks(): Readonly<Record<string, readonly Check[]>> {
  const here = dirname(fileURLToPath(import.meta.url));
  const file = [join(here, 'checks.json'), join(here, '..', '..', 'dist', 'checks.json')].find(existsSync);
  if (file === undefined) throw new Error('checks.json is missing: run "npm run build" first');
  return JSON.parse(readFileSync(file, 'utf8')) as Record<string, Check[]>;
}
