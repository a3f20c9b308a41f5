import type { Problem, Where } from '../problems/problem.js';
import { boundWaterHemihydrate } from '../science/stoichiometry.js';
import { printQuantity } from '../units/print.js';
import type { MediumKind } from './medium-schema.js';

/** What was seen of a medium, in core units; null: not told. */
export interface Observed {
  readonly kind: MediumKind | null;
  /** g of water and of polymer for each g of powder. */
  readonly water: number | null;
  readonly polymer: number;
  /** g/cm³ of the piece as it left the mould, and dry. */
  readonly demoulded: number | null;
  readonly dry: number | null;
  /** g/cm³ of the liquid. */
  readonly liquidDensity: number;
}

/** What follows from the weights by mass balance alone. */
export interface Tells {
  /** g of water held for good by each g of powder, when dry. */
  readonly bound: number | null;
  /** Share of the powder that would be hemihydrate plaster if nothing else bound water. */
  readonly plaster: number | null;
  /** g/cm³ of the powder if there was no air. */
  readonly powderDensity: number | null;
}

/** What a weighing of a small piece may be off by, as a share of it. Ours. */
const WEIGHING = 0.02;
/** Solids lighter than this are foamed or hollow; heavier ones are ores. Ours. */
const LIGHTEST = 1.2;
const HEAVIEST = 3.4;

/**
 * Mass balance of the piece: powder, water and polymer went in as mixed; what was lost on drying was free water, so the
 * rest of the water is bound. Hemihydrate binds 0.1862 g/g (stoichiometry).
 */
export function tellsOf({ water, polymer, demoulded, dry, liquidDensity }: Observed): Tells {
  if (water === null || demoulded === null) return { bound: null, plaster: null, powderDensity: null };
  const powder = demoulded / (1 + water + polymer);
  const room = 1 - (powder * (water + polymer)) / liquidDensity;
  const bound = dry === null ? null : dry / powder - 1 - polymer;
  return {
    bound,
    plaster: bound === null ? null : bound / boundWaterHemihydrate(1, 1),
    powderDensity: room > 0 ? powder / room : null,
  };
}

/** Warnings where the description contradicts itself: weights that no powder and liquid mixed so could have. */
export function contradictions(observed: Observed, tells: Tells, at: (path: string) => Where): Problem[] {
  const warn = (path: string, found: string, hint: string): Problem => ({
    code: 'recipe-implausible',
    severity: 'warning',
    where: at(path),
    found,
    hint,
  });
  const { bound, powderDensity } = tells;
  const { demoulded, water, polymer } = observed;
  const problems: Problem[] = [];
  if (bound !== null && bound < -WEIGHING * (1 + polymer)) {
    problems.push(
      warn(
        'sample.dry',
        `a dry piece ${(-100 * bound).toFixed(0)} % lighter than the powder in it`,
        'nothing but water dries off: weigh again, or look at how powder and liquid were measured',
      ),
    );
  }
  if (bound !== null && bound > water! * (1 - WEIGHING)) {
    problems.push(warn('sample.dry', 'a dry piece that has lost no water', 'it may not have been dry yet'));
  }
  if (demoulded !== null && water !== null && (powderDensity === null || powderDensity > HEAVIEST)) {
    problems.push(
      warn(
        'sample.demoulded',
        `⟦${demoulded.toFixed(2)} g for each mL|${printQuantity(demoulded, 'density', { system: 'us' })}⟧ of mould`,
        'heavier than any powder mixed so can be: look at the volume and at how powder and liquid were measured',
      ),
    );
  }
  if (powderDensity !== null && powderDensity < LIGHTEST) {
    problems.push(
      warn(
        'sample.demoulded',
        `a powder of ⟦${powderDensity.toFixed(2)} g/cm3⟧`,
        'so light only with a foamed or hollow filler in it, or much air in the piece',
      ),
    );
  }
  return problems;
}
