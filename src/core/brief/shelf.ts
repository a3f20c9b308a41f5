import type { Together } from '../blend/sampling.js';
import type { ModelFigures } from '../materials/model-figures.js';
import type { Material } from '../materials/schema.js';
import type { Where } from '../problems/problem.js';
import type { Region } from '../safety/caution.js';
import type { UnitSystem } from '../units/print.js';
import type { Amount } from '../units/quantity.js';
import { type Costs, NO_COSTS } from './costs.js';
import type { WorkingHours } from './working-hours.js';

/** The maker's shop in core units. */
export interface Shop {
  readonly currency: string | null;
  /** g. */
  readonly scale: { readonly step: number; readonly fine: { readonly step: number; readonly most: number } | null };
  /** cm³ of the scoop. */
  readonly scoop: number;
  /** The most that is mixed in one bowl; null: no limit given. */
  readonly bowl: Amount | null;
  readonly work: WorkingHours;
  readonly temperature: number;
  readonly humidity: number;
  /** Share of what is mixed that is not cast. */
  readonly waste: number;
  readonly region: Region;
  readonly units: UnitSystem;
  readonly costs: Costs;
}

export const DEFAULT_SHOP: Shop = {
  currency: null,
  scale: { step: 1, fine: null },
  scoop: 100,
  bowl: null,
  work: { hours: null, weekdays: null },
  temperature: 20,
  humidity: 0.5,
  waste: 0,
  region: 'EU',
  units: 'metric',
  costs: NO_COSTS,
};

/** The figures that came from the shop's own pours. */
export interface LearnedShelf {
  /** File it was read from, as the maker names it. */
  readonly file: string;
  readonly together: Together;
  /** Words for each figure by its key (see blend/figure-keys.ts). */
  readonly titles: ReadonlyMap<string, string>;
  /** The waste share was learned too. */
  readonly waste: boolean;
}

/** Everything a brief or a recipe is read against. */
export interface Shelf {
  readonly materials: readonly Material[];
  /** By id, name or another word makers use. @throws InputProblems `material-unknown` with the nearest. */
  readonly find: (word: string, where?: Where) => Material;
  readonly figures: ModelFigures;
  /** What the shop's pours have taught, already laid over materials, figures and waste; null: nothing. */
  readonly learned: LearnedShelf | null;
  /** Cheapest price per gram by material id, in the shop's currency; empty without a price list. */
  readonly prices: ReadonlyMap<string, number>;
  /** The price list's file, where there is one. */
  readonly priceList?: string;
  /** Grams on hand by material id, where the price list says. */
  readonly stock: ReadonlyMap<string, number>;
  readonly shop: Shop;
}
