import { describe, expect, it } from 'vitest';
import { propose } from '../../src/core/optimise/propose.js';
import { unfilledMould } from '../../src/core/report/unfilled-mould.js';
import { fullMould } from '../support/full-mould.js';

/** Small moulds on coarse scales, where half a step of each ingredient would be a twentieth of the piece. */
describe('a mould that is filled in coarse steps', () => {
  const plain = fullMould({ 'casting-plaster': 0.001, 'silica-sand-fine': 0.0002, perlite: 0.0005 });
  const asked = (volume: number, step: number, objective: 'lightest' | 'heaviest') => ({
    ...plain,
    objective,
    conditions: { ...plain.conditions, waste: 0, volume },
    batch: { pieces: 1, step, fine: null },
    targets: [{ property: 'flow', min: 0.9 }],
  });

  it.each([
    [60, 1],
    [80, 1],
    [80, 3],
    [100, 5],
  ])('is full to within 2 %% where %d cm³ on %d g allow it, whatever is sought', (volume, step) => {
    for (const objective of ['lightest', 'heaviest'] as const) {
      const proposal = propose(asked(volume, step, objective), { draws: 0 });
      expect(proposal.status).toBe('met');
      expect(Math.abs(proposal.fills - 1)).toBeLessThan(0.0201);
      const { value } = proposal.assessment.properties.find((p) => p.property === 'fresh-volume')!;
      expect(value).toBeCloseTo(volume, 9);
    }
  });

  it('is told of where the steps leave it short or over: a warning beyond 3 %, a note where the last is 1 % short', () => {
    const told = (fills: number, pieces: number, waste = 0) => {
      const { conditions, batch } = plain;
      return unfilledMould({ conditions: { ...conditions, waste }, batch: { ...batch, pieces } }, fills);
    };
    expect(told(0.935, 1)).toMatchObject([
      {
        code: 'mould-unfilled',
        severity: 'warning',
        found: 'a mix that fills 0.935 moulds, for 1 mould',
        hint: expect.stringContaining('weigh finer'),
      },
    ]);
    expect(told(2.11, 2)).toMatchObject([{ severity: 'warning', found: 'a mix that fills 2.11 moulds, for 2 moulds' }]);
    expect(told(1.972, 2)).toMatchObject([
      {
        severity: 'note',
        found: 'a mix that fills 1.97 moulds, for 2 moulds',
        hint: expect.stringContaining('full mould'),
      },
    ]);
    // What waste makes up for is not told, but where it is far from what was to be mixed, or even so too little.
    expect(told(2, 2, 0.02)).toEqual([]);
    expect(told(1.02, 1, 0.05)).toMatchObject([
      { severity: 'warning', found: 'a mix that fills 1.02 moulds, for 1 mould and 5 % waste' },
    ]);
    expect(told(0.985, 1, 0.01)).toMatchObject([{ severity: 'note' }]);
    for (const fills of [0.992, 1, 1.029]) expect(told(fills, 1)).toEqual([]);
  });
});
