import { describe, expect, it } from 'vitest';
import { briefOf, recipeOf, shopOf } from '../support/bench-shelf.js';

/** Proportions that cannot be meant, told of a blend whether it was written down or proposed. Blends invented. */

const shop = shopOf({ scale: { step: '0.1 g' } });
const told = (result: { readonly warnings: readonly { readonly code: string; readonly message: string }[] }) =>
  result.warnings.map((w) => w.message).filter((message) => / of water for each /.test(message));
const assessed = (amounts: Record<string, string>) => told(recipeOf({ amounts }, shop).result);

describe('too much water for a cement paste', () => {
  it('is told by all that sets', () => {
    const mixed = { 'portland-cement-grey': '300 g', metakaolin: '60 g', 'silica-sand-fine': '600 g', water: '290 g' };
    expect(assessed(mixed).at(-1)).toContain(
      '0.80 g of water for each gram of binder”. Above about 0.7 a cement paste stays weak',
    );
    const plain = assessed({ 'portland-cement-grey': '300 g', 'silica-sand-fine': '900 g', water: '240 g' });
    expect(plain.at(-1)).toContain('0.79 g of water for each gram of cement');
  });

  it('not of what porous grains drink, nor of what the pozzolan wants', () => {
    const light = { 'csa-rapid-cement': '114.8 g', perlite: '59 g', 'silica-fume': '68.8 g', water: '186.8 g' };
    expect(assessed(light)).toEqual([]);
    // By volume the water poured in is just that of the cement.
    const soaked = { 'portland-cement-white': '200 g', pumice: '120 g', water: '165 g' };
    expect(assessed(soaked)).toEqual([]);
  });

  it('not where cement is little beside plaster', () => {
    const cups = {
      'portland-cement-grey': '23.37 g',
      'casting-plaster': '14.06 g',
      perlite: '11.26 g',
      metakaolin: '5.84 g',
      water: '33.89 g',
    };
    expect(assessed(cups)).toEqual([]);
    expect(assessed({ 'casting-plaster': '700 g', 'portland-cement-grey': '300 g', water: '780 g' })).toEqual([]);
  });

  it('is told of a proposal as of the same blend written down', () => {
    const wet = {
      mould: { water: '500 mL' },
      objective: 'cheapest',
      materials: { only: ['portland-cement-grey', 'limestone-flour', 'masonry-sand'] },
    };
    const { result } = briefOf({ ...wet, targets: { 'water-to-binder': { min: 0.85 } } }, shop);
    const amounts = Object.fromEntries(result.blend.map((i) => [i.material, `${i.pieceGrams} g`]));
    const again = recipeOf({ mould: wet.mould, amounts }, shop).result;
    expect(told(result).at(-1)).toContain('0.85 g of water for each gram of cement');
    expect(told(again)).toHaveLength(told(result).length);
  });
});
