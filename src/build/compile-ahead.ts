/** Runs the command's one file over the stall's examples and keeps the code that V8 compiled meanwhile: node <this> <root> <dist>. */
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { loadCompiled } from '../cli/compiled.js';

const [root, dist] = process.argv.slice(2) as [string, string];
const { script, command } = loadCompiled(join(dist, 'command.cjs'), undefined, createRequire(import.meta.url));
const example = (name: string): string => join(root, 'examples', 'garden-stall', name);
const quiet = { ...command.processIo(), out: () => undefined, err: () => undefined };
for (const words of [
  ['--help'],
  ['shelf'],
  ['assess', example('recipes/old-planter.yaml')],
  ['propose', example('herb-planter.yaml')],
  ['propose', example('wall-pocket.yaml')],
  ['propose', example('bookends.yaml')],
  ['price', example('herb-planter.yaml')],
  ['card', example('herb-planter.yaml')],
]) {
  const code = await command.run(words, quiet);
  if (code === 2) throw new Error(`pourwright ${words.join(' ')} ended with 2`);
}
writeFileSync(join(dist, 'command.compiled'), script.createCachedData());
