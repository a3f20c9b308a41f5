import { hotSetting, LATE_ETTRINGITE } from '../science/hot-setting.js';
import { meetsWater, type RiskCase, type Screen } from './risk.js';

/** What makes a piece set cooler. */
const COOLER =
  'Sand in it, slag or pozzolan for some of the cement, a thinner or smaller piece and a cool room keep it cooler';

/** Pieces that get too hot as they set: late ettringite in portland, boiling water in any. */
export const overheating: Screen = (mix: RiskCase) => {
  const { families, binder } = mix.state.amounts;
  const peak = mix.value('likely-peak');
  if (binder <= 0 || peak === null) return null;
  const { ettringite, boiling } = hotSetting({
    peak,
    portlandShare: families.portland / binder,
    pozzolanRatio: mix.value('pozzolan-to-cement') ?? 0,
  });
  if (!ettringite && !boiling) return null;
  const wet = meetsWater(mix);
  const heat = boiling
    ? `It comes near boiling inside as it sets (about ⟦${Math.round(peak)} °C⟧ if its water did not boil): steam, and cooling after it, may crack it.`
    : `It may get to about ⟦${Math.round(peak)} °C⟧ inside as it sets.`;
  const { plain, withPozzolan } = LATE_ETTRINGITE;
  const later = ettringite
    ? ` Portland cement that was hotter than ⟦${plain} °C|160 °F⟧ (⟦${withPozzolan} °C|185 °F⟧ with at least a quarter as much pozzolan) can swell and crack months later where it gets wet${wet ? ', as this piece will' : ': keep it dry'}.`
    : '';
  return {
    id: 'hot-setting',
    level: boiling || wet ? 'high' : 'some',
    text: `${heat}${later} ${COOLER}; do not wrap it.`,
    models: ['hot-setting', 'semi-adiabatic'],
    source: 'limits for mass concrete of ACI 301 and a road authority (looked up); near boiling is ours',
  };
};
