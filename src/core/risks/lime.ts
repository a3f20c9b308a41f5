import type { Screen } from './risk.js';

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
