/** How much of a model was read in a document, and how much recalled or made here. */
export type Standing =
  /** Equation and constants seen in a document. */
  | 'published'
  /** A published equation whose form or constants were recalled, not looked up. */
  | 'from-memory'
  /** Made by this project. */
  | 'ours';

/** Range of an input inside which the model was measured. */
export interface ValidRange {
  /** Key a caller passes to `outsideValidity`. */
  readonly input: string;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
}

/** One physical model: all that `why` prints and the docs table lists. */
export interface Model {
  readonly id: string;
  readonly title: string;
  /** Plain text. */
  readonly equation: string;
  /** Symbol to meaning with unit. */
  readonly symbols: Readonly<Record<string, string>>;
  /** Unit of the result. */
  readonly unit: string;
  readonly standing: Standing;
  /** Keys of SCIENCE_SOURCES or materials/sources.yaml. */
  readonly sources: readonly string[];
  readonly validity: string;
  readonly ranges?: readonly ValidRange[];
  /** Where it is known to miss, in plain words. */
  readonly misfits: readonly string[];
  /** Files of test/oracles/cases that check it; a test keeps this list true. */
  readonly oracles: readonly string[];
  /** Files, from src/core/science. */
  readonly files: readonly string[];
}
