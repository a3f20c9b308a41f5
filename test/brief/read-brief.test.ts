import { describe, expect, it } from 'vitest';
import { leftOut } from '../../src/core/brief/play.js';
import { DEFAULT_SHOP } from '../../src/core/brief/shelf.js';
import { priceList, shelfOf } from '../support/bench-shelf.js';
import { material, materials } from '../support/shipped-table.js';
import { brief, SHELF, said, shop, told } from '../support/written.js';

const HEAD = 'mould: { water: 300 mL }\nobjective: lightest\n';

describe('a dose that the service bans', () => {
  const dosed = (service: string, dose: string) =>
    `mould: { water: 300 mL }\nobjective: strongest\nservice: ${service}\n${dose}`;

  it('is refused where it is written, with the reason', () => {
    const text = dosed('wet', 'doses: { vinyl-acetate-emulsion: 10 % of binder }');
    expect(told(() => brief(text))).toEqual(['brief-contradicts 4 doses.vinyl-acetate-emulsion']);
    expect(said(() => brief(text))[0]).toMatch(/its row in the table bans it from wet service; leave the dose out/i);
  });

  it('is taken where it may be', () => {
    for (const text of [
      dosed('dry-indoor', 'doses: { vinyl-acetate-emulsion: 10 % of binder }'),
      dosed('wet', 'doses: { acrylic-emulsion: 10 % of binder }'),
    ])
      expect(brief(text).question.doses).toHaveLength(1);
  });
});

describe('targets', () => {
  const targets = (text: string) => brief(`${HEAD}targets:\n${text}`).question.targets;

  it('are read in any unit into core units', () => {
    expect(
      targets(`
  dry-weight: { min: 8 oz, max: 1 lb }
  demould-time: { max: 2 h }
  strength: { min: 3000 psi }
  water-to-binder: { max: 0.5 }
  pigment-share: { max: 5 % }
  peak-temperature: { max: 140 °F }
  cost: { max: 1.20 EUR }
`),
    ).toEqual([
      {
        property: 'dry-weight',
        path: 'targets.dry-weight',
        min: expect.closeTo(226.796185, 5),
        max: expect.closeTo(453.59237, 5),
      },
      { property: 'water-to-binder', path: 'targets.water-to-binder', max: 0.5 },
      { property: 'demould-time', path: 'targets.demould-time', max: 120 },
      { property: 'strength', path: 'targets.strength', min: expect.closeTo(20.6842719, 6) },
      { property: 'peak-temperature', path: 'targets.peak-temperature', max: expect.closeTo(60, 9) },
      { property: 'pigment-share', path: 'targets.pigment-share', max: expect.closeTo(5, 12) },
      { property: 'cost', path: 'targets.cost', max: 1.2 },
    ]);
  });

  it.each([
    ['  dry-weight: { min: 300 g, max: 200 g }', ['target-contradicts 4 targets.dry-weight']],
    ['  dry-weight: {}', ['field-missing 4 targets.dry-weight']],
    ['  dry-weight: { max: 200 mL }', ['unit-wrong-kind 4 targets.dry-weight.max']],
    ['  demould-time: { max: 20 g }', ['unit-wrong-kind 4 targets.demould-time.max']],
    ['  strength: { min: 20 °C }', ['unit-wrong-kind 4 targets.strength.min']],
    ['  cost: { max: 3 USD }', ['currency-mixed 4 targets.cost.max']],
    ['  dry-wieght: { max: 200 g }', ['field-unknown 4 targets.dry-wieght']],
    ['  dry-weight: { most: 200 g }', ['field-unknown 4 targets.dry-weight.most']],
    ['  dry-weight: 200 g', ['field-wrong-type 4 targets.dry-weight']],
    ['  dry-weight: { max: 2 g }\n  strength: { min: 9 g }', ['unit-wrong-kind 5 targets.strength.min']],
  ])('%s is refused with its line', (text, expected) => {
    expect(told(() => targets(text))).toEqual(expected);
  });

  it('suggest the property that was meant', () => {
    expect(said(() => targets('  dry-wieght: { max: 200 g }'))[0]).toMatch(
      /targets\.dry-wieght: there is no such field here: found “dry-wieght”\. Did you mean “dry-weight”\?$/,
    );
  });

  it('are known by the names they are printed by, and told where all are listed', () => {
    const meant = (word: string) => said(() => targets(`  ${word}: { max: 1 }`))[0]!;
    expect(meant('flow-index')).toContain('Did you mean “flow”?');
    expect(meant('so3')).toContain('Did you mean “sulfate”?');
    // Its id and its printed name hold the word, and mean the same.
    expect(meant('pozzolan')).toContain('Did you mean “pozzolan-to-cement”?');
    expect(meant('glitter')).toMatch(/, … “pourwright why” lists them all\.$/);
  });

  it('are all looked at: every mistake is told at once', () => {
    expect(
      told(() =>
        brief(
          'mould: { water: 3 kg/m3 }\nobjective: lightest\nwall: 9 g\ntargets:\n  strength: { min: 9 g }\n  flow: { max: 3 h }',
        ),
      ),
    ).toHaveLength(4);
  });
});

describe('what is in play', () => {
  const ids = (text: string): string[] => brief(`${HEAD}${text}`).question.materials.map((m) => m.id);

  it('is what blends are made of; the rest is left out with a reason', () => {
    const read = brief(HEAD);
    const inPlay = new Set(read.question.materials.map((m) => m.id));
    for (const m of materials) expect(inPlay.has(m.id), m.id).toBe(leftOut(m) === null);
    expect(read.leftOut.map((l) => l.material).sort()).toEqual(
      materials
        .filter((m) => leftOut(m) !== null)
        .map((m) => m.id)
        .sort(),
    );
    expect(leftOut(material('borax'))).toBe('a reproductive hazard');
    expect(leftOut(material('iron-oxide-red'))).toContain('colour');
    expect(leftOut(material('citric-acid'))).toBeNull();
  });

  it('is only what is named, and water; also what is named; never what is barred', () => {
    expect(ids('materials: { only: [plaster of paris, perlite] }').sort()).toEqual([
      'casting-plaster',
      'perlite',
      'water',
    ]);
    expect(ids('materials: { also: [borax] }')).toContain('borax');
    expect(ids('materials: { never: [perlite] }')).not.toContain('perlite');
    expect(ids('colour: { pigment: red iron oxide, share: 3 % }')).toContain('iron-oxide-red');
  });

  it('is only what has a price where cost counts', () => {
    const cheapest = brief('mould: { water: 300 mL }\nobjective: cheapest').question.materials.map((m) => m.id);
    for (const id of cheapest) expect(id === 'water' || SHELF.prices.has(id), id).toBe(true);
    expect(cheapest).not.toContain('vermiculite');
    expect(ids('')).toContain('vermiculite');
  });

  it.each([
    ['materials: { only: [casting plastre] }', ['material-unknown 3 materials.only[0]']],
    ['materials: { only: [] }', ['field-out-of-range 3 materials.only']],
    ['materials: { never: [perlite], also: [perlite] }', ['brief-contradicts 3 materials.never[0]']],
    [
      'doses: { ar-glass-fibre: 1 % of binder }\nmaterials: { never: [ar-glass-fibre] }',
      ['brief-contradicts 4 materials.never[0]'],
    ],
    ['doses: { ar-glass-fibre: 1 % }', ['option-invalid 3 doses.ar-glass-fibre']],
    ['doses: { ar-glass-fibre: 1 % of everything }', ['option-invalid 3 doses.ar-glass-fibre']],
    ['doses: { ar-glass-fibre: 0 % of binder }', ['amount-not-positive 3 doses.ar-glass-fibre']],
    ['doses: { ar-glass-fibre: 1 g of binder }', ['unit-wrong-kind 3 doses.ar-glass-fibre']],
    ['doses: { glas fibre: 1 % of binder }', ['material-unknown 3 doses.glas fibre']],
    ['colour: { pigment: perlite, share: 3 % }', ['option-invalid 3 colour.pigment']],
    ['colour: { pigment: iron-oxide-red, share: 3 g }', ['unit-wrong-kind 3 colour.share']],
    ['batch: { pieces: 0 }', ['field-out-of-range 3 batch.pieces']],
    ['batch: { pieces: 2.5 }', ['field-wrong-type 3 batch.pieces']],
    ['batch: { waste: 99 % }', ['field-out-of-range 3 batch.waste']],
  ])('%s is refused with its line', (text, expected) => {
    expect(told(() => brief(`${HEAD}${text}`))).toEqual(expected);
  });

  it('reads a dose of a base with two words, and a colour of the binder', () => {
    const { doses } = brief(
      `${HEAD}doses: { methyl-cellulose: 0.1 % of dry blend }\ncolour: { pigment: iron-oxide-red, share: 4 }`,
    ).question;
    expect(doses).toEqual([
      { material: 'methyl-cellulose', percent: expect.closeTo(0.1, 12), of: 'dry-blend' },
      { material: 'iron-oxide-red', percent: expect.closeTo(4, 12), of: 'binder' },
    ]);
  });
});

describe('prices', () => {
  const noPrices = { ...SHELF, prices: new Map() };

  it('are missed only where cost counts', () => {
    expect(brief(HEAD, noPrices).question.prices.size).toBe(0);
    expect(told(() => brief('mould: { water: 300 mL }\nobjective: cheapest', noPrices))).toEqual([
      'price-list-missing 2 objective',
    ]);
    expect(told(() => brief(`${HEAD}targets: { cost: { max: 1 EUR } }`, noPrices))).toEqual([
      'price-list-missing 3 targets.cost',
    ]);
  });

  it('are told to be lacking altogether: no list, or one without a row, by its name', () => {
    const cheapest = 'mould: { water: 300 mL }\nobjective: cheapest';
    const lead = 'brief.yaml line 2, objective: a cost is asked for, and there are no prices to reckon it by:';
    expect(said(() => brief(cheapest, noPrices))).toEqual([
      `${lead} expected a price list: name a shop that has one (shop: …), or the list itself with --prices.`,
    ]);
    expect(said(() => brief(cheapest, { ...noPrices, priceList: 'prices.csv' }))).toEqual([
      `${lead} found “prices.csv, without a row below its first”, expected a row for each material you can buy, with its pack and price.`,
    ]);
  });

  it('are missed for what the brief names', () => {
    expect(
      told(() =>
        brief('mould: { water: 300 mL }\nobjective: cheapest\nmaterials: { only: [vermiculite, casting-plaster] }'),
      ),
    ).toEqual(['price-missing 3 materials.only[0]']);
  });

  it('of the cheapest pack count, and what is on hand is known', () => {
    expect(SHELF.prices.get('casting-plaster')).toBeCloseTo(31 / 25_000, 12);
    const list = priceList(
      'material,pack,price,in stock\ncasting-plaster,5 kg,9.80,2 packs\ncasting-plaster,25 kg,31.00,1 pack\n',
    );
    expect(shelfOf({ ...DEFAULT_SHOP, currency: 'EUR' }, list).prices.get('casting-plaster')).toBeCloseTo(
      31 / 25_000,
      12,
    );
  });
});

describe('a shop', () => {
  it('fills in what is not written', () => {
    expect(shop('{}')).toEqual(DEFAULT_SHOP);
  });

  it('is read in the maker’s units', () => {
    const read = shop(`
currency: USD
scale: { step: 0.1 oz, fine: { step: 0.01 g, most: 100 g } }
scoop: 1/4 cup
bowl: 2 qt
room: { temperature: 66 °F, humidity: 45 % }
waste: 5 %
region: US
units: us
`);
    expect(read).toMatchObject({
      currency: 'USD',
      scale: { step: expect.closeTo(2.8349523, 6), fine: { step: 0.01, most: 100 } },
      scoop: expect.closeTo(59.147, 3),
      bowl: { cm3: expect.closeTo(1892.7, 1) },
      temperature: expect.closeTo(18.889, 3),
      humidity: 0.45,
      waste: 0.05,
      region: 'US',
      units: 'us',
    });
  });

  it.each([
    ['currency: euro', 'field-wrong-type 1 currency'],
    ['scale: { step: 0 g }', 'amount-not-positive 1 scale.step'],
    ['scale: { step: 1 mL }', 'unit-wrong-kind 1 scale.step'],
    ['scale: {}', 'field-missing 1 scale.step'],
    ['scoop: 100 g', 'unit-wrong-kind 1 scoop'],
    ['region: UK', 'field-wrong-type 1 region'],
    ['room: { temperature: warm }', 'quantity-unreadable 1 room.temperature'],
    ['wast: 5 %', 'field-unknown 1 wast'],
  ])('%s is refused with its line', (text, expected) => {
    expect(told(() => shop(text))).toEqual([expected]);
  });

  it('that wastes more than it mixes, or stands in an oven, is refused', () => {
    expect(told(() => shop('waste: 120 %'))).toEqual(['field-out-of-range 1 waste']);
    expect(told(() => shop('room: { temperature: 90 °C, humidity: 150 % }'))).toEqual([
      'field-out-of-range 1 room.temperature',
      'field-out-of-range 1 room.humidity',
    ]);
  });
});
