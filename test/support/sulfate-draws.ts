import type { Draws } from '../../src/core/blend/sampling.js';
import { type World, worldOf } from '../../src/core/blend/world.js';
import type { Material } from '../../src/core/materials/schema.js';
import { sidesOf } from '../../src/core/optimise/back-off.js';
import { type Cleared, judged, type Search } from '../../src/core/optimise/keeping-clear.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import type { SystemAnswer } from '../../src/core/optimise/settle-systems.js';
import { handFigure as figure } from './hand-figure.js';
import { questionOf } from './hand-question.js';
import { normalBelow } from './normal.js';
import { material } from './shipped-table.js';
import { systemOf } from './small-shelf.js';

/**
 * Cements of which the cheap one holds more sulfate, and the twenty draws of what it holds: a blend's sulfate is a
 * weighted mean, so what being sure takes can be reckoned by hand. All alike but for sulfate and price.
 */
export interface HandCement {
  readonly id: string;
  readonly sulfate: number;
  readonly price: number;
  /** By how much each of the draws moves it, times a figure; 0: known for sure. */
  readonly unsure: number;
}

export const CHEAP: HandCement = { id: 'cheap', sulfate: 3, price: 0.001, unsure: 1 };
export const PURE: HandCement = { id: 'pure', sulfate: 2.4, price: 0.002, unsure: 0 };
export const LIMIT = 2.75;
/** Half a per cent either way, nine times in ten: a standard deviation of 0.5 / 1.645 (normal quantile). */
export const UNSURE = { ...CHEAP, unsure: 0.5 };
export const DEVIATION = 0.5 / 1.644854;
/** Share of the cheap cement in what is weighed. */
export const shareOf = (ingredients: readonly { readonly material: string; readonly pieceGrams: number }[]): number => {
  const grams = (id: string) => ingredients.find((i) => i.material === id)?.pieceGrams ?? 0;
  return grams('cheap') / (grams('cheap') + grams('pure'));
};
/** Chance that a share of the cheap cement keeps the limit: its margin 0.35 - 0.6 s against a spread of s times its own. */
export const chanceAt = (share: number): number => normalBelow((LIMIT - 2.4 - 0.6 * share) / (share * DEVIATION));

/** -0.95, -0.85, ... 0.95 */
export const MOVES: readonly number[] = Array.from({ length: 20 }, (_v, j) => (j - 9.5) / 10);

const cementOf = ({ id, sulfate, unsure }: HandCement): Material => ({
  ...material('portland-cement-grey'),
  id,
  so3: figure(sulfate, unsure),
});

export function sulfateQuestion(cements: readonly HandCement[], more: Partial<Question> = {}): Question {
  return {
    ...questionOf(['water'], { targets: [{ property: 'sulfate', max: LIMIT }] }),
    materials: [material('water'), ...cements.map(cementOf)],
    prices: new Map(cements.map((c) => [c.id, c.price])),
    ...more,
  };
}

/** The draws, by cement; other figures stay at their middle. */
function drawsOf(cements: readonly HandCement[], moves: readonly number[]): Draws {
  const unsure = new Map(cements.map((c) => [`${c.id}.so3`, c.unsure]));
  return {
    count: moves.length,
    reading: (j) => (key, f) => f.value + (unsure.get(key) ?? 0) * moves[j]!,
    column: (key) => (unsure.has(key) ? Float64Array.from(moves) : undefined),
    keys: () => cements.filter((c) => c.unsure > 0).map((c) => `${c.id}.so3`),
  };
}

export interface HandSearch {
  readonly search: Search;
  readonly world: World;
  /** The blend that only just keeps the limit. */
  readonly start: Cleared;
  readonly from: SystemAnswer;
  /** Share of a cement in the cement of a blend. */
  readonly share: (blend: { readonly answer: { readonly grams: readonly number[] } }, id: string) => number;
}

export function handSearch(
  cements: readonly HandCement[],
  more: Partial<Question> = {},
  moves: readonly number[] = MOVES,
): HandSearch {
  const question = sulfateQuestion(cements, more);
  const world = worldOf(question);
  const aim = AIMS[question.objective];
  const sides = sidesOf(question.targets);
  const search: Search = { question, world, aim, sides, draws: drawsOf(cements, moves) };
  const system = systemOf('portland');
  const from: SystemAnswer = { system, answer: settle(question, world, system, { aim })!, free: null, tried: 0 };
  const start = judged(
    search,
    from,
    new Set(),
    from.answer,
    question.targets,
    sides.map(() => 0),
  );
  const share: HandSearch['share'] = ({ answer }, id) => {
    const i = question.materials.findIndex((m) => m.id === id);
    return answer.grams[i]! / answer.grams.slice(1).reduce((s, g) => s + g, 0);
  };
  return { search, world, start, from, share };
}
