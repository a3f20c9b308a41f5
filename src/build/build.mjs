// Builds dist/: the checked materials table and JSON Schemas, the command line as one file, and the library.
import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const dist = join(root, 'dist');
rmSync(dist, { recursive: true, force: true });
mkdirSync(dist, { recursive: true });

// Only the unit class of mathjs is used; its barrel would drag the whole library into a bundle with lazy parts.
const alias = { mathjs: join(root, 'node_modules/mathjs/lib/esm/type/unit/Unit.js') };
const common = {
  alias,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  absWorkingDir: root,
  logLevel: 'warning',
};
// CommonJS parts of the dependencies (papaparse, commander) ask for require() at run time.
const banner = "import{createRequire as __r}from'node:module';const require=__r(import.meta.url);";

await build({
  ...common,
  entryPoints: ['src/build/tables.ts'],
  outfile: join(dist, 'tables.mjs'),
  banner: { js: banner },
});
execFileSync(process.execPath, [join(dist, 'tables.mjs'), root, dist], { stdio: 'inherit' });
rmSync(join(dist, 'tables.mjs'));

await Promise.all([
  build({
    ...common,
    entryPoints: ['src/cli/main.ts'],
    outfile: join(dist, 'pourwright.js'),
    minify: true,
    legalComments: 'none',
    banner: { js: `#!/usr/bin/env node\n${banner}` },
  }),
  build({
    ...common,
    platform: 'neutral',
    mainFields: ['module', 'main'],
    entryPoints: ['src/core/index.ts'],
    outfile: join(dist, 'index.js'),
  }),
]);
chmodSync(join(dist, 'pourwright.js'), 0o755);
execFileSync(join(root, 'node_modules', '.bin', 'tsc'), ['-p', join(root, 'src/core/tsconfig.types.json')], {
  stdio: 'inherit',
});
