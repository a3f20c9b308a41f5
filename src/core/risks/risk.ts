import type { Conditions } from '../blend/conditions.js';
import type { BlendState } from '../blend/state/state.js';
import type { World } from '../blend/world.js';
import type { BlendPart, Use } from '../safety/facts.js';

export const RISK_LEVELS = ['low', 'some', 'high'] as const;
export type RiskLevel = (typeof RISK_LEVELS)[number];

/** Something that may spoil the piece: a screen's answer, in one or two plain sentences. Harm to people is safety's part. */
export interface Risk {
  readonly id: string;
  readonly level: RiskLevel;
  /** In metric, quantities that follow the reader's units in marks (problems/marks.ts). */
  readonly text: string;
  /** Ids of the models in science/provenance.ts that it rests on. */
  readonly models: readonly string[];
  /** Where it comes from, in words. */
  readonly source: string;
}

/** What the screens look at. */
export interface RiskCase {
  readonly parts: readonly BlendPart[];
  readonly conditions: Conditions;
  /** What the piece is for, as far as the maker said. */
  readonly uses: readonly Use[];
  readonly world: World;
  readonly state: BlendState;
  /** Value of a property of the piece; null where the blend has none. */
  readonly value: (property: string) => number | null;
}

/** One screen; null where it has nothing to say of this blend. */
export type Screen = (mix: RiskCase) => Risk | null;

/** One that may speak of several materials, each by itself. */
export type Screens = (mix: RiskCase) => readonly Risk[];

/** Whether the piece gets wet where it will be. */
export const meetsWater = ({ conditions: { service }, uses }: RiskCase): boolean =>
  service === 'damp' || service === 'wet' || uses.includes('outdoor') || uses.includes('planter');

/** g of the parts that belong. */
export const gramsOf = (mix: RiskCase, belongs: (part: BlendPart) => boolean): number =>
  mix.parts.reduce((sum, part) => sum + (belongs(part) ? part.grams * (part.material.solids?.value ?? 1) : 0), 0);

export const tagged =
  (tag: string) =>
  (part: BlendPart): boolean =>
    part.material.tags?.includes(tag) === true;

export const percent = (value: number, digits = 2): string => `${Number(value.toPrecision(digits))} %`;

/** A percent that is above a limit, in figures enough to show it. */
export function percentAbove(value: number, limit: number): string {
  const digits = [2, 3, 4, 5, 6].find((d) => Number(value.toPrecision(d)) > limit);
  return percent(value, digits ?? 7);
}
