import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { orderResultSchema } from '../../src/core/report/order-schema.js';
import { dayOf } from '../../src/core/shop/order-calendar.js';
import { folderOf, said } from '../support/cli.js';

/** Everything here is invented. */
const FILES = {
  'shop.yaml': `invented: true
currency: EUR
prices: prices.csv
room: { temperature: 20 °C, humidity: 50 % }
waste: 5 %
bowl: 2 L
hours: 5 h
`,
  'prices.csv': `material,pack,price,in stock
casting-plaster,5 kg,9.80,2 kg
casting-plaster,25 kg,31.00,
portland-cement-grey,25 kg,8.90,
masonry-sand,25 kg,4.30,30 kg
`,
  'tray.yaml': `title: Tray
mould: { water: 250 mL }
wall: 1 cm
amounts: { casting-plaster: 200 g, water: 130 g }
`,
  'pot.yaml': `title: Pot
mould: { water: 400 mL }
wall: 1.5 cm
amounts: { portland-cement-grey: 300 g, masonry-sand: 500 g, water: 140 g }
`,
  'loose.yaml': `title: No mould
amounts: { casting-plaster: 200 g, water: 130 g }
`,
  'brief.yaml': `title: Cheap pot
mould: { water: 400 mL }
wall: 1.5 cm
objective: cheapest
materials: { only: [portland-cement-grey, masonry-sand, casting-plaster] }
`,
  'order.yaml': `title: Two sorts
invented: true
shop: shop.yaml
start: 2026-03-02
due: 2026-03-31
breakage: 5 %
items:
  - { recipe: tray.yaml, pieces: 30, moulds: 3, mould-price: 12 }
  - { recipe: pot.yaml, pieces: 10, moulds: 2, mould-price: 20 EUR }
`,
};
const folder = folderOf(FILES);
const file = (name: string): string => join(folder, name);
const write = (name: string, text: string): string => join(folderOf({ ...FILES, [name]: text }), name);
const json = async (path: string) => {
  const { code, out, err } = await said(['order', path, '--json']);
  expect(err).toBe('');
  return { code, result: orderResultSchema.parse(JSON.parse(out)) };
};

describe('order', () => {
  it('ends with 1 where a blend misses its targets, and names it and them', async () => {
    const heavy = `${FILES['tray.yaml']}targets: { dry-weight: { max: 50 g }, strength: { min: 1 MPa } }\n`;
    const { code, result } = await json(join(folderOf({ ...FILES, 'tray.yaml': heavy }), 'order.yaml'));
    expect([code, result.met]).toEqual([1, true]);
    expect(result.warnings.filter((w) => w.code === 'target-missed')).toMatchObject([
      { file: 'tray.yaml', message: expect.stringMatching(/Missed: dry weight;/) },
    ]);
  });

  it('plans, by its schema; the plan holds its own promises', async () => {
    const { code, result } = await json(file('order.yaml'));
    expect(code).toBe(0);
    expect(result).toMatchObject({
      met: true,
      start: '2026-03-02',
      due: '2026-03-31',
      moulds: { status: 'none', days: null },
    });
    expect(result.items.map((i) => [i.title, i.pieces, i.poured, i.moulds])).toEqual([
      ['Tray', 30, 32, 3],
      ['Pot', 10, 11, 2],
    ]);
    const pours = result.days.flatMap((d) => d.pours);
    for (const [i, item] of result.items.entries()) {
      const mine = pours.filter((p) => p.item === i);
      expect(mine.reduce((s, p) => s + p.pieces, 0)).toBe(item.poured);
      expect(mine.at(-1)!.at.slice(0, 10)).toBe(item.lastPour);
      for (const p of mine) expect(p.grams).toBeLessThanOrEqual(item.bowlGrams + 1e-6);
    }
    // The materials are what the bowls hold.
    const mixed = pours.reduce((s, p) => s + p.grams, 0);
    const water = result.items.reduce((s, item) => {
      const piece = item.blend.find((b) => b.material === 'water')!.pieceGrams;
      return s + (item.poured * piece) / 0.95;
    }, 0);
    expect(result.materials.reduce((s, m) => s + m.grams, 0)).toBeCloseTo(mixed - water, 4);
    // Days until dry is the property that assess prints for the same recipe.
    const assessed = JSON.parse((await said(['assess', file('tray.yaml'), '--shop', file('shop.yaml'), '--json'])).out);
    const property = assessed.properties.find((p: { property: string }) => p.property === 'drying-days');
    expect(result.items[0]!.dryDays.likely).toBeCloseTo(property.value, 9);
    const last = result.items[0]!;
    expect(dayOf(last.lastReady!)! - dayOf(last.lastPour!)!).toBeGreaterThanOrEqual(Math.floor(property.value));
    // The shelf is used first: 2 kg of plaster, and all the sand is there.
    const sand = result.materials.find((m) => m.material === 'masonry-sand')!;
    expect([sand.buy, sand.cost]).toEqual([[], '0']);
    const plaster = result.materials.find((m) => m.material === 'casting-plaster')!;
    expect(plaster.buy!.reduce((s, b) => s + b.count * b.grams, 0) + 2000).toBeGreaterThanOrEqual(plaster.grams);
    expect(result.cautions.cautions.length).toBeGreaterThan(5);
    expect(result.cautions.cautions[0]!.severity).not.toBe('info');
  });

  it('says no with exit code 1, how many moulds make it, and shows the timetable with them', async () => {
    const tight = write('order.yaml', FILES['order.yaml'].replace('due: 2026-03-31', 'due: 2026-03-18'));
    const { code, result } = await json(tight);
    expect([code, result.met, result.moulds.status]).toEqual([1, false, 'buy']);
    expect(result.moulds.buy.every((b) => b.title === 'Pot')).toBe(true);
    expect(result.moulds.days!.flatMap((d) => d.pours).every((p) => p.ready! <= '2026-03-18')).toBe(true);
    expect(Number(result.moulds.cost)).toBe(20 * result.moulds.buy[0]!.moulds);
    const plain = await said(['order', tight]);
    expect(plain.out).toContain('NO, with the moulds on hand');
    // Days that read alike are told once.
    expect(plain.out).toMatch(/to [a-z]{3} \d{4}-\d\d-\d\d \(\d+ days\)/);
    expect(plain.out).toContain('TIMETABLE with the moulds on hand');
    expect((await said(['order', tight, '--with-moulds'])).out).toContain('TIMETABLE with the moulds bought');
  });

  it('says when no number of moulds helps, and the soonest day', async () => {
    const { code, result } = await json(
      write('order.yaml', FILES['order.yaml'].replace('due: 2026-03-31', 'due: 2026-03-04')),
    );
    expect([code, result.moulds.status]).toEqual([1, 'no-help']);
    expect(result.moulds.lastReady! > '2026-03-04').toBe(true);
  });

  it('finds the faster blend of a brief by itself and weighs it against moulds', async () => {
    const text = `shop: shop.yaml
start: 2026-03-02
due: 2026-03-16
items: [{ brief: brief.yaml, pieces: 12, moulds: 1, mould-price: 15 }]
`;
    const { result } = await json(write('order.yaml', text));
    expect(result.moulds.status).toBe('buy');
    expect(result.against).toHaveLength(1);
    const [a] = result.against;
    expect(a!.title).toContain('quickest');
    expect(Number(a!.mouldsCost)).toBe(15 * a!.moulds);
    if (a!.stillMoulds !== null) expect(Number(a!.blendCost)).toBeCloseTo(12 * a!.perPiece + 15 * a!.stillMoulds, 3);
  });

  it('takes one shop for all its items, and lists what has no price', async () => {
    const { result } = await json(
      write('prices.csv', 'material,pack,price\ncasting-plaster,5 kg,9.80\n').replace('prices.csv', 'order.yaml'),
    );
    expect(result.unpriced).toEqual(['grey portland cement', 'masonry sand']);
    expect(result.items[1]!.costPerPiece).toBeNull();
  });

  it.each([
    ['a file that is not there', 'tray.yaml', 'trya.yaml', /Did you mean .*tray\.yaml/],
    ['a recipe without a mould', 'tray.yaml', 'loose.yaml', /mould/],
    ['a date that is none', '2026-03-31', '2026-02-30', /due.*2026-04-30/],
    ['a field that is none', 'breakage', 'brekage', /Did you mean “breakage”/],
    ['a due date before the start', '2026-03-31', '2026-03-01', /not before the start/],
    [
      'a material that is none',
      'items:',
      'keeps: { casting-plastr: 30 days }\nitems:',
      /Did you mean “casting-plaster”/,
    ],
  ])('refuses %s', async (_what, from, to, words) => {
    const path = write('order.yaml', FILES['order.yaml'].replace(from, to));
    const { code, err } = await said(['order', path]);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });

  it('plans the shipped example', async () => {
    const { code, result } = await json('examples/garden-stall/spring-market.yaml');
    expect([code, result.met]).toEqual([0, true]);
    // The times are the ones that propose prints for the same brief.
    const plain = (await said(['order', 'examples/garden-stall/spring-market.yaml'])).out.replace(/\s+/g, ' ');
    const proposed = (await said(['propose', 'examples/garden-stall/herb-planter.yaml'])).out;
    const demould = /time to demoulding +(\S.*?) {2,}likely/.exec(proposed)![1]!;
    expect(plain).toContain(`Hexagonal herb planter: 30 pieces`);
    expect(plain).toContain(`demoulds after ${demould},`);
    expect(result.invented).toBe(true);
    expect(result.materials.every((m) => m.proven)).toBe(true);
  });
});

describe('a dose that the scale cannot weigh for a bowl', () => {
  it('is told in the words of the card, with the file', async () => {
    const where = folderOf({
      ...FILES,
      'fine.yaml': FILES['tray.yaml'].replace('water: 130', 'citric-acid: 0.2 g, water: 130'),
      'fine-order.yaml': FILES['order.yaml'].replace('tray.yaml', 'fine.yaml'),
    });
    const { result } = await json(join(where, 'fine-order.yaml'));
    const [warning, ...more] = result.warnings.filter((w) => w.code === 'too-fine-to-weigh');
    expect(more).toEqual([]);
    const { perBowl, blend } = result.items[0]!;
    const acid = blend.find((i) => i.material === 'citric-acid')!;
    const grams = Number(((perBowl * acid.pieceGrams) / 0.95).toPrecision(3));
    expect(warning!.message).toContain('fine.yaml: this scale cannot tell so little: found “citric acid: ');
    expect(warning!.message).toContain(`${grams} g a bowl, weighed as ${Math.round(grams)} g”`);
    const card = await said(['card', join(where, 'fine.yaml'), '--json', '--shop', join(where, 'shop.yaml')]);
    const { warnings } = JSON.parse(card.out);
    expect(warnings.map((w: { code: string }) => w.code)).toContain('too-fine-to-weigh');
    expect(warnings.at(-1).message).toMatch(/^This scale cannot tell so little: found “citric acid: /);
  });
});
