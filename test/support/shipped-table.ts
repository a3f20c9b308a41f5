import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { Figure, Gap } from '../../src/core/materials/figure.js';
import { modelFileSchema } from '../../src/core/materials/model-figures.js';
import { familyFileSchema, type Material, sourcesFileSchema } from '../../src/core/materials/schema.js';

/** The folder that ships; the tests read it file by file, without the program's own reader. */
export const MATERIALS = new URL('../../materials', import.meta.url).pathname;

const NOT_FAMILIES = new Set(['sources.yaml', 'model.yaml']);

const read = (file: string): unknown => parse(readFileSync(join(MATERIALS, file), 'utf8'));

export const familyFiles = readdirSync(MATERIALS)
  .filter((f) => f.endsWith('.yaml') && !NOT_FAMILIES.has(f))
  .sort();

/** Rows by file, checked. Throws with zod's words where a file breaks the schema. */
export const families = new Map(familyFiles.map((f) => [f, familyFileSchema.parse(read(f)).materials]));

export const materials: readonly Material[] = [...families.values()].flat();

export const { sources } = sourcesFileSchema.parse(read('sources.yaml'));

export const { model } = modelFileSchema.parse(read('model.yaml'));

export function material(id: string): Material {
  const found = materials.find((m) => m.id === id);
  if (found === undefined) throw new Error(`no material ${id} in the shipped table`);
  return found;
}

/** The value of a figure that must be there. */
export function numberOf(figure: Figure | Gap | undefined): number {
  if (figure === undefined || figure.value === null) throw new Error('a figure is missing');
  return figure.value;
}

type Node = Readonly<Record<string, unknown>>;

const isNode = (x: unknown): x is Node => typeof x === 'object' && x !== null;

/** Every object below a value with its dotted path. */
export function* nodesOf(value: unknown, path = ''): Generator<readonly [string, Node]> {
  if (!isNode(value)) return;
  if (!Array.isArray(value)) yield [path, value];
  for (const [key, child] of Object.entries(value)) yield* nodesOf(child, `${path}.${key}`);
}

/** Every figure or hazard of the table: all that cites a source. */
export const cited = materials.flatMap((m) => [...nodesOf(m, m.id)].filter(([, n]) => typeof n.source === 'string'));

export const gaps = materials.flatMap((m) => [...nodesOf(m, m.id)].filter(([, n]) => n.value === null));
