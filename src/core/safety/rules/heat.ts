import type { BlendFacts } from '../facts.js';
import { find, isCsa, isGypsum, isHemihydrate, listed, reaches } from '../groups.js';
import type { Case, Rule } from '../rule.js';

/** Limits of a large, hot pour. Ours. */
const LARGE_BATCH = 1000; // g
const THICK_WALL = 3; // cm
const PLASTER_SHARE = 0.2;
/** Share of the dry blend from which what loses water with heat decides how the piece stands it. Ours. */
const HEAT_SHY_SHARE = 0.2;
/** °C: skin burns within seconds at 60; 45 is hot to hold. From memory (Moritz and Henriques). */
const HOT = 45;
const SCALDING = 60;
/** g water per g plaster, below which a mix counts as dense. Ours, from the adiabatic estimate (about 70 °C). */
const DENSE = 0.45;

const kilograms = (grams: number): string => `⟦${Number((grams / 1000).toPrecision(3))} kg⟧`;

/** A flame, a lamp or hot wax is planned. */
const heatPlanned = (f: BlendFacts): boolean =>
  f.service === 'warm' || f.uses.includes('candle') || f.uses.includes('wax');

function heatWords(f: BlendFacts): string {
  return [
    ...(f.service === 'warm' ? ['service: warm'] : []),
    ...(f.uses.includes('candle') ? ['use: candle'] : []),
    ...(f.uses.includes('wax') ? ['use: wax vessel'] : []),
  ].join(', ');
}

/** The bound decides; the likely peak is told beside it. */
const peak = (f: BlendFacts): string => {
  if (f.peakTemperature === null) return '';
  const likely = f.likelyPeak === null ? '' : `, about ⟦${Math.round(f.likelyPeak)} °C⟧ inside likely`;
  return `; up to ⟦${Math.round(f.peakTemperature)} °C⟧ while setting (upper bound)${likely}`;
};

const flameStandards = ({ region }: Case): string =>
  region === 'US' ? 'ASTM F2417 and, for holders, ASTM F2601' : 'EN 15493, with the labels of EN 15494';

/** What the uses mean for what loses water with heat: as their descriptions in brief/schema.ts have it. */
const WAX_VESSEL = 'The use you name, wax, makes the piece that vessel: take a Portland cement.';
const CANDLE_HOLDER =
  'By the use you name, candle, the piece is taken for such a holder, round a candle in a metal cup of its own. One that ' +
  'holds the wax itself is a wax vessel (use: wax), and gypsum is not for that.';

export const HEAT_RULES: readonly Rule[] = [
  {
    id: 'plaster-heat-never-body',
    stops: true,
    title: 'Setting plaster burns: never around a hand, foot, face or any part of a body',
    text:
      'Plaster heats as it sets, to ⟦60 or 70 °C⟧ in known accidents, and hardens round whatever is in it. Pupils who put ' +
      'their hands into plaster lost fingers. Never put any part of a body into the mix or the mould, never let a child ' +
      'reach into the bucket, and touch a fresh cast only when the outside has cooled. Less water, a bigger lump, warm ' +
      'water or a wrapped mould make it hotter.',
    short: 'Never put a hand or any body part in setting plaster: it burns and traps. Fingers were lost.',
    defer: 'health',
    from: ['burns-1982', 'boston-2009'],
    raisedFor: ['child-present'],
    when: ({ facts }) => {
      const found = find(facts, isHemihydrate);
      return (
        found && {
          severity: facts.uses.includes('body-cast') ? 'stop' : 'warn',
          because: `${listed(found)}${peak(facts)}`,
        }
      );
    },
  },
  {
    id: 'body-cast',
    stops: true,
    title: 'Do not cast a body part in this',
    text:
      'Do not. Plaster burns and traps, cement and lime eat skin, and both do it before it hurts. Take the impression ' +
      'in a material sold as safe for skin, take the hand, foot or face out, and pour this mix into the empty impression.',
    short: 'Do not cast any body part in this: use a skin-safe impression, body out, then pour.',
    defer: 'health',
    from: ['burns-1982', 'boston-2009', 'hse-cis26'],
    when: ({ facts }) => (facts.uses.includes('body-cast') ? { severity: 'stop', because: 'use: body cast' } : null),
  },
  {
    id: 'hot-pour',
    title: 'A large or fast pour gets hot',
    text:
      'This much binder at once, or in this thickness, heats itself well beyond a small cast. Pour in a mould that can ' +
      'take it, do not wrap it, keep it out of reach, and demould only when the outside feels cool.',
    short: 'Large or thick pours heat themselves: do not wrap, out of reach, demould when cool.',
    defer: 'health',
    from: ['burns-1982', 'skin-heat', 'ours'],
    raisedFor: ['child-present'],
    when: ({ facts }) => {
      const plaster = find(facts, isHemihydrate);
      const large = facts.batchGrams >= LARGE_BATCH || (facts.wall !== null && facts.wall >= THICK_WALL);
      const hot = facts.peakTemperature !== null && facts.peakTemperature >= HOT;
      if (!(plaster && large) && !hot) return null;
      const scalding = facts.peakTemperature !== null && facts.peakTemperature >= SCALDING;
      const muchPlaster = plaster !== null && large && reaches(plaster.share, PLASTER_SHARE);
      return {
        severity: scalding || muchPlaster ? 'warn' : 'caution',
        because:
          `batch ${kilograms(facts.batchGrams)}` +
          `${facts.wall === null ? '' : `, wall ⟦${Number(facts.wall.toPrecision(3))} cm⟧`}${plaster ? `, ${listed(plaster)}` : ''}${peak(facts)}`,
      };
    },
  },
  {
    id: 'dense-plaster',
    title: 'Little water to the plaster',
    text:
      'A plaster mixed with little water sets hotter and locks harder than a casting plaster: the accident with the ' +
      'worst injuries was with such a dense plaster. Do not hold, press or reach into it while it sets.',
    short: 'Plaster with little water sets hotter and locks harder: hands off while it sets.',
    defer: 'practice',
    from: ['burns-1982', 'ours'],
    raisedFor: ['child-present'],
    when: ({ facts }) => {
      const plaster = find(facts, isHemihydrate);
      if (!plaster || facts.waterToPlaster === null || facts.waterToPlaster >= DENSE) return null;
      return {
        severity: 'caution',
        because: `water to plaster ${Number(facts.waterToPlaster.toFixed(2))}, below ${DENSE}${peak(facts)}`,
      };
    },
  },
  {
    id: 'dry-before-heat',
    title: 'Dry fully before any heat',
    text:
      'Water shut in a cast turns to steam near a flame and can crack or burst it. Dry it to constant weight first, in ' +
      'moving air at ⟦35 to 40 °C⟧ at most, never on a stove or in an oven. Dense, thick casts need longest.',
    short: 'Dry to constant weight before any flame: trapped water turns to steam and can burst it.',
    defer: 'fire',
    from: ['steam-spalling', 'nist-concrete-heat', 'common-practice'],
    when: ({ facts }) => {
      if (!heatPlanned(facts)) return null;
      const d = facts.dryness;
      if (d === null) return { severity: 'warn', because: `${heatWords(facts)}; age and drying time not known` };
      const wet = d.ageDays < d.dryAfterDays;
      const days = `${Number(d.ageDays.toPrecision(3))} days old, dry after about ${Number(d.dryAfterDays.toPrecision(3))}`;
      return { severity: wet ? 'warn' : 'caution', because: `${heatWords(facts)}; ${days}` };
    },
  },
  {
    id: 'flame-test-first',
    title: 'Untested near a flame',
    text: (c) =>
      'Nothing here shows that this piece is safe near a flame. Use only a tea light in its own metal cup, with air ' +
      'round it, on a mat that stands heat, away from anything that burns, and never leave it alone. Before one is ' +
      `sold or given away, have it pass a fire-safety test by the standard that applies: ${flameStandards(c)}. It ` +
      'looks at flame height, at whether the vessel cracks, leaks or catches fire, and at whether it tips.',
    short: (c) =>
      `Near a flame: metal cup, air gap, watched; fire test before sale (${c.region === 'US' ? 'ASTM F2417, F2601' : 'EN 15493'}).`,
    defer: 'fire',
    from: ['astm-candles', 'astm-candle-holders', 'en-candles'],
    raisedFor: ['child-present'],
    regional: true,
    when: ({ facts }) => (heatPlanned(facts) ? { severity: 'warn', because: heatWords(facts) } : null),
  },
  {
    id: 'gypsum-near-flame',
    stops: true,
    title: 'Gypsum loses its water with heat',
    text:
      'Set plaster gives up its bound water with heat, slowly from about ⟦40 °C⟧ in very dry air and fast above ⟦100 °C⟧, and ' +
      'turns soft and chalky. Use it only as a holder round a cup that keeps the heat off, never as the vessel itself, ' +
      'and throw it away when it crumbles or cracks.',
    short: 'Heat drives the water out of plaster and softens it: holder round a cup only.',
    defer: 'fire',
    from: ['wilkes-2004', 'common-practice'],
    when: ({ facts }) => {
      const found = find(facts, isGypsum);
      if (!found || !heatPlanned(facts)) return null;
      const vessel = facts.uses.includes('wax');
      const much = reaches(found.share, HEAT_SHY_SHARE);
      return {
        severity: much
          ? vessel
            ? 'stop'
            : 'warn'
          : !find(facts, isHemihydrate)
            ? 'info'
            : vessel
              ? 'warn'
              : 'caution',
        because: `${listed(found)}; ${heatWords(facts)}`,
        more: vessel ? [WAX_VESSEL] : facts.uses.includes('candle') ? [CANDLE_HOLDER] : [],
      };
    },
  },
  {
    id: 'csa-near-flame',
    title: 'CSA cement loses its water with heat',
    text:
      'CSA cement owes its strength to ettringite, which gives up its bound water with heat: from about ⟦80 °C⟧ in room air, ' +
      'sooner where it is dry, and fast by about ⟦115 °C⟧ even where it is damp. The piece then weakens and may crack. Use it ' +
      'only as a holder round a cup that keeps the heat off, and throw it away when it crumbles or cracks.',
    short: 'Heat drives the water out of CSA cement and weakens it: holder round a cup only.',
    defer: 'fire',
    from: ['zhou-glasser-2001', 'ettringite-1996', 'ettringite-dry', 'common-practice'],
    when: ({ facts }) => {
      const found = find(facts, isCsa);
      if (!found || !heatPlanned(facts)) return null;
      return {
        severity: reaches(found.share, HEAT_SHY_SHARE) ? 'warn' : 'caution',
        because: `${listed(found)}; ${heatWords(facts)}`,
        more: facts.uses.includes('wax') ? [WAX_VESSEL] : [],
      };
    },
  },
  {
    id: 'wax-vessel',
    title: 'Wax poured straight into the piece',
    text:
      'A cast is porous: it soaks up molten wax and can burn at the rim like a wick, and a crack lets the whole pool ' +
      'out. Do not fill it with wax unless it is sealed inside with something made for it and the filled piece has ' +
      'passed the fire-safety test.',
    short: 'Wax soaks into a cast and can burn at the rim: no wax in it unsealed and untested.',
    defer: 'fire',
    from: ['common-practice'],
    raisedFor: ['child-present'],
    when: ({ facts }) => (facts.uses.includes('wax') ? { severity: 'warn', because: 'use: wax vessel' } : null),
  },
  {
    id: 'no-fire',
    stops: true,
    title: 'Not for fire, oven, hot pan or kiln',
    text:
      'Do not. A home-mixed cast in a fire, an oven, a kiln or under a hot pan can burst and throw pieces, and what ' +
      'stays loses most of its strength: concrete loses more than half by ⟦600 °C⟧. Buy a part rated for it.',
    short: 'Not for fire pit, oven, kiln or hot pans: it can burst and throw pieces.',
    defer: 'fire',
    from: ['nist-concrete-heat', 'steam-spalling'],
    when: ({ facts }) => (facts.uses.includes('fire') ? { severity: 'stop', because: 'use: fire' } : null),
  },
  {
    id: 'open-container',
    title: 'Leave bowls and buckets open',
    text:
      'Setting mixes heat and some expand. Never shut fresh mix in a rigid, sealed container, and never store leftovers ' +
      'of mixed powder and liquid under a lid. A flexible, open bowl is safest.',
    short: 'Never seal fresh mix in a rigid container: it heats and may expand.',
    defer: 'practice',
    from: ['common-practice'],
    when: () => ({ severity: 'info', because: 'always' }),
  },
];
