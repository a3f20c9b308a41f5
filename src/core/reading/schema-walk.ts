import * as z from 'zod/mini';
import { tidied } from '../problems/nearest.js';
import type { Path } from './located.js';
import { type Names, namesOf } from './told.js';

/** What zod keeps about a schema, as far as this file looks. */
interface Definition {
  readonly type: string;
  readonly shape?: Record<string, Schema>;
  readonly element?: Schema;
  readonly valueType?: Schema;
  readonly keyType?: Schema;
  readonly innerType?: Schema;
  readonly in?: Schema;
  readonly out?: Schema;
  readonly getter?: () => Schema;
  readonly options?: readonly Schema[];
  readonly left?: Schema;
  readonly right?: Schema;
  readonly items?: readonly Schema[];
  readonly rest?: Schema | null;
  readonly checks?: readonly z.core.$ZodCheck[];
  readonly entries?: Record<string, string | number>;
  readonly values?: readonly unknown[];
}

type Schema = z.core.$ZodType;

const definitionOf = (schema: Schema): Definition => schema._zod.def as unknown as Definition;

/** The schema without its wrappers (optional, default, readonly, pipe); a union becomes its branches. */
function branches(schema: Schema | undefined | null): readonly Schema[] {
  if (!schema) return [];
  const def = definitionOf(schema);
  if (def.getter) return branches(def.getter());
  if (def.options) return def.options.flatMap(branches);
  if (def.left && def.right) return [...branches(def.left), ...branches(def.right)];
  // What is read is the entry side of a pipe; for a preprocess step that side is opaque, so look behind it.
  if (def.in && def.out) return definitionOf(def.in).type === 'transform' ? branches(def.out) : branches(def.in);
  if (def.innerType) return branches(def.innerType);
  return [schema];
}

/** Every schema that may stand at a path. */
function schemasAt(schema: Schema, path: Path): readonly Schema[] {
  let here = branches(schema);
  for (const step of path) {
    here = here.flatMap((candidate) => {
      const def = definitionOf(candidate);
      if (typeof step === 'number') return branches(def.items?.[step] ?? def.element ?? def.rest);
      if (def.shape) return Object.hasOwn(def.shape, step) ? branches(def.shape[step]) : [];
      return branches(def.valueType);
    });
  }
  return here;
}

const unique = (words: readonly string[]): readonly string[] => [...new Set(words)];

/** Names of the fields that may stand at a path, beside what is there already: a cylinder has no length. */
export const fieldsAt = (schema: Schema, path: Path, there?: unknown): readonly string[] =>
  unique(
    schemasAt(schema, path).flatMap((candidate) => {
      if (contradicts(candidate, there)) return [];
      const { shape, keyType } = definitionOf(candidate);
      return shape ? Object.keys(shape) : branches(keyType).flatMap(wordsOf);
    }),
  );

/** Whether a field of a value has another fixed word than the schema's one: a box is no cylinder. */
function contradicts(schema: Schema, value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return Object.entries(definitionOf(schema).shape ?? {}).some(([name, field]) => {
    const has = (value as Readonly<Record<string, unknown>>)[name];
    const { type, values = [] } = definitionOf(field);
    return type === 'literal' && has !== undefined && !values.includes(has);
  });
}

/** Fields that must stand at a path; empty where none must. */
export const neededAt = (schema: Schema, path: Path): readonly string[] =>
  unique(
    schemasAt(schema, path).flatMap((candidate) =>
      Object.entries(definitionOf(candidate).shape ?? {}).flatMap(([name, field]) =>
        definitionOf(field).type === 'optional' ? [] : [name],
      ),
    ),
  );

/** Other names that makers give the fields at a path, each with its field; and where all are listed, if the list is long. */
export const namesAt = (schema: Schema, path: Path): Names =>
  schemasAt(schema, path)
    .flatMap((candidate) => [candidate, ...branches(definitionOf(candidate).keyType)])
    .map((names) => namesOf.get(names))
    .find((names) => names !== undefined) ?? { names: new Map() };

/** Forms that a field's name at a path may have besides the fixed ones, each with what the schema says of it. */
export const fieldFormsAt = (schema: Schema, path: Path): readonly { pattern: RegExp; description: string }[] =>
  schemasAt(schema, path)
    .flatMap((candidate) => branches(definitionOf(candidate).keyType))
    .flatMap((key) => {
      const description = z.globalRegistry.get(key)?.description;
      if (description === undefined) return [];
      return (definitionOf(key).checks ?? []).flatMap(({ _zod: { def } }) =>
        'pattern' in def && def.pattern instanceof RegExp ? [{ pattern: def.pattern, description }] : [],
      );
    });

/** Fixed words that may stand at a path (enums and literals). */
export const wordsAt = (schema: Schema, path: Path): readonly string[] =>
  unique(schemasAt(schema, path).flatMap(wordsOf));

function wordsOf(schema: Schema): readonly string[] {
  const { entries, values } = definitionOf(schema);
  return [...Object.values(entries ?? {}), ...(values ?? [])].filter((v) => v !== null && v !== undefined).map(String);
}

const SORTS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'named fields',
  record: 'named fields',
  null: 'null',
};

/** Plain words for the sort of value a type name stands for. */
export const sortOf = (type: string): string => SORTS[type] ?? `a ${type}`;

/** Sorts of value that may stand at a path, for a union none of whose branches came near. */
export const sortsAt = (schema: Schema, path: Path): readonly string[] =>
  unique(
    schemasAt(schema, path)
      .map((candidate) => definitionOf(candidate).type)
      .filter((type) => type !== 'enum' && type !== 'literal')
      .map(sortOf),
  );

/** The words the schema itself says about a field, if it has any. */
export const descriptionAt = (schema: Schema, path: Path): string | undefined =>
  schemasAt(schema, path)
    .map((candidate) => z.globalRegistry.get(candidate)?.description)
    .find((text) => text !== undefined);

/** A field whose name, or whose value, a word may be. */
export interface Place {
  /** The field that holds the named field, or that takes the word: names with dots between; empty for the file itself. */
  readonly path: string;
  readonly as: 'field' | 'word';
}

/** All places of a word in a schema, apart from the fields of fields that may have any name. Spelling counts, case does not. */
export function placesOf(schema: Schema, word: string): readonly Place[] {
  const sought = tidied(word);
  const isIt = (name: string): boolean => tidied(name) === sought;
  const places = new Map<string, Place>();
  const seen = new Set<Schema>();
  const visit = (at: Schema, path: readonly string[]): void => {
    const add = (as: Place['as']): void => {
      places.set(`${as} ${path.join('.')}`, { path: path.join('.'), as });
    };
    for (const here of branches(at)) {
      const { shape, keyType, element } = definitionOf(here);
      if (wordsOf(here).some(isIt)) add('word');
      if (Object.keys(shape ?? {}).some(isIt) || branches(keyType).flatMap(wordsOf).some(isIt)) add('field');
      // One schema may stand in several places; only within itself it would never end.
      if (seen.has(here)) continue;
      seen.add(here);
      for (const [name, field] of Object.entries(shape ?? {})) visit(field, [...path, name]);
      if (element) visit(element, path);
      seen.delete(here);
    }
  };
  visit(schema, []);
  return [...places.values()];
}
