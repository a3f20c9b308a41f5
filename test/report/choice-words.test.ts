import { describe, expect, it } from 'vitest';
import { limitWords, notWeighedWords, systemWords } from '../../src/core/report/choice-words.js';

const WORDING = { system: 'metric', currency: 'EUR' } as const;
const limits = (ingredients: number) => ({ ingredients, used: 1, leastDose: 1, without: 0.0749, enough: null });
const objective = { aim: 'cheapest', property: 'cost', exact: 0.0812, weighed: 0.0812 };

describe('what a limit on ingredients made of a blend', () => {
  it('is said of one, or of several, with what it costs even where that is parts of a coin', () => {
    const said = (n: number) => limitWords({ blend: [], parts: null, limits: limits(n), objective }, WORDING);
    expect(said(1)).toBe('with at most 1 dry ingredient: materials cost 0.0812 EUR, without that 0.0749 EUR');
    expect(said(2)).toMatch(/^with at most 2 dry ingredients: /);
    const none = notWeighedWords({ coarse: null, parts: null, conflict: null, limits: limits(1) }, WORDING);
    expect(none!.lead).toBe('A blend exists, but none of at most 1 dry ingredient keeps every limit.');
  });
});

describe('what became of another binder', () => {
  const system = { system: 'csa', name: 'rapid-setting CSA cement', value: null } as const;
  const said = (more: Partial<Parameters<typeof systemWords>[0]>) =>
    systemWords({ ...system, outcome: 'behind', why: 'left before it was settled', ...more }, 'dry-weight', WORDING);

  it('is told with where it was left, where that is known', () => {
    expect(said({ reached: 1447 })).toBe('left at 1450 g: it fell behind');
    expect(said({})).toBe('left before it was settled');
    expect(said({ outcome: 'possible', value: 900, why: null })).toBe('900 g');
    expect(said({ outcome: 'misses', why: 'misses a target' })).toBe('misses a target');
  });
});
