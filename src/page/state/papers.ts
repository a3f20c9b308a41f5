import { shopTemplate } from '../../core/index.js';
import type { Told } from '../worker/told.js';
import { bench, update } from './bench.js';
import { dataOf, fieldOf, withFields } from './edit.js';
import { freeName, saveAs, writeFile } from './files.js';
import { exampleFiles } from './shipped.js';

/** Which of the maker's files are which. */

export type PaperKind = 'brief' | 'recipe' | 'shop' | 'order' | 'medium' | 'list' | 'other';

export function kindOf(name: string, text: string): PaperKind {
  if (/\.csv$/i.test(name)) return 'list';
  const data = dataOf(text);
  if (data === null) return /shop/.test(name) ? 'shop' : 'brief';
  if ('items' in data) return 'order';
  if ('amounts' in data) return 'recipe';
  if ('sieves' in data) return 'other';
  if ('sample' in data || 'mix' in data || 'hardness' in data) return 'medium';
  if ('mould' in data && 'objective' in data) return 'brief';
  if (['scale', 'prices', 'currency', 'scoop', 'units', 'region'].some((word) => word in data)) return 'shop';
  return 'other';
}

/** The step a kind of file belongs to. */
const STEP_OF: Readonly<Partial<Record<PaperKind, string>>> = {
  brief: 'blend',
  recipe: 'assess',
  order: 'order',
  medium: 'stand-in',
};

export const titleOf = (name: string, text: string): string => {
  const title = dataOf(text)?.['title'];
  return typeof title === 'string' ? title : name;
};

const OWN_SHOP = 'shop.yaml';
const OWN_PRICES = 'prices.csv';

/** The example folder is copied beside the maker's own files once it is wanted. */
export function openExample(name: string): void {
  const files = exampleFiles();
  const folder = name.split('/')[0]!;
  for (const [file, text] of Object.entries(files)) {
    if (file.startsWith(`${folder}/`) && !Object.hasOwn(bench.folder, file)) writeFile(file, text);
  }
  openPaper(name);
}

/** Opens a file at the step it belongs to. */
export function openPaper(name: string): void {
  const kind = kindOf(name, bench.folder[name] ?? '');
  if (kind === 'brief') update({ brief: name, chosen: 'brief' });
  if (kind === 'recipe') update({ recipe: name, chosen: 'recipe' });
  if (kind === 'order') update({ order: name });
  if (kind === 'medium') update({ medium: name });
  location.hash = STEP_OF[kind] ?? 'shelf';
}

/** The maker's own shop, written when first needed. */
export function ensureOwnShop(): string {
  if (!Object.hasOwn(bench.folder, OWN_SHOP)) writeFile(OWN_SHOP, shopTemplate('metric'));
  return OWN_SHOP;
}

export function newBrief(): void {
  const shop = ensureOwnShop();
  const name = freeName('my-brief.yaml');
  writeFile(
    name,
    `title: My piece\nshop: ${shop}\nmould: { water: 250 mL }\nservice: dry-indoor\nobjective: strongest\nbatch: { pieces: 1 }\n`,
  );
  openPaper(name);
}

export function newRecipe(): void {
  const shop = ensureOwnShop();
  const name = freeName('my-recipe.yaml');
  writeFile(
    name,
    `title: My recipe\nshop: ${shop}\nmould: { water: 250 mL }\nservice: dry-indoor\namounts:\n  casting-plaster: 250 g\n  water: 150 g\n`,
  );
  openPaper(name);
}

/** Fields of a brief that say how a blend is looked for; a recipe has its blend. */
const SEARCH = ['objective', 'materials', 'limits', 'parts', 'doses', 'colour', 'batch'] as const;

/** A blend that was found for a brief becomes a recipe beside it, with the brief's own setting and targets. */
export function recipeOf(brief: string, { result }: Told): void {
  const text = bench.folder[brief] ?? '';
  const waste = fieldOf(dataOf(text), ['batch', 'waste']);
  const name = freeName(brief.replace(/(\.ya?ml)?$/i, '-sure.yaml'));
  writeFile(
    name,
    withFields(text, [
      ...SEARCH.map((field) => [[field], undefined] as const),
      [['title'], `${result.title}, surer`],
      ...(waste === undefined ? [] : [[['waste'], waste] as const]),
      ...result.blend.map((i) => [['amounts', i.material], `${Number(i.batchGrams.toPrecision(6))} g`] as const),
    ]),
  );
  openPaper(name);
}

/** A file from disk joins the others under its own name. */
export function takeIn(name: string, text: string): void {
  const kind = kindOf(name, text);
  const asked = kind === 'shop' ? OWN_SHOP : kind === 'list' && /price/i.test(name) ? OWN_PRICES : name;
  const before = bench.folder[asked];
  // What it takes the place of is handed out first, so that nothing is lost.
  if (before !== undefined && before !== text) saveAs(asked.replace(/(\.[^.]+)?$/, '-before$1'), before);
  writeFile(asked, text);
  openPaper(asked);
}
