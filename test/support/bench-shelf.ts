import { type Costs, NO_COSTS } from '../../src/core/brief/costs.js';
import { readBrief } from '../../src/core/brief/read-brief.js';
import { readRecipe } from '../../src/core/brief/read-recipe.js';
import { readShop } from '../../src/core/brief/read-shop.js';
import { briefSchema, recipeSchema, shopSchema } from '../../src/core/brief/schema.js';
import { DEFAULT_SHOP, type Shelf, type Shop } from '../../src/core/brief/shelf.js';
import { cheapestPerGram, type PriceList, readPrices } from '../../src/core/materials/price-list.js';
import { materialTable } from '../../src/core/materials/table.js';
import { type Mixed, type MixedOptions, mixedBrief, mixedRecipe } from '../../src/core/report/mixed.js';
import { materials, model, sources } from './shipped-table.js';

/** A shelf over the shipped table, for tests of what a shop does with a blend. All prices are invented. */

export const table = materialTable({ materials, sources });

const nowhere = (path: string) => ({ path });

export const PRICES = `material,pack,price,in stock,note
portland-cement-grey,5 kg,4.50,,
portland-cement-grey,25 kg,8.90,,
portland-cement-white,25 kg,17.50,,
casting-plaster,5 kg,9.80,2 packs,
casting-plaster,25 kg,31.00,,
alpha-gypsum-cement,25 kg,46.00,,
csa-rapid-cement,25 kg,52.00,,
natural-hydraulic-lime,25 kg,16.00,,
metakaolin,5 kg,14.50,,
limestone-flour,10 kg,6.20,,
masonry-sand,25 kg,4.30,,
silica-sand-fine,25 kg,7.90,,
perlite,100 L,21.00,,
pumice,20 L,13.50,,
iron-oxide-red,1 kg,9.50,,
citric-acid,1 kg,7.50,,
ground-gypsum,1 kg,4.00,,
methyl-cellulose,1 kg,21.00,,
plasticiser-liquid,1 L,17.00,,
acrylic-emulsion,5 L,38.00,,
defoamer,500 g,22.00,,
ar-glass-fibre,1 kg,16.00,,
`;

export const priceList = (text = PRICES): PriceList => readPrices(text, 'prices.csv', table, { currency: 'EUR' });

/** A shop from its file's fields. */
export const shopOf = (written: unknown): Shop => readShop(shopSchema.parse(written), nowhere);

export const shopWith = (costs: Partial<Costs>, more: Partial<Shop> = {}): Shop => ({
  ...DEFAULT_SHOP,
  currency: 'EUR',
  ...more,
  costs: { ...NO_COSTS, ...costs },
});

export function shelfOf(shop: Shop, list: PriceList = priceList()): Shelf {
  return {
    materials,
    find: (word, where) => table.get(word, where),
    figures: model,
    learned: null,
    prices: new Map([...cheapestPerGram(list)].map(([id, best]) => [id, best.perGram])),
    stock: new Map(),
    shop,
  };
}

export const recipeOf = (written: unknown, shop: Shop, options: MixedOptions = {}): Mixed => {
  const shelf = shelfOf(shop);
  return mixedRecipe(readRecipe(recipeSchema.parse(written), shelf, nowhere), shelf, true, { draws: 20, ...options });
};

export const briefOf = (written: unknown, shop: Shop, options: MixedOptions = {}): Mixed => {
  const shelf = shelfOf(shop);
  return mixedBrief(readBrief(briefSchema.parse(written), shelf, nowhere), shelf, true, { draws: 20, ...options });
};
