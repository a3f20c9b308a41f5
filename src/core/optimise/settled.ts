import type { BlendState } from '../blend/state/state.js';
import type { BlendProgram } from './blend-program.js';
import type { Sought } from './objective.js';

/** A blend that stands still: solving again at it gives the same blend. */
export interface Settled {
  readonly grams: readonly number[];
  readonly state: BlendState;
  /** The rows at the blend itself. */
  readonly program: BlendProgram;
  /** True when every limit holds in the forward model; false for the nearest blend. */
  readonly feasible: boolean;
  /** Sum of misses in shares of each limit, 0 when feasible. */
  readonly miss: number;
  /** The objective's property, by the forward model; null where the blend has none. */
  readonly value: number | null;
  /** Whether re-solving had stopped moving the blend. */
  readonly still: boolean;
  readonly solves: number;
}

/** What one material is held to, in g for one piece. */
export interface Bound {
  readonly lower: number;
  readonly upper: number;
}

export interface SettleOptions {
  readonly aim: Sought;
  /** One a material; only narrows what is open anyway. */
  readonly bounds?: readonly Bound[];
  /** How much to stay inside a limit's side, by `property side`, in the property's unit. */
  readonly tighten?: ReadonlyMap<string, number>;
  readonly start?: readonly number[];
  /** For a blend that cannot be the answer: near the best will do. */
  readonly rough?: boolean;
  /** For a blend that is compared with others close by. */
  readonly fine?: boolean;
}
