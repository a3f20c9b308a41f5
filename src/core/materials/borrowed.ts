import type { Figure, Gap } from './figure.js';
import { isGap } from './gap.js';
import type { Material } from './schema.js';
import { isPoured } from './table.js';

interface Counted {
  readonly path: readonly string[];
  /** An oxide analysis gives it. */
  readonly fromOxides?: true;
  /**
   * Some of the shipped rows do without, and count for nothing by it: `nothing` lends that too, so that the range begins at 0;
   * `passed over` lends theirs alone who have one.
   */
  readonly lacked?: 'nothing' | 'passed over';
  /** The one kind that it is counted of. */
  readonly of?: Material['kind'];
}

/**
 * Figures that the forward model reads as zero where a row has none (blend/numbers.ts), and the cap of a k-value, which it
 * reads as none. Set times are not among them: without those no time is told.
 */
const COUNTED: readonly Counted[] = [
  { path: ['waterDemand'] },
  { path: ['so3'], fromOxides: true },
  { path: ['absorption'] },
  { path: ['moisture'] },
  { path: ['binder', 'heat'], fromOxides: true },
  { path: ['binder', 'phases', 'hemihydrate'] },
  { path: ['binder', 'phases', 'c3a'], fromOxides: true },
  { path: ['binder', 'phases', 'yeelimite'] },
  { path: ['binder', 'phases', 'anhydrite'] },
  { path: ['binder', 'phases', 'monocalciumAluminate'] },
  { path: ['binder', 'phases', 'calciumHydroxide'] },
  { path: ['binder', 'phases', 'belite'], of: 'lime' },
  { path: ['pozzolan', 'k'], lacked: 'nothing' },
  { path: ['pozzolan', 'kCap'], lacked: 'passed over' },
  { path: ['pozzolan', 'activity'] },
];

type Node = Readonly<Record<string, unknown>>;

const figureAt = (material: Material, path: readonly string[]): Figure | null => {
  const found = path.reduce<unknown>((node, step) => (node as Node | undefined)?.[step], material);
  return found === undefined || isGap(found as Figure | Gap) ? null : (found as Figure);
};

const withFigure = (node: Node, [step, ...rest]: readonly string[], figure: Figure): Node => ({
  ...node,
  [step!]: rest.length === 0 ? figure : withFigure((node[step!] ?? {}) as Node, rest, figure),
});

/** Tags that tell pozzolans apart, which have no family of their own. */
const SORTS = ['silica-fume', 'fly-ash', 'slag', 'natural-pozzolan'] as const;

/** Materials of the table that are most like one: the one it takes the place of, or all of its kind and family. */
function likes(material: Material, shipped: readonly Material[]): readonly Material[] {
  const alike = shipped.filter(
    (m) =>
      m.kind === material.kind && m.binder?.family === material.binder?.family && isPoured(m) === isPoured(material),
  );
  const same = alike.filter((m) => m.id === material.id);
  if (same.length > 0) return same;
  const sorts = SORTS.filter((tag) => material.tags?.includes(tag));
  const ofSort = alike.filter((m) => sorts.some((tag) => m.tags?.includes(tag)));
  return ofSort.length > 0 ? ofSort : alike;
}

function named(likes: readonly Material[]): string {
  const [first] = likes;
  if (likes.length === 1) return `the shipped ${first!.id}`;
  const family = first!.kind === 'cement' ? `${first!.binder!.family} ` : '';
  return `the shipped ${family}${first!.kind.replace('-', ' ')}s`;
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  const mean = (sorted[Math.floor(half)]! + sorted[Math.ceil(half)]!) / 2;
  return Number(mean.toPrecision(6));
}

export interface Borrowed {
  readonly material: Material;
  /** In words: whose figures they are. */
  readonly from: string;
  readonly figures: readonly { readonly field: string; readonly figure: Figure }[];
}

/**
 * A maker's own material with what its file leaves out and every shipped material of its kind and family has (of a k-value:
 * any): a gap is never 0. The range spans all of theirs, for nothing says which of them it is like.
 */
export function borrow(material: Material, shipped: readonly Material[]): Borrowed {
  const lenders = likes(material, shipped);
  if (lenders.length === 0) return { material, from: '', figures: [] };
  const from = named(lenders);
  const analysed = material.binder?.oxides !== undefined;
  const figures = COUNTED.flatMap(({ path, fromOxides, lacked, of }) => {
    if (figureAt(material, path) !== null || (analysed && fromOxides)) return [];
    if (of !== undefined && of !== material.kind) return [];
    const theirs = lenders.flatMap((m) => figureAt(m, path) ?? []);
    const without = lenders.length - theirs.length;
    if (theirs.length === 0 || (without > 0 && lacked === undefined)) return [];
    const none = { ...theirs[0]!, value: 0, low: 0, high: 0 };
    const lent = lacked === 'nothing' ? [...theirs, ...new Array<Figure>(without).fill(none)] : theirs;
    const figure: Figure = {
      value: middle(lent.map((f) => f.value)),
      low: Math.min(...lent.map((f) => f.low)),
      high: Math.max(...lent.map((f) => f.high)),
      unit: lent[0]!.unit,
      source: 'none',
      status: 'ours',
      note: `Not in your own file: taken from ${from}`,
    };
    return [{ path, field: path.join('.'), figure }];
  });
  const filled = figures.reduce<Node>((node, { path, figure }) => withFigure(node, path, figure), material);
  return { material: filled as unknown as Material, from, figures };
}
