/** Where in the maker's input a problem sits; every part is optional, the finest known part is printed. */
export interface Where {
  readonly file?: string;
  /** 1-based. */
  readonly line?: number;
  readonly column?: number;
  /** Dotted path of the field, such as `targets.dry-weight.max`. */
  readonly path?: string;
}

export type Severity = 'error' | 'warning' | 'note';

/**
 * A problem is data; words come last (see words.ts), so the command line, the page and `--json` show the same list.
 *
 * `code` is stable and documented in words.ts. `found`, `expected` and `nearest` are short texts made of the
 * maker's own words (what stands there, what may stand there, the closest allowed words).
 */
export interface Problem {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly where?: Where;
  readonly found?: string;
  readonly expected?: string;
  /** Several, the likeliest first, where none is nearer than the others. */
  readonly nearest?: string | readonly string[];
  /** One more plain sentence, when the code alone does not tell the maker what to do. */
  readonly hint?: string;
}

export type ProblemCode =
  // reading
  | 'file-missing'
  | 'file-empty'
  | 'file-too-large'
  | 'file-binary'
  | 'file-unreadable'
  | 'file-not-written'
  | 'yaml-malformed'
  | 'csv-malformed'
  | 'json-malformed'
  // shape and command line
  | 'field-missing'
  | 'field-unknown'
  | 'field-duplicate'
  | 'field-wrong-type'
  | 'field-out-of-range'
  | 'usage'
  | 'option-unknown'
  | 'option-invalid'
  // quantities
  | 'quantity-unreadable'
  | 'quantity-ambiguous'
  | 'unit-unknown'
  | 'unit-wrong-kind'
  | 'currency-mixed'
  // materials and recipes
  | 'material-unknown'
  | 'material-ambiguous'
  | 'material-duplicate'
  | 'material-density-missing'
  | 'material-figure-missing'
  | 'source-unknown'
  | 'price-missing'
  | 'price-list-missing'
  | 'price-unlisted'
  | 'price-duplicate'
  | 'price-free'
  | 'amount-not-positive'
  | 'basis-missing'
  | 'mould-impossible'
  | 'property-unknown'
  | 'target-contradicts'
  | 'target-unreachable'
  | 'target-missed'
  | 'brief-contradicts'
  // plain warnings about a recipe
  | 'recipe-water-equals-mould'
  | 'recipe-cement-water-by-volume'
  | 'recipe-implausible'
  | 'recipe-runny'
  | 'mould-unfilled'
  | 'bowls-joined'
  | 'recipe-never-sets'
  | 'recipe-outside-model'
  | 'recipe-overdosed'
  | 'recipe-hurried'
  | 'too-fine-to-weigh'
  | 'dose-as-solids'
  | 'figures-outdated'
  | 'pour-implausible'
  // anything a later verb needs
  | 'other';

/** Thrown when the maker's input cannot be used. Carries every problem found, not only the first. */
export class InputProblems extends Error {
  override readonly name = 'InputProblems';
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map((p) => `${p.code}${p.where?.path ? ` at ${p.where.path}` : ''}`).join('; '));
    this.problems = problems;
  }
}

/** Throws one problem as an error. */
export function refuse(problem: Omit<Problem, 'severity'>): never {
  throw new InputProblems([{ ...problem, severity: 'error' }]);
}
