import { readBrief } from '../../core/brief/read-brief.js';
import { readRecipe } from '../../core/brief/read-recipe.js';
import type { Shelf } from '../../core/brief/shelf.js';
import { InputProblems, type Problem, refuse, type Where } from '../../core/problems/problem.js';
import { knownPour, type PourSource } from '../../core/shop/pours-known.js';
import type { KnownPour } from '../../core/shop/pours-measured.js';
import { type Pour, type PourRecord, readPours } from '../../core/shop/pours-record.js';
import { isThere } from '../files.js';
import { readAs } from '../kind-of-file.js';
import { beside, type OpenShop, openShop } from '../load.js';
import { type NamedIn, readNamed } from '../named-file.js';
import type { Call } from '../verb.js';
import { readEither } from './mixed.js';

const USUAL_SHOP = 'shop.yaml';

/** The shop of a record of pours: the one named, else shop.yaml where the command is run, else none. */
export async function openPourShop(
  call: Call,
  useLearned: boolean,
): Promise<{ open: OpenShop; shopFile: string | null }> {
  const { shop, materials } = call.options as { shop?: string; materials?: string[] };
  const shopFile = shop ?? (isThere(USUAL_SHOP) ? USUAL_SHOP : null);
  return { open: await openShop({ shop: shopFile, materials, useLearned }, call.io), shopFile };
}

/** The record's file: the option, else the one the shop names, and then where. */
export function recordFile(call: Call, open: OpenShop): { readonly file: string; readonly namedIn: NamedIn } {
  const named = call.options.file as string | undefined;
  if (named !== undefined) return { file: named, namedIn: undefined };
  if (open.pours !== null) return { file: open.pours, namedIn: open.at?.('pours') };
  return refuse({
    code: 'field-missing',
    where: { path: '--file' },
    expected: 'the record of pours (CSV): name it with --file, or in the shop file as pours: pours.csv',
  });
}

export async function openRecord(call: Call, file: string, namedIn: NamedIn): Promise<PourRecord> {
  const read = await readNamed(file, call.io, namedIn);
  return readAs(['pours'], read, () => readPours(read.text, read.file));
}

/** Reads the files that pours name, each once. */
export function sourceReader(
  call: Call,
  record: string,
  shelf: Shelf,
): (brief: string, namedIn: Where) => Promise<PourSource> {
  const known = new Map<string, Promise<PourSource>>();
  const read = async (file: string, namedIn: Where): Promise<PourSource> => {
    const { kind, data, at } = await readEither(call, file, namedIn);
    if (kind === 'brief') return { conditions: readBrief(data, shelf, at).setting.conditions, parts: null };
    const recipe = readRecipe(data, shelf, at);
    return { conditions: recipe.setting.conditions, parts: recipe.parts };
  };
  return (brief, namedIn) => {
    const file = beside(record, brief);
    const source = known.get(file) ?? read(file, namedIn);
    known.set(file, source);
    return source;
  };
}

/** A pour joined to its blend and mould, or why it cannot be. */
export async function joined(
  pour: Pour,
  sourceOf: (brief: string, namedIn: Where) => Promise<PourSource>,
  shelf: Shelf,
): Promise<{ readonly known: KnownPour } | { readonly problems: readonly Problem[] }> {
  try {
    const source = pour.brief === null ? null : await sourceOf(pour.brief, { ...pour.where, path: 'brief' });
    return { known: knownPour(pour, source, shelf) };
  } catch (error) {
    if (!(error instanceof InputProblems)) throw error;
    return { problems: error.problems };
  }
}
