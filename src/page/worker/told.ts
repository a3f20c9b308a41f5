import {
  type AssessmentResult,
  type Brief,
  type CardLayer,
  cost,
  evaluate,
  layersOf,
  type Mixed,
  type Proposal,
  type ProposalResult,
  type UnitSystem,
  weightAfter,
  worldOf,
} from '../../core/index.js';

/** A blend and all that the page draws of it. */
export interface Told {
  readonly file: string;
  /** As the command line prints it as JSON; its words in the shop's units: `shownOf`. */
  readonly result: ProposalResult | AssessmentResult;
  /** By volume, bottom first. */
  readonly layers: readonly CardLayer[];
  /** Weight of one piece over its first four weeks. */
  readonly curve: readonly { readonly days: number; readonly grams: number }[];
  /** Cost of each material in one piece, in the shop's currency; null: no price. */
  readonly costs: Readonly<Record<string, number | null>>;
  /** Units the shop prints in. */
  readonly system: UnitSystem;
  /** True while a better answer is still being worked out: not rounded to the scale, no chances yet. */
  readonly draft: boolean;
}

const CURVE_DAYS = 28;
const CURVE_POINTS = 57;

export function toldOf(
  file: string,
  mixed: Pick<Mixed, 'parts' | 'input' | 'result'>,
  system: UnitSystem,
  draft: boolean,
): Told {
  const world = worldOf(mixed.input);
  const grams = mixed.parts.map((p) => p.pieceGrams);
  const { state } = evaluate(world, grams);
  const form = cost.form(world, state);
  return {
    file,
    result: mixed.result,
    layers: layersOf(world, grams, state.air),
    // Closer together at first, where most of the water leaves.
    curve: Array.from({ length: CURVE_POINTS }, (_v, i) => {
      const days = CURVE_DAYS * (i / (CURVE_POINTS - 1)) ** 2;
      return { days, grams: weightAfter(world, state, 24 * days) };
    }),
    costs: Object.fromEntries(
      mixed.parts.map((p, i) => [p.material.id, world.prices[i] === null ? null : form.numerator[i]! * grams[i]!]),
    ),
    system,
    draft,
  };
}

/** A proposal of a brief's question, told. */
export function toldOfProposal(
  file: string,
  question: Brief['question'],
  proposal: Proposal,
  result: ProposalResult,
  system: UnitSystem,
  draft: boolean,
): Told {
  const find = new Map(question.materials.map((m) => [m.id, m]));
  const parts = proposal.ingredients.map((i) => ({ ...i, material: find.get(i.material)! }));
  const input = { ...question, materials: parts.map((p) => p.material) };
  return toldOf(file, { parts, input, result }, system, draft);
}
