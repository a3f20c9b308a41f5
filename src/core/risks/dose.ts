import type { Figure } from '../materials/figure.js';
import type { Material } from '../materials/schema.js';
import type { DoseBasis } from '../materials/words.js';
import { DOSE_FIGURES } from '../optimise/standing-limits.js';
import { overRetarded } from './chemistry.js';
import { percent, percentAbove, type Risk, type RiskCase, type RiskLevel, type Screens } from './risk.js';

/** What a dose is a percent of, as a maker calls it. */
export const BASE_WORDS: Readonly<Record<DoseBasis, string>> = {
  binder: 'the binder',
  cement: 'the cement',
  gypsum: 'the plaster',
  portland: 'the portland cement',
  csa: 'the CSA cement',
  aluminate: 'the aluminate cement',
  lime: 'the lime',
  'dry-blend': 'all that is dry',
};

type Effect = NonNullable<Material['effects']>[number];

/** What an effect of the table does that a maker may have too much of; less water is what the dose is for. */
function harmOf({ on, per }: Effect): string | null {
  if (on === 'set') return per.value > 0 ? 'holds back the set' : 'hurries the set';
  if (on === 'air') return per.value > 0 ? 'traps air' : null;
  if (on === 'strength') return per.value < 0 ? 'costs strength' : null;
  return per.value > 0 ? 'takes more water' : null;
}

/** What the table says it does in the binders of this blend. */
function harms(mix: RiskCase, material: Material): string {
  const here = (material.effects ?? []).filter((e) => e.in === undefined || mix.state.amounts.families[e.in] > 0);
  const words = [...new Set(here.map(harmOf).filter((w) => w !== null))];
  if (words.length === 0) return '';
  const last = words.pop()!;
  return ` It ${words.length === 0 ? last : `${words.join(', ')} and ${last}`}.`;
}

/** Remarks of the table beside a dose; a bare pair of numbers says nothing to a maker. */
function remarks(figures: readonly (Figure | undefined)[]): string {
  const worded = figures.flatMap((figure) => {
    if (figure?.note === undefined || !/[a-z]{2}/.test(figure.note)) return [];
    return [figure.where === undefined ? figure.note : `${figure.note} (${figure.where})`];
  });
  return worded.length === 0 ? '' : ` The table remarks: ${worded.join('; ')}.`;
}

const riskOf = (id: string, level: RiskLevel, text: string, source: string): Risk => ({
  id,
  level,
  text: text.charAt(0).toUpperCase() + text.slice(1),
  models: ['set-dose'],
  source,
});

/** Above any rounding of the weighed grams, below any step of a scale. */
const HAIR = 1e-6;

/**
 * Percent of a material's solids, which the optimiser's rows count too, so that what it proposes is never warned of. 0
 * without what it is a percent of: there is no telling then how much is too much, and `groundless` says so.
 */
function doseIn({ parts, world, state }: RiskCase, column: number, of: DoseBasis): number {
  const base = state.amounts.base[of];
  return base <= 0 ? 0 : (100 * parts[column]!.grams * world.materials[column]!.solids) / base;
}

function doseRisk(mix: RiskCase, column: number): Risk | null {
  const { material } = mix.parts[column]!;
  const { dose, name } = material;
  if (dose === undefined) return null;
  const value = doseIn(mix, column, dose.of);
  const above = (limit: Figure | undefined, give: number): boolean =>
    limit !== undefined && value > limit.value * (1 + give);
  const tooMuch = above(dose.most, HAIR);
  if (!tooMuch && !above(dose.warn, DOSE_FIGURES)) return null;
  // Pigments share one ceiling, and citric acid on plaster has a screen of its own: neither is told twice.
  if (tooMuch && material.kind === 'pigment') return null;
  if (material.id === 'citric-acid' && overRetarded(mix) !== null) return null;
  const passed = tooMuch ? dose.most.value : dose.warn!.value;
  const dosed = `${name}${mix.world.materials[column]!.solids < 1 ? ', by its solids,' : ''} is at ${percentAbove(value, passed)} of ${BASE_WORDS[dose.of]}`;
  const limit = tooMuch
    ? `the most the table allows is ${percent(dose.most.value)}`
    : `the table warns above ${percent(dose.warn!.value)}, and the most is ${percent(dose.most.value)}`;
  const text = `${dosed}; ${limit}.${harms(mix, material)}${remarks([dose.usual, dose.warn, dose.most])}`;
  return riskOf('dose', tooMuch ? 'high' : 'some', text, 'the dose window of the table');
}

/** Materials in which the same works, each within its own window, that are too much together. */
function jointRisk(mix: RiskCase, active: string): Risk | null {
  const columns = mix.parts.flatMap(({ material, grams }, k) => (material.active === active && grams > 0 ? [k] : []));
  const filled = (step: 'warn' | 'most'): number =>
    columns.reduce((total, k) => {
      const { dose } = mix.parts[k]!.material;
      const limit = dose?.[step];
      return limit === undefined ? total : total + doseIn(mix, k, dose!.of) / limit.value;
    }, 0);
  const tooMuch = filled('most') > 1 + HAIR;
  if (columns.length < 2 || !(tooMuch || filled('warn') > 1 + DOSE_FIGURES)) return null;
  const names = columns.map((k) => mix.parts[k]!.material.name).join(' and ');
  const share = percent(100 * filled(tooMuch ? 'most' : 'warn'), 3);
  const limit = tooMuch ? 'the most the table allows of one' : 'what the table warns above';
  const text = `${names} work by the same (${active}), and together they make up ${share} of ${limit}.`;
  return riskOf('dose', tooMuch ? 'high' : 'some', text, 'the dose windows of the table');
}

/**
 * Each material dosed above what the table warns of, or above the most it allows; and those that are so only together
 * with what works by the same.
 */
export const overdosed: Screens = (mix) => {
  const alone = mix.parts.map((_part, column) => doseRisk(mix, column));
  const actives = new Set(mix.parts.flatMap(({ material }) => material.active ?? []));
  const told = (active: string): boolean => mix.parts.some((p, k) => p.material.active === active && alone[k] !== null);
  const joint = [...actives].filter((active) => !told(active)).map((active) => jointRisk(mix, active));
  return [...alone, ...joint].filter((risk) => risk !== null);
};

/** Whether the model counts anything of what a material does in this blend. */
const counts = ({ state: { amounts } }: RiskCase, effects: readonly Effect[]): boolean =>
  effects.some((e) => amounts.base[e.of] > 0 && (e.in === undefined || amounts.families[e.in] > 0));

function groundlessRisk(mix: RiskCase, { name, dose, effects = [] }: Material): Risk | null {
  const adrift = dose !== undefined && mix.state.amounts.base[dose.of] <= 0;
  const idle = effects.length > 0 && !counts(mix, effects);
  if (!adrift && !idle) return null;
  const text = adrift
    ? `${name} is dosed as a share of ${BASE_WORDS[dose.of]}, and this blend has none of that: how much of it is right here cannot be told${idle ? ', and nothing is counted of what it does' : ''}.`
    : `Of ${name} nothing is counted: the table knows of nothing that it does to the binders of this blend.`;
  return riskOf('dose-of-nothing', adrift ? 'some' : 'low', text, 'the dose window and the effects of the table');
}

/**
 * Each material whose dose counts from something that is not in the blend, or of which nothing counts here. Where nothing sets
 * at all, that is the thing to say (brief/recipe-warnings.ts).
 */
export const groundless: Screens = (mix) =>
  mix.state.amounts.binder <= 0
    ? []
    : mix.parts.map(({ material }) => groundlessRisk(mix, material)).filter((risk) => risk !== null);
