import { describe, expect, it } from 'vitest';
import { type Property, ratioOf } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { dot, worldOf } from '../../src/core/blend/world.js';
import { blendProgram, columnsOf } from '../../src/core/optimise/blend-program.js';
import { facedProgram, faceOf, reaches } from '../../src/core/optimise/faces.js';
import type { Face } from '../../src/core/optimise/ground.js';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';
import { AIMS, soughtProgram } from '../../src/core/optimise/objective.js';
import { filling, searchOf } from '../../src/core/optimise/search-ground.js';
import { frozenAt, neighbourhood } from '../../src/core/optimise/tangent.js';
import { questionOf, unlimited } from '../support/hand-question.js';
import { seededRandom } from '../support/random-programs.js';
import { material, numberOf } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/**
 * The objective as it looks from a blend, on shelves of the shipped table: silica fume counts as cement up to so much of
 * it, which makes a ridge; citric acid slows a plaster by so much for each share of it.
 */

const FLOW = { property: 'flow', min: 0.9, max: 1.2 };
const CEMENT_IDS = ['water', 'portland-cement-grey', 'silica-fume', 'limestone-flour', 'masonry-sand'];
const CEMENT = questionOf(CEMENT_IDS, {
  // Held by no dose window of its own, so that a step may take all of it.
  materials: CEMENT_IDS.map(unlimited),
  targets: [FLOW],
});
const PLASTER = questionOf(['water', 'casting-plaster', 'alpha-gypsum-cement', 'limestone-flour', 'citric-acid'], {
  targets: [FLOW],
});
const FUME = material('silica-fume');
/** Most silica fume that counts as cement, to a gram of it. */
const CAP = numberOf(FUME.pozzolan!.kCap);

const SHELVES = {
  cement: { question: CEMENT, world: worldOf(CEMENT), system: systemOf('portland') },
  plaster: { question: PLASTER, world: worldOf(PLASTER), system: systemOf('gypsum') },
};
type Shelf = (typeof SHELVES)[keyof typeof SHELVES];

/** A mould full of cement mortar with so much of the silica fume that counts. */
const mortar = (share: number) => {
  const { materials } = SHELVES.cement.world;
  const fume = (share * CAP * 200 * materials[1]!.solids) / materials[2]!.solids;
  return filling(SHELVES.cement.world, [90, 200, fume, 40, 200], 300);
};
const plaster = (acid: number) => filling(SHELVES.plaster.world, [120, 100, 60, 30, acid], 300);

const CASES = [
  { objective: 'strongest', shelf: SHELVES.cement, grams: mortar(0.8) },
  { objective: 'strongest', shelf: SHELVES.cement, grams: mortar(1.2) },
  { objective: 'strongest', shelf: SHELVES.plaster, grams: plaster(0.05) },
  { objective: 'quickest', shelf: SHELVES.plaster, grams: plaster(0.05) },
  { objective: 'heaviest', shelf: SHELVES.cement, grams: mortar(0.8) },
  { objective: 'lightest', shelf: SHELVES.cement, grams: mortar(1.2) },
] as const;

const hoodAt = ({ world }: Shelf, grams: readonly number[]) =>
  neighbourhood(
    world,
    grams,
    grams.map(() => true),
  );
/** The ratio of a property by the forward model alone. */
const ratioBy = (property: Property, { world }: Shelf, grams: readonly number[]) =>
  ratioOf(property.form(world, stateOf(world, grams)), grams);
const shown = ({ objective, grams }: (typeof CASES)[number]) => `${objective} of ${grams[2]!.toFixed(1)}`;

describe('the face of an objective', () => {
  it('is the ratio of the property at its own blend, and has the slope of the forward model there', () => {
    for (const one of CASES) {
      const { property } = AIMS[one.objective];
      const { ratio, slope } = faceOf(AIMS[one.objective], one.shelf.world, hoodAt(one.shelf, one.grams))!;
      const here = ratioBy(property, one.shelf, one.grams);
      expect((ratio + dot(slope, one.grams)) / here, shown(one)).toBeCloseTo(1, 5);
      one.grams.forEach((g, i) => {
        const moved = (by: number) => one.grams.map((x, k) => (k === i ? x + by : x));
        const step = 1e-4 * g;
        const rise = ratioBy(property, one.shelf, moved(step)) - ratioBy(property, one.shelf, moved(-step));
        // In shares of what is told: for each share of the material more.
        expect((g * slope[i]!) / here, `${shown(one)} by ${i}`).toBeCloseTo((g * rise) / (2 * step) / here, 4);
      });
    }
  });

  it('has a slope that adds up to nothing at its own blend where the objective is a ratio: twice the blend is as good', () => {
    for (const one of CASES) {
      const face = faceOf(AIMS[one.objective], one.shelf.world, hoodAt(one.shelf, one.grams))!;
      const { ratio, slope } = face;
      const size = slope.reduce((s, c, i) => s + Math.abs(c * one.grams[i]!), 0);
      const sum = one.objective === 'heaviest' || one.objective === 'lightest';
      expect(size, shown(one)).toBeGreaterThan(1e-3);
      if (sum) expect(ratio).toBe(0);
      else expect(Math.abs(dot(slope, one.grams)) / Math.max(size, Math.abs(ratio)), shown(one)).toBeLessThan(1e-5);
    }
  });

  it('reaches its own blend, and no blend that is better than it tells', () => {
    let shut = 0;
    for (const { objective, shelf, grams } of CASES) {
      const aim = AIMS[objective];
      const search = searchOf(shelf.question, shelf.world, shelf.system, { aim });
      const face = search.face(grams, null)!;
      expect(face).toEqual(faceOf(aim, shelf.world, hoodAt(shelf, grams)));
      const better = aim.sense === 'max' ? 1 : -1;
      const random = seededRandom(7);
      for (let n = 0; n < 20; n++) {
        const there = search.judge(grams.map((g) => g * random.between(0.6, 1.4)));
        const told = face.ratio + dot(face.slope, there.grams);
        const misjudged = better * (ratioBy(aim.property, shelf, there.grams) - told) > 1e-6;
        expect(search.reaches(face, there)).toBe(!misjudged);
        expect(reaches(aim, shelf.world, face, there)).toBe(!misjudged);
        if (misjudged) shut++;
      }
      const size = Math.abs(ratioBy(aim.property, shelf, grams));
      const lower = { ...face, ratio: face.ratio - better * 1e-4 * size };
      const raised = { ...face, ratio: face.ratio + better * 1e-4 * size };
      expect(search.reaches(raised, search.judge(grams))).toBe(true);
      expect(search.reaches(lower, search.judge(grams))).toBe(false);
    }
    expect(shut).toBeGreaterThan(20);
    expect(shut).toBeLessThan(100);
  });

  it('is looked at among the materials that may move', () => {
    const { world, question, system } = SHELVES.cement;
    const search = searchOf(question, world, system, { aim: AIMS.strongest });
    const grams = mortar(0.8);
    const some = [true, true, false, true, true];
    expect(search.face(grams, some)).toEqual(faceOf(AIMS.strongest, world, neighbourhood(world, grams, some)));
    expect(search.face(grams, some)!.slope).not.toEqual(search.face(grams, null)!.slope);
    expect(searchOf(question, world, system, { aim: AIMS.cheapest }).face(grams, null)).toBeNull();
  });
});

describe('the program that heeds faces', () => {
  const optimum = (program: LinearProgram) => {
    const answer = solveLp(program);
    if (answer.status !== 'optimal') throw new Error(answer.status);
    return answer;
  };
  /** The rows at a blend, with every material held within a tenth of what is there. */
  const programAt = ({ question, world, system }: Shelf, grams: readonly number[]) => {
    const columns = columnsOf(question, world, system).map((c, i) => ({
      ...c,
      lower: 0.9 * grams[i]!,
      upper: 1.1 * grams[i]!,
    }));
    return blendProgram(question, world, hoodAt({ question, world, system }, grams), system, columns);
  };

  it('has an optimum that no face tells to be less, and that is never better than the plain one', () => {
    let held = 0;
    for (const one of CASES) {
      const { shelf, grams } = one;
      const { world } = shelf;
      const aim = AIMS[one.objective];
      const program = programAt(shelf, grams);
      const hood = hoodAt(shelf, grams);
      const own = faceOf(aim, world, hood)!;
      const here = own.ratio + dot(own.slope, grams);
      const random = seededRandom(3);
      const faces = [1, 2, 3].map((): Face => {
        const there = grams.map((g) => g * random.between(0.85, 1.15));
        return faceOf(aim, world, hoodAt(shelf, there))!;
      });
      const faced = facedProgram(aim, program, world, hood, faces);
      expect(faced.columns.map((c) => c.name)).toEqual([...world.materials.map((m) => m.id), 'short of its own face']);
      expect(faced.rows, shown(one)).toHaveLength(program.rows.length + 3);
      const { x, objective } = optimum(faced);
      const gain = own.ratio + objective - here;
      const better = aim.sense === 'max' ? 1 : -1;
      const size = [own, ...faces].reduce((s, f) => s + f.slope.reduce((t, c, i) => t + Math.abs(c * grams[i]!), 0), 0);
      // The worst of what the faces tell, told beside the blend's own.
      const told = [own, ...faces].map((f) => better * (f.ratio + dot(f.slope, x.slice(0, -1)) - here));
      expect((better * gain - Math.min(...told)) / size, shown(one)).toBeCloseTo(0, 6);
      expect(x.at(-1)).toBeGreaterThanOrEqual(0);
      const plain = optimum(soughtProgram(aim, program, world, hood));
      const most = better * (own.ratio + dot(own.slope, plain.x) - here);
      expect(better * gain, shown(one)).toBeLessThanOrEqual(most + 1e-7 * size);
      if (better * gain < most - 1e-4 * size) held++;
    }
    expect(held).toBeGreaterThan(2);
  });

  it('is the plain one where every face is the blend’s own', () => {
    for (const { objective, shelf, grams } of CASES) {
      const aim = AIMS[objective];
      const hood = hoodAt(shelf, grams);
      const program = programAt(shelf, grams);
      const own = faceOf(aim, shelf.world, hood)!;
      expect(facedProgram(aim, program, shelf.world, hood, [own, own])).toEqual(
        soughtProgram(aim, program, shelf.world, hood),
      );
    }
  });

  it('stops a step on the ridge that it would run over', () => {
    const { world, question, system } = SHELVES.cement;
    const search = searchOf(question, world, system, { aim: AIMS.strongest });
    const shareOf = ([, cement, fume]: readonly number[]) => {
      const [, c, f] = world.materials;
      return (fume! * f!.solids) / (cement! * c!.solids) / CAP;
    };
    const from = mortar(1.1);
    const plain = search.step(from, 0.05, null)!;
    const over = search.face(plain, null)!;
    const along = search.step(from, 0.05, null, { fences: [], faces: [over] })!;
    expect(shareOf(from)).toBeCloseTo(1.1, 9);
    // Silica fume too much is of no use, so all of it goes, and with it what was.
    expect(shareOf(plain)).toBe(0);
    expect(shareOf(along)).toBeCloseTo(1, 1);
    const [was, lost, won] = [from, plain, along].map((g) => search.judge(g));
    expect(won!.value!).toBeGreaterThan(1.15 * lost!.value!);
    expect(won!.value!).toBeGreaterThan(1.15 * was!.value!);
    expect(search.reaches(over, was!)).toBe(true);
    // Only what is held within reach heeds faces: a free jump goes for the ratio itself.
    expect(search.step(from, null, null, { fences: [], faces: [over] })).toEqual(search.step(from, null, null));
  });

  it('knows the state only of the blend it is made at where no neighbour is known', () => {
    const { world } = SHELVES.cement;
    const grams = mortar(0.8);
    const frozen = faceOf(AIMS.strongest, world, frozenAt(stateOf(world, grams)))!;
    const tangent = faceOf(AIMS.strongest, world, hoodAt(SHELVES.cement, grams))!;
    expect(frozen.ratio).toBeCloseTo(tangent.ratio, 5);
    expect(frozen.slope[2]).not.toBeCloseTo(tangent.slope[2]!, 5);
  });
});
