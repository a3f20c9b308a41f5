import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { worldOf } from '../../src/core/blend/world.js';
import { doseRows } from '../../src/core/optimise/standing-limits.js';
import { questionOf } from '../support/hand-question.js';
import { material, model } from '../support/shipped-table.js';

/** Two makes of one admixture are one dose: neither its effect nor its window can be had twice. */

const BASE = { 'portland-cement-grey': 1000, 'concrete-sand': 1500, water: 400 };
const SOLIDS = 0.35;
const flow = (powder: number, liquid: number): number => {
  const water = BASE.water - (1 - SOLIDS) * liquid;
  const parts = { ...BASE, water, 'plasticiser-powder': powder, 'plasticiser-liquid': liquid };
  const input = { materials: Object.keys(parts).map(material), figures: model, conditions: DEFAULT_CONDITIONS };
  return evaluate(worldOf(input), Object.values(parts)).value(propertyById('flow')!)!;
};

describe('what works by the same', () => {
  it('saves no more water in two makes than in one', () => {
    const [none, most] = [flow(0, 0), flow(20, 0)];
    expect(most).toBeGreaterThan(1.1 * none);
    expect(flow(10, 10 / SOLIDS)).toBeLessThan(most * 1.005);
    // Half of either does about what the whole of one does, as long as they are far from the limit.
    const gained = (f: number): number => Math.log(f / none);
    expect(gained(flow(0.25, 0.25 / SOLIDS)) / gained(flow(0.5, 0))).toBeCloseTo(1, 1);
  });

  it('is said in the table', () => {
    expect(material('plasticiser-powder').active).toBe('polycarboxylate');
    expect(material('plasticiser-liquid').active).toBe('polycarboxylate');
    expect(material('citric-acid').active).toBe(material('sodium-citrate').active);
  });

  it('shares one dose window in a proposal, less what was asked for', () => {
    const ids = ['water', 'portland-cement-grey', 'plasticiser-powder', 'plasticiser-liquid'];
    const shared = (doses: Parameters<typeof questionOf>[1] = {}) => {
      const question = questionOf(ids, doses);
      const rows = doseRows(question, worldOf(question)).filter((r) => r.name === 'polycarboxylate together max');
      return rows.map(
        (r) => (powder: number, liquid: number) =>
          [400, 1000, powder, liquid].reduce((s, g, i) => s + g * r.coefficients[i]!, 0) <= r.high! + 1e-9,
      );
    };
    const [holds, ...others] = shared();
    expect(others).toEqual([]);
    // The table warns above 0.3 % of the powder and 0.4 % of the solids of the liquid.
    expect([holds!(3, 0), holds!(3.01, 0), holds!(0, 4 / SOLIDS), holds!(0, 4.01 / SOLIDS)]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect([holds!(1.5, 2 / SOLIDS), holds!(1.5, 2.02 / SOLIDS)]).toEqual([true, false]);
    const [beside] = shared({ doses: [{ material: 'plasticiser-powder', percent: 0.15, of: 'binder' }] });
    expect([beside!(1.5, 2 / SOLIDS), beside!(1.5, 2.02 / SOLIDS)]).toEqual([true, false]);
    const [none] = shared({ doses: [{ material: 'plasticiser-powder', percent: 1, of: 'binder' }] });
    expect([none!(10, 0), none!(10, 0.01)]).toEqual([true, false]);
  });
});
