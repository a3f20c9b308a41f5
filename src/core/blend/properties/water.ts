import { isAggregate, isBinder } from '../numbers.js';
import { FROM_NOTHING, IDENTITY, type Property } from '../property.js';
import { pasteVolume } from '../state/state.js';
import type { World } from '../world.js';

const freeWater = (world: World): number[] => world.materials.map((m) => m.freeWater);

export const waterToBinder: Property = {
  id: 'water-to-binder',
  stateless: true,
  name: 'water-to-binder',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'mixing water over all cement, gypsum, lime and pozzolan; more water is weaker and lighter',
  restsOn: 'weighed amounts; water in emulsions and damp sand counts, what grains drink does not',
  models: ['water-to-binder', 'emulsion-water', 'moisture-correction'],
  digits: 3,
  missing: (_w, s) => (s.amounts.binder > 0 ? null : 'no binder'),
  form: (world) => ({
    numerator: freeWater(world),
    denominator: world.materials.map((m) => (isBinder(m) ? m.solids : 0)),
    link: FROM_NOTHING,
  }),
};

export const waterToBinderK: Property = {
  id: 'water-to-binder-k',
  name: 'water-to-binder, k-value',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'as the standards count it: pozzolan and slag count by their k-value, up to their cap',
  restsOn: 'k-values and caps of EN 206; gypsum and limes count whole (ours)',
  models: ['k-value'],
  digits: 3,
  missing: (_w, s) => (s.amounts.binder > 0 ? null : 'no binder'),
  form: (world, state) => ({
    numerator: freeWater(world),
    denominator: world.materials.map((m, i) => (m.family !== null ? m.solids : state.counted[i]!)),
    link: FROM_NOTHING,
  }),
};

export const waterToPlaster: Property = {
  id: 'water-to-plaster',
  stateless: true,
  name: 'water-to-plaster',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'mixing water over gypsum plaster',
  restsOn: 'weighed amounts',
  models: ['water-to-binder'],
  digits: 3,
  missing: (_w, s) => (s.amounts.families.gypsum > 0 ? null : 'no gypsum binder'),
  form: (world) => ({
    numerator: freeWater(world),
    denominator: world.materials.map((m) => (m.family === 'gypsum' ? m.solids : 0)),
    link: FROM_NOTHING,
  }),
};

export const waterToCement: Property = {
  id: 'water-to-cement',
  name: 'water left for the cement',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'water over cement after the gypsum has taken its own',
  restsOn: 'stoichiometry of gypsum: 0.186 of the hemihydrate by weight comes first',
  models: ['stoichiometry', 'water-to-binder'],
  digits: 3,
  missing: (_w, s) => (s.amounts.base.cement > 0 ? null : 'no cement'),
  form: (world, state) => {
    const bound = state.water.boundAt(24);
    return {
      numerator: world.materials.map((m, i) => m.freeWater - (m.family === 'gypsum' ? bound[i]! : 0)),
      denominator: world.materials.map((m) =>
        m.family === 'portland' || m.family === 'csa' || m.family === 'aluminate' ? m.solids : 0,
      ),
      link: FROM_NOTHING,
    };
  },
};

export const waterToPowder: Property = {
  id: 'water-to-powder',
  stateless: true,
  name: 'water-to-powder',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'water poured in over everything dry, as a bag tells it: no chemistry, no grains that drink',
  restsOn: 'weighed amounts; water in emulsions counts',
  models: ['water-to-binder'],
  digits: 3,
  missing: (w, s) => (w.materials.some((m, i) => !m.liquid && s.grams[i]! > 0) ? null : 'nothing dry'),
  form: (world) => ({
    numerator: world.materials.map((m) => (m.liquid ? 1 - m.solids : 0)),
    denominator: world.materials.map((m) => (m.liquid ? 0 : 1)),
    link: IDENTITY,
  }),
};

export const flow: Property = {
  id: 'flow',
  name: 'flow index',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'water over what the powders want: below 0.9 stiff, about 1 pours, above 1.2 bleeds',
  restsOn: 'water demands of the table; bags differ, so pour a test cup',
  models: ['flow-index'],
  digits: 2,
  missing: (_world, { amounts }) => (amounts.water > 0 ? null : 'no water that would let it flow'),
  form: (world, state) => ({ numerator: freeWater(world), denominator: state.demand, link: IDENTITY }),
};

export const pasteToVoids: Property = {
  id: 'paste-to-voids',
  name: 'paste over voids',
  quantity: 'ratio',
  unit: 'cm3/cm3',
  meaning: 'paste for each volume of holes between the grains; below 1 the piece has gaps',
  restsOn: 'particle and loose densities of the sands',
  models: ['excess-paste', 'compressible-packing', 'void-content'],
  digits: 2,
  missing: (_w, s) => (s.skeleton.grains > 0 ? null : 'no sand or light aggregate'),
  form: (world, state) => ({
    numerator: pasteVolume(world),
    denominator: world.materials.map((m) => (isAggregate(m) ? m.grainVolume * state.skeleton.voidRatio : 0)),
    link: FROM_NOTHING,
  }),
};

export const sandToBinder: Property = {
  id: 'sand-to-binder',
  stateless: true,
  name: 'sand-to-binder',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'sand and filler for each part of binder, by weight',
  restsOn: 'weighed amounts',
  models: ['mass-balance'],
  digits: 2,
  missing: (_w, s) => (s.amounts.binder > 0 ? null : 'no binder'),
  form: (world) => ({
    numerator: world.materials.map((m) => (m.kind === 'sand' || m.kind === 'filler' ? m.solids : 0)),
    denominator: world.materials.map((m) => (isBinder(m) ? m.solids : 0)),
    link: IDENTITY,
  }),
};
