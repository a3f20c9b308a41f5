import { type Kind, problemResult, type Shop } from '../../core/index.js';
import type { Notice } from './notice.js';
import type { Open } from './open.js';

/** What lies on the maker's shelf, and how the shop stands. */
export interface ShelfTold {
  readonly shop: Pick<Shop, 'currency' | 'units' | 'region' | 'scale' | 'scoop' | 'temperature' | 'humidity' | 'waste'>;
  readonly materials: readonly {
    readonly id: string;
    readonly name: string;
    readonly kind: Kind;
    readonly use: string | null;
    readonly own: boolean;
    /** Per gram, the cheapest pack. */
    readonly price: number | null;
    /** g on hand. */
    readonly stock: number | null;
  }[];
  readonly offers: readonly {
    readonly name: string;
    readonly pack: string;
    readonly amount: string;
    readonly stock: boolean;
  }[];
  readonly priceFile: string | null;
  readonly warnings: readonly Notice[];
}

export function shelfTold({ table, prices, shelf }: Open): ShelfTold {
  const { currency, units, region, scale, scoop, temperature, humidity, waste } = shelf.shop;
  return {
    shop: { currency, units, region, scale, scoop, temperature, humidity, waste },
    materials: table.materials.map((m) => ({
      id: m.id,
      name: m.name,
      kind: m.kind,
      use: m.use ?? null,
      own: table.own.has(m.id),
      price: shelf.prices.get(m.id) ?? null,
      stock: shelf.stock.get(m.id) ?? null,
    })),
    offers: (prices?.offers ?? []).map((o) => ({
      name: o.material.name,
      pack: o.packText,
      amount: o.amount,
      stock: o.inStock !== undefined,
    })),
    priceFile: prices?.file ?? null,
    warnings: [...table.notes, ...(prices?.problems ?? [])].map(problemResult),
  };
}
