// Builds dist/page/bench.html: the page, its worker, its styles, the materials table and the examples in one file that
// works from disk, behind a content policy that names the hash of every script and style and allows no connection.
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

const EXAMPLES = 'examples/garden-stall';

/** JSON in a script element: no text of a file can end the element. */
const inert = (data) => JSON.stringify(data).replaceAll('<', '\\u003c');
const hash = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

function examples(root) {
  const files = {};
  const walk = (folder) => {
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
      const path = `${folder}/${entry.name}`;
      if (entry.isDirectory()) walk(path);
      else if (/\.(ya?ml|csv)$/.test(entry.name))
        files[path.replace('examples/', '')] = readFileSync(join(root, path), 'utf8');
    }
  };
  walk(EXAMPLES);
  return files;
}

export async function buildPage(root, dist, { alias, plugins }) {
  const { outputFiles } = await build({
    alias,
    plugins,
    absWorkingDir: root,
    entryPoints: { bench: 'src/page/entry.ts', style: 'src/page/style/index.css' },
    bundle: true,
    platform: 'browser',
    format: 'iife',
    target: ['es2022', 'chrome110', 'firefox115', 'safari16'],
    jsx: 'automatic',
    jsxImportSource: 'preact',
    minify: true,
    legalComments: 'none',
    logLevel: 'warning',
    write: false,
    outdir: join(dist, 'page'),
    define: { 'process.env.NODE_ENV': '"production"' },
  });
  const text = (name) => outputFiles.find((file) => file.path.endsWith(name)).text;
  // The text of a script element must not hold its own end.
  const script = text('bench.js').replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--').trim();
  const style = text('style.css').trim();
  const policy = [
    "default-src 'none'",
    `script-src ${hash(script)}`,
    `style-src ${hash(style)}`,
    'worker-src blob:',
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    'trusted-types bench',
  ].join('; ');
  const page = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>pourwright: the bench</title>
<style>${style}</style>
</head>
<body>
<div id="bench"><p class="wait">The bench is being laid out…</p></div>
<noscript>This page works out blends in your browser and needs its script to run. The command line does the same: pourwright propose BRIEF.yaml</noscript>
<script type="application/json" id="shipped">${inert(JSON.parse(readFileSync(join(dist, 'materials.json'), 'utf8')))}</script>
<script type="application/json" id="examples">${inert(examples(root))}</script>
<script>${script}</script>
</body>
</html>
`;
  mkdirSync(join(dist, 'page'), { recursive: true });
  writeFileSync(join(dist, 'page', 'bench.html'), page);
}
