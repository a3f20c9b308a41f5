import type { Region } from './caution.js';
import type { Person } from './facts.js';

/** Respirator words: the United States rate filters N95 to P100, Europe rates masks FFP1 to FFP3. */
export const mask = (region: Region): string => (region === 'US' ? 'N95 or better' : 'FFP2 or better');
export const silicaMask = (region: Region): string =>
  region === 'US' ? 'a fitted half mask with P100 filters' : 'a fitted FFP3 mask or a half mask with P3 filters';
/** The same in a few words, for one-line cautions. */
export const silicaMaskShort = (region: Region): string =>
  region === 'US' ? 'fitted P100 half mask' : 'fitted FFP3 or P3 mask';

/** Why a caution was raised one step. */
export const PERSON_WORDS: Readonly<Record<Person, string>> = {
  'child-present': 'a child will be present',
  pregnant: 'someone is pregnant',
  asthma: 'someone has asthma',
};

/** Who comes before a caution; the last sentence of its text. */
export const DEFERRALS = {
  practice: 'The safety data sheet, local rules and licensed practice come first.',
  health: 'The safety data sheet, local rules and a licensed doctor come first.',
  dust: 'The safety data sheet, local rules on dust and licensed practice in work safety come first.',
  waste: 'The safety data sheet, local rules on waste and licensed disposal come first.',
  fire: 'The safety data sheet, local rules on fire and licensed practice in fire safety come first.',
  building: 'The safety data sheet, local rules on building and licensed practice in engineering come first.',
  food: 'The safety data sheet, local rules on food contact and licensed testing come first.',
} as const;
export type Deferral = keyof typeof DEFERRALS;

/** Ends every set, the same for every blend. */
export const CLOSING =
  'These notes do not replace the safety data sheet of the bag in your hand. It, your local rules and the advice of ' +
  'licensed professionals come first; where they are stricter, follow them. When in doubt, do not mix.';
