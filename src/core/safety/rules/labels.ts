import type { Material } from '../../materials/schema.js';
import type { Region } from '../caution.js';
import { type BlendFacts, PEOPLE } from '../facts.js';
import { find, type Group, percent, reaches } from '../groups.js';
import { HAZARD_CLASSES, type HazardClass } from '../hazard-classes.js';
import type { Case, Rule, Warning } from '../rule.js';

/** Hazard statements of a material that hold in the region; none where its hazards are unknown (another rule speaks then). */
function statements(m: Material, region: Region): readonly string[] {
  if (!Array.isArray(m.hazards)) return [];
  return m.hazards.filter((h) => h.region === 'both' || h.region === region).map((h) => h.code);
}

const carries = (m: Material, region: Region, codes: readonly string[]): readonly string[] =>
  statements(m, region).filter((code) => codes.some((c) => code.startsWith(c)));

function listedWithCodes(facts: BlendFacts, region: Region, group: Group, codes: readonly string[]): string {
  return facts.constituents
    .filter((c) => group(c.material))
    .map((c) => [c.material.name, percent(c.share), ...new Set(carries(c.material, region, codes))].join(' '))
    .join(', ');
}

function classTrigger(hazard: HazardClass, { facts, region }: Case): Warning | null {
  const counts: Group = (m) => carries(m, region, hazard.codes).length > 0 || hazard.also?.(m) === true;
  const found = find(facts, counts);
  if (!found?.parts.some((p) => !hazard.elsewhere?.(p.material))) return null;
  const limit = hazard.limit[region];
  const labelled = reaches(found.share, limit);
  return {
    severity: labelled ? hazard.above : hazard.below,
    because:
      `${listedWithCodes(facts, region, counts, hazard.codes)}; together ${percent(found.share)} of the dry blend, ` +
      `${labelled ? 'at or above' : 'below'} the ${percent(limit)} from which a mixture is labelled`,
  };
}

const known = HAZARD_CLASSES.flatMap((h) => h.codes);

/** One rule a hazard class, and one for whatever statement no class knows, so that no row of the table is passed over. */
export const LABEL_RULES: readonly Rule[] = [
  ...HAZARD_CLASSES.map(
    (hazard): Rule => ({
      id: hazard.id,
      title: hazard.title,
      text: hazard.what,
      short: hazard.short,
      defer: 'health',
      from: hazard.from,
      raisedFor: PEOPLE,
      regional: true,
      when: (c) => classTrigger(hazard, c),
    }),
  ),
  {
    id: 'other-statements',
    title: 'Other hazard statements',
    text: 'The data sheets of these materials carry further hazard statements. Read them there before the bag is opened.',
    short: 'Further hazard statements on the data sheets: read them before the bag is opened.',
    defer: 'practice',
    from: ['ours'],
    regional: true,
    when: ({ facts, region }) => {
      const other = (m: Material): readonly string[] =>
        statements(m, region).filter((code) => !known.some((c) => code.startsWith(c)));
      const found = find(facts, (m) => other(m).length > 0);
      return (
        found && {
          severity: 'info',
          because: found.parts.map((p) => `${p.material.name} ${[...new Set(other(p.material))].join(' ')}`).join(', '),
        }
      );
    },
  },
];
