// Builds dist/: the checked materials table and JSON Schemas, the command line as one file, the library and its types, the page.
// Everything is made in a folder of its own and then swapped in, so that a running command never meets half a build.
import { execFile, execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { writeNotices } from './notices.mjs';
import { buildPage } from './page.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const made = join(root, 'node_modules', '.cache', `pourwright-${process.pid}`);
rmSync(made, { recursive: true, force: true });
mkdirSync(made, { recursive: true });

// Only the unit class of mathjs is used; its barrel would drag the whole library into a bundle with lazy parts.
const alias = { mathjs: join(root, 'node_modules/mathjs/lib/esm/type/unit/Unit.js') };
// zod carries its messages in fifty languages; ours are our own.
const noLocales = {
  name: 'no-locales',
  setup(b) {
    b.onResolve({ filter: /locales\/index\.js$/ }, () => ({ path: 'no-locales', namespace: 'empty' }));
    b.onLoad({ filter: /.*/, namespace: 'empty' }, () => ({ contents: 'export {}' }));
  },
};
// The LP engine and the CSV reader mention Node's modules for uses of theirs that are none of ours.
const noNode = {
  name: 'no-node',
  setup(b) {
    b.onResolve({ filter: /^(fs|child_process|stream)$/ }, () => ({ path: 'no-node', namespace: 'nothing' }));
    b.onLoad({ filter: /.*/, namespace: 'nothing' }, () => ({ contents: 'export default {}' }));
  },
};
// The LP engine and commander could start programs of their own; here they never do, and the module is slow to load.
const noSubprograms = {
  name: 'no-subprograms',
  setup(b) {
    b.onResolve({ filter: /^(node:)?child_process$/ }, ({ importer }) =>
      /[\\/](commander|javascript-lp-solver)[\\/]/.test(importer)
        ? { path: 'no-subprograms', namespace: 'none' }
        : undefined,
    );
    b.onLoad({ filter: /.*/, namespace: 'none' }, () => ({ contents: 'module.exports = {}', loader: 'js' }));
  },
};
const common = {
  alias,
  plugins: [noLocales],
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  absWorkingDir: root,
  logLevel: 'warning',
};
// CommonJS parts of the dependencies (papaparse, commander) ask for require() at run time.
const banner = "import{createRequire as __r}from'node:module';const require=__r(import.meta.url);";

async function tables() {
  const script = join(made, 'tables.mjs');
  await build({ ...common, entryPoints: ['src/build/tables.ts'], outfile: script, banner: { js: banner } });
  execFileSync(process.execPath, [script, root, made], { stdio: 'inherit' });
  rmSync(script);
}

/** Patterns keep the signs of their source (`½`, `³`) whatever the charset, and the command is read as ASCII. */
function spellOut(file) {
  const source = readFileSync(file, 'utf8');
  const sign = (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
  writeFileSync(file, source.replace(/[\u0080-\uffff]/g, sign));
}

// The command is one file, and a small one that starts it with the code compiled ahead.
async function commandLine() {
  await Promise.all([
    build({
      ...common,
      plugins: [noLocales, noSubprograms],
      format: 'cjs',
      entryPoints: ['src/cli/main.ts'],
      outfile: join(made, 'command.cjs'),
      minify: true,
      charset: 'ascii',
      legalComments: 'none',
      define: { 'import.meta.dirname': '__dirname' },
      banner: { js: '(function(require,module,exports,__dirname){' },
      footer: { js: '})' },
    }),
    // CommonJS: Node starts that sooner than a module.
    build({
      ...common,
      format: 'cjs',
      entryPoints: ['src/cli/start.ts'],
      outfile: join(made, 'pourwright.cjs'),
      minify: true,
      banner: { js: '#!/usr/bin/env node' },
    }),
  ]);
  spellOut(join(made, 'command.cjs'));
}

async function compileAhead() {
  const script = join(made, 'compile-ahead.mjs');
  await build({ ...common, entryPoints: ['src/build/compile-ahead.ts'], outfile: script });
  execFileSync(process.execPath, [script, root, made], { stdio: 'inherit' });
  rmSync(script);
}

const library = () =>
  build({
    ...common,
    plugins: [noLocales, noNode],
    platform: 'neutral',
    mainFields: ['module', 'main'],
    entryPoints: ['src/core/index.ts'],
    outfile: join(made, 'index.js'),
  });

const types = () =>
  promisify(execFile)(join(root, 'node_modules', '.bin', 'tsc'), [
    '-p',
    join(root, 'src/core/tsconfig.types.json'),
    '--outDir',
    join(made, 'types'),
  ]).catch((error) => {
    // The bundles are swapped in all the same: a type that does not fit stops a release, not a look at what was made.
    process.stderr.write(`${error.stdout || error.message}\n`);
    process.exitCode = 1;
  });

try {
  // The page holds the table.
  const page = tables().then(() => buildPage(root, made, { alias, plugins: [noLocales, noNode] }));
  await Promise.all([page, commandLine(), library(), types()]);
  await compileAhead();
  writeNotices(root, made);
  chmodSync(join(made, 'pourwright.cjs'), 0o755);
  const dist = join(root, 'dist');
  const old = `${made}-old`;
  try {
    renameSync(dist, old);
  } catch (error) {
    if (error.code !== 'ENOENT') throw error;
  }
  renameSync(made, dist);
  rmSync(old, { recursive: true, force: true });
} finally {
  rmSync(made, { recursive: true, force: true });
}
