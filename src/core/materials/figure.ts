import * as z from 'zod/mini';
import { told } from '../reading/told.js';
import { FIGURE_UNITS, type FigureUnit, STATUSES } from './words.js';

const provenance = {
  source: told(z.string(), 'Key of an entry in sources.yaml; "none" only with status common-practice or ours'),
  where: told(z.optional(z.string()), 'Table, page or clause; compulsory when the status is looked-up'),
  status: z.enum(STATUSES),
  note: z.optional(z.string()),
};

const LOW = '5th percentile of what a maker may meet, not of one bag';
const HIGH = '95th percentile';

const known = z.strictObject({
  value: z.number(),
  low: told(z.number(), LOW),
  high: told(z.number(), HIGH),
  unit: z.enum(FIGURE_UNITS),
  ...provenance,
});

const ordered = {
  error: ({ input }: { readonly input?: unknown }): string => {
    const { value, low, high } = input as z.infer<typeof known>;
    return `low ${low}, value ${value}, high ${high}: low <= value <= high must hold`;
  },
};
const othersOrdered = { error: 'low <= value <= high must hold for all of its others' };
const placed = { error: 'a looked-up figure needs "where"' };

/** What a field's number can be at all: wide enough for anything that can be bought, too narrow for a slipped unit or sign. */
export type Plausible =
  | { readonly above: number; readonly most: number }
  | { readonly least: number; readonly most: number };

/** A number within what is plausible; one message says both ends, since a slipped unit is told by the whole range. */
function numberWithin(plausible: Plausible, units: readonly FigureUnit[]) {
  const { most } = plausible;
  const from = 'above' in plausible ? `more than ${plausible.above}` : `at least ${plausible.least}`;
  const unit = units.length > 1 || units[0] === 'fraction' ? '' : ` ${units[0]}`;
  const said = { error: `${from} and at most ${most}${unit}` };
  const lower = 'above' in plausible ? z.gt(plausible.above, said) : z.gte(plausible.least, said);
  return z.number().check(lower, z.lte(most, said));
}

/** Value, low and high of a field: its unit is the only one, its numbers within what is plausible. */
function plainFigure(units: readonly [FigureUnit, ...FigureUnit[]], plausible: Plausible | undefined) {
  // The type stays wide, so that figures of all fields share it.
  const unit = z.enum(units) as z.ZodMiniType<FigureUnit>;
  if (plausible === undefined) return z.extend(known, { unit });
  const number = numberWithin(plausible, units);
  return z.extend(known, {
    unit,
    value: number,
    low: told(number, LOW),
    high: told(number, HIGH),
  });
}

/** A figure whose unit must be one of these, within what is plausible for its field. */
function figureWith(units: readonly [FigureUnit, ...FigureUnit[]], plausible?: Plausible) {
  const figure = plainFigure(units, plausible);
  return z
    .extend(figure, {
      others: told(z.optional(z.array(figure)), 'Figures of other sources that were not preferred'),
    })
    .check(
      z.refine((f) => f.low <= f.value && f.value <= f.high, ordered),
      z.refine((f) => (f.others ?? []).every((o) => o.low <= o.value && o.value <= o.high), othersOrdered),
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

/** One schema a unit and range, shared by its fields: there are dozens, and building schemas costs start-up time. */
const built = new Map<string, typeof figureSchema>();

/** A figure of a field that carries this unit and no other, its numbers within what is plausible there. */
export function figureIn(unit: FigureUnit, plausible: Plausible): typeof figureSchema {
  const key = `${unit} ${JSON.stringify(plausible)}`;
  const schema = built.get(key) ?? figureWith([unit], plausible);
  built.set(key, schema);
  return schema;
}

/** A figure within what is plausible, in any unit: which one is its field's business. */
export const figureWithin = (plausible: Plausible): typeof figureSchema => figureWith(FIGURE_UNITS, plausible);

/** A gap: the figure is not known, and the row says why. Never 0. */
export const gapSchema = z.strictObject({ value: z.null(), reason: z.string() });

export const figureOrGapIn = (unit: FigureUnit, plausible: Plausible) =>
  z.union([figureIn(unit, plausible), gapSchema]);

export type Figure = z.infer<typeof figureSchema>;
export type Gap = z.infer<typeof gapSchema>;
