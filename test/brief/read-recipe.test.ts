import { describe, expect, it } from 'vitest';
import { recipeBlend } from '../../src/core/brief/recipe-blend.js';
import { DEFAULT_SHOP } from '../../src/core/brief/shelf.js';
import { shelfOf } from '../support/bench-shelf.js';
import { material, numberOf } from '../support/shipped-table.js';
import { recipe, SHELF, said, told } from '../support/written.js';

const grams = (text: string): Record<string, number> =>
  Object.fromEntries(recipe(text).parts.map((p) => [p.material.id, p.grams]));

describe('amounts', () => {
  it('are read in any unit of mass, and of volume by the loose density', () => {
    const read = grams(`
amounts:
  casting plaster: 1 lb
  water: 300 mL
  fine silica sand: 1 cup
  perlite: 2 L
`);
    expect(read['casting-plaster']).toBeCloseTo(453.59237, 5);
    expect(read['water']).toBeCloseTo(300 * numberOf(material('water').density), 9);
    // A US cup is a sixteenth of a gallon of 231 cubic inches.
    const cup = (231 * 2.54 ** 3) / 16;
    expect(read['silica-sand-fine']).toBeCloseTo(cup * numberOf(material('silica-sand-fine').bulkDensity), 6);
    expect(read['perlite']).toBeCloseTo(2000 * numberOf(material('perlite').bulkDensity), 6);
  });

  it('are parts by mass or by scoop where that is said, and are then not scaled', () => {
    const byMass = recipe('basis: mass\namounts: { casting plaster: 3, water: 2 }');
    expect(byMass.scaled).toBe(false);
    expect(byMass.parts[0]!.grams / byMass.parts[1]!.grams).toBeCloseTo(1.5, 12);
    const byScoop = recipe('basis: scoop\namounts: { casting plaster: 3, water: 2 }');
    const loose = numberOf(material('casting-plaster').bulkDensity) / numberOf(material('water').density);
    expect(byScoop.parts[0]!.grams / byScoop.parts[1]!.grams).toBeCloseTo(1.5 * loose, 9);
    expect(recipe('amounts: { casting plaster: 300 g, water: 200 g }').scaled).toBe(true);
  });

  it.each([
    ['amounts: {}', ['field-missing 1 amounts']],
    ['amounts: { casting plaster: 3, water: 2 }', ['basis-missing 1 basis']],
    ['basis: mass\namounts: { casting plaster: 3, water: 200 g }', ['brief-contradicts 2 amounts.casting plaster']],
    ['amounts: { casting plastre: 300 g, water: 200 g }', ['material-unknown 1 amounts.casting plastre']],
    [
      'amounts:\n  casting-plaster: 300 g\n  plaster of paris: 100 g\n  water: 200 g',
      ['material-duplicate 3 amounts.plaster of paris'],
    ],
    ['amounts: { casting plaster: -300 g, water: 200 g }', ['amount-not-positive 1 amounts.casting plaster']],
    ['amounts: { casting plaster: 0 g, water: 200 g }', ['amount-not-positive 1 amounts.casting plaster']],
    ['amounts: { casting plaster: 3 cm, water: 200 g }', ['unit-wrong-kind 1 amounts.casting plaster']],
    ['amounts: { casting plaster: 3 MPa, water: 200 g }', ['unit-wrong-kind 1 amounts.casting plaster']],
    ['amounts: { casting plaster: 3 grms, water: 200 g }', ['unit-unknown 1 amounts.casting plaster']],
    ['amounts: { casting plaster: lots, water: 200 g }', ['quantity-unreadable 1 amounts.casting plaster']],
    ['amonts: { water: 200 g }', ['field-unknown 1 amonts', 'field-missing amounts']],
    ['title: [x]\namounts: { water: 200 g }', ['field-wrong-type 1 title']],
    ['service: outdoors\namounts: { water: 200 g }', ['field-wrong-type 1 service']],
  ])('%s is refused with its line', (text, expected) => {
    expect([...told(() => recipe(text))].sort()).toEqual([...expected].sort());
  });

  it('name the nearest material, and what is wrong in one line each', () => {
    expect(said(() => recipe('amounts:\n  casting plastre: 300 g\n  water: -2 g'))).toEqual([
      'recipe.yaml line 2, amounts.casting plastre: there is no such material: found “casting plastre”. Did you mean “casting-plaster”?',
      expect.stringContaining('recipe.yaml line 3, amounts.water: '),
    ]);
  });

  it('need a weight where the loose density is not known, and a density where there is none', () => {
    const { bulkDensity: _none, ...solid } = material('perlite');
    const heavy = { ...SHELF, find: (word: string) => (word === 'perlite' ? solid : material(word)) };
    expect(told(() => recipe('amounts: { perlite: 2 tsp, water: 20 g }', heavy))).toEqual([
      'material-density-missing 1 amounts.perlite',
    ]);
    const gap = { ...material('perlite'), density: { value: null, reason: 'never measured' } } as const;
    const shelf = { ...SHELF, find: (word: string) => (word === 'perlite' ? gap : material(word)) };
    const odd = recipe('amounts: { perlite: 20 g, water: 100 g, casting-plaster: 100 g }', shelf);
    expect(told(() => recipeBlend(odd, shelf))).toEqual(['material-density-missing perlite']);
  });
});

describe('a recipe and its mould', () => {
  it('fills it so many times, and is told for one piece', () => {
    const read = recipe('mould: { water: 100 mL }\namounts: { casting plaster: 500 g, water: 350 g }');
    const blend = recipeBlend(read, SHELF);
    expect(blend.fills).toBeGreaterThan(5);
    expect(blend.batchGrams).toEqual([500, 350]);
    expect(blend.pieceGrams.map((g) => g * blend.fills!)).toEqual([500, 350].map((g) => expect.closeTo(g, 9)));
    expect(blend.warnings).toEqual([]);
  });

  it('that does not fill is told', () => {
    const read = recipe('mould: { water: 1 L }\namounts: { casting plaster: 500 g, water: 350 g }');
    const blend = recipeBlend(read, SHELF);
    expect(blend.fills).toBeLessThan(0.9);
    expect(blend.warnings.map((w) => [w.code, w.severity])).toEqual([['recipe-implausible', 'warning']]);
  });

  it('in parts is scaled to fill it, waste and all', () => {
    const read = recipe(
      'mould: { water: 500 mL }\nwaste: 20 %\nbasis: mass\namounts: { casting plaster: 10, water: 7 }',
    );
    const blend = recipeBlend(read, SHELF);
    expect(blend.fills).toBeNull();
    expect(blend.batchGrams[0]! / blend.pieceGrams[0]!).toBeCloseTo(1.25, 9);
    expect(blend.pieceGrams[0]! / blend.pieceGrams[1]!).toBeCloseTo(10 / 7, 9);
  });

  it('in parts without a mould is told for a kilogram', () => {
    const blend = recipeBlend(recipe('basis: mass\namounts: { casting plaster: 10, water: 7 }'), SHELF);
    expect(blend.batchGrams.reduce((a, b) => a + b, 0)).toBeCloseTo(1000, 9);
  });
});

describe('nonsense that circulates', () => {
  const warned = (text: string): string[] => recipe(text).warnings.map((w) => w.code);

  it('water equal to the mould’s volume', () => {
    expect(warned('mould: { water: 250 mL }\namounts: { casting plaster: 350 g, water: 250 g }')).toEqual([
      'recipe-water-equals-mould',
    ]);
    expect(warned('mould: { water: 250 mL }\namounts: { casting plaster: 350 g, water: 200 g }')).toEqual([]);
  });

  it('water of more than the mould’s volume, but not in a batch of several pieces', () => {
    const text = 'mould: { water: 420 mL }\namounts: { casting plaster: 700 g, water: 500 g }';
    const { warnings } = recipe(text);
    expect(warnings.map((w) => w.code)).toEqual(['recipe-water-equals-mould']);
    // The share that is said to be left over is that of the moulds it fills.
    const { fills } = recipeBlend(recipe(text), SHELF);
    expect(warnings[0]!.hint).toContain(`: ${Math.round(100 * (1 - 1 / fills!))} % of it is left over`);
    expect(warned('mould: { water: 420 mL }\namounts: { casting plaster: 1.4 kg, water: 1 kg }')).toEqual([]);
    expect(warned('mould: { water: 420 mL }\nbasis: mass\namounts: { casting plaster: 700, water: 500 }')).toEqual([]);
    // Water equal to the mould is a rule of thumb gone wrong whatever stands beside it.
    const sandy = 'amounts: { casting plaster: 300 g, silica-sand-fine: 1 kg, water: 420 g }';
    expect(warned(`mould: { water: 420 mL }\n${sandy}`)).toEqual(['recipe-water-equals-mould']);
    // But it may be chance, where so much fills several.
    expect(recipe(`mould: { water: 420 mL }\n${sandy}`).warnings[0]!.hint).toMatch(
      /left over when the mould is full, unless it is meant for 2 moulds$/,
    );
    expect(warnings[0]!.hint).toMatch(/mould is full$/);
  });

  it('cement and water one to one by volume', () => {
    expect(warned('amounts: { portland-cement-grey: 1 cup, water: 1 cup }')).toEqual(['recipe-cement-water-by-volume']);
    expect(warned('basis: scoop\namounts: { portland-cement-white: 1, water: 1 }')).toEqual([
      'recipe-cement-water-by-volume',
    ]);
    expect(warned('amounts: { portland-cement-grey: 2 cups, water: 1 cup }')).toEqual([]);
  });

  it('nothing that sets, and nothing to set it with', () => {
    expect(warned('amounts: { silica-sand-fine: 300 g, water: 100 g }')).toEqual(['recipe-never-sets']);
    expect(warned('amounts: { casting-plaster: 300 g }')).toEqual(['recipe-never-sets']);
  });
});

describe('the room of a recipe', () => {
  it('is the shop’s where the recipe says nothing', () => {
    const shelf = shelfOf({ ...DEFAULT_SHOP, temperature: 12, humidity: 0.7, waste: 0.1 });
    const { conditions } = recipe('amounts: { casting plaster: 1 kg, water: 700 g }', shelf).setting;
    expect(conditions).toMatchObject({ temperature: 12, humidity: 0.7, waste: 0.1, service: 'dry-indoor', wall: 1.2 });
  });

  it('is read in the maker’s units', () => {
    const { conditions } = recipe(`
room: { temperature: 68 °F, humidity: 40 % }
wall: 1/2 in
cover: 2 days
strength-age: 7 days
weigh-days: [2, 14]
amounts: { casting plaster: 1 kg, water: 700 g }
`).setting;
    expect(conditions.temperature).toBeCloseTo(20, 9);
    expect(conditions.humidity).toBeCloseTo(0.4, 12);
    expect(conditions.wall).toBeCloseTo(1.27, 9);
    expect(conditions.coverDays).toBeCloseTo(2, 12);
    expect(conditions.strengthAge).toBeCloseTo(7, 12);
    expect(conditions.weighDays).toEqual([2, 14]);
  });

  it.each([
    ['room: { temperature: 60 °C }', 'field-out-of-range 1 room.temperature'],
    ['room: { humidity: 120 % }', 'field-out-of-range 1 room.humidity'],
    ['room: { humidity: 20 °C }', 'unit-wrong-kind 1 room.humidity'],
    ['wall: 3 m', 'field-out-of-range 1 wall'],
    ['wall: 0 mm', 'amount-not-positive 1 wall'],
    ['waste: 95 %', 'field-out-of-range 1 waste'],
    ['strength-age: 1 min', 'field-out-of-range 1 strength-age'],
    ['cover: 3 kg', 'unit-wrong-kind 1 cover'],
    ['cover: -3 days', 'field-out-of-range 1 cover'],
    ['cover: 9000 days', 'field-out-of-range 1 cover'],
  ])('%s is refused with its line', (line, expected) => {
    expect(told(() => recipe(`${line}\namounts: { casting plaster: 1 kg, water: 700 g }`))).toEqual([expected]);
  });
});
