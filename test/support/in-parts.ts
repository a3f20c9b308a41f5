import { expect } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { inWholeParts, type PartsBlend } from '../../src/core/optimise/parts.js';
import type { PartsAsked, Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { questionOf } from './hand-question.js';
import { systemOf } from './small-shelf.js';

export const MORTAR = ['water', 'portland-cement-grey', 'masonry-sand'] as const;
/** Sand makes it heavier and is dearer here than cement, so it is used just as far as the weight asks for. */
export const heavy = (most: number, more: Partial<Question> = {}, ids: readonly string[] = MORTAR): Question =>
  questionOf(ids, { targets: [{ property: 'fresh-weight', min: most }], ...more });

/** The blend of a question without parts, and in parts. */
export function inParts(question: Question, asked: PartsAsked, system = 'portland') {
  const world = worldOf(question);
  const aim = AIMS[question.objective];
  const exact = settle(question, world, systemOf(system), { aim })!;
  return { exact, world, blend: inWholeParts(question, world, systemOf(system), exact, aim, asked) };
}

/** Each stuff holds its number of parts of the same size; `loose`: what one unit of a part weighs, by material. */
export const holdsParts = ({ parts }: PartsBlend, grams: readonly number[], loose: readonly number[]): void => {
  const sizes = parts.map((p) => grams[p.material]! / loose[p.material]! / p.parts);
  for (const size of sizes) expect(size / sizes[0]! - 1).toBeCloseTo(0, 6);
};
