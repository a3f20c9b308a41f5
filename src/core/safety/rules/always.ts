import { find, holdsSilica, isHemihydrate, listed } from '../groups.js';
import type { Rule } from '../rule.js';

/** Raised for every blend, and for what is left over of it. */
export const ALWAYS_RULES: readonly Rule[] = [
  {
    id: 'work-place',
    title: 'Goggles, gloves, air, and no kitchen',
    text:
      'Goggles and waterproof gloves on before the bag is opened. Work outdoors or with a window open, not in a kitchen ' +
      'or bedroom. No food, drink or smoking; wash hands before any of it, and wash work clothes apart. Keep children ' +
      'and animals away until all is cleaned up.',
    short: 'Goggles and gloves before the bag is opened; moving air, no kitchen, no food, no children.',
    defer: 'dust',
    from: ['common-practice', 'hse-cis26'],
    when: () => ({ severity: 'caution', because: 'always' }),
  },
  {
    id: 'no-slurry-in-drains',
    title: 'Nothing down the drain',
    text: ({ region }) =>
      'No slurry, wash water or leftover down a sink, toilet, gutter or onto soil: it sets in the pipe, under water too, ' +
      'and at a pH near 12 it kills fish and plants. Wipe tools with card, let leftovers harden and bin them, let the ' +
      'wash water settle for a day and use it for the next wash. ' +
      (region === 'US'
        ? 'Dispose of what is left by your county’s rules.'
        : 'Dispose of what is left by your council’s or municipality’s rules.'),
    short: 'Nothing down the drain: let leftovers harden, settle and reuse the wash water.',
    defer: 'waste',
    from: ['epa-washout', 'common-practice'],
    regional: true,
    when: () => ({ severity: 'caution', because: 'always' }),
  },
  {
    id: 'no-dry-sweeping',
    title: 'No dry sweeping',
    text: ({ region }) =>
      'Never sweep powder or sanding dust dry, and never blow it off bench or clothes with air. Wipe it up wet or use a ' +
      'vacuum cleaner with a HEPA filter. ' +
      (region === 'US'
        ? 'For silica dust at work this is the law (29 CFR 1910.1053 and 1926.1153).'
        : 'For silica dust at work the rules on carcinogens ask the same.'),
    short: 'Never sweep dry or blow dust off: wipe up wet or use a HEPA vacuum cleaner.',
    defer: 'dust',
    from: ['osha-silica-housekeeping'],
    regional: true,
    when: ({ facts }) => {
      const silica = find(facts, holdsSilica);
      return silica
        ? { severity: 'warn', because: `may hold crystalline silica: ${listed(silica)}` }
        : { severity: 'caution', because: 'always' };
    },
  },
  {
    id: 'gypsum-scrap',
    title: 'Plaster scrap',
    text: ({ region }) =>
      'Buried or composted with food and garden waste, plaster gives off hydrogen sulphide, a poisonous gas. Keep scrap ' +
      'apart, dry and bagged. ' +
      (region === 'US'
        ? 'Ask your landfill how it takes gypsum.'
        : 'Many European landfills take gypsum only in a cell of its own: ask yours.'),
    short: 'Keep plaster scrap out of compost, soil and food waste: it gives off poisonous gas.',
    defer: 'waste',
    from: ['gypsum-landfill'],
    regional: true,
    when: ({ facts }) => {
      const found = find(facts, isHemihydrate);
      return found && { severity: 'info', because: listed(found) };
    },
  },
];
