import type { Problem, Where } from '../problems/problem.js';
import type { Path } from '../reading/located.js';
import type { Figure, Gap } from './figure.js';
import type { Material } from './schema.js';
import { known } from './table.js';

/** A figure that another of its row rules out. */
interface Misfit {
  /** From the row. */
  readonly path: Path;
  readonly found: string;
  readonly expected: string;
}

type Rule = (material: Material) => readonly Misfit[];
type Given = Figure | Gap | undefined;

const printed = (f: Figure): string => (f.unit === 'fraction' ? String(f.value) : `${f.value} ${f.unit}`);

interface Pair {
  readonly path: Path;
  readonly low: Given;
  /** What `low` is called. */
  readonly called: string;
  readonly high: Given;
  /** They may not even be equal. */
  readonly apart?: boolean;
}

/** Two figures of which one cannot be less than the other; `path` is where the higher one stands. */
function rising({ path, low, called, high, apart = false }: Pair): readonly Misfit[] {
  const [a, b] = [known(low), known(high)];
  if (a === undefined || b === undefined || a.value < b.value || (!apart && a.value === b.value)) return [];
  const expected = `${apart ? 'more than' : 'at least'} the ${called}, ${printed(a)}`;
  return [{ path: [...path, 'value'], found: String(b.value), expected }];
}

/** A figure that cannot be more than another; `path` is where it stands, `called` what the other is. */
function atMost(path: Path, part: Given, called: string, all: Given): readonly Misfit[] {
  const [some, most] = [known(part), known(all)];
  if (some === undefined || most === undefined || some.value <= most.value) return [];
  return [{ path: [...path, 'value'], found: String(some.value), expected: `at most ${called}, ${printed(most)}` }];
}

/** Grains with air between them weigh no more than the grains themselves. */
const loose: Rule = ({ density, bulkDensity }) => atMost(['bulkDensity'], bulkDensity, 'the particle density', density);

const setting: Rule = ({ binder }) => {
  if (binder === undefined) return [];
  const { initialSet, finalSet, demould } = binder;
  const first = known(finalSet) === undefined ? { low: initialSet, called: 'initial set' } : undefined;
  return [
    ...rising({ path: ['binder', 'finalSet'], low: initialSet, called: 'initial set', high: finalSet, apart: true }),
    ...rising({ path: ['binder', 'demould'], ...(first ?? { low: finalSet, called: 'final set' }), high: demould }),
  ];
};

/** Each step of a dose window against the last one that is given. */
const doses: Rule = ({ dose }) => {
  if (dose === undefined) return [];
  const steps = (['least', 'usual', 'warn', 'most'] as const).filter((step) => dose[step] !== undefined);
  return steps.slice(1).flatMap((step, i) => {
    const before = steps[i]!;
    return rising({ path: ['dose', step], low: dose[before], called: `dose under "${before}"`, high: dose[step] });
  });
};

/** A coarser sieve passes all that a finer one does. */
const gradings: Rule = ({ grading }) => {
  const points = (grading ?? []).map((point, i) => ({ ...point, i })).sort((a, b) => a.sieve - b.sieve);
  return points.slice(1).flatMap((point, n): readonly Misfit[] => {
    const { sieve, passing } = points[n]!;
    if (sieve === point.sieve)
      return [{ path: ['grading', point.i, 'sieve'], found: String(sieve), expected: 'each sieve once' }];
    const called = `share that passes ${sieve} mm`;
    return rising({ path: ['grading', point.i, 'passing'], low: passing, called, high: point.passing });
  });
};

/** What is fine enough to breathe is a part of all of it. */
const silica: Rule = ({ crystallineSilica, respirableSilica }) =>
  atMost(['respirableSilica'], respirableSilica, 'all the crystalline silica', crystallineSilica);

/** Rounded figures of an analysis may add up to a little more than all. Ours. */
const ROUNDED = 1.02;

function whole(parts: Readonly<Record<string, Figure | undefined>>, all: number, path: Path): readonly Misfit[] {
  const given = Object.values(parts).filter((f) => f !== undefined);
  const sum = given.reduce((total, f) => total + f.value, 0);
  if (sum <= all * ROUNDED) return [];
  const found = `${Number(sum.toPrecision(4))} ${given[0]!.unit} together`;
  return [{ path, found, expected: `parts that make up no more than the whole, ${all} ${given[0]!.unit}` }];
}

/** C3A is counted in percent of the cement, and is a part of the clinker, as its belite is. */
const phases: Rule = ({ binder, pozzolan }) =>
  [['binder', binder?.phases] as const, ['pozzolan', pozzolan?.phases] as const].flatMap(([side, given]) => {
    if (given === undefined) return [];
    const { c3a, belite, ...parts } = given;
    return whole(given.clinker === undefined ? { ...parts, belite } : parts, 1, [side, 'phases']);
  });

/** Free lime is a part of the CaO of an analysis. */
const oxides: Rule = ({ binder }) => {
  if (binder?.oxides === undefined) return [];
  const { freeLime, ...parts } = binder.oxides;
  return [
    ...whole(parts, 100, ['binder', 'oxides']),
    ...atMost(['binder', 'oxides', 'freeLime'], freeLime, 'all the CaO', parts.cao),
  ];
};

const RULES: readonly Rule[] = [loose, setting, doses, gradings, silica, phases, oxides];

/** Figures, each plausible by itself, that another of the same row rules out: one problem a pair, at the later figure. */
export function inconsistent(materials: readonly Material[], where: (path: Path) => Where): readonly Problem[] {
  return materials.flatMap((material, i) =>
    RULES.flatMap((rule) => rule(material)).map(
      ({ path, found, expected }): Problem => ({
        code: 'field-out-of-range',
        severity: 'error',
        where: where(['materials', i, ...path]),
        found,
        expected,
      }),
    ),
  );
}
