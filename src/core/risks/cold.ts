import { FRESH_COLD, tooColdForFresh } from '../science/frost.js';
import { PLASTER_DECIDES } from './frost.js';
import type { Screen } from './risk.js';

/** A fresh piece in a cold room: it hardly hardens, and must not freeze. */
export const chilled: Screen = ({ conditions, state }) => {
  const { binder, families } = state.amounts;
  const room = conditions.temperature;
  if (binder <= 0 || !tooColdForFresh(room)) return null;
  const { least, thin, bearsFrost } = FRESH_COLD;
  const cold = `A room of ⟦${Number(room.toPrecision(2))} °C⟧ is cold for a fresh piece`;
  if (families.gypsum >= PLASTER_DECIDES * binder) {
    return {
      id: 'fresh-cold',
      level: 'some',
      text: `${cold}: plaster sets in it, but ice in the pores breaks what is still wet. Never let it freeze; dry it in a warmer room.`,
      models: ['set-temperature', 'drying-first-order'],
      source: 'common practice, no source',
    };
  }
  return {
    id: 'fresh-cold',
    level: 'high',
    text:
      `${cold}: below ⟦${least} °C|40 °F⟧ cement and lime set and harden very slowly, and times and strength told for it are not checked there. ` +
      `Where it freezes before about ⟦${bearsFrost} MPa|500 psi⟧ it may lose half its strength for good. ` +
      `Let it set and harden in a warmer room, ⟦${thin} °C|55 °F⟧ or more for thin pieces.`,
    models: ['fresh-cold', 'set-temperature', 'equivalent-age'],
    source: 'ACI 306, as a handbook and a trade page tell it (looked up), for concrete of portland cement',
  };
};
