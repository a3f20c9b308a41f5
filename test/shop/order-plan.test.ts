import { describe, expect, it } from 'vitest';
import { DEFAULT_SHOP } from '../../src/core/brief/shelf.js';
import { dayOf, isoDate } from '../../src/core/shop/order-calendar.js';
import { type Order, orderSchema, readOrder, type WrittenOrder } from '../../src/core/shop/order-file.js';
import { type OrderBlend, planOrder, pouredFor, type Store, workOf } from '../../src/core/shop/order-plan.js';
import { problemsOf } from '../support/problems.js';
import { material } from '../support/shipped-table.js';

const at = (path: string) => ({ file: 'order.yaml', path });
const order = (more: Partial<WrittenOrder> = {}): Order =>
  readOrder(
    orderSchema.parse({
      start: '2026-03-02',
      due: '2026-03-20',
      hours: '6 h',
      mixing: '5 min',
      between: '15 min',
      items: [{ recipe: 'a.yaml', pieces: 40, moulds: 4, 'mould-price': 18, filling: '2 min' }],
      ...more,
    }),
    DEFAULT_SHOP,
    at,
  );

/** An invented blend: 200 g plaster and 140 g water a piece of 250 cm³, all its times given. */
function blend(
  more: { working?: number | null; demould?: number; dry?: number; cost?: number; waste?: number } = {},
): OrderBlend {
  const times = {
    working: more.working === undefined ? 20 : more.working,
    demould: more.demould ?? 60,
    dry: more.dry ?? 96,
  };
  return {
    title: 'plaster',
    parts: [
      { material: material('casting-plaster'), grams: 200 },
      { material: material('water'), grams: 140 },
    ],
    volume: 250,
    waste: more.waste ?? 0,
    cost: more.cost ?? 0.5,
    times: { ...times, careful: { ...times, dry: 2 * times.dry } },
  };
}

const STORE: Store = {
  packs: () => [{ text: '5 kg', grams: 5000, amount: '9.80' }],
  stock: () => 0,
  keeps: () => null,
};
const plan = (o: Order, b: OrderBlend, faster: OrderBlend | null = null) =>
  planOrder(o, [{ item: o.items[0]!, blend: b, faster: () => faster }], STORE);

/** Source of the expected values: worked by hand from the comment beside each. */
describe('a bowl, by hand', () => {
  it('holds what is filled before the mix stiffens', () => {
    // 20 min less 5 to mix, 2 min a mould: 7 moulds.
    expect(workOf(order(), order().items[0]!, blend(), blend().times).perBowl).toBe(7);
    // 4 min to work are gone in mixing: not one mould.
    expect(plan(order(), blend({ working: 4 })).items[0]!.impossible).toBe('it stiffens before one mould is filled');
    expect(plan(order(), blend({ working: null })).items[0]!.impossible).toBe('nothing in the blend sets');
  });

  it('holds what its size allows, waste taken off, by volume or by weight', () => {
    // 1.1 L less a tenth is 990 mL: 3 pieces of 250. 2 kg less a tenth is 1800 g: 5 pieces of 340.
    const inBowl = (bowl: string) => plan(order({ bowl }), blend({ waste: 0.1 })).items[0]!;
    expect(inBowl('1.1 L')).toMatchObject({ perBowl: 3, limitedBy: 'bowl' });
    expect(inBowl('2 kg')).toMatchObject({ perBowl: 4, limitedBy: 'moulds' });
    expect(inBowl('1.1 L').bowlGrams).toBeCloseTo((3 * 340) / 0.9, 9);
    expect(inBowl('200 mL').impossible).toBe('the bowl does not hold the mix for one piece');
  });

  it('fills no more moulds than there are', () => {
    expect(plan(order(), blend()).items[0]).toMatchObject({
      perBowl: 4,
      limitedBy: 'moulds',
      bowlGrams: 1360,
      turns: 6,
    });
  });
});

describe('the plan, by hand', () => {
  it('pours enough to cover breakage', () => {
    expect(pouredFor(40, 0)).toBe(40);
    expect(pouredFor(38, 0.05)).toBe(40);
    expect(pouredFor(39, 0.05)).toBe(42);
    expect(pouredFor(9, 0.1)).toBe(10);
    const five = plan(order({ breakage: '5 %' }), blend());
    expect(five.items[0]).toMatchObject({ pieces: 40, poured: 43 });
  });

  it('counts drying from the pour to the day it can be used', () => {
    // 4 moulds, six turns a day: 24 on Monday, 16 on Tuesday in four turns, the last at 12:00. Dry 96 h on: Saturday 12:00.
    const { timetable, careful, items } = plan(order(), blend());
    expect(timetable.bowls).toHaveLength(10);
    expect(isoDate(timetable.lastReady)).toBe('2026-03-07');
    // Twice as slow: 8 days after Tuesday the 3rd.
    expect(isoDate(careful.lastReady)).toBe('2026-03-11');
    expect(isoDate(items[0]!.lastPour!)).toBe('2026-03-03');
    expect(timetable.met).toBe(true);
    const demoulded = plan(order({ ready: 'demoulded' }), blend());
    expect(isoDate(demoulded.timetable.lastReady)).toBe('2026-03-03');
    expect(plan(order(), blend({ dry: Number.POSITIVE_INFINITY })).timetable.lastReady).toBe(Number.POSITIVE_INFINITY);
  });

  it('weighs moulds against a faster blend, once moulds are needed', () => {
    // Demoulds in 20 h: once a day, 4 moulds; dry 4 days on, due Friday 13th, so pours until Monday 9th: 6 days, 24 of 40
    // pieces. 40/6 = 6.7: 7 moulds, 3 more, 54. The faster one demoulds in an hour at 1.20 for 0.50 a piece more: 28 on 40.
    const slow = blend({ demould: 1200 });
    const fast = { ...blend({ cost: 1.2 }), title: 'quick' };
    const due = order({ due: '2026-03-13' });
    const { moulds, mouldCost, against } = plan(due, slow, fast);
    expect(moulds).toMatchObject({ status: 'buy', extra: [3], fewest: true });
    expect(mouldCost).toBe(54);
    expect(against).toHaveLength(1);
    expect(against[0]).toMatchObject({ extraMoulds: 3, stillMoulds: 0, mouldsCost: 54, cheaper: 'blend' });
    expect(against[0]!.blendCost).toBeCloseTo(28, 9);
    expect(against[0]!.breakEven).toBeCloseTo(54 / 0.7, 9);
    let asked = 0;
    const faster = () => {
      asked++;
      return fast;
    };
    planOrder(order(), [{ item: order().items[0]!, blend: blend(), faster }], STORE);
    expect(asked).toBe(0);
  });

  it('buys whole packs for all that is poured, and no water', () => {
    // 43 pieces of 200 g over 0.95: 9053 g, two bags of 5 kg.
    const { materials } = plan(order({ breakage: '5 %' }), blend({ waste: 0.05 }));
    expect(materials.map((m) => m.material.id)).toEqual(['casting-plaster']);
    expect(materials[0]!.grams).toBeCloseTo((43 * 200) / 0.95, 6);
    expect(materials[0]!.plan!.buy).toMatchObject([{ count: 2 }]);
    expect(materials[0]!.plan!.cost.toFixed(2)).toBe('19.60');
    const none = planOrder(order(), [{ item: order().items[0]!, blend: blend(), faster: () => null }], {
      ...STORE,
      packs: () => [],
    });
    expect(none.materials[0]!.plan).toBeNull();
  });

  it('buys for pieces that no day has room for too', () => {
    const { materials, timetable } = plan(order({ items: [{ recipe: 'a.yaml', pieces: 40, moulds: 0 }] }), blend());
    expect(timetable.unpoured).toEqual([40]);
    expect(materials[0]!.grams).toBe(8000);
  });
});

describe('the order file', () => {
  it('takes what it does not say from the shop, and the rest from the house rules', () => {
    const shop = {
      ...DEFAULT_SHOP,
      currency: 'EUR',
      bowl: { cm3: 3000 },
      work: { hours: 4, weekdays: ['sat', 'sun'] as const },
      costs: { ...DEFAULT_SHOP.costs, breakage: 0.04, mould: { price: '21.50', pours: 60 } },
    };
    const lean = orderSchema.parse({
      start: '2026-03-02',
      due: '2026-03-02',
      items: [{ brief: 'b.yaml', pieces: 1, moulds: 1 }],
    });
    expect(readOrder(lean, shop, at)).toMatchObject({
      due: dayOf('2026-03-02'),
      ready: 'dry',
      bowl: { cm3: 3000 },
      breakage: 0.04,
      mixMinutes: 4,
      betweenMinutes: 15,
      days: { weekdays: new Set(['sat', 'sun']), opens: 540, minutes: 240 },
      items: [{ kind: 'brief', file: 'b.yaml', mouldPrice: '21.50', fillMinutes: 1, faster: null }],
    });
    expect(readOrder(lean, DEFAULT_SHOP, at)).toMatchObject({ bowl: null, breakage: 0, days: { minutes: 480 } });
  });

  it('says everything that is wrong at once, each with its place', () => {
    const wrong = {
      start: '2026-03-32',
      due: '2026-03-02',
      hours: '30 h',
      opens: '25:00',
      breakage: '95 %',
      closed: ['3 April'],
      bowl: '2 h',
      keeps: { 'casting-plaster': '2 kg' },
      items: [
        { pieces: 1, moulds: 1 },
        { brief: 'a.yaml', recipe: 'b.yaml', pieces: 1, moulds: 1 },
        { brief: 'a.yaml', pieces: 1, moulds: 1, filling: '2 kg', 'mould-price': 'much' },
      ],
    };
    const problems = problemsOf(() => readOrder(orderSchema.parse(wrong), DEFAULT_SHOP, at));
    expect(problems.map((p) => p.where?.path)).toEqual([
      'start',
      'opens',
      'hours',
      'breakage',
      'closed.0',
      'bowl',
      'keeps.casting-plaster',
      'items.0',
      'items.1',
      'items.2.mould-price',
    ]);
    const early = problemsOf(() =>
      readOrder(
        orderSchema.parse({ start: '2026-03-02', due: '2026-03-01', items: [{ brief: 'a', pieces: 1, moulds: 1 }] }),
        DEFAULT_SHOP,
        at,
      ),
    );
    expect(early).toMatchObject([{ code: 'brief-contradicts', where: { path: 'due' } }]);
  });

  it('is no factory plan', () => {
    const item = { brief: 'a.yaml', pieces: 5001, moulds: 1 };
    expect(orderSchema.safeParse({ start: 'x', due: 'x', items: [item] }).success).toBe(false);
    expect(orderSchema.safeParse({ start: 'x', due: 'x', items: [] }).success).toBe(false);
    expect(orderSchema.safeParse({ start: 'x', due: 'x', items: [{ ...item, pieces: 5000 }], day: 1 }).success).toBe(
      false,
    );
  });
});
