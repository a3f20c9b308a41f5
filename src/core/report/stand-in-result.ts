import { propertyById } from '../blend/properties/index.js';
import type { Verdict } from '../blend/target.js';
import type { WrittenMedium } from '../brief/medium-schema.js';
import type { Medium } from '../brief/read-medium.js';
import type { Shelf } from '../brief/shelf.js';
import type { StandIn, StandIns } from '../optimise/stand-in.js';
import type { Distance } from '../optimise/wanted.js';
import { risksOf } from '../risks/risks.js';
import { problemResult } from './problem-result.js';
import { named, piece, toldOf, toldRisks } from './result.js';
import type { CandidateResult, StandInResult } from './stand-in-schema.js';
import { toldNumber } from './told-figures.js';
import { unfilledMould } from './unfilled-mould.js';

/** Gathers all that is told of the stand-ins for a medium. */
export function standInResult(medium: Medium, found: StandIns, shelf: Shelf, written: WrittenMedium): StandInResult {
  const { question, observed, tells } = medium;
  return {
    format: 'pourwright.stand-in/1',
    title: medium.title,
    invented: written.invented === true,
    currency: shelf.shop.currency,
    medium: {
      kind: observed.kind,
      hardness: written.hardness ?? null,
      water: observed.water,
      polymer: observed.polymer,
      ...tells,
    },
    wanted: medium.closeness.wanted.map(({ property, low, high, tolerance, weight }) => ({
      property,
      name: propertyById(property)!.name,
      unit: propertyById(property)!.unit,
      low: low ?? null,
      high: high ?? null,
      tolerance,
      counts: weight,
    })),
    candidates: found.ranked.map((one) => candidate(one, medium, shelf)),
    systems: found.systems.map((s) => ({ ...s })),
    piece: piece(medium.setting),
    batch: { pieces: question.batch.pieces, waste: question.conditions.waste, step: question.batch.step },
    leftOut: medium.leftOut.map((l) => ({ ...l })),
    warnings: medium.warnings.map(problemResult),
  };
}

function candidate(one: StandIn, { question, setting }: Medium, shelf: Shelf): CandidateResult {
  const grams = new Map(one.ingredients.map((i) => [i.material, i.pieceGrams]));
  const pieceGrams = question.materials.map((m) => grams.get(m.id) ?? 0);
  const weighed = one.ingredients.map((i) => ({
    ...i,
    material: question.materials.find((m) => m.id === i.material)!,
  }));
  const windows = one.assessment.verdicts.slice(0, one.distances.length);
  return {
    system: one.system,
    name: one.name,
    farness: one.farness,
    holds: one.holds,
    within: windows.every((v) => v.met),
    got: one.distances.map((d, i) => got(d, windows[i]!)),
    jointChance: one.assessment.jointChance,
    targets: one.assessment.verdicts.slice(one.distances.length).map(named),
    limits: { ...one.limits },
    ...toldOf(question, weighed, pieceGrams, one.assessment, setting, shelf, question.batch),
    risks: toldRisks(risksOf(question, pieceGrams, setting.safety.uses)),
    fills: one.fills,
    warnings: unfilledMould(question, one.fills).map(problemResult),
  };
}

function got({ wanted, value, distance }: Distance, verdict: Verdict): CandidateResult['got'][number] {
  const { property, low, high } = wanted;
  const over = high === undefined ? 0 : Math.max(0, (value ?? 0) - high);
  const under = low === undefined ? 0 : Math.max(0, low - (value ?? 0));
  return {
    property,
    value: toldNumber(property, value),
    miss: toldNumber(property, value) === null ? null : over - under,
    distance,
    within: verdict.met,
    chance: verdict.chance,
  };
}
