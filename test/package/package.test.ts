import { execFileSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error: a plain script of the build, without types.
import { bundledPackages } from '../../src/build/notices.mjs';

const root = new URL('../..', import.meta.url).pathname;

interface Bundled {
  readonly name: string;
  readonly version: string;
  readonly license: string;
}

/** Licences that ask for no more than to keep their notice (SPDX names). */
const PERMISSIVE = new Set([
  'MIT',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  '0BSD',
  'Unlicense',
  'BlueOak-1.0.0',
]);

/** An SPDX expression is free to use when one of its alternatives is. */
const permissive = (license: string): boolean =>
  license
    .replace(/[()]/g, '')
    .split(' OR ')
    .some((one) => one.split(' AND ').every((name) => PERMISSIVE.has(name.trim())));

describe('what the package is made of', () => {
  const packages = bundledPackages(root.replace(/\/$/, '')) as Bundled[];

  it('is under permissive licences only', () => {
    expect(packages.length).toBeGreaterThan(15);
    expect(packages.filter((p) => !permissive(p.license)).map((p) => `${p.name}: ${p.license}`)).toEqual([]);
    expect(permissive('GPL-3.0')).toBe(false);
    expect(permissive('(MIT OR GPL-3.0)')).toBe(true);
  });

  it('goes with the notices of those licences', () => {
    const notices = readFileSync(join(root, 'dist', 'NOTICES.txt'), 'utf8');
    for (const { name, version, license } of packages) expect(notices).toContain(`${name} ${version}: ${license}`);
    // Small packages of the unit library's come without a file of theirs; they say MIT.
    const bare = [...notices.matchAll(/^(\S+) \S+: .+\n\nNo licence file/gm)].map((m) => m[1]);
    expect(bare).toEqual(['javascript-natural-sort', 'seedrandom']);
  });
});

describe('the command', () => {
  it('is plain ASCII, as it is read, and knows the signs that patterns have', () => {
    expect(readFileSync(join(root, 'dist', 'command.cjs')).filter((byte) => byte > 127)).toHaveLength(0);
    const recipe = 'mould: { water: 250 cm³ }\namounts: { casting-plaster: ½ kg, water: 350 g }\n';
    const command = join(root, 'dist', 'pourwright.cjs');
    const out = execFileSync(process.execPath, [command, 'assess', '-', '--json'], { input: recipe, encoding: 'utf8' });
    const told = JSON.parse(out);
    expect(told.piece.volume).toBe(250);
    expect(told.blend[0].batchGrams).toBeCloseTo(500, 9);
  });
});

describe('npm pack', () => {
  let files: readonly string[] = [];
  beforeAll(() => {
    const out = execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
      cwd: root,
      encoding: 'utf8',
    });
    files = (JSON.parse(out) as [{ files: { path: string }[] }])[0].files.map((f) => f.path);
  });

  it('holds the command, the library with its types, the page, the table, the schemas, the examples and the papers', () => {
    for (const path of [
      'dist/pourwright.cjs',
      'dist/command.cjs',
      'dist/command.compiled',
      'dist/index.js',
      'dist/types/index.d.ts',
      'dist/page/bench.html',
      'dist/materials.json',
      'dist/NOTICES.txt',
      'materials/README.md',
      'examples/garden-stall/README.md',
      'README.md',
      'LICENSE',
      'CHANGELOG.md',
    ]) {
      expect(files, path).toContain(path);
    }
    expect(files.filter((f) => /^dist\/schemas\/.+[.]json$/.test(f)).length).toBeGreaterThan(5);
  });

  it('holds nothing else: no source, no test, no settings, no temporary file', () => {
    const allowed = /^(dist|materials|examples)\/|^(README|CHANGELOG)[.]md$|^LICENSE$|^package[.]json$/;
    expect(
      files.filter((f) => !allowed.test(f) || /(^|\/)[.]|[.](ts|tsx|tmp|lock|log)$/.test(f.replace(/[.]d[.]ts$/, ''))),
    ).toEqual([]);
  });

  it('marks the command as one that can be run', () => {
    const built = join(root, 'dist', 'pourwright.cjs');
    expect(readFileSync(built, 'utf8').startsWith('#!/usr/bin/env node\n')).toBe(true);
    expect(statSync(built).mode & 0o111).toBe(0o111);
  });
});
