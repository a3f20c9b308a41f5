import { tidied } from '../problems/nearest.js';
import { InputProblems, type Problem, refuse, type Where } from '../problems/problem.js';
import type { Figure, Gap } from './figure.js';
import { isGap } from './gap.js';
import { nearMaterials } from './near.js';
import type { Material, Source } from './schema.js';
import type { Kind } from './words.js';

/** What a table is made of: the shipped JSON, or that with a maker's own file over it. */
export interface TableData {
  readonly materials: readonly Material[];
  readonly sources: Readonly<Record<string, Source>>;
}

/** The shelf's materials, found by id, name or another word makers use. */
export interface MaterialTable extends TableData {
  /** The material a word means. Throws material-unknown with the nearest materials, or material-ambiguous. */
  get(word: string, where?: Where): Material;
  /** The material with this id, or undefined. */
  byId(id: string): Material | undefined;
  byKind(kind: Kind): readonly Material[];
  /** Ids that came from the maker's own file. */
  readonly own: ReadonlySet<string>;
  /** Warnings about the maker's own files: what is not theirs and was borrowed. */
  readonly notes: readonly Problem[];
}

/** Builds the table. Throws material-duplicate when an id stands twice. */
export function materialTable(
  data: TableData,
  own: ReadonlySet<string> = new Set(),
  notes: readonly Problem[] = [],
): MaterialTable {
  const byId = new Map(data.materials.map((material) => [material.id, material]));
  if (byId.size < data.materials.length) throw new InputProblems(duplicateIds(data.materials));

  // Built on the first miss by id: most look-ups are by id.
  let named: Map<string, Material[]> | undefined;
  const byWord = (word: string): readonly Material[] => {
    named ??= wordIndex(data.materials);
    return named.get(tidied(word)) ?? [];
  };

  return {
    ...data,
    own,
    notes,
    byId: (id) => byId.get(id),
    byKind: (kind) => data.materials.filter((material) => material.kind === kind),
    get(word, where) {
      const exact = byId.get(word);
      if (exact) return exact;
      const meant = narrowed(byWord(word), word, own);
      if (meant.length === 1) return meant[0]!;
      const at = where && { where };
      if (meant.length > 1) {
        const expected = `one of ${meant.map((material) => material.id).join(', ')}`;
        refuse({ code: 'material-ambiguous', ...at, found: word, expected });
      }
      const { ids, more } = nearMaterials(word, data.materials, own);
      return refuse({
        code: 'material-unknown',
        ...at,
        found: word,
        ...(ids.length > 0 && { nearest: ids.length === 1 ? ids[0]! : ids }),
        ...(ids.length === 0 && { hint: '“pourwright shelf” lists them all' }),
        ...(more > 0 && { hint: `${more} more ${more === 1 ? 'goes' : 'go'} by this word` }),
      });
    },
  };
}

/** Every id that stands more than once. */
export function duplicateIds(materials: readonly Material[], where?: (index: number) => Where): readonly Problem[] {
  const seen = new Set<string>();
  return materials.flatMap(({ id }, i): readonly Problem[] => {
    const again = seen.has(id);
    seen.add(id);
    if (!again) return [];
    return [{ code: 'material-duplicate', severity: 'error', ...(where && { where: where(i) }), found: id }];
  });
}

function wordIndex(materials: readonly Material[]): Map<string, Material[]> {
  const index = new Map<string, Material[]>();
  for (const material of materials) {
    for (const word of new Set([material.id, material.name, ...(material.also ?? [])].map(tidied))) {
      index.set(word, [...(index.get(word) ?? []), material]);
    }
  }
  return index;
}

/** An id or a name beats a looser word, and the maker's own material beats a shipped one. */
function narrowed(found: readonly Material[], word: string, own: ReadonlySet<string>): readonly Material[] {
  const sought = tidied(word);
  const steps: readonly ((material: Material) => boolean)[] = [
    (material) => tidied(material.id) === sought || tidied(material.name) === sought,
    (material) => own.has(material.id),
  ];
  return steps.reduce((left, keep) => (left.some(keep) ? left.filter(keep) : left), found);
}

/** The figure, or undefined for a gap. */
export const known = (figure: Figure | Gap | undefined): Figure | undefined =>
  figure === undefined || isGap(figure) ? undefined : figure;

/** Particle density in g/cm3. Throws material-density-missing: asked only where a model needs it. */
export function densityOf(material: Material, where?: Where): Figure {
  const figure = known(material.density);
  if (figure) return figure;
  const hint = isGap(material.density) ? `the table says: ${material.density.reason}` : undefined;
  return refuse({
    code: 'material-density-missing',
    ...(where && { where }),
    found: material.id,
    expected: 'density in g/cm3',
    ...(hint !== undefined && { hint }),
  });
}

/** Whether it is poured: water, emulsions, liquid admixtures, and liquids without water or solids. */
export const isPoured = (material: Material): boolean =>
  material.kind === 'water' || material.solids !== undefined || (material.tags ?? []).includes('liquid');

/** Density of the stuff as it is measured out by volume: liquids as they are, powders and grains loose. */
export const measuredDensity = (material: Material): Figure | undefined =>
  known(isPoured(material) ? material.density : material.bulkDensity);

/** Its value, g/cm3. */
export const densityAsMeasured = (material: Material): number | undefined => measuredDensity(material)?.value;
