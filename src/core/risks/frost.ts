import { FROST, frostVerdict } from '../science/frost.js';
import { percent, type Risk, type RiskCase, type Screen } from './risk.js';

/** Share of the binder from which plaster decides: how it stands frost is a caution (gypsum-and-water). Ours. */
export const PLASTER_DECIDES = 0.5;

const risk = (level: Risk['level'], text: string, source: string): Risk => ({
  id: 'frost',
  level,
  text,
  models: ['frost', 'k-value'],
  source,
});

const STANDARD = 'EN 206-1:2000, Table F.1 (looked up), which is for concrete; a mortar’s air is from memory';
const SHELTER = 'let water run off, and take it in or keep it dry in frost';

/** Air that admixtures and polymers bring in, beyond what pouring traps. */
const entrainedAir = ({ world, state }: RiskCase): number =>
  Math.max(0, state.air - world.model(`air-${world.conditions.pour}`));

/** Cement and lime that stand out in frost. */
export const freezing: Screen = (mix) => {
  const soaked = mix.conditions.service === 'wet' || mix.uses.includes('planter');
  const outside = mix.uses.includes('outdoor') || mix.uses.includes('planter');
  if (!soaked && !outside) return null;
  const { binder, families, base } = mix.state.amounts;
  if (binder <= 0 || families.gypsum >= PLASTER_DECIDES * binder) return null;
  if (base.cement <= families.lime + families['natural-hydraulic-lime']) {
    const text = `Lime hardens slowly and frost breaks it where it is wet: ${SHELTER}, its first winter above all.`;
    return risk(soaked && outside ? 'high' : 'some', text, 'common practice, no source');
  }
  const waterToCement = mix.value('water-to-binder-k');
  // Grains that drink all the water leave none to speak of.
  if (waterToCement === null || waterToCement <= 0) return null;
  const air = entrainedAir(mix);
  const verdict = frostVerdict({ waterToCement, entrainedAir: air, soaked });
  const where = soaked ? 'a piece that stays soaked' : 'a piece that rain wets';
  const has = `water to cement ${waterToCement.toFixed(2)}`;
  const most = (soaked ? FROST.soaked : FROST.wetted).toFixed(2);
  if (verdict === 'breaks') {
    const text = `Frost may scale and break it where it is wet: ${has}, and EN 206 allows ${most} for ${where}. Less water, or ${SHELTER}.`;
    return risk(outside ? 'high' : 'some', text, STANDARD);
  }
  // A wet room has no frost: there, only what would surely break is told.
  if (!outside) return null;
  if (verdict === 'bears') {
    const aired = soaked
      ? `, with ${percent(100 * air)} of air from what is in it, by the table: weigh a mouldful to be sure`
      : '';
    const more = soaked ? 'salt asks' : 'standing water and salt ask';
    const text = `Frost: ${has} is within the ${most} of EN 206 for ${where}${aired}. Let no fresh piece freeze; ${more} for more.`;
    return risk('low', text, STANDARD);
  }
  const fine = air < 0.005 ? 'no fine air' : `${percent(100 * air)} of fine air`;
  const text = `Frost: ${has} is within the ${most} of EN 206 for ${where}, but ${fine} is in it, and ${percent(100 * FROST.air)} is asked for (a mortar wants about 9 %), or a frost test. Otherwise ${SHELTER}.`;
  return risk('some', text, STANDARD);
};
