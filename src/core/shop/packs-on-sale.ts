import { gramsOfMaterial, type PriceList } from '../materials/price-list.js';
import { gather } from '../problems/gather.js';
import type { Pack } from './price-packs.js';

/**
 * Every pack of the price list by material id, in grams. Throws InputProblems material-density-missing for packs sold by
 * volume of a material whose density as measured out is not known.
 */
export function packsOnSale(list: PriceList): ReadonlyMap<string, readonly Pack[]> {
  const packs = new Map<string, Pack[]>();
  const noted = gather();
  for (const { material, pack, amount, packText, where } of list.offers) {
    const grams = noted.attempt(() => gramsOfMaterial(pack, material, where));
    if (grams === undefined) continue;
    packs.set(material.id, [...(packs.get(material.id) ?? []), { amount, grams, text: packWords(packText) }]);
  }
  noted.finish();
  return packs;
}

/** The pack alone, where the list gives it behind the price: "27.50 per 55 lb". */
export const packWords = (text: string): string => text.replace(/^.*?(?:\/|\b(?:per|for)\b)\s*/i, '').trim();
