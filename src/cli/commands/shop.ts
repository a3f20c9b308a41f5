import { nearestWord } from '../../core/problems/nearest.js';
import { refuse } from '../../core/problems/problem.js';
import { problemResult } from '../../core/report/problem-result.js';
import type { ShopCheckResult, ShopPricesResult } from '../../core/report/shop-schema.js';
import { packsOnSale } from '../../core/shop/packs-on-sale.js';
import { priceCsv, priceRows } from '../../core/shop/price-export.js';
import { shopTemplate } from '../../core/shop/shop-template.js';
import type { UnitSystem } from '../../core/units/print.js';
import { createText } from '../files.js';
import { type OpenShop, openShop } from '../load.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { printJson, printSheet } from './view.js';

const USUAL_FILE = 'shop.yaml';

const ACTIONS: Readonly<Record<string, (call: Call, file: string) => Promise<ExitCode>>> = { init, check, prices };

/** shop init | check | prices, on the file named or shop.yaml. */
export async function shopVerb(call: Call): Promise<ExitCode> {
  const [word = '', file = USUAL_FILE] = call.operands;
  const act = Object.hasOwn(ACTIONS, word) ? ACTIONS[word] : undefined;
  if (act !== undefined) return act(call, file);
  const nearest = nearestWord(word, Object.keys(ACTIONS));
  return refuse({
    code: 'option-invalid',
    where: { path: 'shop' },
    found: word,
    expected: `one of ${Object.keys(ACTIONS).join(', ')}`,
    ...(nearest === undefined ? {} : { nearest }),
  });
}

async function init(call: Call, file: string): Promise<ExitCode> {
  if (!/\.ya?ml$/i.test(file))
    refuse({
      code: 'option-invalid',
      where: { path: 'shop init' },
      found: file,
      expected: 'a file name that ends in .yaml',
    });
  createText(file, shopTemplate((call.options.units as UnitSystem | undefined) ?? 'metric'));
  if (call.options.json === true) printJson(call.io, { format: 'pourwright.shop-init/1', file });
  else call.io.out(`Wrote ${file}. Fill it in, then: pourwright shop check ${file}\n`);
  return 0;
}

const sources = (call: Call, file: string) => ({
  shop: file,
  prices: call.options.prices as string | undefined,
  materials: call.options.materials as string[] | undefined,
  warnOfPrices: false,
});

/** What the price of a piece will not count, because the shop does not say it. */
function unsaid({ shop, prices }: OpenShop): string[] {
  const { costs } = shop;
  return [
    ...(prices === null ? ['material prices (prices: a CSV list)'] : []),
    ...(shop.currency === null ? ['the currency'] : []),
    ...(costs.labour === null ? ['your work (labour)'] : []),
    ...(costs.mould === null ? ['mould wear (mould)'] : []),
    ...(costs.sealer === null ? ['sealer'] : []),
    ...(costs.packing === null ? ['packing'] : []),
    ...(costs.postage.length === 0 ? ['postage'] : []),
    ...(costs.fee.share === 0 && Number(costs.fee.each) === 0 ? ['the selling fee (fee)'] : []),
    ...(costs.margin === 0 ? ['a margin'] : []),
    ...(costs.breakage === 0 ? ['pieces that fail (breakage)'] : []),
  ];
}

async function check(call: Call, file: string): Promise<ExitCode> {
  const open = await openShop(sources(call, file), call.io);
  const { shop, prices, table } = open;
  const packs = prices === null ? new Map() : packsOnSale(prices);
  const result: ShopCheckResult = {
    format: 'pourwright.shop-check/1',
    file,
    currency: shop.currency,
    units: shop.units,
    priceList: prices?.file ?? null,
    packs: prices?.offers.length ?? 0,
    priced: [...packs.keys()],
    ownMaterials: [...table.own],
    notCounted: unsaid(open),
    warnings: (prices?.problems ?? []).map(problemResult),
  };
  if (call.options.json === true) printJson(call.io, result);
  else
    printSheet(call.io, (page) => {
      page.paragraph(`${file}: all in order.`);
      if (prices !== null) {
        page.paragraph(`${prices.file}: ${result.packs} packs of ${packs.size} materials.`);
      }
      for (const warning of result.warnings) page.paragraph(`${page.paint.yellow('WARNING')} ${warning.message}`, 0, 2);
      if (result.ownMaterials.length > 0) page.paragraph(`Your own materials: ${result.ownMaterials.join(', ')}.`);
      if (result.notCounted.length > 0)
        page.paragraph(`The price of a piece will not count: ${result.notCounted.join(', ')}.`);
    });
  return 0;
}

/** The price list in this program's columns, safe to open in a spreadsheet. */
async function prices(call: Call, file: string): Promise<ExitCode> {
  const open = await openShop(sources(call, file), call.io);
  if (open.prices === null)
    return refuse({ code: 'field-missing', where: { file, path: 'prices' }, expected: 'a price list (CSV)' });
  const csv = priceCsv(open.prices, open.shop.currency);
  const { csv: to, json } = call.options as { csv?: string; json?: boolean };
  if (to !== undefined) {
    if (!/\.csv$/i.test(to))
      refuse({
        code: 'option-invalid',
        where: { path: '--csv' },
        found: to,
        expected: 'a file name that ends in .csv',
      });
    createText(to, csv);
    call.io.err(`pourwright: wrote ${to}\n`);
  }
  const result: ShopPricesResult = {
    format: 'pourwright.shop-prices/1',
    priceList: open.prices.file,
    written: to ?? null,
    offers: priceRows(open.prices, open.shop.currency),
  };
  if (json === true) printJson(call.io, result);
  else if (to === undefined) call.io.out(csv);
  return 0;
}
