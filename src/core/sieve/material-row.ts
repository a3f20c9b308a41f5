import { stringify } from 'yaml';
import type { Material } from '../materials/schema.js';
import { passingAt } from '../science/grading.js';
import type { Sand } from './sand.js';

const SOURCE = 'my-sieves';

/** A quartz sand of the shelf whose grading lies nearest: its other figures and its dust hazards stand in. */
export function nearestQuartzSand(sand: Sand, materials: readonly Material[]): Material | undefined {
  const distance = (m: Material): number => {
    const own = m.grading!.map((p) => ({ sieve: p.sieve, passing: p.passing.value }));
    return own.reduce((sum, p) => sum + (p.passing - passingAt(sand.grading, p.sieve)) ** 2, 0);
  };
  // Quartz is what an unknown sand is taken for: it carries the dust hazard, and a wrong guess errs on the safe side.
  const quartz = materials.filter(
    (m) => m.kind === 'sand' && m.grading !== undefined && m.tags?.includes('silica-sand'),
  );
  return quartz.reduce<Material | undefined>(
    (best, m) => (best === undefined || distance(m) < distance(best) ? m : best),
    undefined,
  );
}

/** "beach sand, sifted" -> "beach-sand-sifted". */
export const idOf = (name: string): string =>
  name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/\.(csv|ya?ml)$/, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'my-sand';

/**
 * The sand as a row of a maker's own materials table (YAML text). Grading, and densities that were told, are the maker's;
 * all other figures, hazards and tags are those of `like` until the maker weighs them.
 */
export function materialRow(sand: Sand, like: Material, id: string): string {
  const measured = (value: number, unit: string, spread: number, where: string) => ({
    value: Number(value.toPrecision(4)),
    low: Number(Math.max(0, value - spread).toPrecision(4)),
    high: Number((unit === 'percent' ? Math.min(100, value + spread) : value + spread).toPrecision(4)),
    unit,
    source: SOURCE,
    where,
    status: 'looked-up',
  });
  const { id: _id, name: _name, also: _also, use: _use, grading: _grading, notes: _notes, ...rest } = like;
  const row = {
    id,
    name: sand.name,
    ...rest,
    ...(sand.densityAssumed ? {} : { density: measured(sand.density, 'g/cm3', 0.02, 'own weighing') }),
    ...(sand.voidsAssumed
      ? {}
      : { bulkDensity: measured(sand.density * (1 - sand.voids), 'g/cm3', 0.05, 'own weighing') }),
    grading: sand.grading.map((p) => ({
      sieve: p.sieve,
      passing: measured(p.passing, 'percent', SIEVE_SPREAD, 'own sieving'),
    })),
    notes: [`Grading from my own sieves; all that was not weighed is taken from “${like.name}” and wants checking.`],
  };
  const sources = { [SOURCE]: { title: `My own sieving of ${sand.name}`, kind: 'project' } };
  return stringify({ materials: [row], sources }, { lineWidth: 0, flowCollectionPadding: true });
}

/** Percentage points by which two sievings of one bag may differ. Ours. */
const SIEVE_SPREAD = 2;
