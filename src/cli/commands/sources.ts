import type { At } from '../../core/brief/at.js';
import { beside, type ShelfSources } from '../load.js';
import type { Call } from '../verb.js';

/** Where the shop of an input file comes from: the option, else the file the input names, else the defaults. */
export function shelfSources(call: Call, file: string, named: string | undefined, at: At): ShelfSources {
  const { shop, prices, materials } = call.options as { shop?: string; prices?: string; materials?: string[] };
  if (shop !== undefined || named === undefined) return { shop: shop ?? null, prices, materials };
  return { shop: beside(file, named), shopNamedIn: at('shop'), prices, materials };
}
