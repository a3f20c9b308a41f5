import { execFileSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { processIo } from '../../src/cli/io.js';
import { openShop, readShaped } from '../../src/cli/load.js';
import { assess } from '../../src/core/blend/assess.js';
import { readBrief } from '../../src/core/brief/read-brief.js';
import { readRecipe } from '../../src/core/brief/read-recipe.js';
import { recipeBlend } from '../../src/core/brief/recipe-blend.js';
import { briefSchema, recipeSchema } from '../../src/core/brief/schema.js';
import { propose } from '../../src/core/optimise/propose.js';

/** Prints how long the main jobs take, in this process and as whole commands beside a bare node. */
const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const example = (name: string): string => join(root, 'examples', 'garden-stall', name);
const io = processIo();

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;

function timed(runs: number, job: () => unknown): { first: number; median: number } {
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    job();
    times.push(performance.now() - start);
  }
  return { first: times[0]!, median: median(times) };
}

const row = (name: string, first: number, typical: number): void =>
  io.out(`${name.padEnd(52)} ${first.toFixed(1).padStart(8)} ${typical.toFixed(1).padStart(8)}\n`);

io.out(`${'ms'.padEnd(52)} ${'first'.padStart(8)} ${'median'.padStart(8)}\n`);

const { shelf } = await openShop({ shop: example('shop.yaml') }, io);
// Every material of the shipped table in play: those without a price in the example list get one.
const everyPrice = new Map(shelf.materials.map((m) => [m.id, shelf.prices.get(m.id) ?? 0.002]));
for (const name of ['herb-planter', 'wall-pocket', 'bookends', 'soap-tray']) {
  const { data, at } = await readShaped(briefSchema, example(`${name}.yaml`), io);
  const some = readBrief(data, shelf, at).question;
  const all = readBrief(data, { ...shelf, prices: everyPrice }, at).question;
  for (const [label, question] of [
    ['priced', some],
    ['all', all],
  ] as const) {
    const { first, median: typical } = timed(9, () => propose(question));
    row(`propose ${name}, ${label} (${question.materials.length} materials)`, first, typical);
  }
}
const { data, at } = await readShaped(recipeSchema, example('recipes/old-planter.yaml'), io);
const recipe = readRecipe(data, shelf, at);
const blend = recipeBlend(recipe, shelf);
const input = {
  materials: blend.materials,
  figures: shelf.figures,
  conditions: recipe.setting.conditions,
  prices: shelf.prices,
};
const forward = timed(15, () => assess(input, blend.pieceGrams, recipe.targets));
row('assess old-planter', forward.first, forward.median);

const bundle = join(root, 'dist', 'pourwright.js');
const command = (args: readonly string[]) => () => {
  try {
    execFileSync(process.execPath, [...args], { stdio: 'ignore' });
  } catch (error) {
    // 1 is an answer too: a target is missed.
    if ((error as { status?: number }).status !== 1) throw error;
  }
};
const bare = timed(9, command(['-e', '0'])).median;
row('node -e 0', bare, bare);
for (const args of [
  ['--help'],
  ['shelf'],
  ['assess', example('recipes/old-planter.yaml')],
  ['propose', example('herb-planter.yaml')],
  ['propose', example('wall-pocket.yaml')],
]) {
  const whole = timed(9, command([bundle, ...args]));
  row(
    `pourwright ${args[0]} ${(args[1] ?? '').split('/').at(-1)}: ${(whole.median / bare).toFixed(1)} x bare node`,
    whole.first,
    whole.median,
  );
}
