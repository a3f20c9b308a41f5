import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { AIMS, type Sought } from '../../src/core/optimise/objective.js';
import { gains, inWholeParts, type PartsBlend } from '../../src/core/optimise/parts.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { questionOf } from '../support/hand-question.js';
import { heavy, holdsParts, inParts, MORTAR } from '../support/in-parts.js';
import { material, numberOf } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

const partsOf = (question: Question, blend: PartsBlend | null) =>
  blend!.parts.map((p) => [question.materials[p.material]!.id, p.parts]);

describe('a mortar in whole-number parts', () => {
  it('by mass comes to 2 of cement to 1 of sand, which 2.15 to 1 is nearest to', () => {
    const question = heavy(650);
    const { exact, blend } = inParts(question, { by: 'mass', most: 5 });
    expect(exact.grams[1]! / exact.grams[2]!).toBeCloseTo(2.153, 2);
    expect(partsOf(question, blend)).toEqual([
      ['portland-cement-grey', 2],
      ['masonry-sand', 1],
    ]);
    holdsParts(blend!, blend!.answer.grams, [1, 1, 1]);
    expect(blend!.answer.feasible).toBe(true);
    // Whole numbers cost a little more than the blend without them.
    expect(blend!.answer.value!).toBeGreaterThan(exact.value!);
    expect(blend!.answer.value! / exact.value!).toBeLessThan(1.02);
  });

  it.each([640, 655, 670, 685])(
    'of %i g is of the fraction up to 12 parts that comes nearest, with sand enough',
    (most) => {
      const question = heavy(most);
      const { exact, blend } = inParts(question, { by: 'mass', most: 12 });
      const ratio = exact.grams[1]! / exact.grams[2]!;
      // Less cement to the sand is heavy enough as well, and the more of it the cheaper.
      let best = 0;
      for (let p = 1; p <= 12; p++) for (let q = 1; q <= 12; q++) if (p / q <= ratio) best = Math.max(best, p / q);
      const parts = new Map(blend!.parts.map((p) => [p.material, p.parts]));
      expect(parts.get(1)! / parts.get(2)!).toBeCloseTo(best, 12);
    },
  );

  it('has its largest numbers first, whichever stuff that is', () => {
    const question = heavy(680);
    const { exact, blend } = inParts(question, { by: 'mass', most: 9 });
    expect(exact.grams[2]).toBeGreaterThan(exact.grams[1]!);
    expect(partsOf(question, blend)[0]![0]).toBe('masonry-sand');
    const [first, second] = blend!.parts;
    expect(first!.parts).toBeGreaterThan(second!.parts);
    expect(blend!.system.rows(worldOf(question)).map((r) => r.name)).toEqual(['parts of portland-cement-grey']);
  });

  it('by scoop counts loose volume: a scoop of cement and one of sand weigh what lies in them', () => {
    const question = heavy(650);
    const { blend, world } = inParts(
      { ...question, batch: { pieces: 1, step: 5, fine: null } },
      { by: 'scoop', most: 5 },
    );
    const loose = ['portland-cement-grey', 'masonry-sand'].map((id) => numberOf(material(id).bulkDensity));
    expect(blend!.by).toBe('scoop');
    expect(partsOf(question, blend)).toEqual([
      ['portland-cement-grey', 5],
      ['masonry-sand', 2],
    ]);
    holdsParts(blend!, blend!.answer.grams, [1, ...loose]);
    expect(blend!.partOf(blend!.answer.grams)).toBeCloseTo(blend!.answer.grams[2]! / 2 / loose[1]!, 6);
    const [together] = blend!.knobs(blend!.answer.grams);
    // A cubic centimetre at a time, whatever the step of the scale.
    expect(together!.perStep).toEqual([
      [1, 5 * loose[0]!],
      [2, expect.closeTo(2 * loose[1]!, 12)],
    ]);
    expect(world.materials[1]!.bulkDensity).toBe(loose[0]);
  });

  it('by scoop is measured against what fills most scoops, light as it is', () => {
    const ids = ['water', 'portland-cement-grey', 'perlite'];
    const question = questionOf(ids, { targets: [{ property: 'dry-weight', max: 300 }] });
    const { exact, blend, world } = inParts(question, { by: 'scoop', most: 5 });
    expect(exact.grams[1]).toBeGreaterThan(exact.grams[2]!);
    expect(blend!.system.rows(world).map((r) => r.name)).toEqual(['parts of portland-cement-grey']);
    expect(partsOf(question, blend)[0]![0]).toBe('perlite');
  });

  it('brings in nothing that the blend it starts from does without', () => {
    const ids = [...MORTAR, 'perlite'];
    const question = questionOf(ids, { targets: [{ property: 'dry-weight', max: 400 }] });
    const world = worldOf(question);
    const aim = AIMS.cheapest;
    const bounds = world.materials.map((_m, i) => ({ lower: 0, upper: i === 3 ? 0 : Number.POSITIVE_INFINITY }));
    const heavier = settle(question, world, systemOf('portland'), { aim, bounds })!;
    expect(heavier.feasible).toBe(false);
    const blend = inWholeParts(question, world, systemOf('portland'), heavier, aim, { by: 'mass', most: 5 });
    expect(blend!.answer.grams[3]).toBe(0);
    expect(blend!.answer.feasible).toBe(false);
    // With perlite it would be light enough.
    expect(settle(question, world, systemOf('portland'), { aim })!.feasible).toBe(true);
  });

  it('is measured out by the part, all together, and the rest on the scale', () => {
    const question = heavy(650, { batch: { pieces: 1, step: 0.5, fine: null } });
    const { blend } = inParts(question, { by: 'mass', most: 5 });
    expect(blend!.by).toBe('mass');
    expect(blend!.partOf([100, 360, 180])).toBe(180);
    expect(blend!.knobs([100, 360, 180])).toEqual([
      {
        perStep: [
          [1, 1],
          [2, 0.5],
        ],
        exact: 360,
        least: 1,
        most: Number.MAX_SAFE_INTEGER,
      },
      { perStep: [[0, 0.5]], exact: 200, least: 0, most: expect.any(Number) },
    ]);
  });

  it('keeps its parts by rows of their own, beside those of its binder system', () => {
    const question = heavy(650);
    const { blend, world } = inParts(question, { by: 'mass', most: 5 });
    expect(blend!.system).toMatchObject({ id: 'portland', name: 'portland cement' });
    expect(blend!.system.rows(world)).toEqual([
      { name: 'parts of masonry-sand', coefficients: [0, -1, 2], low: 0, high: 0, scale: 1 },
    ]);
    // Plaster with portland has two rows of its own and one of what it must hold, and its parts besides.
    const mixed = questionOf(['water', 'casting-plaster', 'portland-cement-grey', 'silica-fume']);
    const three = inParts(mixed, { by: 'mass', most: 4 }, 'gypsum-portland-pozzolan');
    expect(three.blend!.parts).toHaveLength(3);
    const rows = three.blend!.system.rows(three.world).map((r) => r.name);
    expect(three.blend!.system.holds).toBe(systemOf('gypsum-portland-pozzolan').holds);
    expect(rows.slice(0, 2)).toEqual(
      systemOf('gypsum-portland-pozzolan')
        .rows(three.world)
        .map((r) => r.name),
    );
    expect(rows.slice(2).every((name) => name.startsWith('parts of '))).toBe(true);
    expect(rows).toHaveLength(4);
  });

  it('has one part of one stuff where there is only one', () => {
    const question = questionOf(MORTAR.slice(0, 2));
    const { blend, exact } = inParts(question, { by: 'mass', most: 5 });
    expect(blend!.parts).toEqual([{ material: 1, parts: 1 }]);
    expect(blend!.answer.grams[1]).toBeCloseTo(exact.grams[1]!, 3);
    expect(blend!.system.rows(worldOf(question))).toEqual([]);
  });

  it('may leave out what it has next to nothing of', () => {
    // Sand is the cheaper stuff here, but there are 5 g of it: of parts up to two none holds so little.
    const prices = new Map([
      ['portland-cement-grey', 0.001],
      ['masonry-sand', 0.0001],
    ]);
    const question = questionOf(MORTAR, { prices, stock: new Map([['masonry-sand', 5]]) });
    const { exact, blend } = inParts(question, { by: 'mass', most: 2 });
    expect(exact.grams[2]).toBeCloseTo(5, 6);
    expect(blend!.parts).toEqual([{ material: 1, parts: 1 }]);
    expect(blend!.answer.grams[2]).toBe(0);
    expect(blend!.answer.feasible).toBe(true);
  });

  it('comes as near as parts can, where nothing meets the brief', () => {
    const { exact, blend } = inParts(heavy(720), { by: 'mass', most: 5 });
    expect(exact.feasible).toBe(false);
    expect(blend!.answer.feasible).toBe(false);
    holdsParts(blend!, blend!.answer.grams, [1, 1, 1]);
    expect(blend!.answer.miss).toBeLessThan(exact.miss + 0.02);
  });
});

describe('the better of two blends in parts', () => {
  const at = (value: number | null, miss = 0) => ({ value, miss, feasible: miss === 0 });
  const gain = (
    answer: ReturnType<typeof at>,
    parts: readonly number[],
    best: ReturnType<typeof at>,
    other: readonly number[],
    aim: Sought = AIMS.cheapest,
  ) => gains(answer, parts, { answer: best, parts: other }, aim);

  it('loses less, by more than a ten-thousandth, however large its numbers', () => {
    expect(gain(at(10), [9, 8], at(10.01), [1, 1])).toBe(true);
    expect(gain(at(10.01), [1, 1], at(10), [9, 8])).toBe(false);
    expect(gain(at(10.01), [9, 8], at(10), [1, 1], AIMS.strongest)).toBe(true);
  });

  it('has the smaller numbers, where both lose about the same', () => {
    expect(gain(at(10.0009), [2, 1], at(10), [3, 1])).toBe(true);
    expect(gain(at(10), [3, 1], at(10.0009), [2, 1])).toBe(false);
    expect(gain(at(10), [2, 2], at(10), [3, 1])).toBe(false);
    // Of costs below one the ten-thousandth is of a whole unit; of what is large, of its size.
    expect(gain(at(0.10009), [2, 1], at(0.1), [3, 1])).toBe(true);
    expect(gain(at(-10.0009), [2, 1], at(-10), [3, 1])).toBe(true);
    expect(gain(at(null), [2, 1], at(0), [3, 1])).toBe(true);
  });

  it('misses less, before all', () => {
    expect(gain(at(10), [9, 8], at(10, 0.1), [1, 1])).toBe(true);
    expect(gain(at(10, 0.1), [1, 1], at(10), [9, 8])).toBe(false);
  });
});
