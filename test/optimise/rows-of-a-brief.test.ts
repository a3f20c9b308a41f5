import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { blendProgram, columnsOf } from '../../src/core/optimise/blend-program.js';
import type { Question } from '../../src/core/optimise/question.js';
import { neighbourhood } from '../../src/core/optimise/tangent.js';
import { questionOf } from '../support/hand-question.js';
import { systemOf } from '../support/small-shelf.js';

/** The linear program of a brief, row by row, at a blend of 120 g of water, 200 g of plaster and 100 g of sand. */

const IDS = ['water', 'casting-plaster', 'silica-sand-fine'];
const GRAMS = [120, 200, 100];
const asked = (more: Partial<Question> = {}) => questionOf(IDS, more);
const programOf = (question: Question, system = 'gypsum', tighten?: ReadonlyMap<string, number>, grams = GRAMS) => {
  const world = worldOf(question);
  const open = grams.map(() => true);
  const columns = columnsOf(question, world, systemOf(system));
  return blendProgram(question, world, neighbourhood(world, grams, open), systemOf(system), columns, tighten);
};
const named = (program: ReturnType<typeof programOf>, name: string) => program.rows.filter((r) => r.name === name);

describe('the program of a brief', () => {
  it('fills the mould, asks for something that sets, then for targets, standing limits, doses and the system’s own', () => {
    const targets = [{ property: 'water-to-binder', min: 0.4, max: 0.7 }];
    const { rows, origins } = programOf(asked({ targets }));
    expect(rows.map((r) => r.name)).toEqual([
      'fills the mould',
      'binder in the blend',
      'water-to-binder min',
      'water-to-binder max',
      'flow min',
      'flow max',
      'paste-to-voids min',
      'sand-to-binder max',
      'strength min',
      'working-time min',
      'pigment of the binder max',
      'pozzolan of the binder max',
    ]);
    expect(origins.map((o) => o.kind)).toEqual([
      ...['fixed', 'fixed', 'target', 'target'],
      ...[...Array(6).fill('standing'), 'fixed', 'fixed'],
    ]);
    expect(origins[2]).toEqual({ kind: 'target', target: targets[0], side: 'min' });
    expect(origins[3]).toEqual({ kind: 'target', target: targets[0], side: 'max' });
    expect(rows[0]).toMatchObject({ low: 300, high: 300, scale: 300 });
  });

  it('has a standing limit give way to a target on the same', () => {
    const { rows, origins } = programOf(asked({ targets: [{ property: 'flow', min: 0.9 }] }));
    expect(rows.flatMap((r, i) => (r.name.startsWith('flow') ? [[r.name, origins[i]!.kind]] : []))).toEqual([
      ['flow min', 'target'],
    ]);
  });

  it('leaves out the time to pour where a blend has it four times over, unless a target asks for it', () => {
    const slow = ['water', 'portland-cement-grey', 'silica-sand-fine'];
    const rowsFor = (ids: readonly string[], targets: Question['targets'] = []) => {
      const question = questionOf(ids, { targets });
      const world = worldOf(question);
      const system = systemOf(ids === slow ? 'portland' : 'gypsum');
      const hood = neighbourhood(world, GRAMS, [true, true, true]);
      return blendProgram(question, world, hood, system, columnsOf(question, world, system)).rows.map((r) => r.name);
    };
    expect(rowsFor(IDS)).toContain('working-time min');
    expect(rowsFor(slow)).not.toContain('working-time min');
    expect(rowsFor(slow, [{ property: 'working-time', min: 5 }])).toContain('working-time min');
  });

  it('asks for a twentieth of what sets, by what is solid in it: sand and water do not', () => {
    const [row] = named(programOf(asked()), 'binder in the blend');
    expect(row!.coefficients).toEqual([-0.05, expect.closeTo(0.95, 12), -0.05]);
    expect(row).toMatchObject({ low: 0, scale: 1 });
  });

  it('draws limits in by what it is told, either side', () => {
    const targets = [{ property: 'water-to-binder', min: 0.4, max: 0.7 }];
    const tighten = new Map([
      ['water-to-binder min', 0.05],
      ['water-to-binder max', 0.1],
    ]);
    const program = programOf(asked({ targets }), 'gypsum', tighten);
    const [least] = named(program, 'water-to-binder min');
    const [most] = named(program, 'water-to-binder max');
    expect(least!.coefficients[1]).toBeCloseTo(-0.45, 9);
    expect(most!.coefficients[1]).toBeCloseTo(-0.6, 9);
    // What a row stands for is the limit itself.
    expect(program.origins[2]).toEqual({ kind: 'target', target: targets[0], side: 'min' });
  });

  it('brings in the rows of its binder system and of doses asked for', () => {
    const doses = [{ material: 'silica-sand-fine', percent: 10, of: 'binder' as const }];
    const [dose] = named(programOf(asked({ doses })), 'silica-sand-fine as asked');
    expect(dose).toMatchObject({ low: 0, high: 0 });
    const { rows, origins } = programOf(asked(), 'gypsum-portland-pozzolan');
    expect(rows.slice(-2).map((r) => r.name)).toEqual(['plaster in the blend', 'portland in the blend']);
    expect(origins.at(-1)).toEqual({ kind: 'fixed' });
  });
});

describe('how much of a material there may be', () => {
  const uppers = (question: Question, system = 'gypsum') =>
    columnsOf(question, worldOf(question), systemOf(system)).map((c) => c.upper);
  const ANY = Number.POSITIVE_INFINITY;

  it('is any, or the share of a piece in what is on hand, less its waste', () => {
    expect(uppers(asked())).toEqual([ANY, ANY, ANY]);
    const conditions = { ...asked().conditions, waste: 0.2 };
    const stock = new Map([['silica-sand-fine', 1000]]);
    const batch = { ...asked().batch, pieces: 4 };
    // A fifth of a kilogram is wasted, the rest makes four pieces.
    expect(uppers(asked({ stock, conditions, batch }))).toEqual([ANY, ANY, 200]);
    expect(uppers(asked({ stock: new Map([['silica-sand-fine', 0]]) }))).toEqual([ANY, ANY, 0]);
  });

  it('is none of a binder that is foreign to the system, or of what is not for the service', () => {
    expect(uppers(asked(), 'portland')).toEqual([ANY, 0, ANY]);
    const question = asked();
    const barred = question.materials.map((m, i) => (i === 2 ? { ...m, notFor: ['wet' as const] } : m));
    const inService = (service: 'wet' | 'damp') =>
      uppers({ ...question, materials: barred, conditions: { ...question.conditions, service } });
    // Nor is plaster, by the table.
    expect(inService('wet')).toEqual([ANY, 0, 0]);
    expect(inService('damp')).toEqual([ANY, ANY, ANY]);
    // Whatever is on hand.
    expect(uppers(asked({ stock: new Map([['casting-plaster', 500]]) }), 'portland')[1]).toBe(0);
  });
});
