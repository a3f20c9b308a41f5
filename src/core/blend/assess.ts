import { refuse } from '../problems/problem.js';
import { type Contributor, contributorsIn } from './contributors.js';
import { drawnValues, leanBlend } from './drawn.js';
import { PROPERTIES, propertiesWith, propertyById } from './properties/index.js';
import { type Property, propertyValue } from './property.js';
import { latinHypercube, likelyRange } from './sampling.js';
import { type BlendState, stateOf } from './state/state.js';
import { holdsWithout, type Target, type Verdict, verdictOf } from './target.js';
import { type Grams, type World, type WorldInput, worldOf } from './world.js';

export interface Assessed {
  readonly property: string;
  /** null when the blend has no such property; `why` says why. */
  readonly value: number | null;
  /** 5th and 95th percentile of the likely range. */
  readonly low: number | null;
  readonly high: number | null;
  readonly why: string | null;
  /** The figures its likely range comes from, largest first, at most three. */
  readonly contributors: readonly Contributor[];
}

export interface Assessment {
  readonly properties: readonly Assessed[];
  readonly verdicts: readonly Verdict[];
  /** All targets met by the central prediction. */
  readonly met: boolean;
  /** Share of draws in which all targets hold at once; null without targets or draws. */
  readonly jointChance: number | null;
}

export interface AssessOptions {
  /** How many draws the ranges and chances rest on; 0 for none. */
  readonly draws?: number;
  readonly seed?: number;
  /** Materials that are measured out by loose volume: see drawnValues. */
  readonly scooped?: ReadonlySet<string>;
}

/**
 * Draws behind the ranges when nothing else is asked: an end of a range then errs by 3.3 % of its width and a chance by
 * 1.8 % on average (three blends, 60 seeds beside 20,000 draws; half as many draws more: 2.7 and 1.6 %).
 */
const DRAWS = 64;

/** The state and the value of one property for these grams: the forward model at its smallest. */
export function evaluate(world: World, grams: Grams): { state: BlendState; value(p: Property): number | null } {
  const state = stateOf(world, grams);
  return { state, value: (p) => propertyValue(p, world, state).value };
}

/**
 * The forward model: a blend's properties with their likely ranges, and a verdict for each target.
 * It knows nothing of the optimiser.
 *
 * @throws InputProblems `property-unknown` for a target on a property that does not exist.
 */
export function assess(
  input: WorldInput,
  grams: Grams,
  targets: readonly Target[] = [],
  options: AssessOptions = {},
): Assessment {
  const count = options.draws ?? DRAWS;
  const lean = leanBlend(input, grams);
  const world = worldOf(lean.input);
  const state = stateOf(world, lean.grams);
  const wanted = targets.map((target) => {
    const property = requireProperty(target);
    return { target, property, without: holdsWithout(property, target, world, state) };
  });
  const asked = propertiesWith(
    targets.map((t) => t.property),
    input.conditions.weighDays ?? [],
  );
  const centre = new Map(asked.map((p) => [p.id, propertyValue(p, world, state)]));

  const draws = latinHypercube(count, options.seed ?? 1, input.together);
  const drawn = drawnValues(lean, asked, draws, options.scooped);
  const samples = new Map(asked.map((p, i) => [p.id, drawn[i]!]));
  const holdsIn = (j: number): boolean =>
    wanted.every((w) => verdictOf(w.target, samples.get(w.property.id)![j]!, null, w.without).met);
  const joint = Array.from({ length: count }, (_v, j) => holdsIn(j)).filter(Boolean).length;

  let spread: ReturnType<typeof contributorsIn> | undefined;
  const spreadFrom = (sample: readonly (number | null)[]): Contributor[] => {
    spread ??= contributorsIn(draws);
    return spread(sample);
  };
  const properties = asked.map((p): Assessed => {
    const { value, why } = centre.get(p.id)!;
    const all = samples.get(p.id)!;
    const sample = all.filter((v): v is number => v !== null);
    const range = value !== null && sample.length > 0 ? likelyRange(sample) : null;
    let found: readonly Contributor[] | undefined;
    return {
      property: p.id,
      value,
      low: range?.low ?? null,
      high: range?.high ?? null,
      why: why ?? null,
      // Few ask for them, and they take as long as a tenth of the draws.
      get contributors() {
        found ??= range === null ? [] : spreadFrom(all);
        return found;
      },
    };
  });
  const verdicts = wanted.map(({ target, property, without }) =>
    verdictOf(target, centre.get(property.id)!.value, count > 0 ? samples.get(property.id)! : null, without),
  );
  return {
    properties,
    verdicts,
    met: verdicts.every((v) => v.met),
    jointChance: wanted.length > 0 && count > 0 ? joint / count : null,
  };
}

/** @throws InputProblems `property-unknown`. */
export function requireProperty(target: Target): Property {
  const property = propertyById(target.property);
  if (property === undefined) {
    refuse({
      code: 'property-unknown',
      ...(target.path === undefined ? {} : { where: { path: target.path } }),
      found: target.property,
      expected: PROPERTIES.map((p) => p.id).join(', '),
    });
  }
  return property;
}
