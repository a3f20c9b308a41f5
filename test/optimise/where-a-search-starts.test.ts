import { describe, expect, it } from 'vitest';
import type { MaterialNumbers } from '../../src/core/blend/numbers.js';
import type { World } from '../../src/core/blend/world.js';
import type { Column } from '../../src/core/optimise/lp/types.js';
import { startingBlend } from '../../src/core/optimise/starting-blend.js';

/** The blend that a search computes its first state from: made-up grains of half a cm³ to the gram in a mould of 300 cm³. */

type Grain = Pick<MaterialNumbers, 'id' | 'kind' | 'family' | 'grainVolume' | 'demand' | 'freeWater'>;
const grain = (more: Partial<Grain>): Grain => ({
  id: 'made-up',
  kind: 'sand',
  family: null,
  grainVolume: 0.5,
  demand: 0,
  freeWater: 0,
  ...more,
});
const PLASTER = grain({ kind: 'gypsum', family: 'gypsum', demand: 0.6 });
const CEMENT = grain({ kind: 'cement', family: 'portland', demand: 0.3 });
const SAND = grain({});
const LIGHT = grain({ kind: 'light-aggregate', grainVolume: 4 });
const FILLER = grain({ kind: 'filler', demand: 0.2 });
const WATER = grain({ kind: 'water', grainVolume: 0, freeWater: 1 });

const VOLUME = 300;
const start = (grains: readonly Grain[], uppers: readonly (number | undefined)[] = []) => {
  const columns = grains.map(
    (_g, i): Column => ({ name: String(i), ...(uppers[i] === undefined ? {} : { upper: uppers[i] }) }),
  );
  return startingBlend({ materials: grains } as unknown as World, columns, VOLUME);
};

describe('a search starts', () => {
  it('from a third of the mould in binder, a third in grains, and the water they ask for', () => {
    // 100 cm³ are 200 g of plaster; 50 cm³ of sand are 100 g, 50 cm³ of filler too: 120 g of water and 20.
    expect(start([WATER, PLASTER, SAND, FILLER])).toEqual([140, 200, 100, 100]);
    expect(start([PLASTER, SAND, FILLER, WATER])).toEqual([200, 100, 100, 140]);
    // Two binders share their third: 60 g of water and 30.
    expect(start([WATER, PLASTER, CEMENT])).toEqual([90, 100, 100]);
  });

  it('with room for light grains by what they take up, and no grain lighter than twenty cm³ to the gram', () => {
    expect(start([WATER, PLASTER, LIGHT])).toEqual([120, 200, 25]);
    expect(start([WATER, PLASTER, grain({ grainVolume: 0.01 })])).toEqual([120, 200, 2000]);
  });

  it('without pozzolans, colours and what is dosed, and without what is not open', () => {
    const others = (['pozzolan', 'pigment', 'admixture', 'fibre'] as const).map((kind) => grain({ kind }));
    expect(start([WATER, PLASTER, ...others])).toEqual([120, 200, 0, 0, 0, 0]);
    expect(start([WATER, PLASTER, CEMENT], [undefined, 0, 1])).toEqual([60, 0, 200]);
    expect(start([WATER, PLASTER, SAND], [undefined, undefined, 0])).toEqual([120, 200, 0]);
  });

  it('with a fifth of the mould in water at least and the whole of it at most, less what the grains bring', () => {
    expect(start([WATER, SAND])).toEqual([60, 200]);
    expect(start([WATER, grain({ kind: 'gypsum', family: 'gypsum', demand: 5 })])).toEqual([300, 200]);
    expect(start([WATER, PLASTER, grain({ freeWater: 0.1 })])).toEqual([100, 200, 200]);
    expect(start([WATER, PLASTER, grain({ freeWater: -0.1 })])).toEqual([140, 200, 200]);
  });

  it('from nothing where nothing is open, and without water where there is none', () => {
    expect(start([])).toEqual([]);
    expect(start([PLASTER, SAND])).toEqual([200, 200]);
    expect(start([PLASTER], [0])).toEqual([0]);
  });
});
