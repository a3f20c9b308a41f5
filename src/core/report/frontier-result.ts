import type { Brief } from '../brief/read-brief.js';
import type { Frontier } from '../optimise/frontier.js';
import type { Aim } from '../optimise/objective.js';
import { BINDER_SYSTEMS } from '../optimise/systems.js';
import { type CsvCell, writeCsv } from '../reading/csv.js';
import type { FrontierResult } from './frontier-schema.js';

/** Grams below this are dust of arithmetic. */
const DUST = 1e-6;

/** A frontier with names. */
export function frontierResult(
  brief: Brief,
  of: Aim,
  against: Aim,
  found: Frontier,
  about: { readonly invented: boolean; readonly currency: string | null },
): FrontierResult {
  const axis = ({ property: { id, name, unit }, sense }: Aim) => ({ property: id, name, unit, better: sense });
  const { materials } = brief.question;
  return {
    format: 'pourwright.frontier/1',
    title: brief.title,
    ...about,
    of: axis(of),
    against: axis(against),
    points: found.points.map((p) => ({
      of: p.of,
      against: p.against,
      system: p.system,
      blend: materials.flatMap((m, i) =>
        p.grams[i]! > DUST ? [{ material: m.id, pieceGrams: Number(p.grams[i]!.toPrecision(7)) }] : [],
      ),
    })),
    dominated: found.dominated,
    systems: BINDER_SYSTEMS.filter((s) => found.points.some((p) => p.system === s.id)).map(({ id, name }) => ({
      system: id,
      name,
    })),
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
