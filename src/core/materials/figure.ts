import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { FIGURE_UNITS, type FigureUnit, STATUSES } from './words.js';

const provenance = {
  source: told(z.string(), 'Key of an entry in sources.yaml; "none" only with status common-practice or ours'),
  where: told(z.optional(z.string()), 'Table, page or clause; compulsory when the status is looked-up'),
  status: z.enum(STATUSES),
  note: z.optional(z.string()),
};

const known = z.strictObject({
  value: z.number(),
  low: told(z.number(), '5th percentile of what a maker may meet, not of one bag'),
  high: told(z.number(), '95th percentile'),
  unit: z.enum(FIGURE_UNITS),
  ...provenance,
});

const ordered = { error: 'low <= value <= high must hold' };
const placed = { error: 'a looked-up figure needs "where"' };

/** A figure whose unit must be one of these. The type stays wide, so that figures of all fields share it. */
function figureWith(units: readonly [FigureUnit, ...FigureUnit[]]) {
  const unit = z.enum(units) as z.ZodMiniType<FigureUnit>;
  return z
    .extend(known, {
      unit,
      others: told(z.optional(z.array(z.extend(known, { unit }))), 'Figures of other sources that were not preferred'),
    })
    .check(
      z.refine((f) => f.low <= f.value && f.value <= f.high, ordered),
      z.refine((f) => (f.others ?? []).every((o) => o.low <= o.value && o.value <= o.high), ordered),
      z.refine((f) => [f, ...(f.others ?? [])].every((o) => o.status !== 'looked-up' || o.where !== undefined), placed),
      z.refine(
        (f) =>
          [f, ...(f.others ?? [])].every(
            (o) => o.source !== 'none' || o.status === 'common-practice' || o.status === 'ours',
          ),
        { error: 'source "none" goes only with status common-practice or ours' },
      ),
    );
}

/** One number with range, unit and source. `others` keeps sources that disagree, unmixed. */
export const figureSchema = figureWith(FIGURE_UNITS);

/** One schema a unit, shared by its fields: the table has dozens of fields, and building schemas costs start-up time. */
const byUnit = new Map<FigureUnit, typeof figureSchema>();

/** A figure of a field that carries this unit and no other. */
export function figureIn(unit: FigureUnit): typeof figureSchema {
  const schema = byUnit.get(unit) ?? figureWith([unit]);
  byUnit.set(unit, schema);
  return schema;
}

/** A gap: the figure is not known, and the row says why. Never 0. */
export const gapSchema = z.strictObject({ value: z.null(), reason: z.string() });

export const figureOrGapIn = (unit: FigureUnit) => z.union([figureIn(unit), gapSchema]);

export type Figure = z.infer<typeof figureSchema>;
export type Gap = z.infer<typeof gapSchema>;
