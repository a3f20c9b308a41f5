import type { Conditions } from '../blend/conditions.js';
import { c3aPercent } from '../materials/cement-phases.js';
import { isGap } from '../materials/gap.js';
import { sulfateScreen } from '../science/sulfate.js';
import type { BlendPart, SulfateOutcome } from './facts.js';

/**
 * The sulfate screen's outcome for a blend that holds both portland and plaster; null where it does not.
 * An engineering screen of this project, not a standard.
 */
export function sulfateOutcome(parts: readonly BlendPart[], conditions: Conditions): SulfateOutcome | null {
  const portland = parts.filter((p) => p.material.binder?.family === 'portland');
  const grams = (list: readonly BlendPart[]) => list.reduce((s, p) => s + p.grams, 0);
  const hemihydrate = parts.reduce((s, p) => s + p.grams * (p.material.binder?.phases?.hemihydrate?.value ?? 0), 0);
  const cement = grams(portland);
  if (cement === 0 || hemihydrate === 0) return null;
  const mean = (of: (p: BlendPart) => number | undefined, otherwise: number): number =>
    portland.reduce((s, p) => s + p.grams * (of(p) ?? otherwise), 0) / cement;
  return sulfateScreen({
    portland: cement,
    hemihydrate,
    pozzolans: parts
      .filter((p) => p.material.pozzolan !== undefined)
      .map((p) => ({
        grams: p.grams,
        activity: p.material.pozzolan!.activity.value,
        natural: (p.material.tags ?? []).includes('natural-pozzolan'),
      })),
    cementSo3: mean(
      (p) => (p.material.so3 === undefined || isGap(p.material.so3) ? undefined : p.material.so3.value),
      2.8,
    ),
    c3a: mean((p) => c3aPercent(p.material), 8),
    carbonate: parts.some((p) => (p.material.tags ?? []).includes('carbonate')),
    service: conditions.service,
  });
}
