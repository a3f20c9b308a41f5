import { describe, expect, it } from 'vitest';
import type { ReasonsResult } from '../../src/core/report/reasons-schema.js';
import { reasonsWords } from '../../src/core/report/reasons-words.js';

const WORDING = { system: 'metric', currency: 'EUR' } as const;
const NOTHING: ReasonsResult = { property: 'cost', heldBack: [], doses: [], stock: [], entries: [] };
const cheapest = { aim: 'cheapest', property: 'cost', exact: 0.24, weighed: 0.24 };
const strongest = { aim: 'strongest', property: 'strength', exact: 20, weighed: 20 };
const held = (property: string): ReasonsResult['heldBack'][number] => ({
  property,
  name: property,
  unit: '',
  side: 'max',
  limit: 0.5,
  kind: 'target',
  gain: 1,
  movedTo: 0.505,
  value: null,
  settledGain: null,
  agrees: true,
});

describe('what a blend does without, where nothing would come in', () => {
  const said = (objective: typeof cheapest, heldBack: ReasonsResult['heldBack'] = []) =>
    reasonsWords(objective, { ...NOTHING, heldBack }, WORDING).noEntries;

  it('is no word of prices that play no part where cost is what is sought, or holds it back', () => {
    const none = 'Nothing else that may be used here would come in at any price.';
    expect(said(cheapest)).toBe(none);
    expect(said(strongest, [held('cost')])).toBe(none);
    expect(said(strongest, [held('flow')])).toMatch(/^Prices play no part/);
  });
});
