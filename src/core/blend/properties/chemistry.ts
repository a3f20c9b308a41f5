import { givesSulfate } from '../../materials/sulfate.js';
import { portlandBorne, SOUND_POZZOLAN } from '../../science/sulfate.js';
import { isBinder, type MaterialNumbers } from '../numbers.js';
import { type Form, IDENTITY, type Property, ratioOf } from '../property.js';
import type { BlendState } from '../state/state.js';
import { dot, sum, type World } from '../world.js';

const sulfateForm = ({ materials }: World): Form => ({
  numerator: materials.map((m) => (givesSulfate(m) ? 100 * m.so3 : 0)),
  denominator: materials.map((m) => (m.kind === 'cement' || m.kind === 'gypsum' ? m.solids : 0)),
  link: IDENTITY,
});

/** The sulfate is told where portland is to bear it; a limit is judged by what the binder holds all the same, so that is told. */
function withoutPortland(world: World, { grams }: BlendState): string {
  const form = sulfateForm(world);
  const percent = ratioOf(form, grams);
  if (!Number.isNaN(percent)) return `${Number(percent.toPrecision(2))} %, but no portland cement`;
  return dot(form.numerator, grams) > 0 ? 'sulfate, but no cement' : 'no portland cement';
}

export const sulfate: Property = {
  id: 'sulfate',
  stateless: true,
  name: 'sulfate of cement and plaster (SO3)',
  quantity: 'percent',
  unit: '%',
  meaning:
    'SO3 over cement and plaster by weight, pozzolan not counted; with portland in the blend, more than about 3 % may crack it when damp',
  restsOn: 'SO3 of cement and gypsum; the screen is ours, not a standard',
  models: ['sulfate-screen', 'so3-limit'],
  digits: 2,
  missing: (world, s) => (s.amounts.families.portland > 0 ? null : withoutPortland(world, s)),
  form: sulfateForm,
};

/** A gram of either pozzolan counts for the portland it bears, so that the sulfate screen has enough of any mixture at 0.25. */
export const pozzolanToCement: Property = {
  id: 'pozzolan-to-cement',
  sloped: true,
  name: 'reactive pozzolan over portland',
  quantity: 'ratio',
  unit: 'g/g',
  meaning: 'what keeps plaster and portland together from swelling: 0.25 or more has stayed sound in tests',
  restsOn: 'published blends that stayed sound in water',
  models: ['sulfate-screen'],
  digits: 2,
  missing: (world, { amounts, grams }) => {
    if (amounts.families.portland > 0) return null;
    const any = sum(world, grams, (m) => m.activity * m.solids) > 0;
    return any ? 'pozzolan, but no portland cement' : 'no portland cement';
  },
  form: (world, { grams }) => {
    const siliceous = sum(world, grams, (m) => (m.natural ? 0 : m.activity * m.solids));
    const natural = sum(world, grams, (m) => (m.natural ? m.activity * m.solids : 0));
    const borne = portlandBorne(siliceous, natural);
    const worth = (m: MaterialNumbers): number =>
      SOUND_POZZOLAN.siliceous * (m.natural ? borne.natural : borne.siliceous);
    return {
      numerator: world.materials.map((m) => worth(m) * m.activity * m.solids),
      denominator: world.materials.map((m) => (m.family === 'portland' ? m.solids : 0)),
      link: IDENTITY,
    };
  },
};

export const pigmentShare: Property = {
  id: 'pigment-share',
  stateless: true,
  name: 'pigment of the binder',
  quantity: 'percent',
  unit: '%',
  meaning: 'the published ceiling is 10 % of the cement; past about 6 % the colour hardly deepens',
  restsOn: 'weighed amounts; ceiling ASTM C979',
  models: ['pigment-limit'],
  digits: 2,
  missing: (_w, s) => (s.amounts.binder > 0 ? null : 'no binder'),
  form: (world) => ({
    numerator: world.materials.map((m) => (m.kind === 'pigment' ? 100 * m.solids : 0)),
    denominator: world.materials.map((m) => (isBinder(m) ? m.solids : 0)),
    link: IDENTITY,
  }),
};

export const polymerShare: Property = {
  id: 'polymer-share',
  stateless: true,
  name: 'polymer of the powder',
  quantity: 'percent',
  unit: '%',
  meaning: 'polymer left when dry, over everything dry beside it: what makes a cast tough',
  restsOn: 'weighed amounts and the solids of the polymer',
  models: ['mass-balance'],
  digits: 2,
  missing: (w, s) => (w.materials.some((m, i) => !m.liquid && s.grams[i]! > 0) ? null : 'nothing dry'),
  form: (world) => ({
    numerator: world.materials.map((m) => (m.kind === 'polymer' ? 100 * m.solids : 0)),
    denominator: world.materials.map((m) => (m.liquid || m.kind === 'polymer' ? 0 : 1)),
    link: IDENTITY,
  }),
};
