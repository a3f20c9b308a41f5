import { useEffect, useState } from 'preact/hooks';
import type { AssessmentResult } from '../../core/index.js';
import type { Folder } from '../worker/folder.js';
import type { Notice } from '../worker/notice.js';
import type { Told } from '../worker/told.js';
import type { Clock } from './clocks.js';
import type { Trouble } from './drawer.js';

export const STEPS = ['start', 'shelf', 'blend', 'assess', 'stand-in', 'price', 'card', 'pours', 'order'] as const;
export type Step = (typeof STEPS)[number];

/** All that the page holds. Files are the truth; everything else is worked out from them. */
export interface Bench {
  readonly folder: Folder;
  readonly step: Step;
  /** The brief that is open, and the recipe. */
  readonly brief: string | null;
  readonly recipe: string | null;
  /** Which of the two is priced, weighed out and recorded. */
  readonly chosen: 'brief' | 'recipe';
  readonly order: string | null;
  readonly medium: string | null;
  /** Full cautions instead of a line each; there is no third choice. */
  readonly fullCautions: boolean;
  readonly clocks: readonly Clock[];
  readonly told: Told | null;
  readonly problems: readonly Notice[];
  readonly busy: boolean;
  readonly assessed: Told | null;
  readonly assessProblems: readonly Notice[];
  /** Cautions of what a step looks at by itself: a stand-in, an order. */
  readonly stepCautions: AssessmentResult['cautions'] | null;
  readonly troubles: readonly Trouble[];
  /** Told to screen readers. */
  readonly said: string;
}

export let bench: Bench = {
  folder: {},
  step: 'start',
  brief: null,
  recipe: null,
  chosen: 'brief',
  order: null,
  medium: null,
  fullCautions: false,
  clocks: [],
  told: null,
  problems: [],
  busy: false,
  assessed: null,
  assessProblems: [],
  stepCautions: null,
  troubles: [],
  said: '',
};

const listeners = new Set<(now: Bench, before: Bench) => void>();

export function update(change: Partial<Bench>): void {
  const before = bench;
  bench = { ...bench, ...change };
  for (const listener of listeners) listener(bench, before);
}

export const watch = (listener: (now: Bench, before: Bench) => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** The bench, drawn anew whenever it changes. */
export function useBench(): Bench {
  const [now, set] = useState(bench);
  useEffect(() => watch(set), []);
  return now;
}

export const say = (said: string): void => update({ said });

/** The file whose blend goes on to price, card and pours. */
export const chosenFile = (b: Bench): string | null => (b.chosen === 'recipe' ? b.recipe : b.brief);
export const chosenTold = (b: Bench): Told | null => (b.chosen === 'recipe' ? b.assessed : b.told);
