import { describe, expect, it } from 'vitest';
import { CAUTION_RULES, cautionsFor } from '../../src/core/safety/cautions.js';
import { BLENDS, severities } from './cases.js';

describe('cautions by blend', () => {
  it.each(BLENDS.map((b) => [b.name, b] as const))('%s', (_name, blend) => {
    const found = severities(blend.facts, blend.region ?? 'EU');
    expect(found).toMatchObject(blend.raises);
    expect(blend.lacks.filter((id) => id in found)).toEqual([]);
  });

  it('reaches every rule by name', () => {
    const expected = new Set(BLENDS.flatMap((b) => Object.keys(b.raises)));
    expect(CAUTION_RULES.map((r) => r.id).filter((id) => !expected.has(id))).toEqual([]);
  });

  it('expects only ids that exist', () => {
    const ids = new Set(CAUTION_RULES.map((r) => r.id));
    const named = BLENDS.flatMap((b) => [...Object.keys(b.raises), ...b.lacks]);
    expect(named.filter((id) => !ids.has(id))).toEqual([]);
  });

  it('gives figures for why a caution is raised', () => {
    const planter = BLENDS.find((b) => b.name.startsWith('Portland planter'))!;
    const burn = cautionsFor(planter.facts, { region: 'EU' }).cautions.find((c) => c.id === 'alkali-burn')!;
    expect(burn.because).toBe('grey portland 33.3 % of the dry blend');
  });
});
