import { noPrices } from '../../core/brief/no-prices.js';
import { InputProblems, refuse } from '../../core/problems/problem.js';
import { barred } from '../../core/report/barred.js';
import { isMet } from '../../core/report/missed.js';
import { priceResult } from '../../core/report/price-result.js';
import { packsOnSale } from '../../core/shop/packs-on-sale.js';
import { parseMoney } from '../../core/units/money.js';
import { renderPrice } from '../render/price.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { type Opened, openMixed, wholePieces } from './mixed.js';
import { printInUnits, printJson } from './view.js';

/** Prices one blend, or several side by side. All must share a shop, so that the sums compare. */
export async function priceVerb(call: Call): Promise<ExitCode> {
  const opened: Opened[] = [];
  for (const file of call.operands) opened.push(await openMixed(call, file));
  const { open } = opened[0]!;
  const { shop, shelf } = open;
  if (shelf.prices.size === 0) throw new InputProblems([noPrices(shelf, { file: call.operands[0]! })]);
  requireOneShop(opened, call.operands);
  const options = shop.currency === null ? {} : { currency: shop.currency };
  const sum = (word: unknown, name: string): string => parseMoney(word, { path: name }, options).amount;
  const { at, once = [] } = call.options as { at?: string; once?: string[] };
  if (once.length > 0 && once.length !== opened.length) {
    const expected = `one sum for each of the ${opened.length} files, in their order`;
    refuse({ code: 'option-invalid', where: { path: '--once' }, found: once.join(' '), expected });
  }
  const run = wholePieces(call, 'pieces');
  const result = priceResult(
    opened.map((o) => o.mixed),
    shop,
    open.prices === null ? new Map() : packsOnSale(open.prices),
    {
      ...(at === undefined ? {} : { at: sum(at, '--at') }),
      ...(run === undefined ? {} : { run }),
      once: once.map((word) => sum(word, '--once')),
      files: call.operands,
    },
  );
  if (call.options.json === true) printJson(call.io, result);
  else printInUnits(call, shop, result, (page, told, view) => renderPrice(page, told, view.wording));
  return result.unpriced === undefined &&
    opened.every((o) => isMet(o.mixed.result)) &&
    result.blends.every((b) => b.complete && !barred(b))
    ? 0
    : 1;
}

function requireOneShop(opened: readonly Opened[], files: readonly string[]): void {
  const key = ({ open }: Opened): string => JSON.stringify([open.shop, open.prices?.file ?? null]);
  const other = opened.findIndex((o) => key(o) !== key(opened[0]!));
  if (other < 0) return;
  refuse({
    code: 'brief-contradicts',
    where: { file: files[other]!, path: 'shop' },
    expected: `the same shop and price list as ${files[0]}`,
    hint: 'name one shop for all with --shop',
  });
}
