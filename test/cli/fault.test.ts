import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FAULT, faultWords } from '../../src/cli/fault.js';
import { folderOf } from '../support/cli.js';

describe('a fault of the program', () => {
  it('is one plain line, with the trace only for who asks', () => {
    const error = new TypeError('cannot read this\nsecond line');
    expect(faultWords(error, false)).toMatch(
      /^pourwright: a fault of the program, not of your files \(TypeError: cannot read this\)\..*\n$/,
    );
    expect(faultWords(error, true)).toContain('fault.test.ts');
    expect(faultWords('odd', true).split('\n')).toHaveLength(2);
  });

  it('has an exit code of its own, and no trace, as a process', () => {
    const folder = folderOf({});
    mkdirSync(join(folder, 'dist'));
    copyFileSync('dist/pourwright.cjs', join(folder, 'dist', 'pourwright.cjs'));
    writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
    writeFileSync(
      join(folder, 'dist', 'command.cjs'),
      '(function (require, module) { module.exports = { run: async () => { throw new Error("bang"); }, processIo: () => ({}) }; })',
    );
    const { status, stderr } = spawnSync(process.execPath, [join(folder, 'dist', 'pourwright.cjs'), 'shelf'], {
      encoding: 'utf8',
    });
    expect([status, stderr.split('\n').length]).toEqual([FAULT, 2]);
    expect(stderr).toContain('bang');
  });
});
