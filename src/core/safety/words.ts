import type { Region } from './caution.js';
import type { Person } from './facts.js';

/** Respirator words: the United States rate filters N95 to P100, Europe rates masks FFP1 to FFP3. */
export const mask = (region: Region): string => (region === 'US' ? 'N95 or better' : 'FFP2 or better');
export const silicaMask = (region: Region): string =>
  region === 'US' ? 'a fitted half mask with P100 filters' : 'a fitted FFP3 mask or a half mask with P3 filters';
/** The same in a few words, for one-line cautions. */
export const silicaMaskShort = (region: Region): string =>
  region === 'US' ? 'fitted P100 half mask' : 'fitted FFP3 or P3 mask';

/** Added to a caution that is raised one step because of who is in the room. */
export const PERSON_NOTES: Readonly<Record<Person, { readonly who: string; readonly note: string }>> = {
  'child-present': {
    who: 'a child will be present',
    note: 'A child will be present: keep children out of the room and away from powder, wet mix and fresh casts, or do not mix now.',
  },
  pregnant: {
    who: 'someone is pregnant',
    note: 'Someone is pregnant: let someone else weigh and mix, and ask a doctor or midwife before any contact with it.',
  },
  asthma: {
    who: 'someone has asthma',
    note: 'Someone has asthma: let someone else weigh and mix, stay out until the dust has settled, and keep the inhaler at hand.',
  },
};

/** Ends every set, the same for every blend. */
export const CLOSING =
  'These notes do not replace the safety data sheet of the bag in your hand. It, your local rules and the advice of ' +
  'licensed professionals come first; where they are stricter, follow them. When in doubt, do not mix.';
