import * as z from 'zod/mini';
import { gather } from '../problems/gather.js';
import { nearestWord } from '../problems/nearest.js';
import { InputProblems, type Problem, type Where } from '../problems/problem.js';
import type { Located, Path } from '../reading/located.js';
import { checkShape } from '../reading/shape.js';
import { readYaml } from '../reading/yaml.js';
import { type Borrowed, borrow } from './borrowed.js';
import { inconsistent } from './consistent.js';
import { type Material, materialSchema, type Source, userFileSchema } from './schema.js';
import { duplicateIds, type MaterialTable, materialTable } from './table.js';
import type { BinderFamily, Kind } from './words.js';

/** A maker may leave the density out; it is asked for only when a model needs it. */
const leanUserFile = z.extend(userFileSchema, { materials: z.array(z.partial(materialSchema, { density: true })) });

const NOT_GIVEN = { value: null, reason: 'not given in your own file' } as const;

/**
 * Lays a maker's own materials file (YAML) over a table: a material with a shipped id replaces that material, new ones
 * join, and its sources join the bibliography. What a row must have and lacks is borrowed from the table's own of its
 * family, and told in `notes`. Throws InputProblems with every problem of the file.
 */
export function overlay(table: MaterialTable, text: string, file: string): MaterialTable {
  const located = readYaml(text, file);
  const read = shaped(located);
  const written = read.materials.map((material): Material => ({ ...material, density: material.density ?? NOT_GIVEN }));
  const sources = { ...table.sources, ...read.sources };

  const noted = gather();
  for (const problem of duplicateIds(written, (i) => located.where(['materials', i, 'id']))) noted.add(problem);
  for (const problem of inconsistent(written, (path) => located.where(path))) noted.add(problem);
  for (const problem of unfitFamilies(written, (path) => located.where(path))) noted.add(problem);
  for (const problem of unknownSources(read, sources, (path) => located.where(path))) noted.add(problem);
  noted.finish();

  const shipped = table.materials.filter((material) => !table.own.has(material.id));
  const laid = written.map((material) => borrow(material, shipped));
  const materials = laid.map((borrowed) => borrowed.material);
  const notes = laid.flatMap((borrowed, i) => borrowedNote(borrowed, located.where(['materials', i])));
  const own = new Set([...table.own, ...materials.map((material) => material.id)]);
  const replaced = new Map(materials.map((material) => [material.id, material]));
  const kept = table.materials.map((material) => replaced.get(material.id) ?? material);
  const added = materials.filter((material) => table.byId(material.id) === undefined);
  return materialTable({ materials: [...kept, ...added], sources }, own, [...table.notes, ...notes]);
}

/** A slipped unit is one mistake, though value, low and high all show it: it is told at the value. */
function shaped(located: Located): z.infer<typeof leanUserFile> {
  try {
    return checkShape(leanUserFile, located);
  } catch (error) {
    if (!(error instanceof InputProblems)) throw error;
    const told = new Set(error.problems.map(({ where, expected }) => `${where?.path} ${expected}`));
    const again = ({ where, expected }: Problem): boolean =>
      /\.(low|high)$/.test(where?.path ?? '') && told.has(`${where!.path!.replace(/\w+$/, 'value')} ${expected}`);
    throw new InputProblems(error.problems.filter((problem) => !again(problem)));
  }
}

/** One warning a material, with every figure that is not its own. */
function borrowedNote({ material, from, figures }: Borrowed, where: Where): readonly Problem[] {
  if (figures.length === 0) return [];
  const told = figures.map(({ field, figure: f }) => `${field} ${f.value} ${f.unit} (${f.low} to ${f.high})`);
  const hint = `for ${material.id} this is taken from ${from}: ${told.join(', ')}; your own figures make the ranges narrower`;
  return [{ code: 'material-figure-missing', severity: 'warning', where, hint }];
}

/** Binders of these kinds are told apart by what makes them set: no model can do without. */
const FAMILIES: Partial<Record<Kind, readonly BinderFamily[]>> = {
  cement: ['portland', 'csa', 'aluminate'],
  gypsum: ['gypsum'],
  lime: ['lime', 'natural-hydraulic-lime'],
};

function unfitFamilies(materials: readonly Material[], where: (path: Path) => Where): readonly Problem[] {
  return materials.flatMap((material, i): readonly Problem[] => {
    const families = FAMILIES[material.kind];
    const found = material.binder?.family;
    if (families === undefined || (found !== undefined && families.includes(found))) return [];
    const place = where(['materials', i, 'binder', 'family']);
    const expected = `${families.length === 1 ? '' : 'one of '}${families.join(', ')}`;
    const problem = { severity: 'error', where: place, expected } as const;
    return [
      found === undefined ? { ...problem, code: 'field-missing' } : { ...problem, code: 'field-wrong-type', found },
    ];
  });
}

/** Figures and hazards of any part of a materials file whose source is not in the bibliography. */
export function unknownSources(
  part: unknown,
  sources: Readonly<Record<string, Source>>,
  where: (path: Path) => Where,
  path: Path = [],
): readonly Problem[] {
  if (typeof part !== 'object' || part === null) return [];
  const inside = Object.entries(part).flatMap(([key, value]) =>
    unknownSources(value, sources, where, [...path, Array.isArray(part) ? Number(key) : key]),
  );
  const { source, status } = part as { source?: unknown; status?: unknown };
  // Only figures and hazards carry both. Where "none" may stand is the schema's business.
  const cited = typeof source === 'string' && typeof status === 'string' && source !== 'none';
  if (!cited || Object.hasOwn(sources, source)) return inside;
  const nearest = nearestWord(source, Object.keys(sources));
  const place = where([...path, 'source']);
  const problem = { code: 'source-unknown', severity: 'error', where: place, found: source } as const;
  return [...inside, nearest === undefined ? problem : { ...problem, nearest }];
}
