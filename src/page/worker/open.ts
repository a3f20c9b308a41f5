import {
  briefSchema,
  checkShape,
  DEFAULT_SHOP,
  dottedPlaces,
  type FigureTables,
  InputProblems,
  learnedSchema,
  type MaterialTable,
  type Mixed,
  type ModelFigures,
  materialTable,
  mixedBrief,
  mixedRecipe,
  overlay,
  overlayLearned,
  type PriceList,
  readBrief,
  readPrices,
  readRecipe,
  readShop,
  readYaml,
  recipeSchema,
  refuse,
  type Shelf,
  shelfOf,
  shopSchema,
  type TableData,
} from '../../core/index.js';
import { asOneText, beside, type Folder, filesOfShop, textOf } from './folder.js';

/** The shipped table as the build checked it. */
export interface ShippedTable extends TableData {
  readonly model: ModelFigures;
}

export interface Open {
  readonly table: MaterialTable;
  readonly prices: PriceList | null;
  readonly shelf: Shelf;
}

/** Opens the maker's files against the shipped table, and remembers the last shop: typing in a brief does not change it. */
export function opener(shipped: ShippedTable) {
  const base = materialTable({ materials: shipped.materials, sources: shipped.sources });
  let known: { readonly key: string; readonly open: Open } | null = null;
  const mixes = new Map<string, Mixed>();
  let listed: { readonly file: string; readonly text: string; readonly names: readonly string[] } | null = null;

  /** `useLearned` false: the table's own figures, whatever the shop's pours have taught. */
  function shop(folder: Folder, file: string | null, useLearned = true): Open {
    if (!useLearned) return readOpen(folder, file, false);
    const key = shopKey(folder, file);
    if (known?.key === key) return known.open;
    const open = readOpen(folder, file);
    known = { key, open };
    return open;
  }

  /** Everything the shop is made of, as one text. Its own file is read anew only when it changes: every keystroke asks. */
  function shopKey(folder: Folder, file: string | null): string {
    if (file === null) return '';
    const text = folder[file] ?? '';
    if (listed?.file !== file || listed.text !== text)
      listed = { file, text, names: filesOfShop(file, fieldsOf(text, file)) };
    return asOneText(folder, listed.names);
  }

  function readOpen(folder: Folder, file: string | null, useLearned = true): Open {
    const located = file === null ? null : readYaml(textOf(folder, file), file);
    const written = located === null ? null : checkShape(shopSchema, located);
    const read = written === null ? DEFAULT_SHOP : readShop(written, dottedPlaces(located!));
    let table = base;
    for (const name of written?.materials ?? []) {
      const own = beside(file!, name);
      table = overlay(table, textOf(folder, own), own);
    }
    const taught = written?.learned === undefined || !useLearned ? null : beside(file!, written.learned);
    const plain = { materials: table.materials, figures: shipped.model };
    // A file that is not there yet teaches nothing.
    const laid = taught === null || !Object.hasOwn(folder, taught) ? null : learnedOver(folder, taught, plain);
    const { materials, figures } = laid?.tables ?? plain;
    if (laid !== null) table = materialTable({ materials, sources: table.sources }, table.own);
    const list = written?.prices === undefined ? null : beside(file!, written.prices);
    const options = read.currency === null ? {} : { currency: read.currency };
    const prices = list === null ? null : readPrices(textOf(folder, list), list, table, options);
    const waste = laid?.waste ?? read.waste;
    return {
      table,
      prices,
      shelf: shelfOf({ shop: { ...read, waste }, table, figures, prices, learned: laid?.shelf ?? null }),
    };
  }

  function learnedOver(folder: Folder, file: string, tables: FigureTables) {
    const located = readYaml(textOf(folder, file), file);
    return overlayLearned(checkShape(learnedSchema, located), tables, file, dottedPlaces(located));
  }

  /** A brief's or a recipe's file, read against its shop or the one given. */
  function written(folder: Folder, file: string) {
    const located = readYaml(textOf(folder, file), file);
    const isRecipe = typeof located.data === 'object' && located.data !== null && 'amounts' in located.data;
    const at = dottedPlaces(located);
    return isRecipe
      ? { kind: 'recipe' as const, data: checkShape(recipeSchema, located), at }
      : { kind: 'brief' as const, data: checkShape(briefSchema, located), at };
  }

  function brief(folder: Folder, file: string, at?: Shelf) {
    const paper = written(folder, file);
    const shelf = at ?? shop(folder, shopOf(file, paper.data.shop)).shelf;
    if (paper.kind === 'recipe')
      return {
        kind: 'recipe' as const,
        recipe: readRecipe(paper.data, shelf, paper.at),
        shelf,
        invented: paper.data.invented === true,
      };
    return {
      kind: 'brief' as const,
      brief: readBrief(paper.data, shelf, paper.at),
      shelf,
      invented: paper.data.invented === true,
    };
  }

  /** The blend of a brief or a recipe; the last few are remembered, so that price and card need no second proposal. */
  function mixed(folder: Folder, file: string, pieces?: number): { mixed: Mixed; open: Open } {
    const paper = written(folder, file);
    const named = shopOf(file, paper.data.shop);
    const open = shop(folder, named);
    const key = [folder[file], shopKey(folder, named), pieces ?? ''].join('\u0001');
    let mix = mixes.get(key);
    if (mix === undefined) {
      const read = brief(folder, file, open.shelf);
      const options = pieces === undefined ? {} : { pieces };
      mix =
        read.kind === 'brief'
          ? mixedBrief(read.brief, read.shelf, read.invented, options)
          : mixedRecipe(read.recipe, read.shelf, read.invented, options);
      mixes.set(key, mix);
      if (mixes.size > MOST_MIXES) mixes.delete(mixes.keys().next().value!);
    }
    return { mixed: mix, open };
  }

  return { shop, written, brief, mixed, base };
}

const MOST_MIXES = 12;

/** A file's data; null where it is malformed, which is told when it is read in earnest. */
function fieldsOf(text: string, file: string): unknown {
  try {
    return readYaml(text, file).data;
  } catch (error) {
    if (error instanceof InputProblems) return null;
    throw error;
  }
}

/** The brief a proposal is asked of; a recipe has none. `lacks` says what it is that only a brief has. */
export function briefOnly(open: Opener, folder: Folder, file: string, lacks: string) {
  const read = open.brief(folder, file);
  if (read.kind === 'recipe') refuse({ code: 'other', where: { file }, hint: `only a brief has ${lacks}` });
  return read;
}

export const shopOf = (file: string, named: string | undefined): string | null =>
  named === undefined ? null : beside(file, named);

export type Opener = ReturnType<typeof opener>;
