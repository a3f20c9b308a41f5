import { shrinkingShare } from '../blend/state/amounts.js';
import { GYPSUM_DRYING, gypsumDryingVerdict } from '../science/drying.js';
import {
  type CrackReason,
  crackLevel,
  crackReasons,
  PASTE_LIKE,
  settingGrowth,
  shrinkageClass,
} from '../science/shrinkage.js';
import { percent, type RiskCase, type Screen } from './risk.js';

const CRACK_WORDS: Readonly<Record<CrackReason, string>> = {
  rich: 'it is rich in binder (under 35 % of the solids’ volume is grains)',
  wet: 'it holds much water',
  'uneven-walls': 'thick and thin walls dry at different speeds',
  'dried-early': 'it is let dry within a day',
};

const DEFAULT_COVER = 24;

/** Share of the solids' volume that is grains. */
export function grainShare({ world, state }: RiskCase): number {
  let grains = 0;
  let solids = 0;
  world.materials.forEach((m, i) => {
    const volume = state.grams[i]! * m.grainVolume;
    solids += volume;
    if (m.kind === 'sand' || m.kind === 'light-aggregate') grains += volume;
  });
  return solids > 0 ? grains / solids : 0;
}

/** Shrinkage cracks: rich, wet, uneven or dried too soon. */
export const cracking: Screen = (mix) => {
  const shrinkage = mix.value('drying-shrinkage');
  const waterToBinder = mix.value('water-to-binder');
  if (shrinkage === null || waterToBinder === null) return null;
  const { conditions, state } = mix;
  const covered = (state.water.dryFromHours - state.water.demouldHours) / DEFAULT_COVER;
  const reasons = crackReasons({
    aggregate: grainShare(mix),
    waterToBinder,
    wallRatio: conditions.wall / Math.min(conditions.wall, conditions.thinnestWall ?? conditions.wall),
    coverDays: covered,
    shrinkingShare: shrinkingShare(state.amounts),
  });
  const microstrain = 10_000 * shrinkage;
  const like = microstrain >= PASTE_LIKE ? 'as neat cement paste does' : `${shrinkageClass(microstrain)} for a mortar`;
  const size = `It shrinks about ${percent(shrinkage)} as it dries (${like})`;
  const level = crackLevel(microstrain, reasons);
  const sand = microstrain >= PASTE_LIKE ? ' Sand or stone in it holds it back.' : '';
  return {
    id: 'cracking',
    level,
    text:
      reasons.length > 0
        ? `${size}, and ${reasons.map((r) => CRACK_WORDS[r]).join('; ')}.${sand}`
        : level === 'low'
          ? `${size}; nothing else speaks for cracks.`
          : `${size}: that alone may crack it.${sand}`,
    models: ['drying-shrinkage'],
    source: 'Pickett’s law (from memory); the reasons are common practice, no source',
  };
};

/** Share of the binder from which plaster's expansion is that of the piece. Ours. */
const MOSTLY_PLASTER = 0.5;
/** Setting growth is shown on so much: mm, and in. */
const SHOWN_LENGTH = { metric: 100, us: 10 } as const;

/** Setting expansion of plaster. */
export const growing: Screen = ({ world, state }) => {
  const { families, binder } = state.amounts;
  if (binder <= 0 || families.gypsum < MOSTLY_PLASTER * binder) return null;
  const expansion = world.model('gypsum-expansion');
  const { metric, us } = SHOWN_LENGTH;
  const metricWords = `${settingGrowth(metric, expansion).toFixed(1)} mm in ${metric} mm`;
  const usWords = `${settingGrowth(us, expansion).toFixed(2)} in in ${us} in`;
  return {
    id: 'setting-expansion',
    level: 'low',
    text: `Plaster grows as it sets: about ${percent(expansion)} (0.08 to 0.39 %), ⟦${metricWords}|${usWords}⟧. A stiff core may be gripped; sand and more water make it less.`,
    models: ['setting-expansion'],
    source: 'lists of plasters and a dental lecture (looked up)',
  };
};

/** How warm a gypsum piece may be dried. */
export const driedTooHot: Screen = ({ conditions, state }) => {
  if (state.amounts.hemihydrate <= 0) return null;
  const verdict = gypsumDryingVerdict(conditions.temperature, conditions.humidity);
  const { adviceLow, adviceHigh, ceiling } = GYPSUM_DRYING;
  return {
    id: 'drying-heat',
    level: verdict === 'refuse' ? 'high' : verdict === 'warn' ? 'some' : 'low',
    text: `Dry plaster in moving air at ⟦${adviceLow} to ${adviceHigh} °C⟧ at most, never above ⟦${ceiling} °C⟧: hotter drives out the water that holds it together.`,
    models: ['gypsum-drying-limit'],
    source: 'oven practice of ASTM C472 (from memory), a heat study and a potters’ list (looked up)',
  };
};

/** A damp piece near heat. */
export const steaming: Screen = ({ conditions, value }) => {
  if (conditions.service !== 'warm') return null;
  const days = value('drying-days');
  const until = days === null ? '' : ` (about ${Math.ceil(days)} days in this room)`;
  return {
    id: 'steam',
    level: 'some',
    text: `Water left in the pores turns to steam near heat and can crack or burst the piece: dry it to constant weight first${until}, then warm it slowly.`,
    models: ['constant-weight', 'drying-first-order'],
    source: 'steam spalling of concrete (see the cautions); the rule of constant weight was looked up',
  };
};
