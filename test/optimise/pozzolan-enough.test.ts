import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { propertyValue } from '../../src/core/blend/property.js';
import { stateOf } from '../../src/core/blend/state/state.js';
import { worldOf } from '../../src/core/blend/world.js';
import type { Figure } from '../../src/core/materials/figure.js';
import type { Row } from '../../src/core/optimise/lp/types.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import { roundToScale } from '../../src/core/optimise/rounding.js';
import { searchOf } from '../../src/core/optimise/search-ground.js';
import { settle } from '../../src/core/optimise/settle.js';
import { frozenAt, neighbourhood, tangentForm } from '../../src/core/optimise/tangent.js';
import { between, property } from '../science/counting.js';
import { questionOf } from '../support/hand-question.js';
import { heldRow, POZZOLAN_SYSTEM, pozzolanQuestion, proposedOf, screened } from '../support/pozzolan-blends.js';
import { systemOf } from '../support/small-shelf.js';

const BRIEFS = 36;
const question = questionOf([
  'water',
  'casting-plaster',
  'portland-cement-grey',
  'silica-fume',
  'natural-pozzolan',
  'masonry-sand',
]);
const world = worldOf(question);
const pozzolanToCement = propertyById('pozzolan-to-cement')!;
const valueAt = (row: Row, grams: readonly number[]): number =>
  row.coefficients.reduce((s, c, i) => s + c * grams[i]!, 0);
const short = (grams: readonly number[]): boolean => screened(question, grams)!.reasons.includes('pozzolan-short');

describe('plaster with portland and pozzolan as it is proposed', () => {
  const proposals = Array.from({ length: BRIEFS }, (_v, seed) => {
    const asked = pozzolanQuestion(seed);
    return { seed, asked, proposal: proposedOf(asked) };
  });
  const outcomeOf = ({ asked, proposal }: (typeof proposals)[number]) => {
    const grams = new Map(proposal!.ingredients.map((i) => [i.material, i.batchGrams]));
    return screened(
      asked,
      asked.materials.map((m) => grams.get(m.id) ?? 0),
    );
  };
  const met = proposals.filter((p) => p.proposal?.status === 'met');

  it('is never met and stopped by the sulfate screen at once, however coarse the scale', () => {
    expect(met.length).toBeGreaterThan(0.8 * BRIEFS);
    expect(met.filter((p) => outcomeOf(p)?.verdict !== 'warn').map((p) => p.seed)).toEqual([]);
    const mixed = met.filter(({ proposal, asked }) => {
      const pozzolans = asked.materials.filter((m) => m.kind === 'pozzolan').map((m) => m.id);
      return proposal!.ingredients.filter((i) => pozzolans.includes(i.material)).length === 2;
    });
    expect(mixed.length).toBeGreaterThan(3);
  });

  it('says so where the blend that comes nearest is stopped', () => {
    const stopped = proposals.filter((p) => p.proposal?.status === 'nearest' && outcomeOf(p)?.verdict === 'refuse');
    for (const { proposal } of stopped) {
      const told = [...(proposal!.conflict?.missed ?? []), ...(proposal!.coarse?.sides ?? [])];
      expect(told).toContainEqual(
        expect.objectContaining({ property: 'pozzolan-to-cement', side: 'min', limit: 0.25 }),
      );
    }
  });
});

describe('the row of pozzolan and the sulfate screen', () => {
  const blend = fc.tuple(between(5, 100), between(5, 100), between(0, 60), between(0, 60));
  const grams = ([plaster, portland, silica, natural]: readonly number[]) => [
    90,
    plaster!,
    portland!,
    silica!,
    natural!,
    50,
  ];

  it('ask the same of a blend: a quarter of the portland, four tenths of natural pozzolan, the mean of mixtures', () => {
    property(blend, (b) => {
      const at = grams(b);
      const room = valueAt(heldRow(question, at), at);
      const { value } = propertyValue(pozzolanToCement, world, stateOf(world, at));
      if (Math.abs(room) < 1e-4) return false;
      expect(short(at)).toBe(room < 0);
      expect(short(at)).toBe(value! < 0.25);
      return true;
    });
    // Half of each: the screen asks 0.325 and was given 0.31; a pozzolan at a time, 0.25 and 0.4 would do.
    expect(short(grams([50, 100, 15.5, 15.5]))).toBe(true);
    expect(short(grams([50, 100, 16.5, 16.5]))).toBe(false);
  });

  it('agree of whatever keeps the row as it looks from another blend', () => {
    property(
      fc.tuple(blend, blend),
      ([from, to]) => {
        if (valueAt(heldRow(question, grams(from)), grams(to)) < 0) return false;
        expect(short(grams(to))).toBe(false);
        return true;
      },
      300,
      150,
    );
    // From where there is none, each counts as it does by itself.
    const none = heldRow(question, grams([50, 100, 0, 0]));
    expect(valueAt(none, grams([50, 100, 25, 0]))).toBeCloseTo(0, 9);
    expect(valueAt(none, grams([50, 100, 0, 40]))).toBeCloseTo(0, 9);
  });

  it('has the slopes that small differences find', () => {
    const at = grams([50, 100, 20, 12]);
    const hood = neighbourhood(
      world,
      at,
      at.map(() => true),
    );
    const own = tangentForm(pozzolanToCement, world, frozenAt(hood.base)).numerator;
    const { sloped: _sloped, ...held } = pozzolanToCement;
    const found = tangentForm(held, world, hood).numerator;
    own.forEach((slope, i) => {
      expect(slope).toBeCloseTo(found[i]!, 4);
    });
  });

  it('count damp pozzolan and damp portland by what is dry of them', () => {
    const quarter: Figure = { value: 25, low: 25, high: 25, unit: 'percent', source: 'none', status: 'ours' };
    const damp = {
      ...question,
      materials: question.materials.map((m) => (m.id === 'silica-fume' ? { ...m, moisture: quarter } : m)),
    };
    expect(screened(damp, grams([50, 100, 31, 0]))!.reasons).toContain('pozzolan-short');
    expect(screened(damp, grams([50, 100, 31.3, 0]))!.reasons).toContain('pozzolan-enough');
  });
});

describe('a blend on the scale', () => {
  const coarse = { ...question, batch: { pieces: 1, step: 5, fine: null } };
  const aim = AIMS.cheapest;

  it('keeps the pozzolan that is asked for, not to half a step', () => {
    for (const volume of [230, 260, 300, 420, 500]) {
      const asked = { ...coarse, conditions: { ...question.conditions, volume } };
      const on = worldOf(asked);
      const { feasible, grams } = settle(asked, on, POZZOLAN_SYSTEM, { aim: AIMS.strongest })!;
      const { batchGrams, miss } = roundToScale(asked, on, POZZOLAN_SYSTEM, grams, AIMS.strongest);
      expect({ feasible, miss, short: short(batchGrams) }, `${volume} mL`).toEqual({
        feasible: true,
        miss: 0,
        short: false,
      });
    }
  });

  it('misses what no rounding within reach keeps', () => {
    // 84 g of portland and 21 of silica; with nothing but portland to turn, and only up, that is too little.
    const at = [60, 60, 84, 21, 0, 0];
    const knob = (i: number, step: number, least: number, most: number) => ({
      perStep: [[i, step] as const],
      exact: at[i]! / step,
      least,
      most,
    });
    const knobs = () => [knob(2, 5, 17, 17), ...[0, 1, 3].map((i) => knob(i, 1, at[i]!, at[i]!))];
    const open = {
      ...question,
      targets: [
        { property: 'flow', min: 0.01 },
        { property: 'strength', min: 0.1 },
      ],
    };
    const { value } = propertyValue(propertyById('fresh-volume')!, world, stateOf(world, at));
    const asked = { ...open, conditions: { ...question.conditions, volume: value! } };
    const { batchGrams, miss } = roundToScale(asked, worldOf(asked), POZZOLAN_SYSTEM, at, aim, { knobs });
    expect(batchGrams.slice(2, 4)).toEqual([85, 21]);
    // 21 / 85 is 0.2471.
    expect(miss).toBeGreaterThan(0.01);
    expect(miss).toBeLessThan(0.02);
  });
});

describe('a blend that a search is begun from', () => {
  const judged = (grams: readonly number[], system = POZZOLAN_SYSTEM, of = question) =>
    searchOf({ ...of, targets: LOOSE }, worldOf(of), system, { aim: AIMS.cheapest }).judge(grams);
  // All that every blend is held to given up.
  const LOOSE = ['flow', 'paste-to-voids', 'sand-to-binder', 'strength', 'working-time'].map((id) => ({
    property: id,
    min: 0,
  }));

  it('misses by what it lacks of pozzolan, in shares of what is asked', () => {
    expect(judged([90, 50, 100, 25, 0, 0]).miss).toBe(0);
    expect(judged([90, 50, 100, 20, 0, 0]).miss).toBeCloseTo(0.2, 4);
    expect(judged([90, 50, 100, 0, 0, 0]).miss).toBeCloseTo(1, 4);
    // Half of each pozzolan: 0.31 of 0.325.
    expect(judged([90, 50, 100, 15.5, 15.5, 0]).miss).toBeCloseTo(1 - 0.31 / 0.325, 4);
  });

  it('misses shares of its binders, and doses of what it has none of', () => {
    // 5 % of plaster is 10 % of the two too little.
    const little = judged([90, 5, 95, 30, 0, 0]).miss;
    expect(little).toBeGreaterThan(0.5);
    const dosed = questionOf(['water', 'casting-plaster', 'masonry-sand', 'sodium-citrate']);
    expect(judged([60, 100, 50, 0], systemOf('gypsum'), dosed).miss).toBe(0);
    expect(judged([60, 100, 50, 0.05], systemOf('gypsum'), dosed).miss).toBe(0);
    expect(judged([60, 100, 50, 20], systemOf('gypsum'), dosed).miss).toBeGreaterThan(1);
    expect(judged([60, 100, 50, 1e-8], systemOf('gypsum'), dosed).miss).toBe(0);
  });
});
