import type { Conditions } from '../blend/conditions.js';
import type { Together } from '../blend/sampling.js';
import type { Target } from '../blend/target.js';
import type { ModelFigures } from '../materials/model-figures.js';
import type { Material } from '../materials/schema.js';
import type { DoseBasis } from '../materials/words.js';
import type { Where } from '../problems/problem.js';

export const OBJECTIVES = ['cheapest', 'lightest', 'heaviest', 'strongest', 'quickest'] as const;
export type Objective = (typeof OBJECTIVES)[number];

/** A dose the maker asked for: a percent of a base, exactly. Colour and fibres come in this way. */
export interface AskedDose {
  readonly material: string;
  readonly percent: number;
  readonly of: DoseBasis;
}

/** A brief in core units, ready for the optimiser. */
export interface Question {
  readonly objective: Objective;
  readonly targets: readonly Target[];
  readonly conditions: Conditions & { readonly volume: number };
  /** Materials in play; water is among them. */
  readonly materials: readonly Material[];
  readonly doses: readonly AskedDose[];
  readonly figures: ModelFigures;
  /** See WorldInput. */
  readonly together?: Together;
  /** Price per gram by material id. */
  readonly prices: ReadonlyMap<string, number>;
  /** Grams on hand by material id; absent: as much as wanted. */
  readonly stock: ReadonlyMap<string, number>;
  readonly batch: Batch;
  /** Absent: as many ingredients as it takes, none of them below LEAST_STEPS of the scale. */
  readonly limits?: Limits;
  /** Also say the blend in whole-number parts. */
  readonly parts?: PartsAsked;
  /** Set where nothing keeps every limit and the nearest blend is looked for: see STANDING_PRICE. */
  readonly unmet?: boolean;
  /** Where a field stands that the maker wrote, for what is told of it. */
  readonly placeOf?: (path: string) => Where;
}

/** What a blend may be made of. */
export interface Limits {
  /** Most dry ingredients (all but water and liquids); null: as many as it takes. */
  readonly ingredients: number | null;
  /** g in the batch that an ingredient is used at, if at all; null: LEAST_STEPS steps of the scale. */
  readonly leastDose: number | null;
}

export const PARTS_BY = ['mass', 'scoop'] as const;

/** Whole-number parts: by weight, or by loose volume. */
export interface PartsAsked {
  readonly by: (typeof PARTS_BY)[number];
  /** Largest number of parts of one ingredient. */
  readonly most: number;
}

export const MOST_PARTS = 12;

export interface Batch {
  readonly pieces: number;
  /** g the scale can tell apart. */
  readonly step: number;
  /** A finer scale for small doses: its step and how much it bears. */
  readonly fine: { readonly step: number; readonly most: number } | null;
}
