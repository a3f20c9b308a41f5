import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

/**
 * The core computes the same from the same: no clock, no chance of its own, no console, no machine. Its tsconfig refuses
 * the types of the DOM and of Node; what the language itself would let through is looked for here. `npm run layers` draws
 * the whole map of imports; the arrows that matter most are checked here without it.
 */
const SRC = join(import.meta.dirname, '..', 'src');

function sources(folder: string): string[] {
  return readdirSync(join(SRC, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sources(path);
    return /\.tsx?$/.test(entry.name) ? [path] : [];
  });
}

/** A file's code without comments and texts; what is inside `${}` stays. */
function code(path: string): string {
  return readFileSync(join(SRC, path), 'utf8')
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/(^|[^:'"`])\/\/.*$/gm, '$1')
    .replace(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/g, "''");
}

const imports = (path: string): string[] =>
  [...readFileSync(join(SRC, path), 'utf8').matchAll(/(?:from|import\()\s*'([^']+)'/g)].map((m) => m[1]!);

/** Folder under src/core, or the outer folder, that an import of a file leads to; null for packages. */
function leadsTo(path: string, target: string): string | null {
  if (!target.startsWith('.')) return null;
  const [top, layer] = relative(SRC, join(SRC, path, '..', target)).split('/');
  return top === 'core' ? layer! : top!;
}

const core = sources('core');

const FORBIDDEN: readonly (readonly [string, RegExp])[] = [
  ['the clock', /\bDate\.now\b|\bnew Date\(\s*\)|\bDate\(\s*\)|\bperformance\b|\bTemporal\.Now\b/],
  ['unseeded chance', /\bMath\.random\b|\bcrypto\b/],
  ['a console', /\bconsole\b/],
  ['the process', /\bprocess\b|\bglobalThis\b|\brequire\s*\(/],
  ['timers', /\bset(?:Timeout|Interval|Immediate)\b|\bqueueMicrotask\b/],
  ['the net or a browser’s store', /\blocalStorage\b|\bfetch\s*\(|\bXMLHttpRequest\b|\bnavigator\b/],
  [
    'the maker’s language and zone',
    /\.toLocale\w*\(|\bIntl\b|\.getTimezoneOffset\b|\.get(?:Hours|Date|Month|FullYear|Day)\(/,
  ],
];

describe('the core', () => {
  it('is there to be looked at', () => {
    expect(core.length).toBeGreaterThan(150);
  });

  it.each(FORBIDDEN)('never touches %s', (_what, pattern) => {
    const guilty = core.filter((path) => pattern.test(code(path)));
    expect(guilty).toEqual([]);
  });

  it('imports no module of Node, and nothing of the command line or the page', () => {
    for (const path of core) {
      for (const target of imports(path)) {
        expect(target, path).not.toMatch(/^node:|^(?:fs|path|os|url|child_process|crypto|util|process)$/);
        expect(['cli', 'page', 'build'], `${path} imports ${target}`).not.toContain(leadsTo(path, target));
      }
    }
  });

  it('lets the forward model know nothing of the optimiser, nor of what stands above it', () => {
    const ABOVE: Readonly<Record<string, readonly string[]>> = {
      science: ['blend', 'optimise', 'shop', 'safety', 'brief', 'report'],
      units: ['science', 'materials', 'blend', 'optimise', 'shop', 'safety', 'brief', 'report'],
      problems: ['units', 'science', 'materials', 'blend', 'optimise', 'shop', 'safety', 'brief', 'report'],
      blend: ['optimise', 'shop', 'safety', 'brief', 'report'],
      optimise: ['shop', 'safety', 'brief', 'report'],
    };
    let arrows = 0;
    for (const [layer, above] of Object.entries(ABOVE)) {
      for (const path of sources(join('core', layer))) {
        for (const target of imports(path)) {
          const to = leadsTo(path, target);
          if (to === null) continue;
          expect(above, `${path} imports ${target}`).not.toContain(to);
          arrows++;
        }
      }
    }
    expect(arrows).toBeGreaterThan(150);
  });

  it('looks for what it is meant to find', () => {
    const guilty = [
      'const t = Date.now();',
      'Math.random()',
      'console.log(1)',
      'process.env.X',
      'setTimeout(f)',
      'fetch(url)',
      'x.toLocaleString()',
    ];
    for (const [i, line] of guilty.entries()) expect(line).toMatch(FORBIDDEN[i]![1]);
  });
});
