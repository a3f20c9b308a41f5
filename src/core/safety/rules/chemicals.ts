import type { CautionSeverity, Region } from '../caution.js';
import { PEOPLE } from '../facts.js';
import {
  find,
  type Group,
  holdsPreservative,
  isBinder,
  isBorate,
  isLithium,
  isMetalPigment,
  isPigment,
  isPoisonPigment,
  listed,
  percent,
  reaches,
} from '../groups.js';
import { REPRODUCTIVE_LIMIT } from '../hazard-classes.js';
import type { Case, Rule, Warning } from '../rule.js';

const limitWords = (region: Region): string =>
  region === 'US'
    ? `US limit for a mixture ${percent(REPRODUCTIVE_LIMIT.US)}`
    : `EU limit for a mixture ${percent(REPRODUCTIVE_LIMIT.EU)}`;

/** Grave from the region's limit for substances toxic to reproduction; any amount is mentioned. */
function reproductive({ facts, region }: Case, group: Group): Warning | null {
  const found = find(facts, group);
  if (!found) return null;
  const grave = reaches(found.share, REPRODUCTIVE_LIMIT[region]);
  return { severity: grave ? 'warn' : 'info', because: `${listed(found)}; ${limitWords(region)}` };
}

const isUnknown: Group = (m) => !Array.isArray(m.hazards);

/** Letters of the short line that names may take, so that it stays within 100. */
const NAMES_ROOM = 59;

/** The bags whose hazards are unknown: as many names as there is room for, the others counted. */
function unknownShort({ facts }: Case): string {
  const names = find(facts, isUnknown)!.parts.map((p) => p.material.name.replace(/ \(.*\)$/, ''));
  const first = (n: number): string => names.slice(0, n).join(', ');
  const rest = (n: number): string => (n === names.length ? '' : ` and ${names.length - n} more`);
  let n = names.length;
  while (n > 1 && (first(n) + rest(n)).length > NAMES_ROOM) n -= 1;
  const named = first(n).slice(0, NAMES_ROOM - rest(n).length);
  return `Hazardous until the data sheet is read: ${named}${rest(n)}.`;
}

/** Share of the binder that is pigment: at most 10 % by ASTM C979; above 5 % it adds little colour (common practice). */
const PIGMENT_MOST = 0.1;
const PIGMENT_USEFUL = 0.05;

function pigmentShare({ facts }: Case): Warning | null {
  const pigment = find(facts, isPigment);
  if (!pigment) return null;
  const binder = find(facts, isBinder);
  if (!binder) return { severity: 'warn', because: `${listed(pigment)}; no binder to hold it` };
  const share = pigment.grams / binder.grams;
  const severity: CautionSeverity = share > PIGMENT_MOST * (1 + 1e-9) ? 'warn' : 'info';
  return {
    severity,
    because: `pigment ${percent(share)} of the binder; ceiling ${percent(PIGMENT_MOST)}`,
    more: share > PIGMENT_USEFUL ? ['Above about 5 % more pigment adds little colour.'] : [],
  };
}

export const CHEMICAL_RULES: readonly Rule[] = [
  {
    id: 'borate-reproductive',
    title: 'Borates may harm fertility and the unborn child',
    text: ({ region }) =>
      'Borax and boric acid are classed as able to harm fertility and the unborn child. Gloves, no dust, a lid on the ' +
      'tub, and no part in it for anyone who is or may be pregnant, for schools, or for pieces meant for children. ' +
      'Citric acid or sodium citrate slow the set without it. ' +
      (region === 'US'
        ? 'In the US a mixture is classed from 0.1 %.'
        : 'In the EU a mixture is classed from 0.3 %, and from there it may not be sold to the public.'),
    short: 'Borates may harm fertility and unborn children: gloves, no dust, not for pregnant people or schools.',
    defer: 'health',
    from: ['eu-2021-849', 'clp-reproduction', 'hazcom-limits'],
    raisedFor: PEOPLE,
    regional: true,
    when: (c) => reproductive(c, isBorate),
  },
  {
    id: 'lithium-reproductive',
    title: 'Lithium carbonate may harm the unborn child',
    text: ({ region }) =>
      'The European committee for risk assessment holds that lithium carbonate may harm the unborn child, fertility and ' +
      'breast-fed children. It is harmful if swallowed, also as a medicine taken by mistake, and irritates eyes. Weigh ' +
      'grams of it with gloves and goggles, in a lidded tub, and lock the tub away. ' +
      (region === 'US'
        ? 'In the US a mixture is classed from 0.1 %.'
        : 'In the EU a mixture with such a substance is classed from 0.3 %; whether the class is law yet, look up in the data sheet.'),
    short: 'Lithium carbonate: harmful if swallowed, may harm the unborn child. Gloves, lid, locked away.',
    defer: 'health',
    from: ['rac-lithium', 'clp-reproduction', 'hazcom-limits'],
    raisedFor: PEOPLE,
    regional: true,
    when: (c) => reproductive(c, isLithium),
  },
  {
    id: 'preservative-allergy',
    title: 'Emulsions and liquid admixtures',
    text:
      'Polymer emulsions and liquid admixtures are often kept with preservatives that can cause skin allergy: wear ' +
      'gloves and look for their names on the label. Spills make floors slippery. Keep them from frost.',
    short: 'Emulsions and liquid admixtures: preservatives can cause allergy, gloves; spills are slippery.',
    defer: 'health',
    from: ['euh-208', 'common-practice'],
    regional: true,
    when: ({ facts }) => {
      const found = find(facts, holdsPreservative);
      return found && { severity: 'info', because: listed(found) };
    },
  },
  {
    id: 'poisonous-pigment',
    stops: true,
    title: 'Poisonous pigment',
    text:
      'Do not use it. Pigments of cadmium, lead, arsenic, mercury, antimony or chromate are poisonous as powder, and ' +
      'dust, wash water and sanding carry them further. Iron oxides give yellow, red, brown and black; ask for organic ' +
      'pigments that stand lime for the rest.',
    short: 'Do not use cadmium, lead, arsenic, mercury, antimony or chromate pigments. Take iron oxides.',
    defer: 'health',
    from: ['metal-pigments', 'common-practice'],
    when: ({ facts }) => {
      const found = find(facts, isPoisonPigment);
      return found && { severity: 'stop', because: listed(found) };
    },
  },
  {
    id: 'metal-pigment',
    title: 'Chromium, cobalt and other metal pigments',
    text:
      'Pigments of chromium(III), cobalt, nickel or manganese are safe only when pure: ask for a grade with a stated ' +
      'low content of hexavalent chromium and soluble metal. Wear gloves and a respirator with the powder, and never ' +
      'fire it or mix it with strong oxidisers.',
    short: 'Metal pigments: ask for a grade low in hexavalent chromium and soluble metal; never fire them.',
    defer: 'health',
    from: ['green-pigment'],
    raisedFor: PEOPLE,
    when: ({ facts }) => {
      const found = find(facts, isMetalPigment);
      return found && { severity: 'info', because: listed(found) };
    },
  },
  {
    id: 'pigment-limit',
    title: 'Pigment share',
    text:
      'Pigment above a tenth of the cement costs strength and water and may upset the set; the pigment standard stops ' +
      'there.',
    short: 'Keep all pigment together at or below 10 % of the binder.',
    defer: 'practice',
    from: ['astm-c979'],
    when: pigmentShare,
  },
  {
    id: 'unknown-hazards',
    title: 'No hazard statements on record for a material',
    text:
      'The table holds no hazard statements for these materials. That is not the same as harmless: treat each as ' +
      'hazardous, with gloves, goggles and a respirator, until you have read its safety data sheet.',
    short: unknownShort,
    defer: 'practice',
    from: ['ours'],
    when: ({ facts }) => {
      const found = find(facts, isUnknown);
      if (!found) return null;
      const noted = found.parts.map(({ material: { name, hazards } }) =>
        Array.isArray(hazards) ? name : `${name}: ${hazards.unknown.replace(/\.$/, '')}`,
      );
      return { severity: 'warn', because: noted.join('; ') };
    },
  },
];
