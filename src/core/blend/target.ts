/** A limit or window on a property, in its core unit. At least one side is given. */
export interface Target {
  /** Property id. */
  readonly property: string;
  readonly min?: number;
  readonly max?: number;
  /** Where the maker wrote it, for messages. */
  readonly path?: string;
}

export interface Verdict {
  readonly property: string;
  readonly min: number | null;
  readonly max: number | null;
  readonly value: number | null;
  /** Met by the central prediction. A property the blend does not have meets nothing. */
  readonly met: boolean;
  /** Distance to the nearer limit in the property's unit: positive inside, negative by how much it is missed. */
  readonly margin: number | null;
  /** Share of the draws that meet it, 0..1; null when no draws were made. */
  readonly chance: number | null;
}

/** Relative slack for arithmetic, far below any scale's step. */
const SLACK = 1e-9;

/** Signed distance to the nearer side of the window. */
export function marginOf(target: Target, value: number): number {
  const toMax = target.max === undefined ? Number.POSITIVE_INFINITY : target.max - value;
  const toMin = target.min === undefined ? Number.POSITIVE_INFINITY : value - target.min;
  return Math.min(toMax, toMin);
}

export function meets(target: Target, value: number): boolean {
  const size = Math.max(Math.abs(target.max ?? 0), Math.abs(target.min ?? 0), Math.abs(value));
  return marginOf(target, value) >= -SLACK * size;
}

export function verdictOf(target: Target, value: number | null, sample: readonly (number | null)[] | null): Verdict {
  const margin = value === null ? null : marginOf(target, value);
  return {
    property: target.property,
    min: target.min ?? null,
    max: target.max ?? null,
    value,
    met: value !== null && meets(target, value),
    margin,
    chance:
      sample === null || sample.length === 0
        ? null
        : sample.filter((v) => v !== null && meets(target, v)).length / sample.length,
  };
}
