import type { Material } from '../../core/index.js';
import type { ShippedTable } from '../worker/open.js';

/** The table and the examples that the build put into the page. */

const inert = (id: string): unknown => JSON.parse(document.getElementById(id)!.textContent ?? 'null');

let table: ShippedTable | undefined;

export function shippedTable(): ShippedTable {
  table ??= inert('shipped') as ShippedTable;
  return table;
}

export const shippedMaterials = (): readonly Material[] => shippedTable().materials;

export const exampleFiles = (): Readonly<Record<string, string>> => inert('examples') as Record<string, string>;
