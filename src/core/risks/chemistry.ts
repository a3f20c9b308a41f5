import { flashReasons } from '../blend/state/amounts.js';
import { c3aPercent } from '../materials/cement-phases.js';
import { isGap } from '../materials/gap.js';
import { givesSulfate } from '../materials/sulfate.js';
import { type Group, isCsa, isGypsum, isLime, isPortland } from '../safety/groups.js';
import { sulfateOutcome } from '../safety/sulfate-outcome.js';
import { alkaliGlassRisk } from '../science/alkali-glass.js';
import { bloomRisk } from '../science/efflorescence.js';
import { CITRIC_ACID_ON_PLASTER, citricAcidVerdict } from '../science/setting.js';
import { so3ForFullEttringite } from '../science/stoichiometry.js';
import { THAUMASITE_BELOW } from '../science/sulfate.js';
import { gramsOf, percent, percentAbove, type Risk, type RiskCase, type Screen, tagged } from './risk.js';

/** Grams of SO3 that a gram of C3A binds as ettringite, and what the blend holds, [g]. */
function sulfateBalance(mix: RiskCase): { readonly held: number; readonly taken: number } {
  const sum = (of: (p: RiskCase['parts'][number]) => number): number => mix.parts.reduce((s, p) => s + of(p), 0);
  const c3a = sum((p) => (p.grams * (c3aPercent(p.material) ?? 0)) / 100);
  const held = sum((p) => {
    const { so3 } = p.material;
    return givesSulfate(p.material) && so3 !== undefined && !isGap(so3) ? (p.grams * so3.value) / 100 : 0;
  });
  return { held, taken: so3ForFullEttringite(c3a).so3 };
}

/** Plaster or other sulfate with portland: the sulfate screen, with the sulfate at hand against what the C3A can take. */
export const swelling: Screen = (mix) => {
  const outcome = sulfateOutcome(mix.parts, mix.conditions, mix.uses);
  if (outcome === null || outcome.verdict === 'pass') return null;
  const { held, taken } = sulfateBalance(mix);
  const balance =
    taken <= 0
      ? ''
      : held >= taken
        ? ` It is ${Number((held / taken).toPrecision(2))} times what the C3A of the cement can turn into ettringite: all of that aluminate may swell.`
        : ` The C3A of the cement could turn all of it into ettringite.`;
  const verdict =
    outcome.verdict === 'refuse'
      ? 'Such blends swelled and cracked, or were never tested sound.'
      : 'Blends with this much pozzolan stayed sound in tests; keep the piece dry, and watch a test bar for 28 to 90 days.';
  const cold = outcome.reasons.includes('thaumasite')
    ? ` Wet and below ⟦${THAUMASITE_BELOW} °C⟧, the carbonate in it lets thaumasite turn the cement to mush.`
    : '';
  return {
    id: 'swelling',
    level: outcome.verdict === 'refuse' ? 'high' : outcome.verdict === 'warn' ? 'some' : 'low',
    text: `${mix.state.amounts.hemihydrate > 0 ? 'Plaster' : 'Added sulfate'} with portland cement: ${percent(mix.value('sulfate') ?? outcome.so3)} sulfate (limit for cement ${percent(outcome.limit)}).${balance} ${verdict}${cold}`,
    models: ['sulfate-screen', 'so3-limit', 'stoichiometry'],
    source: 'an engineering screen of ours, not a standard, on published blends; limit of ASTM C150',
  };
};

const FLASH_WORDS = {
  'portland-aluminate': 'portland is 20 to 80 % of portland and aluminate cement together',
  'aluminate-sulfate': 'plaster or another sulfate stands beside aluminate cement',
  'aluminate-lime': 'lime stands beside aluminate cement',
} as const;

/** Flash set of calcium aluminate cement with portland, plaster or another sulfate, or lime. */
export const flashing: Screen = (mix) => {
  const reasons = flashReasons(mix.state.amounts);
  if (reasons.length === 0) return null;
  return {
    id: 'flash-set',
    level: 'high',
    text: `It may set in the bowl: ${reasons.map((r) => FLASH_WORDS[r]).join('; ')}. No set time is told for it.`,
    models: ['flash-set'],
    source: 'a trade article and a handbook of thermal analysis (looked up); sulfates other than plaster are ours',
  };
};

/** Portland, lime, plaster or gypsum beside CSA cement; less than a hundredth of it is a trace. */
export const quickened: Screen = (mix) => {
  const csa = gramsOf(mix, (p) => isCsa(p.material));
  const beside = (belongs: Group): boolean =>
    gramsOf(mix, (p) => belongs(p.material) && !isCsa(p.material)) >= 0.01 * csa;
  if (csa <= 0) return null;
  const partners = [
    ...(beside(isPortland) ? ['portland cement'] : []),
    ...(beside(isLime) ? ['lime'] : []),
    ...(beside(isGypsum) ? ['plaster or gypsum'] : []),
  ];
  if (partners.length === 0) return null;
  return {
    id: 'csa-mixed',
    level: beside(isLime) || beside(isGypsum) ? 'high' : 'some',
    text: `CSA cement with ${partners.join(', ')}: it may stiffen within minutes, and may swell and crack later where it gets damp. The times and the strength told are no surer than a test cup: try one first, and go by the data sheet of the cement.`,
    models: ['set-mixing', 'strength-laws'],
    source: 'papers on CSA with gypsum and with portland (abstracts looked up); lime from memory; the trace is ours',
  };
};

/** g of citric acid in percent of the plaster; null without plaster. */
export function citricOnPlaster(mix: Pick<RiskCase, 'parts'>): number | null {
  const total = (belongs: (p: RiskCase['parts'][number]) => boolean): number =>
    mix.parts.reduce((sum, p) => sum + (belongs(p) ? p.grams : 0), 0);
  const plaster = total((p) => p.material.binder?.family === 'gypsum');
  const acid = total((p) => p.material.id === 'citric-acid');
  return plaster > 0 && acid > 0 ? (100 * acid) / plaster : null;
}

/** Citric acid beyond what plaster bears. */
export const overRetarded: Screen = (mix) => {
  const dose = citricOnPlaster(mix);
  if (dose === null) return null;
  const verdict = citricAcidVerdict(dose);
  if (verdict === 'ok') return null;
  const limit = CITRIC_ACID_ON_PLASTER[verdict];
  const harm = verdict === 'refuse' ? 'the paste may never become firm' : 'the piece loses strength';
  return {
    id: 'over-retarded',
    level: verdict === 'refuse' ? 'high' : 'some',
    text: `Citric acid at ${percentAbove(dose, limit)} of the plaster: above ${percent(limit)} ${harm}.`,
    models: ['citric-clamp'],
    source: 'a supplier’s sheet (looked up); studies disagree on strength',
  };
};

const DARK = /black|brown|umber|sienna|red|blue|ultramarine/;

/** White bloom on a piece that holds lime. */
export const blooming: Screen = (mix) => {
  const { families, binder } = mix.state.amounts;
  if (binder <= 0) return null;
  const limeBearing = families.portland + families.lime + families['natural-hydraulic-lime'];
  const waterToBinder = mix.value('water-to-binder');
  if (limeBearing < 0.02 * binder || waterToBinder === null) return null;
  const level = bloomRisk({
    limeBearingShare: limeBearing / binder,
    waterToBinder,
    pozzolanRatio: pozzolanRatio(mix),
    service: mix.conditions.service,
    dark: mix.parts.some((p) => p.material.kind === 'pigment' && p.grams > 0 && DARK.test(p.material.id)),
  });
  return {
    id: 'bloom',
    level: level === 'medium' ? 'some' : level,
    text:
      level === 'low'
        ? 'White bloom is not very likely.'
        : 'White bloom may come out of it: less water, some pozzolan, slow even drying and a sealer help.',
    models: ['bloom'],
    source: 'common practice, no source; the points are ours',
  };
};

const pozzolanRatio = (mix: RiskCase): number => mix.value('pozzolan-to-cement') ?? 0;

const GLASS_GRAINS = new Set(['sand', 'light-aggregate']);

/** Glass grains in portland cement. */
export const glassSwelling: Screen = (mix) => {
  const verdict = alkaliGlassRisk({
    glassSand: gramsOf(mix, (p) => tagged('glass')(p) && GLASS_GRAINS.has(p.material.kind)),
    glassPowder: gramsOf(mix, (p) => tagged('glass')(p) && p.material.kind === 'filler'),
    portland: mix.state.amounts.families.portland,
    pozzolanRatio: pozzolanRatio(mix),
    service: mix.conditions.service,
  });
  if (verdict === 'none') return null;
  return {
    id: 'glass',
    level: verdict === 'warn' ? 'high' : 'low',
    text:
      verdict === 'warn'
        ? 'Glass grains may swell and crack it where it gets damp or warm: a quarter of the cement in silica fume, metakaolin or glass powder usually quietens them.'
        : 'Glass grains with portland: safe enough while dry, or with the pozzolan in it. A test piece kept wet tells.',
    models: ['alkali-glass'],
    source: 'a rule of ours; mortar bars (ASTM C1260, C1567) are the test (from memory)',
  };
};

/** Calcium aluminate cement where it is warm or damp. */
export const converting: Screen = (mix) => {
  const { families } = mix.state.amounts;
  if (families.aluminate <= 0) return null;
  const stays = mix.conditions.service === 'dry-indoor';
  const risk: Risk = {
    id: 'conversion',
    level: stays ? 'low' : 'some',
    text: 'Calcium aluminate cement changes its crystals with warmth and damp and loses strength: the strength told is the lasting one. Keep water to cement at 0.40 or below.',
    models: ['stoichiometry'],
    source: 'conversion: civil engineering pages (looked up); the limit of EN 14647 from memory',
  };
  return risk;
};
