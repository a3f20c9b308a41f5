import type { Figure, Gap } from '../materials/figure.js';
import { isGap } from '../materials/gap.js';
import type { Material } from '../materials/schema.js';
import { refuse } from '../problems/problem.js';
import { voidContent } from '../science/bulk.js';
import { type Grading, gradingFromWeights } from '../science/grading.js';
import type { SieveSample } from './read-sieve.js';

/** A sand with a grading, sieved by the maker or from the shelf. */
export interface Sand {
  readonly name: string;
  /** Id on the shelf; null for a sand that was sieved. */
  readonly material: string | null;
  readonly grading: Grading;
  /** Grams as sieved; null for a shelf sand. */
  readonly weights: SieveSample['weights'] | null;
  /** g; null for a shelf sand. */
  readonly total: number | null;
  /** Share of the sample that was lost; null when its weight was not told. */
  readonly loss: number | null;
  /** g/cm3. */
  readonly density: number;
  readonly densityAssumed: boolean;
  /** Voids as scooped, fraction. */
  readonly voids: number;
  readonly voidsAssumed: boolean;
}

/** Where a maker has not weighed it: quartz sand, loose. Ours, of usual sands 0.35-0.45. */
const USUAL_DENSITY = 2.65;
const USUAL_VOIDS = 0.42;

export function sandOfSample(sample: SieveSample): Sand {
  const test = gradingFromWeights(sample.weights, sample.sample ?? undefined);
  const { density, bulkDensity } = sample;
  return {
    name: sample.name,
    material: null,
    grading: test.grading,
    weights: sample.weights,
    total: test.total,
    loss: test.loss,
    density: density ?? USUAL_DENSITY,
    densityAssumed: density === null,
    voids: bulkDensity === null ? USUAL_VOIDS : voidContent(bulkDensity, density ?? USUAL_DENSITY),
    voidsAssumed: bulkDensity === null,
  };
}

const known = (figure: Figure | Gap | undefined): number | null =>
  figure === undefined || isGap(figure) ? null : figure.value;

/** A sand of the shelf. Throws InputProblems `material-figure-missing` where its row has no grading. */
export function sandOfMaterial(material: Material): Sand {
  if (material.grading === undefined || material.grading.length === 0) {
    refuse({ code: 'material-figure-missing', found: material.id, expected: 'a material with a grading in its row' });
  }
  const density = known(material.density);
  const bulk = known(material.bulkDensity);
  return {
    name: material.name,
    material: material.id,
    grading: material.grading.map((p) => ({ sieve: p.sieve, passing: p.passing.value })),
    weights: null,
    total: null,
    loss: null,
    density: density ?? USUAL_DENSITY,
    densityAssumed: density === null,
    voids: bulk === null ? USUAL_VOIDS : voidContent(bulk, density ?? USUAL_DENSITY),
    voidsAssumed: bulk === null,
  };
}
