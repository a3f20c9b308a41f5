import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A file that the build made: beside the bundle, or in dist/ when run from the sources. */
export function shippedFile(name: string): string {
  const here = import.meta.dirname;
  const file = [join(here, name), join(here, '..', '..', 'dist', name)].find(existsSync);
  if (file === undefined) throw new Error(`${name} is missing: run "npm run build" first`);
  return file;
}

/** Its text. */
export const shippedText = (name: string): string => readFileSync(shippedFile(name), 'utf8');
