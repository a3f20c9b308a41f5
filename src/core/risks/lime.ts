import { mostlyLime } from '../blend/state/amounts.js';
import type { Screen } from './risk.js';
import { grainShare } from './shape.js';

/** Gain over the dry weight from which it is worth a word. Ours. */
const TOLD_FROM = 0.01;

/** What slaked lime takes from the air as it turns to stone: the middle of the dry weight leaves it out. */
export const carbonating: Screen = ({ value }) => {
  const dry = value('dry-weight');
  const stone = value('carbonated-weight');
  if (dry === null || stone === null || stone - dry < TOLD_FROM * dry) return null;
  const gain = Number((stone - dry).toPrecision(2));
  return {
    id: 'carbonation',
    level: 'low',
    text: `Slaked lime takes carbon dioxide from the air as it turns to stone, within weeks where it is thin and over years where it is thick: up to ⟦${gain} g⟧ more than the dry weight told, whose likely range has some of it.`,
    models: ['stoichiometry'],
    source: 'stoichiometry; weeks to years by a literature study (abstract looked up)',
  };
};

/** Share of the solids' volume in grains from which sand holds lime: one and a half loose volumes to one of lime. Ours. */
const SANDY = 0.8;

/** Lime paste shrinks by far more than cement paste, and no law here tells by how much: only sand holds it. */
export const limeShrinking: Screen = (mix) => {
  if (!mostlyLime(mix.state.amounts)) return null;
  const sandy = grainShare(mix) >= SANDY;
  return {
    id: 'lime-shrinkage',
    level: sandy ? 'some' : 'high',
    text: sandy
      ? 'Lime shrinks as it dries: dry it slowly, out of sun and draught, in thin casts.'
      : 'Lime paste shrinks and cracks as it dries, far more than cement does: two to three parts of sand to one of lime, by volume, hold it together. As it is it may crack apart.',
    models: [],
    source: 'common practice, no source',
  };
};
