import { type Bench, STEPS } from './bench.js';
import type { Clock } from './clocks.js';
import type { Drawer } from './drawer.js';

/** Where the maker was: which files were open, which clocks run. */

const KEPT = ['step', 'brief', 'recipe', 'order', 'medium', 'chosen', 'fullCautions', 'clocks'] as const;

export function marksKept(drawer: Drawer, now: Bench, before: Bench): void {
  if (KEPT.every((key) => now[key] === before[key])) return;
  const marks = Object.fromEntries(KEPT.map((key) => [key, now[key]]));
  // A mark that is lost costs nothing.
  drawer.mark('place', marks).catch(() => {});
}

/** Marks are only believed where they make sense. */
export function readMarks(
  marks: Readonly<Record<string, unknown>>,
  papers: Readonly<Record<string, string>>,
): Partial<Bench> {
  const place = marks['place'];
  if (typeof place !== 'object' || place === null) return {};
  const said = place as Record<string, unknown>;
  const file = (key: string): string | null =>
    typeof said[key] === 'string' && Object.hasOwn(papers, said[key]) ? said[key] : null;
  const step = STEPS.find((s) => s === said['step']);
  return {
    ...(step === undefined ? {} : { step }),
    brief: file('brief'),
    recipe: file('recipe'),
    order: file('order'),
    medium: file('medium'),
    chosen: said['chosen'] === 'recipe' ? 'recipe' : 'brief',
    fullCautions: said['fullCautions'] === true,
    clocks: Array.isArray(said['clocks']) ? said['clocks'].filter(isClock) : [],
  };
}

const isClock = (value: unknown): value is Clock => {
  if (typeof value !== 'object' || value === null) return false;
  const { id, title, started, bells } = value as Record<string, unknown>;
  return (
    typeof id === 'string' &&
    typeof title === 'string' &&
    Number.isFinite(started) &&
    Array.isArray(bells) &&
    bells.every((b) => typeof b?.id === 'string' && typeof b?.name === 'string' && Number.isFinite(b?.after))
  );
};
