import { type Assessment, assess } from '../blend/assess.js';
import { type FigureTables, titleOfKey } from '../blend/figure-keys.js';
import { isBinder } from '../blend/numbers.js';
import { propertyById } from '../blend/properties/index.js';
import type { Target, Verdict } from '../blend/target.js';
import type { WorldInput } from '../blend/world.js';
import type { Part } from '../brief/read-amounts.js';
import type { Brief } from '../brief/read-brief.js';
import type { Recipe } from '../brief/read-recipe.js';
import type { Setting } from '../brief/read-setting.js';
import { recipeBlend } from '../brief/recipe-blend.js';
import { cementWaterByVolume } from '../brief/recipe-warnings.js';
import type { Shelf } from '../brief/shelf.js';
import { worldInput } from '../brief/world-input.js';
import type { Material } from '../materials/schema.js';
import { stepFor } from '../optimise/knobs.js';
import type { Proposal } from '../optimise/propose.js';
import type { Batch } from '../optimise/question.js';
import { riskProblems } from '../risks/problems.js';
import type { Risk } from '../risks/risk.js';
import { risksOf } from '../risks/risks.js';
import { cautionsFor } from '../safety/cautions.js';
import { blendFacts } from '../safety/facts.js';
import { sulfateOutcome } from '../safety/sulfate-outcome.js';
import { scooped } from '../shop/card-scoops.js';
import { inBoth } from '../units/marked.js';
import { choiceResults } from './choices-result.js';
import { dosesAsSolids, lostDoses, roundedDoses } from './lost-doses.js';
import { namedInVain } from './named-in-vain.js';
import { ownFigures } from './own-figures.js';
import { plainWarnings } from './plain-warnings.js';
import { problemResult } from './problem-result.js';
import type { AssessmentResult, IngredientResult, ProposalResult, RiskResult, VerdictResult } from './result-schema.js';
import { toldCollision, toldNumber, toldSystem, toldVerdict, toldWhy } from './told-figures.js';
import { unfilledMould } from './unfilled-mould.js';
import { unlistedNote } from './unlisted.js';

export interface Weighed {
  readonly material: Material;
  readonly pieceGrams: number;
  readonly batchGrams: number;
}

const partsOf = (weighed: readonly Weighed[]): Part[] =>
  weighed.map(({ material, batchGrams }) => ({ material, grams: batchGrams }));

/** `scale`: the one that the amounts were rounded for; null: they are told as they are written. */
function ingredients(weighed: readonly Weighed[], scoop: number, scale: Batch | null): IngredientResult[] {
  const solid = (w: Weighed) => w.batchGrams * (w.material.kind === 'water' ? 0 : (w.material.solids?.value ?? 1));
  const total = (belongs: (w: Weighed) => boolean) => weighed.filter(belongs).reduce((s, w) => s + solid(w), 0);
  const binder = total((w) => isBinder(w.material));
  const base = binder > 0 ? binder : total(() => true);
  return weighed.map((w) => {
    const measured = scooped(w.material, w.batchGrams, scoop);
    return {
      material: w.material.id,
      name: w.material.name,
      kind: w.material.kind,
      pieceGrams: w.pieceGrams,
      batchGrams: w.batchGrams,
      step: scale === null ? null : stepFor(w.batchGrams, scale),
      partsByMass: base > 0 ? (100 * w.batchGrams) / base : 0,
      litres: measured === null ? null : measured.cm3 / 1000,
      scoops: measured?.scoops ?? null,
      volumeError: measured?.error ?? null,
    };
  });
}

export const named = (verdict: Verdict): VerdictResult => {
  const property = propertyById(verdict.property)!;
  return { ...toldVerdict(verdict), name: property.name, unit: property.unit };
};

function properties(assessment: Assessment, tables: FigureTables): AssessmentResult['properties'] {
  return assessment.properties.map((p) => {
    const { property: id, value, low, high, why } = p;
    const property = propertyById(id)!;
    return {
      property: id,
      value: toldNumber(id, value),
      low: toldNumber(id, low),
      high: toldNumber(id, high),
      why: why ?? toldWhy(id, value),
      name: property.name,
      unit: property.unit,
      restsOn: property.restsOn,
      models: [...property.models],
      get contributors() {
        return p.contributors.map((c) => inBoth({ ...c }, { title: titleOfKey(tables, c.figure) }));
      },
    };
  });
}

/** The cautions of a blend that `assessment` was made of. */
export function cautionsOf(
  weighed: readonly Weighed[],
  assessment: Assessment,
  setting: Setting,
  shelf: Shelf,
): AssessmentResult['cautions'] {
  const value = (id: string) => assessment.properties.find((p) => p.property === id)?.value ?? null;
  const parts = partsOf(weighed);
  const facts = blendFacts(parts, {
    ...setting.safety,
    pieceGrams: value('fresh-weight'),
    waterToPlaster: value('water-to-plaster'),
    peakTemperature: value('peak-temperature'),
    likelyPeak: value('likely-peak'),
    wall: setting.conditions.wall,
    room: setting.conditions.temperature,
    sulfate: sulfateOutcome(parts, setting.conditions, setting.safety.uses ?? []),
  });
  const set = cautionsFor(facts, { region: shelf.shop.region });
  return { ...set, cautions: [...set.cautions], firstAid: [...set.firstAid] };
}

/** Risks with their words in both systems of units. */
export const toldRisks = (risks: readonly Risk[]): RiskResult[] =>
  risks.map(({ text, ...risk }) => inBoth({ ...risk, models: [...risk.models] }, { text }));

export const piece = (setting: Setting): AssessmentResult['piece'] => {
  const { volume, wall, service, pour, temperature, humidity } = setting.conditions;
  return { volume, wall, service, pour, temperature, humidity };
};

/**
 * What is told of any blend but its risks: `weighed` are the materials it has, `pieceGrams` those of all in play; `scale`: see
 * `ingredients`.
 */
export function toldOf(
  input: WorldInput,
  weighed: readonly Weighed[],
  pieceGrams: readonly number[],
  assessment: Assessment,
  setting: Setting,
  shelf: Shelf,
  scale: Batch | null,
) {
  return {
    blend: ingredients(weighed, shelf.shop.scoop, scale),
    properties: properties(assessment, input),
    ownFigures: ownFigures(shelf, input, pieceGrams),
    cautions: cautionsOf(weighed, assessment, setting, shelf),
  };
}

export interface ResultOptions {
  readonly draws?: number;
  readonly seed?: number;
}

/** Assesses a recipe and gathers all that is told of it. */
export function assessRecipe(
  recipe: Recipe,
  shelf: Shelf,
  invented: boolean,
  options: ResultOptions = {},
): AssessmentResult {
  const { conditions } = recipe.setting;
  const blend = recipeBlend(recipe, shelf);
  const input = worldInput(shelf, blend.materials, conditions);
  const assessment = assess(input, blend.pieceGrams, recipe.targets, options);
  const weighed = blend.materials.map((material, i) => ({
    material,
    pieceGrams: blend.pieceGrams[i]!,
    batchGrams: blend.batchGrams[i]!,
  }));
  const risks = risksOf(input, blend.pieceGrams, recipe.setting.safety.uses);
  return {
    format: 'pourwright.assessment/1',
    title: recipe.title,
    invented,
    currency: shelf.shop.currency,
    piece: piece(recipe.setting),
    batch: {
      pieces: blend.fills === null ? 1 : blend.fills * (1 - conditions.waste),
      waste: conditions.waste,
      step: shelf.shop.scale.step,
    },
    ...toldOf(input, weighed, blend.pieceGrams, assessment, recipe.setting, shelf, null),
    risks: toldRisks(risks),
    targets: assessment.verdicts.map(named),
    met: assessment.met,
    jointChance: assessment.jointChance,
    warnings: [
      ...recipe.warnings,
      ...blend.warnings,
      ...riskProblems(risks),
      ...plainWarnings(assessment, partsOf(weighed)),
    ].map(problemResult),
    fills: blend.fills,
  };
}

/** Gathers all that is told of a proposal. */
export function proposalResult(brief: Brief, proposal: Proposal, shelf: Shelf, invented: boolean): ProposalResult {
  const { question } = brief;
  const find = new Map(question.materials.map((m) => [m.id, m]));
  const weighed = proposal.ingredients.map((i) => ({ ...i, material: find.get(i.material)! }));
  const standing = standingVerdicts(brief, proposal);
  const { property, exact } = proposal.objective;
  const told = (value: number | null) => toldNumber(property, value);
  const pieceGrams = pieceGramsOf(brief, proposal);
  const risks = risksOf(question, pieceGrams, brief.setting.safety.uses);
  return {
    format: 'pourwright.proposal/1',
    title: brief.title,
    invented,
    currency: shelf.shop.currency,
    status: proposal.status,
    objective: { aim: question.objective, property, exact: told(exact), weighed: told(proposal.objective.weighed) },
    system: proposal.system,
    systems: proposal.systems.map((s) => toldSystem(property, s)),
    piece: piece(brief.setting),
    batch: { pieces: question.batch.pieces, waste: question.conditions.waste, step: question.batch.step },
    ...toldOf(question, weighed, pieceGrams, proposal.assessment, brief.setting, shelf, question.batch),
    risks: toldRisks(risks),
    targets: proposal.assessment.verdicts.map(named),
    met: proposal.assessment.met,
    jointChance: proposal.assessment.jointChance,
    standing,
    conflict:
      proposal.conflict === null
        ? null
        : {
            system: proposal.conflict.system,
            collisions: proposal.conflict.collisions.map(toldCollision),
            missed: proposal.conflict.missed.map(toldCollision),
          },
    still: proposal.still,
    fills: proposal.fills,
    ...choiceResults(proposal, question.materials, shelf.shop.scoop),
    leftOut: brief.leftOut.map((l) => ({ ...l })),
    warnings: [
      ...unlistedNote(
        weighed.map((w) => w.material),
        shelf,
      ),
      ...namedInVain(brief, proposal.system, shelf.materials),
      ...unfilledMould(question, proposal.fills),
      ...cementWaterByVolume(partsOf(weighed)),
      ...plainWarnings(proposal.assessment, partsOf(weighed)),
      ...lostDoses(
        question.doses,
        weighed.map((w) => w.material),
      ),
      ...dosesAsSolids(question.doses, partsOf(weighed)),
      ...roundedDoses(question, new Map(proposal.ingredients.map((i) => [i.material, i.batchGrams]))),
      ...riskProblems(risks),
    ].map(problemResult),
  };
}

/** g of one piece for every material in play, in the question's order. */
function pieceGramsOf(brief: Brief, proposal: Proposal): number[] {
  const grams = new Map(proposal.ingredients.map((i) => [i.material, i.pieceGrams]));
  return brief.question.materials.map((m) => grams.get(m.id) ?? 0);
}

function standingVerdicts(brief: Brief, proposal: Proposal): VerdictResult[] {
  const limits: readonly Target[] = proposal.standing;
  return assess(brief.question, pieceGramsOf(brief, proposal), limits, { draws: 0 }).verdicts.map(named);
}
