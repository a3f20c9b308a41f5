import { dirname, isAbsolute, join } from 'node:path';
import type * as z from 'zod/mini';
import type { At } from '../core/brief/at.js';
import { readShop } from '../core/brief/read-shop.js';
import { shopSchema } from '../core/brief/schema.js';
import { DEFAULT_SHOP, type Shelf, type Shop } from '../core/brief/shelf.js';
import { shelfOf } from '../core/brief/shelf-of.js';
import type { ModelFigures } from '../core/materials/model-figures.js';
import { type PriceList, readPrices } from '../core/materials/price-list.js';
import { type MaterialTable, materialTable, type TableData } from '../core/materials/table.js';
import type { Problem } from '../core/problems/problem.js';
import { dottedPlaces } from '../core/reading/located.js';
import { checkShape } from '../core/reading/shape.js';
import { readYaml } from '../core/reading/yaml.js';
import { foresee } from '../core/units/engine.js';
import type { Io } from './io.js';
import { type KindName, readAs } from './kind-of-file.js';
import { type NamedIn, readNamed } from './named-file.js';
import { shippedText } from './shipped.js';

/** The shipped table as the build checked it. */
interface ShippedTable extends TableData {
  readonly model: ModelFigures;
  /** Factors between units, as the build found them. */
  readonly factors: Readonly<Record<string, string>>;
}

let shipped: ShippedTable | undefined;

/** The shipped materials. */
export function shippedTable(): ShippedTable {
  if (shipped === undefined) {
    shipped = JSON.parse(shippedText('materials.json')) as ShippedTable;
    foresee(shipped.factors);
  }
  return shipped;
}

/** A file's data in the shape of its kind's schema, with the places of its fields; `namedIn`: the field that names the file. */
export async function readShaped<S extends z.ZodMiniType>(
  kind: KindName,
  schema: S,
  file: string,
  io: Io,
  namedIn?: NamedIn,
): Promise<{ data: z.output<S>; at: At }> {
  const read = await readNamed(file, io, namedIn);
  return readAs([kind], read, () => {
    const located = readYaml(read.text, read.file);
    return { data: checkShape(schema, located), at: dottedPlaces(located) };
  });
}

/** A shop with everything it points to. */
export interface OpenShop {
  readonly shop: Shop;
  readonly table: MaterialTable;
  readonly prices: PriceList | null;
  readonly shelf: Shelf;
  /** Folder that the shop's own file names start from. */
  readonly folder: string;
  /** Places in the shop file; null without one. */
  readonly at: At | null;
  /** Files the shop names for its record of pours and for what they have taught, ready to open; null: not named. */
  readonly pours: string | null;
  readonly learned: string | null;
}

/** Files named in a file are looked for beside it. */
export const beside = (file: string, name: string): string =>
  isAbsolute(name) ? name : join(file === '-' ? '.' : dirname(file), name);

export interface ShelfSources {
  /** Shop file, or null for the defaults. */
  readonly shop: string | null;
  /** The field that names the shop file; absent for an option. */
  readonly shopNamedIn?: NamedIn;
  /** A price list that takes the place of the shop's. */
  readonly prices?: string | undefined;
  /** More material tables of the maker's own. */
  readonly materials?: readonly string[] | undefined;
  /** False: the table's own figures, whatever the shop's pours have taught. */
  readonly useLearned?: boolean;
  /** False: the caller itself tells what the price list warns of. */
  readonly warnOfPrices?: boolean;
}

/** To stderr, so that --json stays one object. */
async function tell(problems: readonly Problem[], io: Io): Promise<void> {
  if (problems.length === 0) return;
  const { explain } = await import('../core/problems/words.js');
  for (const problem of problems) io.err(`pourwright: ${problem.severity}: ${explain(problem)}\n`);
}

/** Reads the shop, its price list and its own materials into a shelf. */
export async function openShop(sources: ShelfSources, io: Io): Promise<OpenShop> {
  const { materials, sources: bibliography, model } = shippedTable();
  const written =
    sources.shop === null ? null : await readShaped('shop', shopSchema, sources.shop, io, sources.shopNamedIn);
  const shop = written === null ? DEFAULT_SHOP : readShop(written.data, written.at);
  const near = (name: string) => (sources.shop === null ? name : beside(sources.shop, name));
  let table = materialTable({ materials, sources: bibliography });
  const own = (written?.data.materials ?? []).map((name, i) => [near(name), written!.at(`materials.${i}`)] as const);
  for (const [file, namedIn] of [...own, ...(sources.materials ?? []).map((name) => [name, undefined] as const)]) {
    const read = await readNamed(file, io, namedIn);
    // The shapes of a materials file take a while to build, and few shops have one.
    const { overlay } = await import('../core/materials/overlay.js');
    const under = table;
    table = await readAs(['materials'], read, () => overlay(under, read.text, read.file));
  }
  await tell(table.notes, io);
  const named = (name: string | undefined) => (name === undefined ? null : near(name));
  const learnedFile = named(written?.data.learned);
  const plain = { shop, table, figures: model, learned: null };
  const asked = sources.useLearned === false ? null : learnedFile;
  const taught = asked === null ? plain : await (await import('./learned.js')).withLearned(asked, plain, io);
  table = taught.table;
  const listed = sources.prices ?? (written?.data.prices === undefined ? undefined : near(written.data.prices));
  let prices: PriceList | null = null;
  if (listed !== undefined) {
    const read = await readNamed(listed, io, sources.prices === undefined ? written?.at('prices') : undefined);
    const options = shop.currency === null ? {} : { currency: shop.currency };
    prices = await readAs(['prices'], read, () => readPrices(read.text, read.file, taught.table, options));
    if (sources.warnOfPrices !== false)
      await tell(
        prices.problems.filter((p) => p.severity === 'warning'),
        io,
      );
  }
  const shelf = shelfOf({ ...taught, table, prices });
  return {
    shop: shelf.shop,
    table,
    prices,
    folder: sources.shop === null ? '.' : dirname(sources.shop),
    at: written?.at ?? null,
    pours: named(written?.data.pours),
    learned: learnedFile,
    shelf,
  };
}
