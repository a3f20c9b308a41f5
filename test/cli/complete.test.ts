import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command } from 'commander';
import { describe, expect, it } from 'vitest';
import { completionScript } from '../../src/cli/completion.js';
import { SHELLS, verbWords } from '../../src/cli/completion-words.js';
import { VERBS } from '../../src/cli/verbs.js';
import { folderOf, said } from '../support/cli.js';

const words = verbWords(VERBS);

/** What bash offers after these words, the last one being typed. */
function offered(line: readonly string[], folder: string): string[] {
  const script = `${completionScript('bash', VERBS)}
COMP_WORDS=(${line.map((w) => `'${w}'`).join(' ')}); COMP_CWORD=${line.length - 1}; _pourwright
printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout, stderr, status } = spawnSync('bash', ['--norc', '-c', script], { encoding: 'utf8', cwd: folder });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return stdout.split('\n').filter((w) => w !== '');
}

describe('completion', () => {
  it('knows every verb and every option that commander knows, and no other', () => {
    for (const verb of VERBS) {
      const command = new Command();
      verb.options(command);
      const known = words.find((w) => w.name === verb.usage.split(' ')[0])!;
      expect(known.options.map((o) => o.flag)).toEqual(command.options.map((o) => o.long));
      for (const shell of SHELLS) {
        const script = completionScript(shell, VERBS);
        expect(script).toContain(known.name);
        for (const { flag } of known.options)
          expect(script).toContain(shell === 'fish' ? ` -l ${flag.slice(2)} ` : flag);
      }
    }
  });

  const folder = folderOf({ 'planter.yaml': 'a: 1', "it's here.yaml": 'a: 1' });
  it.each<[string, readonly string[], readonly string[]]>([
    ['verbs', ['pourwright', 'pro'], ['propose']],
    ['options of the verb', ['pourwright', 'propose', '--w'], ['--why']],
    ['files', ['pourwright', 'assess', 'pl'], ['planter.yaml']],
    ['words an option chooses from', ['pourwright', 'propose', 'x.yaml', '--units', ''], ['metric', 'us']],
    ['a file after an option', ['pourwright', 'propose', '--shop', 'pl'], ['planter.yaml']],
    ['the steps of a verb', ['pourwright', 'pours', 'f'], ['fit']],
    ['the shells', ['pourwright', 'complete', ''], ['bash', 'zsh', 'fish']],
    ['nothing where no more is known', ['pourwright', 'why', 'x', ''], []],
  ])('bash offers %s', (_, line, expected) => {
    expect(offered(line, folder)).toEqual(expected);
  });

  it.each(SHELLS)('%s takes the script as its own', (shell) => {
    const file = join(folder, `script.${shell}`);
    writeFileSync(file, completionScript(shell, VERBS));
    const { status, stderr, error } = spawnSync(shell, ['-n', file], { encoding: 'utf8' });
    if ((error as NodeJS.ErrnoException | undefined)?.code === 'ENOENT')
      return console.log(`${shell} is not here: not tried`);
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });

  it('is printed by the verb, which says what shells there are', async () => {
    expect(await said(['complete', 'fish'])).toMatchObject({ code: 0, out: completionScript('fish', VERBS), err: '' });
    const wrong = await said(['complete', 'bahs']);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('Did you mean “bash”?');
  });
});
