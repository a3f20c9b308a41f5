import { describe, expect, it } from 'vitest';
import { propose } from '../../src/core/optimise/propose.js';
import { proposalResult } from '../../src/core/report/result.js';
import { unlistedNote } from '../../src/core/report/unlisted.js';
import { material } from '../support/shipped-table.js';
import { brief, SHELF } from '../support/written.js';

const priced = { ...SHELF, prices: new Map([['casting-plaster', { perGram: 0.00124 }]]) } as unknown as typeof SHELF;

describe('materials that the price list does not name', () => {
  it('are told by name; water needs no price', () => {
    const some = [material('casting-plaster'), material('perlite'), material('silica-fume'), material('water')];
    const [note, ...more] = unlistedNote(some, priced);
    expect(more).toEqual([]);
    expect(note).toMatchObject({ code: 'price-unlisted', severity: 'note', found: 'expanded perlite, silica fume' });
    expect(unlistedNote([material('casting-plaster'), material('water')], priced)).toEqual([]);
    // Without a price list nothing is known of what is at hand.
    expect(unlistedNote(some, { ...SHELF, prices: new Map() })).toEqual([]);
  });

  it('are noted beside a proposal that uses them', () => {
    const read = brief(
      'mould: { water: 300 mL }\nobjective: lightest\nmaterials: { only: [casting-plaster, perlite] }\n',
    );
    const { warnings } = proposalResult(read, propose(read.question, { draws: 0 }), priced, false);
    expect(warnings.map((w) => w.message).join(' ')).toMatch(/expanded perlite.*materials: only/);
  });
});
