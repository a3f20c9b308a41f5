import { describe, expect, it } from 'vitest';
import { cautionsTogether } from '../../src/core/report/cautions-together.js';
import { assessRecipe } from '../../src/core/report/result.js';
import { CAUTION_SEVERITIES } from '../../src/core/safety/caution.js';
import { recipe, SHELF } from '../support/written.js';

const setOf = (amounts: string, more = '') =>
  assessRecipe(recipe(`${more}amounts: { ${amounts} }`), SHELF, false, { draws: 0 }).cautions;
const PLASTER = setOf('casting-plaster: 300 g, water: 210 g');
const CEMENT = setOf('portland-cement-grey: 300 g, water: 140 g');

describe('the cautions of several blends together', () => {
  it('are those of each, once, gravest first, with first aid and closing note', () => {
    const both = cautionsTogether([PLASTER, CEMENT]);
    const ids = both.cautions.map((c) => c.id);
    const all = [...PLASTER.cautions, ...CEMENT.cautions].map((c) => c.id);
    expect(ids.length).toBeLessThan(all.length);
    expect([...ids].sort()).toEqual([...new Set(all)].sort());
    const graves = both.cautions.map((c) => CAUTION_SEVERITIES.indexOf(c.severity));
    expect(graves).toEqual([...graves].sort((a, b) => a - b));
    expect([both.firstAid, both.closing, both.form]).toEqual([CEMENT.firstAid, CEMENT.closing, 'full']);
  });

  it('are as grave as the gravest blend has them, whichever comes first', () => {
    const [one, ...rest] = CEMENT.cautions;
    const milder = { ...CEMENT, cautions: [...rest, { ...one!, severity: 'info' as const, because: 'milder' }] };
    for (const sets of [
      [milder, CEMENT],
      [CEMENT, milder],
    ]) {
      expect(cautionsTogether(sets).cautions.find((c) => c.id === one!.id)).toEqual(one);
    }
    expect(one!.severity).not.toBe('info');
  });

  it('name the bags of all of them whose hazards are not on record', () => {
    const [perlite, marble] = ['perlite', 'marble-flour'].map((id) =>
      setOf(`portland-cement-grey: 300 g, ${id}: 30 g, water: 140 g`),
    );
    const { short } = cautionsTogether([perlite!, marble!, perlite!]).cautions.find((c) => c.id === 'unknown-hazards')!;
    expect(short.match(/expanded perlite/gi)).toHaveLength(1);
    expect(short).toMatch(/is read: marble flour\./);
  });

  it('of one blend are its own', () => {
    expect(cautionsTogether([CEMENT])).toEqual(CEMENT);
  });
});
