import { describe, expect, it } from 'vitest';
import { limitWords, notWeighedWords, systemWords } from '../../src/core/report/choice-words.js';

const WORDING = { system: 'metric', currency: 'EUR' } as const;
const limits = (ingredients: number) => ({ ingredients, used: 1, leastDose: 1, without: 0.0749, enough: null });
const objective = { aim: 'cheapest', property: 'cost', exact: 0.0812, weighed: 0.0812 };

const NOTHING = { parts: null, coarse: null, conflict: null };
const MET = { ...NOTHING, blend: [], targets: [], objective, status: 'met' as const };

describe('what a limit on ingredients made of a blend', () => {
  it('is said of one, or of several, with what it costs even where that is parts of a coin', () => {
    const said = (n: number) => limitWords({ ...MET, limits: limits(n) }, WORDING);
    expect(said(1)).toBe('with at most 1 dry ingredient: materials cost 0.0812 EUR, without that 0.0749 EUR');
    expect(said(2)).toMatch(/^with at most 2 dry ingredients: /);
    const none = notWeighedWords({ ...MET, limits: limits(1) }, WORDING);
    expect(none!.lead).toBe('A blend exists, but none of at most 1 dry ingredient keeps every limit.');
  });

  it('names the way out where the least dose stands in it, and which blend meets the brief', () => {
    const result = { ...MET, status: 'nearest' as const, limits: { ...limits(1), ingredients: null, leastDose: 5 } };
    const words = notWeighedWords(result, WORDING)!;
    expect(words.lead).toBe('A blend exists, but none with at least 5 g of each ingredient keeps every limit.');
    expect(words.after).toMatch(/finer scale.*larger batch/);
    expect(limitWords({ ...result, objective: { ...objective, exact: 0.0749 } }, WORDING)).toBe(
      'with no ingredient below 5 g: not every limit can be kept; without that it can, with materials cost 0.0749 EUR',
    );
  });
});

describe('a scale that is too coarse', () => {
  const side = { property: 'dry-weight', side: 'min', limit: 400, value: 399.987, missedBy: 0.013 } as const;
  const window = (min: number, max: number) => ({
    ...{ property: 'dry-weight', name: 'dry weight', unit: 'g', value: 399.987, met: false, margin: -0.013, chance: 0 },
    ...{ min, max },
  });
  const ingredient = {
    material: 'sand',
    name: 'sand',
    kind: 'sand',
    pieceGrams: 500,
    batchGrams: 500,
    step: 1,
  } as const;
  const blend = [{ ...ingredient, partsByMass: 100, litres: null, scoops: null, volumeError: null }];
  const said = (min: number, max: number, stepThatWould: number | null) => {
    const coarse = { step: 1, sides: [side], stepThatWould };
    return notWeighedWords({ ...MET, limits: null, coarse, blend, targets: [window(min, max)] }, WORDING)!;
  };

  it('is told in whole sentences, with a miss that does not read as nothing', () => {
    const exact = said(400, 400, null);
    expect(exact.lines).toEqual(['dry weight exactly 400 g: no scale meets a single figure, missed by 0.01 g']);
    expect(exact.after).toMatch(/^No finer scale .* would do\. Allow .* larger batch\.$/);
    const narrow = said(400, 400.5, 0.1);
    expect(narrow.lines[0]).toBe('dry weight 400 g to 400.5 g: narrower than a step of this scale, missed by 0.01 g');
    expect(narrow.after).toBe('A scale that tells 0.1 g would do, or a larger batch.');
    expect(said(400, 450, 0.1).lines[0]).toBe('dry weight at least 400 g: missed by 0.01 g');
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
