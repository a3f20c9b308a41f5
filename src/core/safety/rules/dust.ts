import { PEOPLE } from '../facts.js';
import {
  crystallineSilica,
  find,
  holdsSilica,
  isBinder,
  isDusty,
  isFibre,
  isFinePowder,
  isGlassFibre,
  isLightAggregate,
  isSilicaFlour,
  isSilicaFume,
  listed,
  percent,
  reaches,
  respirableSilica,
  shedsSilica,
} from '../groups.js';
import type { Case, Rule, Warning } from '../rule.js';
import { mask, silicaMask, silicaMaskShort } from '../words.js';

/** Share of the dry blend that is respirable silica as far as it is known, and whether some of it is not known. */
function respirable({ facts }: Case): { readonly share: number; readonly unknown: boolean } {
  let share = 0;
  let unknown = false;
  for (const c of facts.constituents) {
    const fraction = respirableSilica(c.material);
    if (fraction === null) unknown = true;
    else share += c.share * fraction;
  }
  return { share, unknown };
}

/** From this respirable share a mixture is classed for lung damage: CLP H373 from 1 %, H372 from 10 %; US H372 from 1 %. */
const RESPIRABLE_LIMIT = 0.01;
const RESPIRABLE_GRAVE = { US: 0.01, EU: 0.1 } as const;
/** A silica flour is warned of from this share of the blend, whatever part of it is respirable. Ours. */
const FLOUR_LIMIT = 0.01;

function silicaWhileMixing(c: Case): Warning | null {
  const found = find(c.facts, shedsSilica);
  if (!found) return null;
  const { share, unknown } = respirable(c);
  const flour = find(c.facts, isSilicaFlour);
  const classed = reaches(share, RESPIRABLE_LIMIT);
  const code = reaches(share, RESPIRABLE_GRAVE[c.region]) ? 'H372' : 'H373';
  const known = `respirable crystalline silica ${percent(share)} of the dry blend${unknown ? ', and some of it is not known' : ''}`;
  return {
    severity: classed || (flour && reaches(flour.share, FLOUR_LIMIT)) ? 'warn' : 'caution',
    because: `${listed(found)}; ${known}`,
    more: [
      ...(classed
        ? [`At this share a bought mixture would carry ${code}, damage to lungs through repeated exposure.`]
        : []),
      ...(flour ? ['Limestone or marble flour does the same job as a filler without the silica.'] : []),
    ],
  };
}

export const DUST_RULES: readonly Rule[] = [
  {
    id: 'silica-while-mixing',
    title: 'Silica dust while weighing and mixing',
    text: ({ region }) =>
      'Fine crystalline silica scars lungs for good and causes lung cancer, and the dust that does it is too fine to ' +
      `see. Pour slowly and low, wet the powder early, work outdoors or with extraction, and wear ${silicaMask(region)}. ` +
      (region === 'US'
        ? 'The workplace limit is 50 µg in a cubic metre of air over eight hours, with action from 25.'
        : 'The European workplace limit is 0.1 mg in a cubic metre of air over eight hours.'),
    short: ({ region }) => `Silica dust scars lungs: pour low and slow, wet early, ${silicaMaskShort(region)}.`,
    defer: 'dust',
    from: [
      'osha-silica',
      'eu-silica',
      'iarc-silica',
      'clp-target-organs',
      'osha-target-organs',
      'niosh-respirators',
      'hse-respirators',
    ],
    raisedFor: PEOPLE,
    regional: true,
    when: silicaWhileMixing,
  },
  {
    id: 'silica-from-finishing',
    title: 'Silica dust from sanding, cutting or drilling the cast',
    text: ({ region }) =>
      'Sanding, grinding, cutting or drilling the hardened cast frees silica dust that was harmless as sand. Do it wet, ' +
      `never dry, wear ${silicaMask(region)}, and clean with a wet cloth or a vacuum cleaner with a HEPA filter. ` +
      'Let no one else breathe in that room until it is clean.',
    short: 'Never sand, cut or drill the cast dry: silica dust. Wet only, fitted mask, wet cloth or HEPA.',
    defer: 'dust',
    from: ['osha-silica', 'osha-silica-housekeeping', 'niosh-respirators', 'hse-respirators'],
    raisedFor: ['child-present', 'asthma'],
    regional: true,
    when: ({ facts }) => {
      const found = find(facts, holdsSilica);
      if (!found) return null;
      const amounts = found.parts.map((p) => {
        const fraction = crystallineSilica(p.material);
        return `${p.material.name}: crystalline silica ${fraction === null ? 'not known' : percent(p.share * fraction)}`;
      });
      return {
        severity: facts.finishing === 'none' ? 'caution' : 'warn',
        because: `${amounts.join(', ')}; finishing: ${facts.finishing}`,
        more: facts.finishing === 'dry-sanding' ? ['You named dry sanding: change it to wet sanding.'] : [],
      };
    },
  },
  {
    id: 'dry-sanding',
    title: 'Dry sanding',
    text: ({ region }) =>
      'Dry sanding throws the finest part of the cast into the air, binder and pigment included. Sand wet. If a trial ' +
      `must be dry, do it outdoors, alone, with ${silicaMask(region)} and eye protection.`,
    short: 'Sand wet, not dry: the finest dust is the worst, with any binder.',
    defer: 'dust',
    from: ['osha-table-z1', 'common-practice'],
    raisedFor: PEOPLE,
    regional: true,
    when: ({ facts }) =>
      facts.finishing === 'dry-sanding' ? { severity: 'warn', because: 'finishing: dry sanding' } : null,
  },
  {
    id: 'binder-dust',
    title: 'Powder dust while pouring and mixing',
    text: ({ region }) =>
      'Dust of cement, plaster, lime and pozzolans irritates nose, throat, eyes and chest. Cut bags open low, pour ' +
      `slowly, keep fans and draughts away, wear tight goggles and ${mask(region)}. A cloth or surgical mask does not ` +
      'filter it, and a beard lets it in. ' +
      (region === 'US'
        ? 'Workplace limits are 15 mg total and 5 mg respirable dust in a cubic metre of air.'
        : 'National limits for dust at work apply.'),
    short: ({ region }) => `Powder dust irritates eyes and chest: pour low and slow, goggles, ${mask(region)}.`,
    defer: 'dust',
    from: ['osha-table-z1', 'eu-dust', 'niosh-respirators', 'hse-respirators'],
    raisedFor: PEOPLE,
    regional: true,
    when: ({ facts }) => {
      const found = find(facts, isBinder);
      return found && { severity: 'caution', because: listed(found) };
    },
  },
  {
    id: 'silica-fume-dust',
    title: 'Silica fume',
    text: ({ region }) =>
      'Silica fume is so fine that it hangs in the air and goes everywhere. Buy it densified or as a slurry, or wet it ' +
      `before anything else is added, and wear ${silicaMask(region)}. It is amorphous, but may hold traces of ` +
      'crystalline silica.',
    short: ({ region }) => `Silica fume hangs in the air: densified or wetted first, ${silicaMaskShort(region)}.`,
    defer: 'dust',
    from: ['osha-table-z3', 'niosh-respirators', 'hse-respirators'],
    raisedFor: PEOPLE,
    regional: true,
    when: ({ facts }) => {
      const found = find(facts, isSilicaFume);
      return found && { severity: 'caution', because: listed(found) };
    },
  },
  {
    id: 'fibre-itch',
    title: 'Loose fibres',
    text:
      'Cut fibres itch, get into eyes and stay in clothes; glass fibres also break into sharp splinters. Long sleeves, ' +
      'gloves, goggles; tip them in low; wash these clothes apart. Never sand fibre ends that stick out of a cast dry: ' +
      'rub them down wet.',
    short: 'Fibres itch and hurt eyes: sleeves, gloves, goggles; rub ends down wet, never dry.',
    defer: 'health',
    from: ['osha-fibres'],
    raisedFor: ['child-present'],
    when: ({ facts }) => {
      const found = find(facts, (m) => isFibre(m) || isGlassFibre(m));
      return found && { severity: find(facts, isGlassFibre) ? 'caution' : 'info', because: listed(found) };
    },
  },
  {
    id: 'light-aggregate-dust',
    title: 'Dust of light aggregates',
    text:
      'Perlite, vermiculite, pumice and expanded glass shed a sharp light dust that gets into eyes and throats. Wet ' +
      'them in the bag before mixing, and wear goggles. Buy vermiculite only from a supplier who states in writing ' +
      'that it is free of asbestos; never use old loft filling.',
    short: 'Wet light aggregates before mixing, goggles; vermiculite only if stated free of asbestos.',
    defer: 'dust',
    from: ['niosh-perlite', 'vermiculite-asbestos'],
    raisedFor: ['child-present', 'asthma'],
    when: ({ facts }) => {
      const found = find(facts, isLightAggregate);
      return found && { severity: 'info', because: listed(found) };
    },
  },
  {
    id: 'fine-powder-dust',
    title: 'Pigments and other very fine powders',
    text: ({ region }) =>
      'Dry pigments and other very fine powders fly at the first touch and stain all they land on; carbon black and ' +
      'titanium dioxide dust are listed as possibly causing cancer when breathed in. Use pastes or granules where you ' +
      `can, scoop slowly, stir powder into the water or the dry mix under a lid, and wear ${mask(region)}.` +
      (region === 'EU' ? ' The EU class of titanium dioxide powder was annulled in 2025; the advice stays.' : ''),
    short: ({ region }) => `Fine powders fly: paste or granules if you can, scoop slowly, ${mask(region)}.`,
    defer: 'dust',
    from: ['iarc-pigments', 'cjeu-titania'],
    raisedFor: PEOPLE,
    regional: true,
    when: ({ facts }) => {
      const fine = find(facts, isFinePowder);
      return (
        fine && { severity: fine.parts.some((p) => isDusty(p.material)) ? 'caution' : 'info', because: listed(fine) }
      );
    },
  },
];
