import { describe, expect, it } from 'vitest';
import { CAUTION_SEVERITIES, REGIONS } from '../../src/core/safety/caution.js';
import { CAUTION_RULES, cautionsFor, shorten } from '../../src/core/safety/cautions.js';
import { PEOPLE } from '../../src/core/safety/facts.js';
import { cautionLines } from '../../src/core/safety/lines.js';
import { BLENDS, facts, severities } from './cases.js';

const SETS = REGIONS.flatMap((region) =>
  BLENDS.map((b) => ({ name: `${b.name} (${region})`, region, set: cautionsFor(b.facts, { region }) })),
);

describe('a set of cautions', () => {
  it('keeps every caution, the first aid and the closing note when shortened', () => {
    for (const { name, set } of SETS) {
      const short = shorten(set);
      expect(
        short.cautions.map((c) => [c.id, c.severity]),
        name,
      ).toEqual(set.cautions.map((c) => [c.id, c.severity]));
      expect(short.firstAid, name).toEqual(set.firstAid);
      expect(short.closing, name).toBe(set.closing);
      for (const c of short.cautions) expect(c.text, `${name} ${c.id}`).toBe(c.short);
      expect(shorten(short), name).toEqual(short);
    }
  });

  it('renders every caution, the first aid and last of all the closing note, in either form', () => {
    for (const { name, set } of SETS) {
      for (const form of [set, shorten(set)]) {
        const lines = cautionLines(form);
        for (const c of form.cautions)
          expect(
            lines.some((l) => l.includes(c.text)),
            `${name} ${c.id}`,
          ).toBe(true);
        for (const aid of form.firstAid) expect(lines, name).toContain(`${aid.when}: ${aid.act}`);
        expect(lines.at(-1), name).toBe(form.closing);
      }
      const short = shorten(set);
      expect(cautionLines(short)).toHaveLength(short.cautions.length + 1 + short.firstAid.length + 1);
    }
  });

  it('has the same first aid and closing note for every blend and region', () => {
    expect(new Set(SETS.map((s) => JSON.stringify([s.set.firstAid, s.set.closing]))).size).toBe(1);
    const { closing } = SETS[0]!.set;
    for (const word of ['safety data sheet', 'local rules', 'licensed']) expect(closing).toContain(word);
  });

  it('is never empty, even for no blend at all', () => {
    const set = cautionsFor(facts({}), { region: 'EU' });
    expect(set.cautions.map((c) => c.id)).toEqual([
      'work-place',
      'no-slurry-in-drains',
      'no-dry-sweeping',
      'open-container',
      'not-for-food',
      'not-structural',
    ]);
  });

  it('shows the gravest first, each id once', () => {
    for (const { name, set } of SETS) {
      const ranks = set.cautions.map((c) => CAUTION_SEVERITIES.indexOf(c.severity));
      expect(ranks, name).toEqual([...ranks].sort((a, b) => a - b));
      expect(new Set(set.cautions.map((c) => c.id)).size, name).toBe(set.cautions.length);
    }
    expect(new Set(CAUTION_RULES.map((r) => r.id)).size).toBe(CAUTION_RULES.length);
    expect(CAUTION_RULES.map((r) => r.id).filter((id) => !/^[a-z]+(-[a-z]+)*$/.test(id))).toEqual([]);
  });
});

describe('who is in the room', () => {
  const mix = { portland: 300, sand: 500, borax: 5, water: 150 };

  it('raises by one step what harms them most, says so, and leaves the rest', () => {
    for (const who of PEOPLE) {
      const alone = severities(facts(mix), 'EU');
      const with_ = severities(facts(mix, { who: [who] }), 'EU');
      expect(Object.keys(with_)).toEqual(expect.arrayContaining(Object.keys(alone)));
      expect(alone).toMatchObject({
        'alkali-burn': 'warn',
        'chromate-allergy': 'caution',
        'borate-reproductive': 'warn',
      });
      expect(with_).toMatchObject({ 'alkali-burn': 'stop', 'chromate-allergy': 'warn', 'borate-reproductive': 'stop' });
      expect(with_.efflorescence).toBe(alone.efflorescence);
      for (const [id, severity] of Object.entries(with_).filter(([id]) => id in alone)) {
        const step = CAUTION_SEVERITIES.indexOf(alone[id] as never) - CAUTION_SEVERITIES.indexOf(severity as never);
        expect([0, 1], id).toContain(step);
      }
    }
  });

  it('raises once for several people, with a note for each', () => {
    const set = cautionsFor(facts({ csa: 20, plaster: 980 }, { who: ['asthma', 'child-present', 'asthma'] }), {
      region: 'EU',
    });
    const burn = set.cautions.find((c) => c.id === 'alkali-burn')!;
    expect(burn.severity).toBe('warn');
    expect(burn.because.match(/raised one step/g)).toHaveLength(2);
    expect(
      set.cautions.filter((c) => ['child-in-the-room', 'asthma', 'pregnancy'].includes(c.id)).map((c) => c.id),
    ).toEqual(['child-in-the-room', 'asthma']);
  });
});

describe('regions', () => {
  const both = (grams: Parameters<typeof facts>[0], id: string, conditions: Parameters<typeof facts>[1] = {}) =>
    REGIONS.map((region) => cautionsFor(facts(grams, conditions), { region }).cautions.find((c) => c.id === id)!.text);

  it('speak of their own respirators, labels and standards', () => {
    const [us, eu] = both({ portland: 100 }, 'binder-dust');
    expect([us!.includes('N95'), us!.includes('FFP'), eu!.includes('FFP2'), eu!.includes('N95')]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    const [usFlame, euFlame] = both({ csa: 100 }, 'flame-test-first', { uses: ['candle'] });
    expect([usFlame!.includes('ASTM F2417'), euFlame!.includes('EN 15493')]).toEqual([true, true]);
    const [usBurn, euBurn] = both({ portland: 100 }, 'alkali-burn');
    for (const text of [usBurn!, euBurn!]) expect(text).toMatch(/H314.*H315|H315.*H314/);
    const [usChrome, euChrome] = both({ portland: 100 }, 'chromate-allergy');
    expect([usChrome!.includes('2 mg'), euChrome!.includes('2 mg')]).toEqual([false, true]);
  });

  it('name no document that speaks for the other region only', () => {
    for (const { region, set } of SETS) {
      for (const c of set.cautions) {
        const foreign =
          region === 'US' ? /REACH|EN 15493|EH40|Table 3\.[237]/ : /1910\.1200|ASTM F2417|1910\.1053, limit/;
        expect(c.source, `${region} ${c.id}`).not.toMatch(foreign);
      }
    }
  });

  it('are named on the cautions whose words they change', () => {
    for (const { region, set } of SETS) {
      for (const c of set.cautions) expect([undefined, region]).toContain(c.region);
    }
    for (const rule of CAUTION_RULES) {
      for (const blend of BLENDS) {
        const [us, eu] = REGIONS.map((region) =>
          cautionsFor(blend.facts, { region }).cautions.find((c) => c.id === rule.id),
        );
        if (us && eu && !rule.regional)
          expect([us.text, us.short, us.because, us.source], rule.id).toEqual([
            eu.text,
            eu.short,
            eu.because,
            eu.source,
          ]);
      }
    }
  });
});
