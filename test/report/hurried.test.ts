import { describe, expect, it } from 'vitest';
import { cardResult } from '../../src/core/report/card-result.js';
import { hurried } from '../../src/core/report/hurried.js';
import { plainWarnings } from '../../src/core/report/plain-warnings.js';
import { briefOf, shopOf } from '../support/bench-shelf.js';

/** A blend that stiffens before it is poured is told of, by whatever verb. */

const pouringFor = (value: number | null) => ({
  properties: [{ property: 'working-time', value, low: null, high: null, why: null, contributors: [] }],
});

describe('too little time to mix and pour', () => {
  it('is told below five minutes as they are printed, and of nothing that never sets', () => {
    expect([0.9, 3, 4.94, 4.96, 5, 90, null].map((v) => hurried(pouringFor(v)).length)).toEqual([1, 1, 1, 0, 0, 0, 0]);
    const [warning] = hurried(pouringFor(0.93));
    expect(warning).toMatchObject({ code: 'recipe-hurried', severity: 'warning' });
    expect(warning!.found).toMatch(/^0.93 min /);
    expect(warning!.hint).toContain('5 min');
    const assessed = { ...pouringFor(3), verdicts: [], met: true, jointChance: null };
    expect(plainWarnings(assessed, []).map((w) => w.code)).toEqual(['recipe-hurried']);
  });

  it('goes with a proposal whose maker asked for it, once on its card', () => {
    const shop = shopOf({});
    const quickest = (targets: object) => briefOf({ mould: { water: '400 mL' }, objective: 'quickest', targets }, shop);
    const told = (warnings: readonly { readonly code: string }[]) =>
      warnings.filter((w) => w.code === 'recipe-hurried').length;
    const rushed = quickest({ 'working-time': { max: '2 min' } });
    expect(told(rushed.result.warnings)).toBe(1);
    const { warnings } = cardResult(rushed, shop);
    expect(told(warnings)).toBe(1);
    expect(warnings.find((w) => w.code === 'recipe-hurried')!.message).toContain('left once it is mixed');
    expect(told(quickest({}).result.warnings)).toBe(0);
  });
});
