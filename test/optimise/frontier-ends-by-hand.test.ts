import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/core/blend/target.js';
import { worldOf } from '../../src/core/blend/world.js';
import { type Place, placeAt, type Track, trackEnds } from '../../src/core/optimise/frontier-track.js';
import type { Aim } from '../../src/core/optimise/objective.js';
import type { Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { aim, CHEAP, HEAVY, LIGHT } from '../support/aims.js';
import { binderIn, costOf, type Dry, fullMould, LEANEST, LOOSE, perGram } from '../support/full-mould.js';
import { material } from '../support/shipped-table.js';
import { systemOf } from '../support/small-shelf.js';

/** The ends of the blends of one binder, and the places between them, by hand: see frontier-by-hand.test.ts. */

const R = 0.7;
const PLASTER = 'casting-plaster';
const ALPHA = 'alpha-gypsum-cement';
const GREY = 'portland-cement-grey';
const WHITE = 'portland-cement-white';
const FILLER = 'limestone-flour';

const FLOW = { property: 'flow', min: 0.9, max: 1.12 };

const shelf = (prices: Partial<Record<Dry, number>>, targets: readonly Target[] = [], more: Partial<Question> = {}) =>
  fullMould(prices, { targets: [{ property: 'water-to-binder', min: R, max: R }, ...LOOSE, ...targets], ...more });
const trackOf = (question: Question, of: Aim, against: Aim, system = 'gypsum'): Track => ({
  question,
  world: worldOf(question),
  system: systemOf(system),
  of,
  against,
});
const weight = (binder: Dry, filler = 0): number => binderIn(binder, R, filler) * (1 + R + filler);
const cost = (binder: Dry, price: number, filler = 0, fillerPrice = 0): number =>
  costOf(binderIn(binder, R, filler) * (price + filler * fillerPrice));
/** White cement as dense as the grey. */
const asDense = (question: Question): Question => ({
  ...question,
  materials: question.materials.map((m) => (m.id === WHITE ? { ...m, density: material(GREY).density } : m)),
});
/** Price of plaster at which it costs just what the denser one does. */
const EVEN = (0.001 * perGram(PLASTER, R)) / perGram(ALPHA, R);

describe('the ends of a track', () => {
  it('are the best of either property', () => {
    const track = trackOf(shelf({ [PLASTER]: 0.003, [FILLER]: 0.0003 }), CHEAP, LIGHT);
    const [a, b] = trackEnds(track)!;
    expect(a.of / cost(PLASTER, 0.003, LEANEST, 0.0003)).toBeCloseTo(1, 5);
    expect(a.against / weight(PLASTER, LEANEST)).toBeCloseTo(1, 5);
    expect(b.of / cost(PLASTER, 0.003)).toBeCloseTo(1, 5);
    expect(b.against / weight(PLASTER)).toBeCloseTo(1, 5);
    for (const end of [a, b]) {
      expect(end.track).toBe(track);
      expect(end.settled.feasible).toBe(true);
    }
  });

  it.each([
    ['lightest', LIGHT, PLASTER],
    ['heaviest', HEAVY, ALPHA],
  ] as const)('of blends that cost the same are the %s of them, from either side', (_name, against, binder) => {
    for (const hair of [0, 4e-7, -4e-7]) {
      const question = shelf({ [ALPHA]: 0.001, [PLASTER]: EVEN * (1 + hair) });
      const ends = [
        ...trackEnds(trackOf(question, CHEAP, against))!.map((p) => [p.of, p.against] as const),
        ...trackEnds(trackOf(question, against, CHEAP))!.map((p) => [p.against, p.of] as const),
      ];
      for (const [money, grams] of ends) {
        expect(money / cost(ALPHA, 0.001)).toBeCloseTo(1, 5);
        expect(grams / weight(binder)).toBeCloseTo(1, 6);
      }
    }
  });

  it('of blends that weigh the same are the cheapest, whichever comes first on the shelf', () => {
    const prices = { [GREY]: 0.0004, [WHITE]: 0.0009 };
    for (const order of [prices, { [WHITE]: 0.0009, [GREY]: 0.0004 }, { [GREY]: 0.0009, [WHITE]: 0.0004 }]) {
      for (const of of [HEAVY, LIGHT]) {
        const [a] = trackEnds(trackOf(asDense(shelf(order)), of, CHEAP, 'portland'))!;
        expect(a.of / weight(GREY)).toBeCloseTo(1, 5);
        expect(a.against / cost(GREY, 0.0004)).toBeCloseTo(1, 4);
      }
    }
  });

  it('hold the best to a millionth where it curves too', () => {
    const question = fullMould({ [GREY]: 0.0004, [FILLER]: 0.0001 }, { targets: [FLOW, LOOSE[1]!] });
    const strong = aim('strength', 'max');
    const track = trackOf(question, strong, CHEAP, 'portland');
    const best = settle(question, track.world, track.system, { aim: strong })!.value!;
    const [a] = trackEnds(track)!;
    expect(a.of / best).toBeGreaterThan(1 - 1.02e-6);
  });

  it('give up no more than a millionth of the best for the other property', () => {
    const question = shelf({ [ALPHA]: 0.001, [PLASTER]: EVEN * 1.0001 });
    const [a] = trackEnds(trackOf(question, CHEAP, LIGHT))!;
    const over = a.of / cost(ALPHA, 0.001) - 1;
    expect(over).toBeGreaterThan(0.5e-6);
    expect(over).toBeLessThan(1.05e-6);
    // So it has come a hundredth of the way to the lighter plaster.
    const way = (a.against - weight(ALPHA)) / (weight(PLASTER) - weight(ALPHA));
    expect(way).toBeGreaterThan(0.005);
    expect(way).toBeLessThan(0.0105);
  });

  it('are none where the binder cannot meet the brief, or only in too little to weigh', () => {
    const strong = shelf({ [PLASTER]: 0.003 }, []);
    expect(trackEnds(trackOf({ ...strong, targets: [{ property: 'strength', min: 500 }] }, CHEAP, LIGHT))).toBeNull();
    expect(trackEnds(trackOf(shelf({ [PLASTER]: 0.003 }), CHEAP, LIGHT, 'portland'))).toBeNull();
    const heavy = shelf({ [PLASTER]: 0.003 }, [], { limits: { ingredients: null, leastDose: 5000 } });
    expect(trackEnds(trackOf(heavy, CHEAP, LIGHT))).toBeNull();
    // Nor where one of the two is not to be had: no price, no cost.
    const unpriced = { ...shelf({ [PLASTER]: 0.003 }), prices: new Map<string, number>() };
    expect(trackEnds(trackOf(unpriced, CHEAP, LIGHT))).toBeNull();
    expect(trackEnds(trackOf(unpriced, LIGHT, CHEAP))).toBeNull();
  });

  it('are none where the best of the one has nothing of the other', () => {
    // The cheapest has no sand, and so no voids that paste could fill; as little as costs nothing cannot be weighed.
    const base = shelf({ [GREY]: 0.0004 });
    const question: Question = {
      ...base,
      materials: [...base.materials, material('masonry-sand')],
      prices: new Map([...base.prices, ['masonry-sand', 0.002]]),
    };
    const voids = aim('paste-to-voids', 'min');
    expect(trackEnds(trackOf(question, CHEAP, voids, 'portland'))).toBeNull();
    expect(trackEnds(trackOf(question, voids, CHEAP, 'portland'))).toBeNull();
    const cheap = { ...question, prices: new Map([...base.prices, ['masonry-sand', 0.00005]]) };
    expect(trackEnds(trackOf(cheap, CHEAP, voids, 'portland'))).not.toBeNull();
  });

  it('are none where so few ingredients leave no blend', () => {
    const lean = shelf({ [PLASTER]: 0.003, [FILLER]: 0.0003 }, [{ property: 'sand-to-binder', min: 1 }]);
    expect(trackEnds(trackOf(lean, CHEAP, LIGHT))).not.toBeNull();
    const one = { ...lean, limits: { ingredients: 1, leastDose: null } };
    expect(trackEnds(trackOf(one, CHEAP, LIGHT))).toBeNull();
  });

  it('keep to as few ingredients as may be', () => {
    const one = shelf({ [PLASTER]: 0.003, [FILLER]: 0.0003 }, [], { limits: { ingredients: 1, leastDose: null } });
    const [a, b] = trackEnds(trackOf(one, CHEAP, LIGHT))!;
    for (const end of [a, b]) expect(end.of / cost(PLASTER, 0.003)).toBeCloseTo(1, 5);
  });
});

describe('a place between the ends', () => {
  const question = (targets: readonly Target[] = []) => shelf({ [PLASTER]: 0.003, [FILLER]: 0.0003 }, targets);
  const [lean, rich] = [
    { cost: cost(PLASTER, 0.003, LEANEST, 0.0003), weight: weight(PLASTER, LEANEST) },
    { cost: cost(PLASTER, 0.003), weight: weight(PLASTER) },
  ];
  const costAt = (grams: number): number =>
    lean.cost + ((rich.cost - lean.cost) * (grams - lean.weight)) / (rich.weight - lean.weight);
  const half = (lean.weight + rich.weight) / 2;

  it('is the best of the one with the other held to its bound, from wherever it is sought', () => {
    const track = trackOf(question(), CHEAP, LIGHT);
    const [a, b] = trackEnds(track)!;
    for (const from of [[a], [b], [a, b], []]) {
      const place = placeAt(track, from, half)!;
      expect(place.against / half).toBeCloseTo(1, 5);
      expect(place.of / costAt(half)).toBeCloseTo(1, 5);
    }
  });

  it('is found upwards as well: as heavy as that, or heavier', () => {
    // Dear filler: the cheapest has none of it, the heaviest all there may be.
    const track = trackOf(shelf({ [GREY]: 0.0004, [FILLER]: 0.0003 }), CHEAP, HEAVY, 'portland');
    const [a, b] = trackEnds(track)!;
    const middle = (a.against + b.against) / 2;
    const place = placeAt(track, [a], middle)!;
    expect(place.against / middle).toBeCloseTo(1, 5);
    expect(place.of / ((a.of + b.of) / 2)).toBeCloseTo(1, 4);
    // A bound below the cheapest's own weight binds nothing.
    expect(placeAt(track, [b], 0.9 * a.against)!.of / a.of).toBeCloseTo(1, 5);
    // And the other way round: the heaviest for the money.
    const back = trackOf(track.question, HEAVY, CHEAP, 'portland');
    const money = (a.of + b.of) / 2;
    const bought = placeAt(back, trackEnds(back)!, money)!;
    expect(bought.against / money).toBeCloseTo(1, 5);
    expect(bought.of / middle).toBeCloseTo(1, 4);
  });

  it('keeps what was found before, unless it finds better', () => {
    const track = trackOf(question(), CHEAP, LIGHT);
    const place = placeAt(track, [], half)!;
    const better: Place = { ...place, of: 0.9 * place.of };
    expect(placeAt(track, [place], half, better)).toBe(better);
    expect(placeAt(track, [], half, better)).toBe(better);
    const worse: Place = { ...place, of: 1.1 * place.of };
    expect(placeAt(track, [place], half, worse)!.of / place.of).toBeCloseTo(1, 6);
    // Upwards more is better.
    const up = trackOf(question(), HEAVY, CHEAP);
    const heavy = placeAt(up, [], (lean.cost + rich.cost) / 2)!;
    const more: Place = { ...heavy, of: 1.1 * heavy.of };
    expect(placeAt(up, [heavy], heavy.against, more)).toBe(more);
    expect(placeAt(up, [heavy], heavy.against, { ...heavy, of: 0.9 * heavy.of })!.of / heavy.of).toBeCloseTo(1, 6);
  });

  it('is none where nothing is so light', () => {
    const track = trackOf(question(), CHEAP, LIGHT);
    const ends = trackEnds(track)!;
    expect(placeAt(track, ends, 0.9 * rich.weight)).toBeNull();
    expect(placeAt(track, [], 0.9 * rich.weight)).toBeNull();
    const before = ends[1];
    expect(placeAt(track, ends, 0.9 * rich.weight, before)).toBe(before);
  });

  it('keeps to what the brief says of the same property, on either side', () => {
    const tight = 0.25 * lean.weight + 0.75 * rich.weight;
    const most = trackOf(question([{ property: 'fresh-weight', max: tight }]), CHEAP, LIGHT);
    expect(placeAt(most, [], half)!.against / tight).toBeCloseTo(1, 5);
    const window = trackOf(question([{ property: 'fresh-weight', min: tight, max: 2000 }]), CHEAP, LIGHT);
    expect(placeAt(window, [], half)!.against / half).toBeCloseTo(1, 5);
    expect(placeAt(window, [], 0.999 * tight)).toBeNull();
    // Upwards: at least what the brief asks for, and no more than it allows.
    const dear = (targets: readonly Target[]) =>
      trackOf(shelf({ [PLASTER]: 0.0003, [FILLER]: 0.003 }, targets), CHEAP, HEAVY);
    expect(placeAt(dear([{ property: 'fresh-weight', min: half }]), [], tight)!.against / half).toBeCloseTo(1, 5);
    expect(placeAt(dear([{ property: 'fresh-weight', max: half }]), [], tight)!.against / tight).toBeCloseTo(1, 5);
    expect(placeAt(dear([{ property: 'fresh-weight', max: tight }]), [], half)).toBeNull();
  });

  it('keeps to the standing limit of the property too', () => {
    const loose = fullMould({ [GREY]: 0.0004 }, { targets: [LOOSE[0]!] });
    const track = trackOf(loose, CHEAP, aim('strength', 'max'), 'portland');
    expect(placeAt(track, [], 1)!.against).toBeCloseTo(2, 3);
    expect(placeAt(track, [], 5)!.against).toBeCloseTo(5, 3);
  });

  it('is none where the binder is not there, or a property is not to be had', () => {
    expect(placeAt(trackOf(question(), CHEAP, LIGHT, 'portland'), [], 2000)).toBeNull();
    const unpriced = { ...question(), prices: new Map<string, number>() };
    expect(placeAt(trackOf(unpriced, CHEAP, LIGHT), [], half)).toBeNull();
    // Cement has no water to plaster: it meets any such limit from below, and has no place by it.
    const cement = shelf({ [GREY]: 0.0004 });
    expect(placeAt(trackOf(cement, CHEAP, LIGHT, 'portland'), [], 2000)).not.toBeNull();
    expect(placeAt(trackOf(cement, CHEAP, aim('water-to-plaster', 'max'), 'portland'), [], 0.1)).toBeNull();
  });
});
