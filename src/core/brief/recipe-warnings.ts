import { isBinder } from '../blend/numbers.js';
import { isGap } from '../materials/gap.js';
import type { Problem, Where } from '../problems/problem.js';
import type { Part } from './read-amounts.js';

/**
 * Plain warnings about recipes that circulate and do not work. Each is a rule of thumb gone wrong: common practice,
 * no source; the arithmetic is the forward model's.
 */
export function recipeWarnings(
  parts: readonly Part[],
  volume: number | null,
  scaled: boolean,
  at: (path: string) => Where,
): Problem[] {
  const grams = (belongs: (p: Part) => boolean): number => parts.filter(belongs).reduce((s, p) => s + p.grams, 0);
  const water = grams((p) => p.material.kind === 'water');
  const binder = grams((p) => isBinder(p.material));
  const cement = parts.filter((p) => p.material.kind === 'cement');
  const place = { where: at('amounts') };
  const warnings: Problem[] = [];
  const warn = (problem: Omit<Problem, 'severity' | 'where'>) =>
    warnings.push({ ...problem, ...place, severity: 'warning' });

  if (scaled && volume !== null && water > 0 && Math.abs(water - volume) < 0.03 * volume) {
    warn({
      code: 'recipe-water-equals-mould',
      found: `${Math.round(water)} g of water for a mould of ${Math.round(volume)} mL`,
      hint: 'water that fills the mould by itself leaves about half of the mix over once the powder is in',
    });
  }
  const cementLoose = cement.reduce((s, p) => {
    const bulk = p.material.bulkDensity;
    return s + (bulk === undefined || isGap(bulk) ? 0 : p.grams / bulk.value);
  }, 0);
  if (cementLoose > 0 && water > 0 && grams((p) => p.material.kind === 'gypsum') === 0) {
    const ratio = water / cementLoose;
    if (ratio > 0.85 && ratio < 1.2) {
      warn({
        code: 'recipe-cement-water-by-volume',
        found: `${ratio.toFixed(2)} volumes of water for each of cement`,
        hint: 'cement and water one to one by volume is far too wet: expect a weak, dusty piece',
      });
    }
  }
  if (binder === 0) warn({ code: 'recipe-implausible', found: 'no binder', hint: 'nothing here sets' });
  if (water === 0 && grams((p) => p.material.solids !== undefined) === 0) {
    warn({ code: 'recipe-implausible', found: 'no water', hint: 'nothing here can set without water' });
  }
  return warnings;
}
