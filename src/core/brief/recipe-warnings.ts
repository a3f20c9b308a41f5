import { central, isBinder, numbersOf } from '../blend/numbers.js';
import { isGap } from '../materials/gap.js';
import type { Problem, Where } from '../problems/problem.js';
import type { Part } from './read-amounts.js';

/** A mould and what is to be cast in it [cm³]; the mix is worked out as it is asked for. */
interface Cast {
  readonly mould: number;
  readonly mix: () => number;
}

/** Water this near to the mould's volume is meant to equal it. */
const ABOUT = 0.03;

/** A batch that fills so many moulds is meant for several pieces, and may well hold more water than one mould. */
const SEVERAL_PIECES = 2;

/**
 * Plain warnings about recipes that circulate and do not work. Each is a rule of thumb gone wrong: common practice,
 * no source; the arithmetic is the forward model's.
 */
export function recipeWarnings(parts: readonly Part[], cast: Cast | null, at: (path: string) => Where): Problem[] {
  const grams = (belongs: (p: Part) => boolean): number => parts.filter(belongs).reduce((s, p) => s + p.grams, 0);
  const water = grams((p) => p.material.kind === 'water');
  const binder = grams((p) => isBinder(p.material));
  const place = { where: at('amounts') };
  const warnings: Problem[] = [];
  const warn = (problem: Omit<Problem, 'severity' | 'where'>) =>
    warnings.push({ ...problem, ...place, severity: 'warning' });

  if (cast !== null && water > (1 - ABOUT) * cast.mould) {
    const { mould } = cast;
    const mix = cast.mix();
    if (water < (1 + ABOUT) * mould || mix < SEVERAL_PIECES * mould) {
      const left = Math.round(100 * (1 - mould / mix));
      const moulds = Math.floor((1 + ABOUT) * (mix / mould));
      const several = moulds < SEVERAL_PIECES ? '' : `, unless it is meant for ${moulds} moulds`;
      warn({
        code: 'recipe-water-equals-mould',
        found: `⟦${Math.round(water)} g⟧ of water for a mould of ⟦${Math.round(mould)} mL⟧`,
        hint: `with all else in, it is ⟦${Math.round(mix)} mL⟧ of mix: ${left} % of it is left over when the mould is full${several}`,
      });
    }
  }
  warnings.push(...cementWaterByVolume(parts).map((problem) => ({ ...problem, ...place })));
  const never = (found: string, hint: string) =>
    warnings.push({ code: 'recipe-never-sets', ...place, severity: 'error', found, hint });
  if (binder === 0) never('no binder', 'nothing here sets');
  if (water === 0 && grams((p) => p.material.solids !== undefined) === 0) {
    never('no water', 'nothing here can set without water');
  }
  return warnings;
}

/** Loose volume of a part [cm³]; nothing where it is not known. */
const looseVolume = ({ material: { bulkDensity }, grams }: Part): number =>
  bulkDensity === undefined || isGap(bulkDensity) ? 0 : grams / bulkDensity.value;

/**
 * Cement and water one to one by volume: a mistake of plain mortars. Water that grains drink is not in the paste, and what
 * else sets in it wants water as cement does; plaster wants so much more that the rule says nothing of it.
 */
export function cementWaterByVolume(parts: readonly Part[]): Problem[] {
  const binders = parts.filter((p) => isBinder(p.material));
  const kinds = new Set(binders.map((p) => p.material.kind));
  if (!kinds.has('cement') || kinds.has('gypsum')) return [];
  const loose = binders.reduce((s, p) => s + looseVolume(p), 0);
  const water = parts.reduce((s, { material, grams }) => s + grams * numbersOf(material, central).freeWater, 0);
  const ratio = water / loose;
  if (loose === 0 || ratio <= 0.85 || ratio >= 1.2) return [];
  return [
    {
      code: 'recipe-cement-water-by-volume',
      severity: 'warning',
      found: `${ratio.toFixed(2)} volumes of water for each of ${kinds.size === 1 ? 'cement' : 'binder'}`,
      hint: 'cement and water one to one by volume is far too wet: expect a weak, dusty piece',
    },
  ];
}
