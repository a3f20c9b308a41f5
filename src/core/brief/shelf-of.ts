import type { ModelFigures } from '../materials/model-figures.js';
import { cheapestPerGram, type PriceList, stockOf } from '../materials/price-list.js';
import type { MaterialTable } from '../materials/table.js';
import type { LearnedShelf, Shelf, Shop } from './shelf.js';

export interface ShelfParts {
  readonly shop: Shop;
  readonly table: MaterialTable;
  readonly figures: ModelFigures;
  readonly prices: PriceList | null;
  readonly learned?: LearnedShelf | null;
}

/** A shop with its table and price list, as briefs and recipes are read against it. The list's currency fills a gap in the shop's. */
export function shelfOf({ shop, table, figures, prices, learned }: ShelfParts): Shelf {
  return {
    materials: table.materials,
    find: (word, where) => table.get(word, where),
    figures,
    learned: learned ?? null,
    prices: new Map(prices === null ? [] : [...cheapestPerGram(prices)].map(([id, best]) => [id, best.perGram])),
    ...(prices === null ? {} : { priceList: prices.file }),
    stock: prices === null ? new Map() : stockOf(prices),
    shop: { ...shop, currency: shop.currency ?? prices?.currency ?? null },
  };
}
