import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, said } from '../support/cli.js';

/** A maker who has never seen a recipe file is shown one. */

describe('the form of a recipe', () => {
  it('stands in the help of assess, and is read as printed', async () => {
    const { out } = await said(['assess', '--help'], '', { columns: 80 });
    const example = /A recipe:\n((?: {2}.*\n?)+)/.exec(out)![1]!.replace(/^ {2}/gm, '');
    const folder = folderOf({ 'recipe.yaml': example });
    const told = await said(['assess', join(folder, 'recipe.yaml')]);
    expect([told.code, told.err]).toEqual([0, '']);
  });

  it.each(['recipe', 'parts', 'ingredients', 'blend'])('is told to one who wrote “%s”', async (word) => {
    const folder = folderOf({ 'r.yaml': `mould: { water: 250 mL }\n${word}:\n  casting plaster: 300 g\n` });
    const { code, err } = await said(['assess', join(folder, 'r.yaml')]);
    expect(code).toBe(2);
    expect(err).toContain(
      'expected materials and how much of each, such as amounts: { casting plaster: 300 g, water: 180 g }',
    );
    expect(err).toContain(`found “${word}”. Did you mean “amounts”?`);
    expect(err).not.toContain('aluminium');
  });
});
