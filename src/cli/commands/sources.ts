import { beside, type ShelfSources } from '../load.js';
import type { Call } from '../verb.js';

/** Where the shop of an input file comes from: the option, else the file the input names, else the defaults. */
export function shelfSources(call: Call, file: string, named: string | undefined): ShelfSources {
  const { shop, prices, materials } = call.options as { shop?: string; prices?: string; materials?: string[] };
  return { shop: shop ?? (named === undefined ? null : beside(file, named)), prices, materials };
}
