import * as z from 'zod/mini';

/** The same schema with what it says about itself, which editors show beside the field. The one handed in is left as it is. */
export function told<S extends z.core.$ZodType>(schema: S, description: string): S {
  const own = z.clone(schema);
  z.globalRegistry.add(own, { description });
  return own;
}

/** What else the words of a schema go by. */
export interface Names {
  /** Each other name with the word it stands for. */
  readonly names: ReadonlyMap<string, string>;
  /** Where the words are listed, as a sentence, for a list too long for a message. */
  readonly listed?: string;
}

/** Apart from the descriptions, which are written into the schema files. */
export const namesOf = new WeakMap<z.core.$ZodType, Names>();

/** The same schema with other names for its words, by which near misses find them. */
export function alsoNamed<S extends z.core.$ZodType>(schema: S, names: Names): S {
  const own = z.clone(schema);
  namesOf.set(own, names);
  return own;
}

/** Another file that a schema's file names, and whose fields are easily written into it. */
export interface Companion {
  /** With its article: "the shop file". */
  readonly name: string;
  /** The field that names it. */
  readonly field: string;
  readonly schema: z.core.$ZodType;
}

export const companionOf = new WeakMap<z.core.$ZodType, Companion>();

/** The schema of a whole file, which goes with another. */
export function besideFile<S extends z.core.$ZodType>(schema: S, companion: Companion): S {
  companionOf.set(schema, companion);
  return schema;
}
