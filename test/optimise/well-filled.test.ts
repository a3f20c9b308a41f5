import { describe, expect, it } from 'vitest';
import type { Assessment } from '../../src/core/blend/assess.js';
import { propose } from '../../src/core/optimise/propose.js';
import { unfilledMould } from '../../src/core/report/unfilled-mould.js';
import { fullMould } from '../support/full-mould.js';

const filled = (proposal: ReturnType<typeof propose>): number =>
  proposal.assessment.properties.find((p) => p.property === 'fresh-volume')!.value!;

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
      expect(Math.abs(filled(proposal) / volume - 1)).toBeLessThan(0.0201);
    }
  });

  it('is told of where the steps leave it short or over by more than 1 %, with a warning beyond 3 %', () => {
    const told = (volume: number | null, mould: number | null) =>
      unfilledMould({ properties: [{ property: 'fresh-volume', value: volume }] } as unknown as Assessment, mould);
    expect(told(56.1, 60)).toMatchObject([
      { code: 'mould-unfilled', severity: 'warning', found: 'a mix of ⟦56.1 mL⟧ for a mould of ⟦60 mL⟧' },
    ]);
    expect(told(1319, 1250)[0]!.found).toBe('a mix of ⟦1320 mL⟧ for a mould of ⟦1250 mL⟧');
    // Less than can be seen, the scale still shows.
    expect(told(58.3, 60)).toMatchObject([{ severity: 'note', hint: expect.stringMatching(/weighs 3 % more$/) }]);
    expect(told(61.2, 60)).toMatchObject([{ severity: 'note', hint: expect.stringMatching(/weighs 2 % less$/) }]);
    for (const [volume, mould] of [
      [59.5, 60],
      [60.5, 60],
      [null, 60],
      [60, null],
    ] as const) {
      expect(told(volume, mould)).toEqual([]);
    }
  });
});
