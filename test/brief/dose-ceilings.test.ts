import { describe, expect, it } from 'vitest';
import { brief, said } from '../support/written.js';

/** Doses that no blend can keep are refused where they stand, before anything is looked for. */

const HEAD = 'mould: { water: 110 mL }\nobjective: strongest\n';
const refusals = (text: string) => said(() => brief(HEAD + text));
const doses = (...lines: string[]) => `doses:\n${lines.map((l) => `  ${l}\n`).join('')}`;

describe('more than any blend can have', () => {
  it.each(['12 %', '15 %', '40 %'])('a colour of %s', (share) => {
    expect(refusals(`colour: { pigment: iron-oxide-red, share: ${share} }\n`)).toEqual([
      `brief.yaml line 3, colour.share: the value is out of range: found “${share}”, expected at most 10 % of the binder (ASTM C979).`,
    ]);
    expect(refusals(doses(`iron-oxide-red: ${share} of dry-blend`))).toHaveLength(1);
  });

  it('pigments together, told once', () => {
    const [message, ...more] = refusals(
      `${doses('titanium-white: 6 % of binder')}colour: { pigment: iron-oxide-red, share: 5 % }\n`,
    );
    expect(more).toEqual([]);
    expect(message).toContain(
      'line 5, colour.share: the value is out of range: found “6 % of binder titanium-white, 5 % iron-oxide-red”',
    );
  });

  it('pozzolans together', () => {
    expect(refusals(doses('metakaolin: 50 % of binder'))).toEqual([
      'brief.yaml line 4, doses.metakaolin: the value is out of range: found “50 % of binder”, expected at most 40 % of the binder in pozzolan (ours: the rest has to set).',
    ]);
    expect(refusals(doses('metakaolin: 30 % of binder', 'silica-fume: 20 % of binder'))).toHaveLength(1);
  });

  it('parts of more than their whole', () => {
    const [message] = refusals(doses('casting-plaster: 120 % of binder'));
    expect(message).toContain('found “120 % of binder”, expected at most 100 % of the binder in what is part of it');
    expect(refusals(doses('masonry-sand: 60 % of dry-blend', 'perlite: 60 % of dry-blend'))[0]).toContain(
      'found “60 % of dry-blend masonry-sand, 60 % of dry-blend perlite”, expected at most 100 % of all that is dry',
    );
  });

  it('binders that cannot share one piece', () => {
    expect(refusals(doses('casting-plaster: 60 % of binder', 'csa-rapid-cement: 40 % of binder'))[0]).toContain(
      'line 5, doses.csa-rapid-cement: this does not fit together: found “casting-plaster, csa-rapid-cement”, expected binders that may share one piece',
    );
  });

  it('is not what a blend can keep', () => {
    for (const text of [
      'colour: { pigment: iron-oxide-red, share: 10 % }\n',
      doses('metakaolin: 40 % of binder'),
      doses('masonry-sand: 300 % of binder'),
      doses('portland-cement-grey: 60 % of binder', 'hydrated-lime: 40 % of binder'),
      doses('iron-oxide-red: 12 % of portland'),
      doses('casting-plaster: 40 % of binder', 'portland-cement-grey: 40 % of binder', 'metakaolin: 20 % of binder'),
    ])
      expect(() => brief(HEAD + text), text).not.toThrow();
  });
});
