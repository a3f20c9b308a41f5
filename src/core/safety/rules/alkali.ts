import { flashSet } from '../../science/setting.js';
import { PEOPLE } from '../facts.js';
import {
  both,
  bringsSulfate,
  find,
  holdsChromate,
  isAcid,
  isAlkaline,
  isAluminate,
  isCsa,
  isGypsum,
  isLime,
  isPortland,
  isStrongAlkali,
  listed,
  not,
  percent,
  reaches,
} from '../groups.js';
import type { Rule } from '../rule.js';

/** A strong alkali makes a mixture corrosive from 1 %; other cements are warned of from the limit for skin irritants. */
const STRONG_ALKALI_LIMIT = 0.01;
const OTHER_ALKALI_LIMIT = 0.1;

/** Share of what stands beside CSA cement, in both together, below which it is a trace. Ours. */
const CSA_TRACE = 0.01;

export const ALKALI_RULES: readonly Rule[] = [
  {
    id: 'alkali-burn',
    title: 'Wet mix burns skin, without pain at first',
    text: ({ region }) =>
      'Wet cement and lime are caustic, above pH 12 for Portland cement and lime. The burn builds for hours before it ' +
      'hurts; slurry caught in a glove, a boot or a knee of trousers has cost people skin grafts and worse. Wear long ' +
      'alkali-proof gloves over bare, ringless hands, long sleeves and waterproof shoes. Take off splashed clothes at ' +
      'once, brush dry powder off, rinse for 20 minutes, and see a doctor if the skin stays red or sore. Wash with ' +
      'water and pH-neutral soap; never put vinegar or another acid on a burn. ' +
      (region === 'US'
        ? 'Many US data sheets class cement as causing severe skin burns (H314); European ones often class the same powder as an irritant (H315). Go by the graver one.'
        : 'European data sheets often class cement as an irritant (H315); many US ones class the same powder as causing severe skin burns (H314). Go by the graver one.'),
    short: 'Wet cement and lime burn without pain: alkali-proof gloves, rinse 20 minutes, see a doctor.',
    defer: 'health',
    from: ['hse-cis26', 'levine-2024', 'clp-ph', 'osha-soap', 'first-aid-memory'],
    raisedFor: PEOPLE,
    regional: true,
    when: ({ facts }) => {
      const found = find(facts, isAlkaline);
      if (!found) return null;
      const strong = find(facts, isStrongAlkali)?.share ?? 0;
      const grave = reaches(strong, STRONG_ALKALI_LIMIT) || reaches(found.share, OTHER_ALKALI_LIMIT);
      return { severity: grave ? 'warn' : 'caution', because: listed(found) };
    },
  },
  {
    id: 'chromate-allergy',
    title: 'Chromium(VI) in Portland cement',
    text: ({ region }) =>
      'Traces of soluble chromium(VI) in Portland cement can bring on an allergy of the skin that never goes away and ' +
      'ends the work with cement. Gloves from the first spoonful to the last wash. ' +
      (region === 'US'
        ? 'The United States sets no limit, so ask the supplier for a low-chromate cement and its figure.'
        : 'In the EU soluble chromium(VI) may not exceed 2 mg in a kilogram of cement, and the pack shows until when its reducer works: use it within that date, and within about two months once the bag is open.'),
    short: ({ region }) =>
      region === 'US'
        ? 'Cement can cause a lasting chromate allergy: gloves, ask for low-chromate cement.'
        : 'Cement can cause a lasting chromate allergy: gloves, keep to the date on the bag.',
    defer: 'health',
    from: ['hse-cis26', 'reach-47', 'clp-cement-label', 'reducer-age', 'us-chromate'],
    raisedFor: PEOPLE,
    regional: true,
    when: ({ facts }) => {
      const found = find(facts, holdsChromate);
      return found && { severity: 'caution', because: listed(found) };
    },
  },
  {
    id: 'aluminium-and-alkali',
    title: 'Aluminium in a wet cement or lime mix',
    text:
      'Wet cement and lime eat bare aluminium and give off hydrogen, which burns, foams the mix and lifts the cast. No ' +
      'aluminium moulds, bowls, stirrers or foil, and no tea-light cup cast into the fresh mix. Plastic, silicone or steel.',
    short: 'No bare aluminium in wet cement or lime: it gives off hydrogen. Plastic, silicone or steel.',
    defer: 'practice',
    from: ['icsc-0408'],
    when: ({ facts }) => {
      const found = find(facts, isAlkaline);
      if (!found) return null;
      const named = [
        ...(facts.mouldStuff === 'aluminium' ? ['the mould is aluminium'] : []),
        ...(facts.aluminiumParts ? ['aluminium parts touch the mix'] : []),
      ];
      return named.length > 0
        ? { severity: 'warn', because: `${named.join(', ')}; ${listed(found)}` }
        : { severity: 'info', because: listed(found) };
    },
  },
  {
    id: 'acid-powder',
    title: 'Acid powder',
    text:
      'The dust of citric and similar acids stings eyes and throat. Weigh it with goggles, dissolve it in the mixing ' +
      'water, and add the water to the powder. Never drop a spoonful of acid on cement, lime or carbonate, dry or wet: ' +
      'it heats, foams and spits.',
    short: 'Acid dust stings: goggles, dissolve it first; never by the spoon onto cement, lime, carbonate.',
    defer: 'health',
    from: ['citric-class', 'icsc-0408', 'common-practice'],
    regional: true,
    raisedFor: ['child-present', 'asthma'],
    when: ({ facts }) => {
      const found = find(facts, isAcid);
      if (!found) return null;
      const alkali = find(facts, isAlkaline);
      return {
        severity: alkali ? 'caution' : 'info',
        because: alkali
          ? `${listed(found)}, together with ${alkali.parts.map((p) => p.material.name).join(', ')}`
          : listed(found),
      };
    },
  },
  {
    id: 'aluminate-flash-set',
    title: 'Calcium aluminate with Portland cement, sulfate or lime',
    text:
      'Calcium aluminate cement mixed with Portland cement, plaster or another sulfate, or lime can set in a flash, hot, ' +
      'in the bowl. No set time given for such a blend can be trusted. Try a spoonful first, with goggles on, and keep the bowl ' +
      'flexible and open.',
    short: 'Calcium aluminate with Portland, sulfate or lime can flash set: try a spoonful first.',
    defer: 'practice',
    from: ['cac-flash-set', 'common-practice', 'ours'],
    raisedFor: ['child-present'],
    when: ({ facts }) => {
      const aluminate = find(facts, isAluminate);
      const partner = find(facts, (m) => isPortland(m) || bringsSulfate(m) || isLime(m));
      if (!aluminate || !partner) return null;
      const portland = find(facts, isPortland)?.grams ?? 0;
      const ofPair = portland / (portland + aluminate.grams);
      const flash = flashSet({ portland, aluminate: aluminate.grams }).length > 0;
      const sulfateOrLime = find(
        facts,
        both((m) => bringsSulfate(m) || isLime(m), not(isPortland)),
      );
      return {
        severity: flash || sulfateOrLime ? 'warn' : 'caution',
        because:
          `${listed(aluminate)} with ${partner.parts.map((p) => p.material.name).join(', ')}` +
          (portland > 0 ? `; Portland cement is ${percent(ofPair)} of the pair` : ''),
      };
    },
  },
  {
    id: 'csa-mixed',
    title: 'CSA cement with Portland cement, lime, plaster or gypsum',
    text:
      'A bagged CSA cement holds the calcium sulfate it needs. Portland cement, lime, plaster or gypsum beside it can ' +
      'stiffen it within minutes, and can let ettringite grow in the hard cast, which swells and cracks it where it gets ' +
      'damp: past some amount of gypsum, pieces under water broke. Blends with Portland cement are in the trade, with ' +
      'retarder and tests behind them. No set time or strength given here is surer than a cup of it: try one first, keep ' +
      'a test bar damp for 28 days, and go by the data sheet of the cement.',
    short: 'CSA with Portland, lime or plaster can stiffen in minutes or swell later: test a cup first.',
    defer: 'building',
    from: ['csa-extra-gypsum', 'csa-portland-gypsum', 'csa-portland-set', 'csa-lime', 'ours'],
    when: ({ facts }) => {
      const csa = find(facts, isCsa);
      const partner = find(
        facts,
        both((m) => isPortland(m) || isLime(m) || isGypsum(m), not(isCsa)),
      );
      if (!csa || !partner) return null;
      const ofBoth = partner.share / (partner.share + csa.share);
      return {
        severity: reaches(ofBoth, CSA_TRACE) ? 'warn' : 'info',
        because: `${listed(csa)} with ${partner.parts.map((p) => p.material.name).join(', ')}, ${percent(ofBoth)} of both`,
      };
    },
  },
];
