import type { Brief } from '../../core/brief/read-brief.js';
import type { Shelf } from '../../core/brief/shelf.js';
import { barred } from '../../core/report/barred.js';
import { isMet } from '../../core/report/missed.js';
import type { Mixed } from '../../core/report/mixed.js';
import { orderBlend, quickerBlend } from '../../core/report/order-blend.js';
import { orderResult } from '../../core/report/order-result.js';
import { type Order, type OrderItem, orderSchema, readOrder } from '../../core/shop/order-file.js';
import { type OrderedItem, planOrder, type Store } from '../../core/shop/order-plan.js';
import { packsOnSale } from '../../core/shop/packs-on-sale.js';
import { beside, type OpenShop, openShop, readShaped } from '../load.js';
import { renderOrder } from '../render/order.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { mixedFile } from './mixed-file.js';
import { shelfSources } from './sources.js';
import { printInUnits, printJson } from './view.js';

/** Plans an order: one shop for all its items, whatever shop their own files name. */
export async function orderVerb(call: Call): Promise<ExitCode> {
  const file = call.operands[0]!;
  const { data, at } = await readShaped('order', orderSchema, file, call.io);
  const open = await openShop(shelfSources(call, file, data.shop, at), call.io);
  const order = readOrder(data, open.shop, at);
  const told: Mixed[] = [];
  const ordered: OrderedItem[] = [];
  for (const item of order.items) {
    const { mixed, brief } = await mixedFile(call, beside(file, item.file), open.shelf, {}, item.where);
    const blend = orderBlend(mixed, item.where);
    told.push(mixed);
    ordered.push({ item, blend, faster: await fasterBlend(call, file, item, blend, brief, open.shelf) });
  }
  const plan = planOrder(order, ordered, storeOf(open, order));
  const results = told.map((m) => m.result);
  const result = orderResult(order, ordered, results, plan, open.shelf, data.invented === true);
  const withMoulds = call.options.withMoulds === true;
  if (call.options.json === true) printJson(call.io, result);
  else printInUnits(call, open.shop, result, (page, shown, view) => renderOrder(page, shown, { ...view, withMoulds }));
  return result.met && results.every(isMet) && !barred(result) ? 0 : 1;
}

/** The blend the order names as the faster one is read at once, so that its mistakes show; a brief's own only when asked. */
async function fasterBlend(
  call: Call,
  file: string,
  item: OrderItem,
  blend: OrderedItem['blend'],
  brief: Brief | null,
  shelf: Shelf,
): Promise<OrderedItem['faster']> {
  if (item.faster !== null) {
    const { mixed } = await mixedFile(call, beside(file, item.faster), shelf, {}, item.fasterWhere);
    const faster = orderBlend(mixed, item.where);
    return () => faster;
  }
  return () => (brief === null ? null : quickerBlend(brief, shelf, blend));
}

function storeOf(open: OpenShop, order: Order): Store {
  const packs = open.prices === null ? new Map() : packsOnSale(open.prices);
  const keeps = new Map(order.keeps.map(({ word, days, where }) => [open.shelf.find(word, where).id, days]));
  return {
    packs: (material) => packs.get(material) ?? [],
    stock: (material) => open.shelf.stock.get(material) ?? 0,
    keeps: (material) => keeps.get(material) ?? null,
  };
}
