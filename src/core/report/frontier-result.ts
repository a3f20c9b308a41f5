import { assess } from '../blend/assess.js';
import type { Brief } from '../brief/read-brief.js';
import type { Shelf } from '../brief/shelf.js';
import type { Frontier } from '../optimise/frontier.js';
import type { Aim } from '../optimise/objective.js';
import { BINDER_SYSTEMS } from '../optimise/systems.js';
import { type CsvCell, writeCsv } from '../reading/csv.js';
import { stopsIn } from './barred.js';
import { cautionsTogether } from './cautions-together.js';
import type { FrontierResult } from './frontier-schema.js';
import { cautionsOf } from './result.js';
import type { AssessmentResult } from './result-schema.js';

/** Grams below this are dust of arithmetic. */
const DUST = 1e-6;

/** The cautions of one point, in the batch that the brief asks for. */
function cautionsAt(pieceGrams: readonly number[], { question, setting }: Brief, shelf: Shelf): CautionSet {
  const { batch, conditions, materials } = question;
  const times = batch.pieces / (1 - conditions.waste);
  const weighed = materials.flatMap((material, i) => {
    const grams = pieceGrams[i]!;
    return grams > DUST ? [{ material, pieceGrams: grams, batchGrams: times * grams }] : [];
  });
  return cautionsOf(weighed, assess(question, pieceGrams, [], { draws: 0 }), setting, shelf);
}

type CautionSet = AssessmentResult['cautions'];

/** A frontier with names, and with the cautions of every blend on it. */
export function frontierResult(
  brief: Brief,
  of: Aim,
  against: Aim,
  found: Frontier,
  { invented, shelf }: { readonly invented: boolean; readonly shelf: Shelf },
): FrontierResult {
  const axis = ({ property: { id, name, unit }, sense }: Aim) => ({ property: id, name, unit, better: sense });
  const { materials } = brief.question;
  const raised = found.points.map((p) => cautionsAt(p.grams, brief, shelf));
  return {
    format: 'pourwright.frontier/1',
    title: brief.title,
    invented,
    currency: shelf.shop.currency,
    of: axis(of),
    against: axis(against),
    points: found.points.map((p, n) => ({
      of: p.of,
      against: p.against,
      system: p.system,
      blend: materials.flatMap((m, i) =>
        p.grams[i]! > DUST ? [{ material: m.id, pieceGrams: Number(p.grams[i]!.toPrecision(7)) }] : [],
      ),
      cautions: raised[n]!.cautions.map((c) => c.id),
      barred: stopsIn(raised[n]!).length > 0,
    })),
    dominated: found.dominated,
    systems: BINDER_SYSTEMS.filter((s) => found.points.some((p) => p.system === s.id)).map(({ id, name }) => ({
      system: id,
      name,
    })),
    cautions: raised.length === 0 ? null : cautionsTogether(raised),
  };
}

/** The points as a table: both properties with their units, the binder system, g of each material in one piece. */
export function frontierCsv({ of, against, points, currency }: FrontierResult): string {
  const unit = (u: string): string => (u === 'currency' ? (currency ?? u) : u);
  const [x, y] = [`${of.property} [${unit(of.unit)}]`, `${against.property} [${unit(against.unit)}]`];
  const materials = [...new Set(points.flatMap((p) => p.blend.map((b) => b.material)))].sort();
  const rows = points.map(
    (p): Record<string, CsvCell> => ({
      [x]: p.of,
      [y]: p.against,
      system: p.system,
      ...Object.fromEntries(p.blend.map((b) => [`${b.material} [g]`, b.pieceGrams])),
    }),
  );
  return writeCsv(rows, [x, y, 'system', ...materials.map((m) => `${m} [g]`)]);
}
