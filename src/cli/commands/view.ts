import type { Shop } from '../../core/brief/shelf.js';
import { inUnits } from '../../core/units/marked.js';
import type { UnitSystem } from '../../core/units/print.js';
import type { Io } from '../io.js';
import type { View } from '../render/assessment.js';
import { type Sheet, sheet } from '../render/page.js';
import type { Call } from '../verb.js';

/** The units asked for; those of the shop, or metric, where none are. */
export const unitsOf = (call: Call, otherwise: UnitSystem = 'metric'): UnitSystem =>
  (call.options['units'] as UnitSystem | undefined) ?? otherwise;

export const viewOf = (call: Call, shop: Shop): View => ({
  wording: { system: unitsOf(call, shop.units), currency: shop.currency },
  fullCautions: call.options['cautions'] === true,
  why: call.options['why'] === true,
});

/** Text on a sheet as wide as the terminal. */
export function printSheet(io: Io, draw: (page: Sheet) => void): void {
  const page = sheet(io.columns, io.colour);
  draw(page);
  io.out(page.text());
}

/** A result on a sheet, its words in the units asked for. */
export function printInUnits<R>(
  call: Call,
  shop: Shop,
  result: R,
  draw: (page: Sheet, result: R, view: View) => void,
): void {
  const view = viewOf(call, shop);
  printSheet(call.io, (page) => draw(page, inUnits(result, view.wording.system), view));
}

export const printJson = (io: Io, result: unknown): void => io.out(`${JSON.stringify(result, null, 2)}\n`);
