import type { z } from 'zod';
import { mediumSchema } from '../core/brief/medium-schema.js';
import { briefSchema, recipeSchema, shopSchema } from '../core/brief/schema.js';
import { InputProblems, refuse } from '../core/problems/problem.js';
import type { Located } from '../core/reading/located.js';
import { checkShape } from '../core/reading/shape.js';
import { orderSchema } from '../core/shop/order-file.js';

interface FileKind {
  readonly schema: z.ZodType;
  readonly name: string;
  /** Fields that only this kind of file has. */
  readonly signs: readonly string[];
  readonly verb: string;
}

const KINDS: readonly FileKind[] = [
  { schema: recipeSchema, name: 'a recipe', signs: ['amounts'], verb: 'assess' },
  { schema: orderSchema, name: 'an order', signs: ['items', 'due'], verb: 'order' },
  { schema: mediumSchema, name: 'a medium', signs: ['sample', 'mix', 'hardness'], verb: 'stand-in' },
  { schema: briefSchema, name: 'a brief', signs: ['objective', 'doses'], verb: 'propose' },
  { schema: shopSchema, name: 'a shop file', signs: ['currency', 'scale', 'prices', 'labour'], verb: 'shop check' },
];

/** `checkShape`, which says so where a file of another kind was handed in. */
export function checkKind<S extends z.ZodType>(schema: S, located: Located): z.output<S> {
  try {
    return checkShape(schema, located);
  } catch (error) {
    const { data } = located;
    const asked = KINDS.find((k) => k.schema === schema);
    if (!(error instanceof InputProblems) || asked === undefined || typeof data !== 'object' || data === null)
      throw error;
    const signOf = (kind: FileKind): string | undefined => kind.signs.find((sign) => Object.hasOwn(data, sign));
    const other = KINDS.find((k) => k !== asked && signOf(k) !== undefined);
    if (other === undefined || signOf(asked) !== undefined) throw error;
    refuse({
      code: 'file-unreadable',
      where: { file: located.file },
      found: other.name,
      expected: asked.name,
      hint: `It has “${signOf(other)}”: try pourwright ${other.verb}`,
    });
  }
}
