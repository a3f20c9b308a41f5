import {
  checkShape,
  dottedPlaces,
  inUnits,
  mixedBrief,
  mixedRecipe,
  type OrderResult,
  orderBlend,
  orderResult,
  orderSchema,
  packsOnSale,
  planOrder,
  quickerBlend,
  readOrder,
  readYaml,
  type Shelf,
  type UnitSystem,
} from '../../core/index.js';
import { beside, type Folder, textOf } from './folder.js';
import { type Opener, shopOf } from './open.js';

/** Plans an order: one shop for all its items, whatever shop their own files name. */
export function orderOf(open: Opener, folder: Folder, file: string): { result: OrderResult; system: UnitSystem } {
  const located = readYaml(textOf(folder, file), file);
  const data = checkShape(orderSchema, located);
  const opened = open.shop(folder, shopOf(file, data.shop));
  const { shelf } = opened;
  const order = readOrder(data, shelf.shop, dottedPlaces(located));
  const items = order.items.map((item) => {
    const told = mixOf(open, folder, beside(file, item.file), shelf);
    const blend = orderBlend(told.mixed, item.where);
    const named =
      item.faster === null ? null : orderBlend(mixOf(open, folder, beside(file, item.faster), shelf).mixed, item.where);
    const faster = () => named ?? (told.brief === null ? null : quickerBlend(told.brief, shelf, blend));
    return { mixed: told.mixed, ordered: { item, blend, faster } };
  });
  const packs = opened.prices === null ? new Map() : packsOnSale(opened.prices);
  const keeps = new Map(order.keeps.map(({ word, days, where }) => [shelf.find(word, where).id, days]));
  const plan = planOrder(
    order,
    items.map((i) => i.ordered),
    {
      packs: (material) => packs.get(material) ?? [],
      stock: (material) => shelf.stock.get(material) ?? 0,
      keeps: (material) => keeps.get(material) ?? null,
    },
  );
  const result = orderResult(
    order,
    items.map((i) => i.ordered),
    items.map((i) => i.mixed.result),
    plan,
    shelf,
    data.invented === true,
  );
  const system = shelf.shop.units;
  return { result: inUnits(result, system), system };
}

function mixOf(open: Opener, folder: Folder, file: string, shelf: Shelf) {
  const read = open.brief(folder, file, shelf);
  return read.kind === 'recipe'
    ? { mixed: mixedRecipe(read.recipe, shelf, read.invented), brief: null }
    : { mixed: mixedBrief(read.brief, shelf, read.invented), brief: read.brief };
}
