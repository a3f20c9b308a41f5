import { describe, expect, it } from 'vitest';
import type { WrittenBrief } from '../../src/core/brief/schema.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Limits } from '../../src/core/optimise/question.js';
import { askedOf } from '../support/stall.js';

type Asked = Omit<WrittenBrief, 'mould'>;
const asking = (more: Asked) => askedOf({ mould: { water: '300 mL' }, ...more });
const proposed = (more: Asked) => propose(asking(more), { draws: 0 });
const stronger = (strength: string) => ({ strength: { min: strength } });

describe('a blend in small whole-number parts', () => {
  it('is looked for in every system: cement alone is too heavy where plaster alone is not', () => {
    const brief: Asked = {
      objective: 'cheapest',
      parts: { by: 'mass', most: 3 },
      targets: { ...stronger('15 MPa'), 'dry-weight': { max: '450 g' } },
    };
    const all = proposed(brief);
    const few = proposed({ ...brief, materials: { only: ['casting-plaster'] } });
    expect([all.status, few.status]).toEqual(['met', 'met']);
    // More materials never make it dearer, but for the steps of the scale.
    expect(all.objective.weighed!).toBeLessThan(1.005 * few.objective.weighed!);
    expect(all.systems.filter((s) => s.outcome === 'chosen').map((s) => s.system)).toEqual([all.system]);
  });

  it('is looked for among few ingredients too: a light filler in none of a few parts', () => {
    const brief: Asked = { objective: 'lightest', parts: { by: 'mass', most: 3 }, targets: stronger('10 MPa') };
    const few = proposed({ ...brief, materials: { only: ['casting-plaster'] } });
    expect(proposed(brief).objective.weighed!).toBeLessThan(1.005 * few.objective.weighed!);
  });

  it('loses nothing by more parts', () => {
    const of = (most: number) => {
      const targets = { ...stronger('10 MPa'), 'demould-time': { max: '2 h' } };
      const { status, objective } = proposed({ objective: 'cheapest', parts: { by: 'scoop', most }, targets });
      expect(status, `${most}`).toBe('met');
      return objective.weighed!;
    };
    expect(of(3)).toBeLessThan(1.005 * of(1));
    expect(of(6)).toBeLessThan(1.005 * of(3));
  });
});

describe('what a limit of ingredients costs', () => {
  it('is told beside the best of every system, those too that have no blend of so few', () => {
    const targets = { ...stronger('15 MPa'), 'dry-weight': { max: '450 g' } };
    const question = asking({ objective: 'cheapest', targets });
    const limited = (limits: Limits) => propose({ ...question, limits }, { draws: 0 });
    const few = limited({ ingredients: 1, leastDose: null });
    const free = limited({ ingredients: null, leastDose: 0 });
    expect(few.limits!.without!).toBeCloseTo(free.objective.exact!, 3);
    expect(few.objective.exact! / free.objective.exact!).toBeGreaterThan(2);
  });
});
