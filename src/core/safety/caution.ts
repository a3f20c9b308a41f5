import type { STATUSES } from '../materials/words.js';

/** Gravest first; `stop` means: do not do this, or not like this. */
export const CAUTION_SEVERITIES = ['stop', 'warn', 'caution', 'info'] as const;
export type CautionSeverity = (typeof CAUTION_SEVERITIES)[number];

/** Whose limits and words are used. The United Kingdom reads with the EU: its rules still follow the same pattern. */
export const REGIONS = ['US', 'EU'] as const;
export type Region = (typeof REGIONS)[number];

/** How the statement behind a caution was come by; the weakest of its sources counts. */
export type CautionStatus = Exclude<(typeof STATUSES)[number], 'computed'>;

/** One caution, as raised for one blend. Data only; see lines.ts for a plain rendering. */
export interface Caution {
  /** Lower case words joined by hyphens; never changes its meaning. */
  readonly id: string;
  readonly severity: CautionSeverity;
  /** One line, a few words. */
  readonly title: string;
  /** Several sentences, the last of which defers to data sheet, rules and licensed practice; after `shorten`, as `short`. */
  readonly text: string;
  /** One line, at most 100 characters. */
  readonly short: string;
  /** Documents by name, each with how it was seen. */
  readonly source: string;
  readonly status: CautionStatus;
  /** Why it was raised for this blend, with figures. */
  readonly because: string;
  /** Present when words or limits differ between regions. */
  readonly region?: Region;
  /** The same words with US units, those that they change. */
  readonly us?: Partial<Pick<Caution, 'title' | 'text' | 'short' | 'because'>>;
}

/** One line of the first-aid box. */
export interface FirstAidLine {
  readonly when: string;
  readonly act: string;
  readonly source: string;
  readonly status: CautionStatus;
}

/** All that is said about one blend. There is no way to leave a part of it out, only to shorten it. */
export interface CautionSet {
  readonly form: 'full' | 'short';
  readonly region: Region;
  /** Gravest first, then in the order of the rules. */
  readonly cautions: readonly Caution[];
  /** The same for every blend. */
  readonly firstAid: readonly FirstAidLine[];
  /** Defers to the safety data sheet, local rules and licensed practice; the same for every blend. */
  readonly closing: string;
}

/** One step graver; `stop` stays. */
export function graver(severity: CautionSeverity): CautionSeverity {
  return CAUTION_SEVERITIES[Math.max(0, CAUTION_SEVERITIES.indexOf(severity) - 1)]!;
}
