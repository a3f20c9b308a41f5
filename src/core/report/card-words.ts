import type { Pour } from '../blend/conditions.js';
import type { Method } from '../shop/card-method.js';
import type { StepId, Vessel } from '../shop/card-order.js';
import type { CardResult } from './card-schema.js';

/** The words of the card. What they advise is common practice, no source. */

export function vesselName(vessel: Vessel, method: Method): string {
  switch (vessel) {
    case 'water':
      return method.into === 'water' ? 'mixing bowl' : 'jug';
    case 'powder':
      return method.into === 'water' ? 'dry tub' : 'mixing bowl';
    case 'grains':
      return 'tub for light grains';
    case 'fibres':
      return 'cup for fibres';
  }
}

export function weighingText(id: StepId, method: Method): string {
  switch (id) {
    case 'water':
      return 'Water first.';
    case 'dissolve':
      return 'Stir in, until nothing lies at the bottom.';
    case 'colour':
      return 'Whisk the colour in, until no speck floats.';
    case 'wet':
      return 'Sprinkle the water over the light grains, toss them, and let them drink while you weigh the rest.';
    case 'blend':
      return method.into === 'water'
        ? 'Everything dry into a tub; lid on, and shake to one colour.'
        : 'Everything dry into the bowl; stir to one colour, gently, so that no dust flies.';
    case 'fibres':
      return 'Fibres apart, teased loose.';
  }
}

type MixingId = CardResult['mixing'][number]['id'];

export function mixingText(id: MixingId, method: Method, pour: Pour, fills: string): string {
  switch (id) {
    case 'join':
      return method.into === 'water'
        ? 'Start the clock. Sift the powder evenly over the water, never the water over the powder.'
        : 'Start the clock. Add about three quarters of the water and mix, then the rest bit by bit.';
    case 'soak':
      return 'Leave it untouched to soak.';
    case 'mix':
      return 'Mix steadily to a smooth cream without whipping in air; scrape the sides.';
    case 'rest':
      return 'Let it rest.';
    case 'mix-again':
      return 'Mix again. No more water.';
    case 'grains':
      return 'Fold in the wetted light grains.';
    case 'fibres':
      return 'Scatter in the fibres last; stop as soon as they are spread.';
    case 'pour':
      return `Pour in a thin stream at the lowest point${POURED[pour]}.${fills}`;
  }
}

const POURED: Readonly<Record<Pour, string>> = {
  poured: '',
  tapped: '; tap the mould until no bubbles rise',
  vibrated: '; vibrate until no bubbles rise',
};

export const TIMER_NAMES: Readonly<Record<CardResult['timers'][number]['id'], string>> = {
  mixed: 'ready to pour',
  pour: 'pour by',
  left: 'time left to pour',
  demould: 'out of the mould',
  cover: 'then keep covered',
  dry: 'dry (constant weight)',
};

/** What the maker writes down, beside the weights. */
export const RECORD_FIELDS = ['date', 'room', 'powder into water at', 'no longer pours at', 'demoulded at'] as const;
export const RECORD_NOTES = ['flow by eye', 'bubbles', 'cracks', 'note'] as const;
