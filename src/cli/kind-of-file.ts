import type * as z from 'zod/mini';
import { InputProblems, refuse } from '../core/problems/problem.js';
import type { Located } from '../core/reading/located.js';
import { checkShape } from '../core/reading/shape.js';

interface FileKind {
  readonly schema: z.ZodMiniType;
  readonly name: string;
  /** Fields that only this kind of file has. */
  readonly signs: readonly string[];
  readonly verb: string;
}

/** Asked for only when a file does not fit: their schemas take time to set up. */
async function kinds(): Promise<readonly FileKind[]> {
  const [{ briefSchema, recipeSchema, shopSchema }, { mediumSchema }, { orderSchema }] = await Promise.all([
    import('../core/brief/schema.js'),
    import('../core/brief/medium-schema.js'),
    import('../core/shop/order-file.js'),
  ]);
  return [
    { schema: recipeSchema, name: 'a recipe', signs: ['amounts'], verb: 'assess' },
    { schema: orderSchema, name: 'an order', signs: ['items', 'due'], verb: 'order' },
    { schema: mediumSchema, name: 'a medium', signs: ['sample', 'mix', 'hardness'], verb: 'stand-in' },
    { schema: briefSchema, name: 'a brief', signs: ['objective', 'doses'], verb: 'propose' },
    { schema: shopSchema, name: 'a shop file', signs: ['currency', 'scale', 'prices', 'labour'], verb: 'shop check' },
  ];
}

/** `checkShape`, which says so where a file of another kind was handed in. */
export async function checkKind<S extends z.ZodMiniType>(schema: S, located: Located): Promise<z.output<S>> {
  try {
    return checkShape(schema, located);
  } catch (error) {
    const { data } = located;
    if (!(error instanceof InputProblems) || typeof data !== 'object' || data === null) throw error;
    const all = await kinds();
    const asked = all.find((k) => k.schema === schema);
    if (asked === undefined) throw error;
    const signOf = (kind: FileKind): string | undefined => kind.signs.find((sign) => Object.hasOwn(data, sign));
    const other = all.find((k) => k !== asked && signOf(k) !== undefined);
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
