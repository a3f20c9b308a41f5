import { describe, expect, it } from 'vitest';
import { nearMaterials } from '../../src/core/materials/near.js';
import type { Material } from '../../src/core/materials/schema.js';
import { materialTable } from '../../src/core/materials/table.js';
import { explain } from '../../src/core/problems/words.js';
import { problemsOf } from '../support/problems.js';
import { families } from '../support/shipped-table.js';

const shipped = [...families.values()].flat();
const near = (word: string) => nearMaterials(word, shipped, new Set());

describe('materials near to a word that is none of theirs', () => {
  it.each<[string, readonly string[], number]>([
    // Held by several: an id or a name that begins with it first, then those of the kind.
    ['portland', ['portland-cement-grey', 'portland-cement-white', 'slag-blend-cement'], 0],
    ['Cement', ['portland-cement-grey', 'portland-cement-white', 'slag-blend-cement'], 6],
    ['sand', ['silica-sand-coarse', 'silica-sand-medium', 'silica-sand-fine'], 5],
    ['gypsum', ['alpha-gypsum-cement', 'alpha-gypsum-high-strength', 'casting-plaster'], 1],
    ['lime', ['hydrated-lime', 'natural-hydraulic-lime'], 0],
    ['pigment', ['iron-oxide-red', 'iron-oxide-yellow', 'iron-oxide-black'], 5],
    // Held by one.
    ['fine sand', ['silica-sand-fine'], 0],
    ['AR glass', ['ar-glass-fibre'], 0],
    ['acrylic', ['acrylic-emulsion'], 0],
    // Two spellings of one word.
    ['plasticizer', ['plasticiser-powder', 'plasticiser-liquid'], 0],
    ['fiber', ['ar-glass-fibre', 'pva-fibre', 'polypropylene-fibre'], 0],
    ['potassium sulphat', ['potassium-sulfate'], 0],
    // A slip in one part, and in a whole word.
    ['portlnd', ['portland-cement-grey', 'portland-cement-white', 'slag-blend-cement'], 0],
    ['gypsm', ['alpha-gypsum-cement', 'alpha-gypsum-high-strength', 'casting-plaster'], 1],
    ['casting plastre', ['casting-plaster'], 0],
    // What is held goes before what is a slip away: pfa is fly ash.
    ['pva', ['pva-fibre', 'vinyl-acetate-emulsion'], 0],
    // Two as near as each other.
    ['cem II', ['portland-cement-grey', 'slag-blend-cement'], 0],
    // Nothing near.
    ['brick', [], 0],
    ['pv', [], 0],
    ['', [], 0],
    ['__proto__', [], 0],
    ['sand '.repeat(100_000), [], 0],
  ])('%.30s', (word, ids, more) => {
    const found = near(word);
    expect([...found.ids].sort()).toEqual([...ids].sort());
    expect(found.more).toBe(more);
  });

  it('are named the likeliest first, the maker’s own before the shipped', () => {
    const sand = (id: string): Material => ({ ...shipped[0]!, id, name: id, kind: 'sand', also: [] });
    const materials = [sand('red-sand'), sand('sand-of-mine'), sand('pit-sand')];
    expect(nearMaterials('sand', materials, new Set()).ids).toEqual(['sand-of-mine', 'red-sand', 'pit-sand']);
    expect(nearMaterials('sand', materials, new Set(['pit-sand'])).ids[0]).toBe('pit-sand');
  });

  it('stay a question: the word is refused, with how many more there are', () => {
    const table = materialTable({ materials: shipped, sources: {} });
    const said = (word: string) => explain(problemsOf(() => table.get(word))[0]!);
    expect(said('lime')).toBe(
      'There is no such material: found “lime”. Did you mean “hydrated-lime” or “natural-hydraulic-lime”?',
    );
    expect(said('sand')).toMatch(/Did you mean “.*”, “.*” or “.*”\? 5 more go by this word\.$/);
    expect(said('gypsum')).toMatch(/\? 1 more goes by this word\.$/);
  });
});
