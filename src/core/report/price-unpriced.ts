import type { Problem } from '../problems/problem.js';
import type { Pack } from '../shop/price-packs.js';
import type { Mixed } from './mixed.js';
import type { PriceResult } from './price-schema.js';
import { problemResult } from './problem-result.js';

/** What a blend has that the list does not price, each with the way out; `file` is where the blend came from. */
export function unpricedIn(
  { parts, result }: Mixed,
  packs: ReadonlyMap<string, readonly Pack[]>,
  file: string | undefined,
): Problem[] {
  const proposed = result.format === 'pourwright.proposal/1';
  return parts
    .filter(({ material }) => material.kind !== 'water' && !packs.has(material.id))
    .map(({ material }) => ({
      code: 'price-missing',
      severity: 'error',
      ...(file === undefined ? {} : { where: { file } }),
      found: material.id,
      expected: packs.size === 0 ? 'a price list (in the shop file, or --prices)' : 'a row for it in the price list',
      ...(proposed ? { hint: `or bar it in the brief: “materials: { never: [${material.id}] }”` } : {}),
    }));
}

/** The blends that are left out, with what is lacking. */
export const unpricedResult = (
  mixes: readonly Mixed[],
  lacking: readonly (readonly Problem[])[],
): NonNullable<PriceResult['unpriced']> =>
  mixes.flatMap(({ title }, i) =>
    lacking[i]!.length === 0 ? [] : [{ title, index: i, warnings: lacking[i]!.map(problemResult) }],
  );
