import type { CautionSeverity } from '../caution.js';
import { type BlendFacts, NEVER_DRY, type SulfateOutcome } from '../facts.js';
import {
  bringsSulfate,
  find,
  holdsCarbonate,
  holdsSolubleSulfate,
  isAlkaline,
  isGypsum,
  isHemihydrate,
  isLime,
  isPortland,
  listed,
  percent,
  reaches,
} from '../groups.js';
import type { Rule } from '../rule.js';
import { coldDampRoom, wetAndCold } from '../sulfate-outcome.js';

/** g; a piece from here on hurts when it falls. Ours. */
const HEAVY_PIECE = 5000;
/** Share of the dry blend from which gypsum decides how the piece stands water. Ours. */
const GYPSUM_RULES = 0.1;
/** Share of the dry blend up to which ground set gypsum is the dose of seed it is sold for (table: 2 % of the plaster). */
const GYPSUM_SEED = 0.02;

/** Words for whatever brings water to the piece; empty when it stays dry. */
function water(f: BlendFacts): readonly string[] {
  return [
    ...(f.service === 'damp' || f.service === 'wet' ? [`service: ${f.service}`] : []),
    ...NEVER_DRY.filter((use) => f.uses.includes(use)).map((use) => `use: ${use}`),
  ];
}

const SULFATE_WORDS: Readonly<Record<SulfateOutcome['reasons'][number], string>> = {
  'within-cement-limit': 'The sulfate stays within the limit of the cement standard.',
  'no-plaster': 'There is no plaster or other addition to bring sulfate.',
  'no-portland': 'There is no Portland cement for the sulfate to attack.',
  'pozzolan-enough':
    'There is as much reactive pozzolan as in published blends that stayed sound; that is for dry indoor use.',
  'pozzolan-short': 'There is less reactive pozzolan than in any published blend that stayed sound.',
  'carbonate-damp': 'Limestone or another carbonate in damp or cold service makes it worse.',
  thaumasite: 'Cold and wet with carbonate, thaumasite can form.',
  'gypsum-in-wet-service': 'The plaster itself softens and dissolves in this service.',
  'gypsum-near-heat': 'The plaster itself loses water near heat.',
  'plaster-sets-the-clock': 'The blend stiffens within minutes, on the plaster’s clock.',
};

const SULFATE_SEVERITY: Readonly<Record<SulfateOutcome['verdict'], CautionSeverity>> = {
  pass: 'info',
  note: 'caution',
  warn: 'warn',
  refuse: 'stop',
};

export const SERVICE_RULES: readonly Rule[] = [
  {
    id: 'gypsum-and-water',
    stops: true,
    title: 'Gypsum does not stand water',
    text:
      'Set plaster dissolves slowly in water, is half as strong when wet, and frost breaks it. It is not for outdoors, ' +
      'standing water, bathrooms or planters; a sealer slows this and never stops it. Use a cement binder for wet service.',
    short: 'Plaster softens and dissolves in water: not outdoors, not for planters or wet rooms.',
    defer: 'building',
    from: ['gypsum-solubility', 'common-practice', 'ours'],
    when: ({ facts }) => {
      const found = find(facts, isGypsum);
      if (!found) return null;
      const wet = water(facts);
      const seed = !find(facts, isHemihydrate) && !reaches(found.share, GYPSUM_SEED);
      if (wet.length === 0 || seed)
        return { severity: 'info', because: `${listed(found)}; ${wet.join(', ') || `service: ${facts.service}`}` };
      const stop = NEVER_DRY.some((use) => facts.uses.includes(use)) && reaches(found.share, GYPSUM_RULES);
      return { severity: stop ? 'stop' : 'warn', because: `${listed(found)}; ${wet.join(', ')}` };
    },
  },
  {
    id: 'gypsum-with-portland',
    stops: true,
    title: 'Plaster or other sulfate with Portland cement',
    text:
      'Plaster, ground gypsum and sulfate salts go on reacting with Portland cement when the cast is damp: ettringite ' +
      'grows and can swell and crack it weeks later. Keep such a piece indoors and dry, cast a trial bar first and watch ' +
      'it for at least 28 days before any is sold.',
    short: ({ facts }) =>
      `${find(facts, isHemihydrate) ? 'Plaster' : 'Sulfate'} with Portland can swell and crack when damp: indoors, dry, trial bars for 28 days.`,
    defer: 'building',
    from: ['ettringite', 'sulfate-screen'],
    when: ({ facts }) => {
      const sulfates = find(facts, bringsSulfate);
      const portland = find(facts, isPortland);
      if (!sulfates || !portland) return null;
      const { sulfate } = facts;
      return {
        severity: sulfate === null ? 'warn' : SULFATE_SEVERITY[sulfate.verdict],
        because:
          `${listed(sulfates)}, ${listed(portland)}` +
          (sulfate === null
            ? '; sulfate screen not run'
            : `; sulfate screen: ${sulfate.verdict}, SO3 ${percent(sulfate.so3 / 100)} of both against ${percent(sulfate.limit / 100)}`),
        more: sulfate === null ? [] : sulfate.reasons.map((reason) => SULFATE_WORDS[reason]),
      };
    },
  },
  {
    id: 'thaumasite',
    title: 'Sulfate, carbonate, cement and cold damp',
    text:
      'Cement with sulfate and carbonate turns to mush over a damp, cold season (thaumasite, fastest from ⟦0 to 5 °C⟧, ' +
      'below about ⟦15 °C⟧), and sulfate-resisting cement does not prevent it. Leave out the plaster or other sulfate, or ' +
      'the limestone, or keep the piece indoors and dry.',
    short: ({ facts }) =>
      `Cement, ${find(facts, isHemihydrate) ? 'plaster' : 'sulfate'} and limestone in cold damp can turn to mush: leave one out or keep it dry.`,
    defer: 'building',
    from: ['thaumasite'],
    when: ({ facts }) => {
      const sulfates = find(facts, bringsSulfate);
      const portland = find(facts, isPortland);
      const carbonate = find(facts, holdsCarbonate);
      if (!sulfates || !portland || !carbonate) return null;
      const wet = water(facts);
      // A salt within the limit of the cement standard is no more than cements are made with.
      const usual = !find(facts, isHemihydrate) && facts.sulfate !== null && facts.sulfate.so3 <= facts.sulfate.limit;
      const where = [...wet, ...(coldDampRoom(facts) ? [`room of ⟦${Number(facts.room!.toPrecision(3))} °C⟧`] : [])];
      return {
        severity: wet.length > 0 && !usual ? 'warn' : 'info',
        because: `${listed(sulfates)}, ${listed(portland)}, ${listed(carbonate)}; ${where.join(', ') || `service: ${facts.service}`}`,
        more: wetAndCold(facts) && !usual ? ['Where this piece is to stand it may be wet and as cold as that.'] : [],
      };
    },
  },
  {
    id: 'efflorescence',
    title: 'White bloom',
    text:
      'Lime and soluble salts can come out of a cement cast as a white bloom when it gets damp. It is harmless to touch ' +
      'when dry, but caustic while fresh and wet; wipe it off with gloves and let the piece dry.',
    short: 'White bloom may come out when damp: wipe it off with gloves while fresh.',
    defer: 'practice',
    from: ['common-practice'],
    when: ({ facts }) => {
      const source = find(facts, (m) => isPortland(m) || isLime(m) || holdsSolubleSulfate(m));
      const wet = water(facts);
      return source && wet.length > 0 ? { severity: 'info', because: `${listed(source)}; ${wet.join(', ')}` } : null;
    },
  },
  {
    id: 'plants-and-lime',
    title: 'Plants and lime',
    text:
      'A fresh cement or lime pot raises the pH of soil and water and can harm roots, pond animals and whatever drinks ' +
      'from it. Cure it, then leach it in changed water for weeks, check the last water with pH paper, and give plants ' +
      'that love acid soil a liner.',
    short: 'Fresh cement pots are caustic to plants and pond life: leach for weeks, line for acid lovers.',
    defer: 'practice',
    from: ['common-practice', 'epa-washout'],
    when: ({ facts }) => {
      const found = find(facts, isAlkaline);
      return found && facts.uses.includes('planter')
        ? { severity: 'caution', because: `${listed(found)}; use: planter` }
        : null;
    },
  },
  {
    id: 'not-for-food',
    title: 'Not for food or drink',
    text: ({ region }) =>
      'Casts are porous, hold germs, may give off lime, metals or admixtures, and acid food etches them. Decoration ' +
      'only, unless a coating tested for food contact covers all of it (' +
      (region === 'US' ? '21 CFR 175.300' : 'Regulation (EC) 1935/2004') +
      '). No mould, bowl or spoon used for casting goes back to the kitchen.',
    short: 'Not for food or drink; casting tools never go back to the kitchen.',
    defer: 'food',
    from: ['food-contact', 'common-practice'],
    regional: true,
    when: ({ facts }) =>
      facts.uses.includes('food')
        ? { severity: 'warn', because: 'use: food' }
        : { severity: 'info', because: 'always' },
  },
  {
    id: 'not-structural',
    title: 'Not for structural use',
    text:
      'Strength here is an estimate for a home mix, never a basis for anything that carries people or loads: no steps, ' +
      'lintels, seats, anchors, gym weights or pedestals a child may climb. What hangs or stands above people must be ' +
      'light, on fixings tested with several times its weight.',
    short: 'Not structural: no seats, steps, anchors, gym weights; what hangs above people must be light.',
    defer: 'building',
    from: ['common-practice', 'ours'],
    raisedFor: ['child-present'],
    when: ({ facts }) => {
      const heavy = facts.pieceGrams !== null && facts.pieceGrams >= HEAVY_PIECE;
      const hung = facts.uses.includes('wall-hung');
      const why = [
        ...(heavy ? [`piece of ⟦${Number(((facts.pieceGrams ?? 0) / 1000).toPrecision(3))} kg⟧`] : []),
        ...(hung ? ['use: wall-hung'] : []),
      ];
      return why.length > 0
        ? { severity: 'caution', because: why.join(', ') }
        : { severity: 'info', because: 'always' };
    },
  },
  {
    id: 'not-for-this-service',
    title: 'A material is not made for this service',
    text: 'The table bans this material from the service you named. Take another, or another service.',
    short: 'A material in this blend is not for the service you named.',
    defer: 'practice',
    from: ['ours'],
    when: ({ facts }) => {
      const found = find(facts, (m) => m.notFor?.includes(facts.service) === true);
      return found && { severity: 'warn', because: `${listed(found)}; service: ${facts.service}` };
    },
  },
];
