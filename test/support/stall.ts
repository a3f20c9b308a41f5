import { fileURLToPath } from 'node:url';
import { processIo } from '../../src/cli/io.js';
import { openShop, readShaped } from '../../src/cli/load.js';
import { readBrief } from '../../src/core/brief/read-brief.js';
import { briefSchema, type WrittenBrief } from '../../src/core/brief/schema.js';
import type { Question } from '../../src/core/optimise/question.js';

/** The shop of the shipped examples, opened as the command opens it. Its prices and stock are invented. */

const fileOf = (name: string): string => fileURLToPath(new URL(`../../examples/garden-stall/${name}`, import.meta.url));

export const { shelf: stall } = await openShop({ shop: fileOf('shop.yaml') }, processIo());

/** The stall's price list without its shop. */
export const { shelf: stallPrices } = await openShop({ shop: null, prices: fileOf('prices.csv') }, processIo());

/** What a brief asks of the stall. */
export const askedOf = (written: WrittenBrief, shelf = stall): Question =>
  readBrief(written, shelf, (path) => ({ path })).question;

/** What one of the shipped briefs asks of it. */
export async function askedIn(name: string): Promise<Question> {
  const { data, at } = await readShaped('brief', briefSchema, fileOf(`${name}.yaml`), processIo());
  return readBrief(data, stall, at).question;
}
