import { describe, expect, it } from 'vitest';
import { STATUSES } from '../../src/core/materials/words.js';
import { type Caution, REGIONS } from '../../src/core/safety/caution.js';
import { cautionsFor } from '../../src/core/safety/cautions.js';
import { cite } from '../../src/core/safety/cite.js';
import { DOCUMENTS, type DocumentKey } from '../../src/core/safety/documents.js';
import { PEOPLE } from '../../src/core/safety/facts.js';
import { FIRST_AID } from '../../src/core/safety/first-aid.js';
import { CLOSING } from '../../src/core/safety/words.js';
import { BLENDS } from './cases.js';

/** Every caution in every wording that the cases bring out. */
const ALL: readonly Caution[] = REGIONS.flatMap((region) =>
  BLENDS.flatMap((b) => [b.facts, { ...b.facts, who: PEOPLE }]).flatMap(
    (facts) => cautionsFor(facts, { region }).cautions,
  ),
);
const TEXTS = [
  ...new Set([
    ...ALL.flatMap((c) => [c.title, c.text, c.short]),
    ...FIRST_AID.flatMap((l) => [l.when, l.act]),
    CLOSING,
  ]),
];

/** Names that may stand in the middle of a sentence with a capital. */
const PROPER = new Set(
  (
    'Portland CSA EU US OSHA HEPA European STOP CFR ASTM EN Regulation EC United States SO3 ' +
    'C III VI pH N95 P100 P3 FFP2 FFP3 F2417 F2601'
  ).split(' '),
);

describe('words of the cautions', () => {
  it('have a source, a status, a reason and a short line of at most 100 characters', () => {
    expect(ALL.length).toBeGreaterThan(500);
    for (const c of ALL) {
      expect(c.source.length, c.id).toBeGreaterThan(3);
      expect(STATUSES, c.id).toContain(c.status);
      expect(c.because.length, c.id).toBeGreaterThan(3);
      expect(c.short.length, `${c.id}: ${c.short}`).toBeLessThanOrEqual(100);
      expect(`${c.short}${c.title}`, c.id).not.toContain('\n');
      expect(c.text, c.id).toMatch(/[.)]$/);
      expect(c.short, c.id).toMatch(/\.$/);
    }
  });

  it('end by deferring to the safety data sheet, local rules and those with a licence', () => {
    for (const c of ALL)
      expect(c.text, c.id).toMatch(
        /[.)] The safety data sheet, local rules\b[^.]* and [^.]*\blicensed\b[^.]* come first\.$/,
      );
  });

  it('carry no name of a product or firm: every capital inside a sentence is on the list', () => {
    const odd = TEXTS.flatMap((text) =>
      text
        .replace(/\bH\d{3}\b/g, '')
        .split(/(?<=[.:!?])\s+/)
        .flatMap((sentence) => sentence.replace(/^\W*\S+/, '').match(/[\p{L}\d]*\p{Lu}[\p{L}\d]*/gu) ?? [])
        .filter((word) => !PROPER.has(word)),
    );
    expect([...new Set(odd)]).toEqual([]);
    for (const text of TEXTS) expect(text).not.toMatch(/[®™]|\b(Inc|Ltd|GmbH|LLC)\b/);
  });

  it('are British and plain', () => {
    for (const text of TEXTS) {
      expect(text).not.toMatch(/\b(mold|molds|color|fiber|fibers|aluminum|odor|vapor|center|sulfide)\b/i);
      expect(text).not.toMatch(/\b(may want to|probably|simply|just be careful|should be fine|don't|can't|won't)\b/i);
      expect(text).not.toMatch(/ {2}| \.|\bundefined\b|\bNaN\b|\bnull\b/);
    }
  });
});

describe('documents', () => {
  it('are only called looked up where it is said where', () => {
    for (const [key, d] of Object.entries(DOCUMENTS) as [
      DocumentKey,
      { title: string; status: string; seen?: string },
    ][]) {
      expect(d.status === 'looked-up', key).toBe(d.seen !== undefined);
      expect(cite([key]).status, key).toBe(d.status);
    }
  });

  it('lend a caution the weakest status among them, each named with its own', () => {
    const cited = cite(['clp-reproduction', 'hazcom-limits']);
    expect(cited.status).toBe('from-memory');
    expect(cited.source).toMatch(/3\.7\.2.*\(looked up\); .*1910\.1200.*\(from memory\)/);
    expect(cite(['clp-reproduction', 'ours']).status).toBe('ours');
  });

  it('are all used', () => {
    const used = [...ALL.map((c) => c.source), ...FIRST_AID.map((l) => l.source)].join(' ');
    expect(
      Object.values(DOCUMENTS)
        .filter((d) => !used.includes(d.title))
        .map((d) => d.title),
    ).toEqual([]);
  });
});
