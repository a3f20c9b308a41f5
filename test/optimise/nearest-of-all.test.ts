import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { collidingTargets } from '../../src/core/optimise/colliding-targets.js';
import { missOf } from '../../src/core/optimise/miss.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { settleSystems } from '../../src/core/optimise/settle-systems.js';
import { limitsIn } from '../../src/core/optimise/standing-limits.js';
import { askedOf } from '../support/stall.js';

/** Briefs that nothing meets; the search for what is nearest ended beside a hill in each (found by a sweep). */
const BRIEFS = [
  { objective: 'lightest', service: 'damp', targets: { 'demould-time': '190 min', cost: '0.286', strength: '40 MPa' } },
  { objective: 'cheapest', service: 'wet', targets: { 'demould-time': '2 h', cost: '0.15', strength: '10 MPa' } },
  { objective: 'lightest', service: 'wet', targets: { 'dry-weight': '352 g', cost: '0.199', strength: '22 MPa' } },
] as const;

describe('the nearest blend', () => {
  for (const { objective, service, targets } of BRIEFS) {
    it(`misses no more than giving way in one target would: ${JSON.stringify(targets)}`, () => {
      const sides = Object.entries(targets).map(([id, limit]) => [id, { [id === 'strength' ? 'min' : 'max']: limit }]);
      const brief = { mould: { water: '300 mL' }, objective, service, targets: Object.fromEntries(sides) };
      const question = askedOf(brief);
      const world = worldOf(question);
      const [first] = settleSystems(question, world, AIMS[objective]).ranked;
      const missed = missOf(limitsIn(question, first!.system), world, first!.answer.state);
      expect(missed).toBeGreaterThan(0);
      const ways = collidingTargets(question, world, first!.system.id)!.flatMap(({ limit, reachable }) =>
        reachable === null ? [] : [Math.abs(reachable - limit) / limit],
      );
      expect(ways.length).toBeGreaterThan(0);
      for (const way of ways) expect(missed).toBeLessThan(1.04 * way);
    });
  }
});
