import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const BUILT = join(ROOT, 'dist', 'pourwright.cjs');

const newest = (path: string): number => {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path).reduce((most, name) => Math.max(most, newest(join(path, name))), 0);
};

/**
 * Tests of the command as a process of its own run what is built: builds it once when it is older than its sources.
 * `npm test` has built already. A run of named files builds only what is not there at all, so that a quick look stays quick.
 */
export default function setup(): void {
  const named = process.argv.slice(2).some((word) => word.startsWith('test/'));
  const made = existsSync(BUILT) ? statSync(BUILT).mtimeMs : 0;
  const stale = made < Math.max(newest(join(ROOT, 'src')), newest(join(ROOT, 'materials')));
  if (made === 0 || (stale && !named)) {
    execFileSync(process.execPath, [join(ROOT, 'src', 'build', 'build.mjs')], { cwd: ROOT, stdio: 'inherit' });
  }
}
