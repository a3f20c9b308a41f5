import { propertyById } from '../blend/properties/index.js';
import { type Form, type Link, type Property, propertyValue } from '../blend/property.js';
import type { BlendState } from '../blend/state/state.js';
import type { World } from '../blend/world.js';
import type { BlendProgram } from './blend-program.js';
import { type Column, type LinearProgram, type Row, rowWith } from './lp/types.js';
import { lessShare } from './rows.js';
import { type Neighbourhood, tangentForm } from './tangent.js';

/** A property a stand-in should have. From `low` to `high` nothing is missed; a side left out is open; both may be one value. */
export interface Wanted {
  readonly property: string;
  readonly low?: number;
  readonly high?: number;
  /** How far outside still passes for the same, in the property's unit; > 0. */
  readonly tolerance: number;
  /** What a miss counts for beside the others; >= 0. */
  readonly weight: number;
}

/** To come as close as can be to what is wanted; of blends about as close, the cheaper. */
export interface Closeness {
  readonly sense: 'min';
  readonly wanted: readonly Wanted[];
  /** What a unit of money counts for, in tolerances: a small tie-breaker; 0 where prices play no part. */
  readonly thrift: number;
}

/** What a property that the blend does not have counts as, in tolerances. */
const ABSENT = 10;
/** A tolerance that would reach past zero ends at this share of the value. */
const LEAST_SHARE = 0.05;

interface Edge {
  /** The ratio N/D at which the miss begins. */
  readonly ratio: number;
  /** How far the ratio may go beyond it before a whole tolerance is missed; > 0. */
  readonly size: number;
  /** Whether going up misses it. */
  readonly up: boolean;
}

/** Edges of the window in the property's own ratio, where a tolerance is one on either side. */
function edges({ low, high, tolerance }: Wanted, link: Link): Edge[] {
  const found: Edge[] = [];
  const edge = (at: number, beyond: number, above: boolean): void => {
    const ratio = link.inverse(at);
    found.push({ ratio, size: Math.abs(link.inverse(beyond) - ratio), up: above === link.rising });
  };
  if (high !== undefined) edge(high, high + tolerance, true);
  if (low !== undefined) {
    const beyond = low - tolerance;
    edge(low, Number.isFinite(link.inverse(beyond)) ? beyond : LEAST_SHARE * low, false);
  }
  return found;
}

/**
 * How far a value is from what is wanted, in tolerances: 0 inside the window, 1 at the end of the tolerance. Measured in
 * the property's own ratio, so that a set time twice as long is as far as one half as long.
 */
export function distanceTo(wanted: Wanted, link: Link, value: number | null): number {
  if (value === null) return ABSENT;
  const ratio = link.inverse(value);
  return edges(wanted, link).reduce((s, e) => s + Math.max(0, (e.up ? ratio - e.ratio : e.ratio - ratio) / e.size), 0);
}

export interface Distance {
  readonly wanted: Wanted;
  readonly value: number | null;
  /** In tolerances. */
  readonly distance: number;
}

/** How far a blend is from each thing wanted, by the forward model. */
export const distances = (wanted: readonly Wanted[], world: World, state: BlendState): Distance[] =>
  wanted.map((w) => {
    const property = propertyById(w.property)!;
    const { value } = propertyValue(property, world, state);
    return { wanted: w, value, distance: distanceTo(w, property.form(world, state).link, value) };
  });

/** Weighted sum of the distances. */
export const farness = (list: readonly Distance[]): number =>
  list.reduce((sum, { wanted, distance }) => sum + wanted.weight * distance, 0);

/** What the search lowers: the weighted distance and a little of the cost. */
export function closenessValue({ wanted, thrift }: Closeness, world: World, state: BlendState): number {
  const cost = thrift === 0 ? 0 : world.prices.reduce<number>((s, p, i) => s + (p ?? 0) * state.grams[i]!, 0);
  return farness(distances(wanted, world, state)) + thrift * cost;
}

/**
 * The least weighted distance as a linear program: each edge of a window is a row N - t D that a column of its own may
 * miss, in tolerances. The blend's columns come first.
 */
export function closenessProgram(
  { wanted, thrift }: Closeness,
  program: BlendProgram,
  world: World,
  hood: Neighbourhood,
): LinearProgram {
  const n = program.columns.length;
  const misses: { readonly column: Column; readonly price: number; readonly row: Row; readonly give: number }[] = [];
  for (const w of wanted) {
    const property = propertyById(w.property)!;
    const form = tangentForm(property, world, hood);
    for (const edge of edges(w, form.link)) misses.push({ ...missed(property, form, edge, hood), price: w.weight });
  }
  const zeros = new Array<number>(misses.length).fill(0);
  return {
    columns: [...program.columns, ...misses.map((m) => m.column)],
    rows: [
      ...program.rows.map((row) => rowWith(row, [...row.coefficients, ...zeros])),
      ...misses.map(({ row, give }, k) =>
        rowWith(row, [...row.coefficients, ...zeros.map((_z, j) => (j === k ? give : 0))]),
      ),
    ],
    sense: 'min',
    objective: [
      ...Array.from({ length: n }, (_v, i) => thrift * (world.prices[i] ?? 0)),
      ...misses.map((m) => m.price),
    ],
  };
}

function missed(property: Property, form: Form, edge: Edge, hood: Neighbourhood) {
  const { denominator: d } = form;
  const { grams } = hood.base;
  const held =
    d === null
      ? 1
      : Math.max(
          1e-9,
          d.reduce((s, x, i) => s + x * grams[i]!, 0),
        );
  const coefficients = lessShare(form, edge.ratio);
  const side = (d === null ? edge.ratio : 0) - (form.constant ?? 0);
  const give = edge.size * held;
  const name = `${property.id} ${edge.up ? 'over' : 'under'}`;
  const row: Row = { name, coefficients, scale: give, ...(edge.up ? { high: side } : { low: side }) };
  return { column: { name }, row, give: edge.up ? -give : give };
}
