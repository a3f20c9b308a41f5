import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { worldOf } from '../../src/core/blend/world.js';
import { isGap } from '../../src/core/materials/gap.js';
import { BINDER_FAMILIES, SERVICES } from '../../src/core/materials/words.js';
import { columnsOf } from '../../src/core/optimise/blend-program.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import { propose } from '../../src/core/optimise/propose.js';
import type { Question } from '../../src/core/optimise/question.js';
import { doseRows, STANDING_LIMITS, standingTargets } from '../../src/core/optimise/standing-limits.js';
import { BINDER_SYSTEMS } from '../../src/core/optimise/systems.js';
import { heldRow } from '../support/pozzolan-blends.js';
import { codesOf, problemsOf } from '../support/problems.js';
import { material, materials, model } from '../support/shipped-table.js';

const usable = materials.filter((m) => !isGap(m.density));

const question = (ids: readonly string[], more: Partial<Question> = {}): Question => ({
  objective: 'lightest',
  targets: [],
  conditions: { ...DEFAULT_CONDITIONS, volume: 300 },
  materials: ids.length === 0 ? usable : ids.map(material),
  doses: [],
  figures: model,
  prices: new Map(),
  stock: new Map(),
  batch: { pieces: 1, step: 0.1, fine: null },
  ...more,
});

const system = (id: string) => BINDER_SYSTEMS.find((s) => s.id === id)!;
const valueAt = (row: Row, grams: readonly number[]): number =>
  row.coefficients.reduce((s, c, i) => s + c * grams[i]!, 0);

describe('binder systems', () => {
  it('leave no family of binders without a system', () => {
    const served = new Set(BINDER_SYSTEMS.flatMap((s) => s.families));
    expect([...served].sort()).toEqual([...BINDER_FAMILIES].sort());
  });

  it('bar every binder that is not theirs', () => {
    const q = question([]);
    const world = worldOf(q);
    for (const s of BINDER_SYSTEMS) {
      columnsOf(q, world, s).forEach((column, i) => {
        const { family } = world.materials[i]!;
        if (family !== null && !s.families.includes(family)) expect(column.upper, `${s.id}: ${column.name}`).toBe(0);
      });
    }
  });

  it('never put calcium aluminate or CSA together with portland, plaster or lime (flash set)', () => {
    for (const s of BINDER_SYSTEMS) {
      for (const quick of ['aluminate', 'csa'] as const) {
        if (s.families.includes(quick)) expect(s.families).toEqual([quick]);
      }
    }
  });

  it('keep plaster out of wet places, and plaster with portland out of damp ones', () => {
    for (const service of SERVICES) {
      const conditions = { ...DEFAULT_CONDITIONS, service };
      expect(system('gypsum').closed(conditions) === null, service).toBe(service !== 'wet');
      const together = system('gypsum-portland-pozzolan').closed(conditions) === null;
      expect(together, service).toBe(service === 'dry-indoor' || service === 'warm');
      expect(system('portland').closed(conditions)).toBeNull();
    }
  });

  it('ask of plaster with portland for a quarter of the portland in reactive pozzolan (binders.md d2, d3)', () => {
    const q = question(['water', 'casting-plaster', 'portland-cement-grey', 'silica-fume']);
    const pozzolan = heldRow(q, [0, 100, 100, 0]);
    const activity = worldOf(q).materials[3]!.activity;
    const enough = 0.25 / activity;
    expect(valueAt(pozzolan!, [0, 100, 100, 100 * enough * 1.01])).toBeGreaterThan(0);
    expect(valueAt(pozzolan!, [0, 100, 100, 100 * enough * 0.99])).toBeLessThan(0);
  });

  it('bar what a service forbids, and hold what is on hand', () => {
    const q = question(['water', 'portland-cement-grey', 'perlite'], {
      stock: new Map([['perlite', 50]]),
      batch: { pieces: 4, step: 1, fine: null },
      conditions: { ...DEFAULT_CONDITIONS, volume: 300, waste: 0.2 },
    });
    const perlite = columnsOf(q, worldOf(q), system('portland'))[2]!;
    expect(perlite.upper).toBeCloseTo((50 * 0.8) / 4, 9);
    for (const service of SERVICES) {
      const all = question([], { conditions: { ...DEFAULT_CONDITIONS, volume: 300, service } });
      const columns = columnsOf(all, worldOf(all), system('portland'));
      all.materials.forEach((m, i) => {
        if ((m.notFor ?? []).includes(service)) expect(columns[i]!.upper, `${m.id}, ${service}`).toBe(0);
      });
    }
  });
});

describe('limits that every proposal keeps', () => {
  it('give way to the brief’s own limit on the same property', () => {
    expect(standingTargets([])).toEqual(STANDING_LIMITS);
    const left = standingTargets([{ property: 'flow', min: 0.8 }]);
    expect(left.map((l) => l.property)).toEqual(STANDING_LIMITS.map((l) => l.property).filter((p) => p !== 'flow'));
  });

  it('keep pigment to 10 % of the binder (ASTM C979)', () => {
    const q = question(['water', 'portland-cement-grey', 'iron-oxide-red']);
    const row = doseRows(q, worldOf(q)).find((r) => r.name.startsWith('pigment'))!;
    expect(valueAt(row, [50, 100, 9.99])).toBeLessThan(row.high!);
    expect(valueAt(row, [50, 100, 10.01])).toBeGreaterThan(row.high!);
  });

  it('hold every dose of the table to its window, and below what earns a warning', () => {
    let dosed = 0;
    for (const m of usable) {
      if (m.dose === undefined) continue;
      const q = question([
        'water',
        'portland-cement-grey',
        'casting-plaster',
        'csa-rapid-cement',
        'hydrated-lime',
        m.id,
      ]);
      const row = doseRows(q, worldOf(q)).find((r) => r.name === `${m.id} dose max`)!;
      expect(row, m.id).toBeDefined();
      const most = Math.min(m.dose.most.value, m.dose.warn?.value ?? Number.POSITIVE_INFINITY);
      const at = q.materials.length - 1;
      const solids = worldOf(q).materials[at]!.solids;
      // What a gram of every other material counts for in the base, from the row itself; its own column last.
      const base = row.coefficients.reduce((s, c, i) => (i === at ? s : s - (100 / most) * c), 0);
      expect(base, m.id).toBeGreaterThan(0);
      const own = row.coefficients[at]!;
      expect(own).toBeLessThanOrEqual(solids + 1e-12);
      expect(own).toBeGreaterThan(0);
      dosed++;
    }
    expect(dosed).toBeGreaterThan(10);
  });
});

describe('briefs that no binder is open to', () => {
  it('are refused with the reason: plaster alone, in wet service', () => {
    const q = question(['water', 'casting-plaster'], {
      conditions: { ...DEFAULT_CONDITIONS, volume: 300, service: 'wet' },
    });
    expect(codesOf(() => propose(q))).toEqual(['brief-contradicts']);
    expect(problemsOf(() => propose(q))[0]!.hint).toContain('dissolves in wet service');
  });

  it('are refused where there is no binder at all', () => {
    expect(codesOf(() => propose(question(['water', 'silica-sand-fine'])))).toEqual(['brief-contradicts']);
  });
});

describe('what is proposed', () => {
  const ids = ['water', 'portland-cement-grey', 'casting-plaster', 'masonry-sand', 'perlite', 'limestone-flour'];
  const value = (q: Question, property: string): number =>
    propose(q, { draws: 0 }).assessment.properties.find((p) => p.property === property)!.value!;

  it('is a solid blend even where grains and water alone would be the lightest', () => {
    const proposal = propose(question(['water', 'portland-cement-grey', 'perlite', 'expanded-glass']), { draws: 0 });
    expect(proposal.ingredients.map((i) => i.material)).toContain('portland-cement-grey');
    expect(proposal.status).toBe('met');
  });

  it('is by each objective the best of the five', () => {
    const prices = new Map(ids.map((id, i) => [id, 0.0003 + 0.0004 * i]));
    const of = (objective: Question['objective'], property: string) =>
      value(question(ids, { objective, prices }), property);
    const others = ['cheapest', 'lightest', 'heaviest', 'strongest', 'quickest'] as const;
    for (const other of others) {
      expect(of('cheapest', 'cost')).toBeLessThanOrEqual(of(other, 'cost') * 1.001);
      expect(of('lightest', 'dry-weight')).toBeLessThanOrEqual(of(other, 'dry-weight') * 1.001);
      expect(of('heaviest', 'dry-weight')).toBeGreaterThanOrEqual(of(other, 'dry-weight') * 0.999);
      expect(of('strongest', 'strength')).toBeGreaterThanOrEqual(of(other, 'strength') * 0.999);
      expect(of('quickest', 'demould-time')).toBeLessThanOrEqual(of(other, 'demould-time') * 1.001);
    }
  });

  it('reports what became of every binder system', () => {
    const { systems, system: chosen } = propose(question(ids), { draws: 0 });
    expect(systems.map((s) => s.system).sort()).toEqual(BINDER_SYSTEMS.map((s) => s.id).sort());
    expect(systems.filter((s) => s.outcome === 'chosen').map((s) => s.system)).toEqual([chosen]);
    expect(systems.find((s) => s.system === 'csa')!.outcome).toBe('absent');
    const damp = propose(question(ids, { conditions: { ...DEFAULT_CONDITIONS, volume: 300, service: 'damp' } }), {
      draws: 0,
    });
    expect(damp.systems.find((s) => s.system === 'gypsum-portland-pozzolan')!.outcome).toBe('closed');
  });
});
