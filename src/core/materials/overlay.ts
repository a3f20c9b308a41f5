import * as z from 'zod/mini';
import { gather } from '../problems/gather.js';
import { nearestWord } from '../problems/nearest.js';
import type { Problem, Where } from '../problems/problem.js';
import type { Path } from '../reading/located.js';
import { checkShape } from '../reading/shape.js';
import { readYaml } from '../reading/yaml.js';
import { type Material, materialSchema, type Source, userFileSchema } from './schema.js';
import { duplicateIds, known, type MaterialTable, materialTable } from './table.js';

/** A maker may leave the density out; it is asked for only when a model needs it. */
const leanUserFile = z.extend(userFileSchema, { materials: z.array(z.partial(materialSchema, { density: true })) });

const NOT_GIVEN = { value: null, reason: 'not given in your own file' } as const;

/**
 * Lays a maker's own materials file (YAML) over a table: a material with a shipped id replaces that material, new ones
 * join, and its sources join the bibliography. Throws InputProblems with every problem of the file.
 */
export function overlay(table: MaterialTable, text: string, file: string): MaterialTable {
  const located = readYaml(text, file);
  const read = checkShape(leanUserFile, located);
  const materials = read.materials.map(
    (material): Material => ({ ...material, density: material.density ?? NOT_GIVEN }),
  );
  const sources = { ...table.sources, ...read.sources };

  const noted = gather();
  for (const problem of duplicateIds(materials, (i) => located.where(['materials', i, 'id']))) noted.add(problem);
  for (const problem of looseAboveParticle(materials, (path) => located.where(path))) noted.add(problem);
  for (const problem of unknownSources(read, sources, (path) => located.where(path))) noted.add(problem);
  noted.finish();

  const own = new Set([...table.own, ...materials.map((material) => material.id)]);
  const replaced = new Map(materials.map((material) => [material.id, material]));
  const kept = table.materials.map((material) => replaced.get(material.id) ?? material);
  const added = materials.filter((material) => table.byId(material.id) === undefined);
  return materialTable({ materials: [...kept, ...added], sources }, own);
}

/** Grains with air between them weigh no more than the grains themselves. */
function looseAboveParticle(materials: readonly Material[], where: (path: Path) => Where): readonly Problem[] {
  return materials.flatMap((material, i): readonly Problem[] => {
    const loose = known(material.bulkDensity)?.value;
    const particle = known(material.density)?.value;
    if (loose === undefined || particle === undefined || loose <= particle) return [];
    const place = where(['materials', i, 'bulkDensity', 'value']);
    const expected = `at most the particle density, ${particle} g/cm3`;
    return [{ code: 'field-out-of-range', severity: 'error', where: place, found: String(loose), expected }];
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
