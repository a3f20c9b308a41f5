import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/core/blend/assess.js';
import { propertyById } from '../../src/core/blend/properties/index.js';
import { worldOf } from '../../src/core/blend/world.js';
import { mediumSchema } from '../../src/core/brief/medium-schema.js';
import { type Medium, readMedium } from '../../src/core/brief/read-medium.js';
import { type StandIns, standIn, toleranceWindow } from '../../src/core/optimise/stand-in.js';
import { standInResult } from '../../src/core/report/stand-in-result.js';
import { farnessWords, offWords } from '../../src/core/report/stand-in-words.js';
import { priceList, shelfOf, shopWith } from '../support/bench-shelf.js';
import { seededRandom } from '../support/random-programs.js';

const PRICES = `material,pack,price
casting-plaster,25 kg,31.00
alpha-gypsum-cement,25 kg,46.00
alpha-gypsum-high-strength,20 kg,58.00
csa-rapid-cement,25 kg,52.00
portland-cement-white,25 kg,17.50
limestone-flour,10 kg,6.20
silica-sand-fine,25 kg,7.90
silica-sand-coarse,25 kg,7.20
marble-sand,25 kg,11.00
perlite,100 L,21.00
pumice,20 L,13.50
silica-fume,2 kg,9.60
ground-gypsum,1 kg,4.00
citric-acid,1 kg,7.50
plasticiser-powder,500 g,19.00
acrylic-emulsion,1 L,13.50
`;

const shelf = shelfOf(shopWith({}, { scale: { step: 1, fine: { step: 0.1, most: 200 } } }), priceList(PRICES));

const medium = (written: object): Medium =>
  readMedium(mediumSchema.parse({ invented: true, ...written }), shelf, (path) => ({ path }));

const found = (written: object): { medium: Medium; answer: StandIns } => {
  const read = medium(written);
  return { medium: read, answer: standIn(read.question, read.closeness, { draws: 40 }) };
};

/** What would be seen of a blend: the description of a medium that the shelf can in truth make. */
function seenOf(grams: Readonly<Record<string, number>>, service: string) {
  const materials = Object.keys(grams).map((id) => shelf.find(id));
  const bare = medium({ sample: { volume: '250 mL', dry: '300 g' }, service });
  const world = worldOf({ ...bare.question, materials });
  const amounts = Object.values(grams);
  const { value } = evaluate(world, amounts);
  const of = (id: string): number => value(propertyById(id)!)!;
  const fill = 250 / of('fresh-volume');
  return {
    sample: {
      volume: '250 mL',
      demoulded: `${of('demould-weight') * fill} g`,
      dry: `${of('dry-weight') * fill} g`,
    },
    'working-time': { min: `${of('working-time')} min`, max: `${of('working-time')} min` },
    'demould-time': { min: `${of('demould-time')} min`, max: `${of('demould-time')} min` },
    service,
  };
}

describe('a stand-in', () => {
  const KINDS = [
    [
      'gypsum cement',
      'gypsum',
      'dry-indoor',
      (r: () => number) => ({ 'alpha-gypsum-cement': 300 + 200 * r(), 'marble-sand': 60 * r(), water: 0 }),
      0.4,
    ],
    [
      'rapid-setting cement',
      'csa',
      'wet',
      (r: () => number) => ({ 'csa-rapid-cement': 250 + 100 * r(), 'silica-sand-coarse': 250 + 150 * r(), water: 0 }),
      0.36,
    ],
  ] as const;

  it.each(KINDS)('for a %s that the shelf can make comes to it', (_name, system, service, blendOf, ratio) => {
    let near = 0;
    let tried = 0;
    for (let seed = 1; seed <= 5; seed++) {
      const random = seededRandom(seed);
      const dry = blendOf(() => random.between(0, 1)) as Record<string, number>;
      const binder = Object.values(dry)[0]!;
      const blend = { ...dry, water: binder * ratio * random.between(0.98, 1.05) };
      const powder = Object.values(dry).reduce((s, g) => s + g, 0);
      const { medium: read, answer } = found({
        ...seenOf(blend, service),
        mix: { powder: `${powder} g`, liquid: `${blend.water} g` },
      });
      const best = answer.ranked.find((one) => one.system === system)!;
      tried++;
      expect(read.closeness.wanted.map((w) => w.property)).toEqual([
        'demould-weight',
        'dry-weight',
        'water-to-powder',
        'working-time',
        'demould-time',
      ]);
      // The scale's steps move it by hundredths of a tolerance.
      if (best.farness < 0.3) near++;
      expect(answer.ranked[0]!.farness, `seed ${seed}`).toBeLessThan(0.5);
    }
    expect(tried).toBe(5);
    expect(near).toBeGreaterThanOrEqual(4);
  });

  it('for a polymer-modified gypsum takes polymer by its solids, and its water as mixing water', () => {
    const { medium: read, answer } = found({
      kind: 'polymer-gypsum',
      mix: { powder: '100 g', liquid: '36 g', 'liquid-is': 'acrylic', 'left-when-dry': '24 %' },
      sample: { volume: '250 mL', demoulded: '448 g', dry: '408 g' },
      'demould-time': '50 min',
      materials: { never: ['redispersible-powder'] },
      service: 'dry-indoor',
    });
    const wanted = Object.fromEntries(read.closeness.wanted.map((w) => [w.property, w]));
    // By hand: 36 g of liquid are 8.64 g of polymer and 27.36 g of water.
    expect(wanted['polymer-share']!.low).toBeCloseTo(8.64, 10);
    expect(wanted['water-to-powder']!.low).toBeCloseTo(0.2736, 10);
    const best = answer.ranked[0]!;
    const parts = best.ingredients.map(({ material, pieceGrams: g }) => {
      const { kind, solids } = shelf.find(material);
      const wet = kind === 'water' ? 1 : solids === undefined ? 0 : 1 - solids.value;
      return {
        water: g * wet,
        polymer: kind === 'polymer' ? g * (1 - wet) : 0,
        dry: wet === 0 && kind !== 'polymer' ? g : 0,
      };
    });
    const sum = (of: 'water' | 'polymer' | 'dry') => parts.reduce((s, p) => s + p[of], 0);
    const powder = sum('dry');
    expect(sum('polymer')).toBeGreaterThan(0);
    const got = (id: string) => best.distances.find((d) => d.wanted.property === id)!.value!;
    expect(got('polymer-share')).toBeCloseTo((100 * sum('polymer')) / powder, 8);
    expect(got('water-to-powder')).toBeCloseTo(sum('water') / powder, 8);
    expect(Math.abs(got('polymer-share') - 8.64)).toBeLessThan(0.5);
    expect(best.farness).toBeLessThan(0.5);
  });

  it('adds up its distances, each times what it counts for, and tells chances within tolerance', () => {
    const { medium: read, answer } = found({
      kind: 'gypsum-cement',
      mix: { powder: '100 g', liquid: '60 g' },
      sample: { volume: '250 mL', demoulded: '430 g', dry: '330 g' },
      'working-time': '8 min',
      'demould-time': '30 min',
      hardness: 'medium',
      price: '60 per 25 kg',
      counts: { cost: 3, 'demould-time': 0.5 },
      service: 'dry-indoor',
    });
    expect(read.closeness.wanted.find((w) => w.property === 'cost')!.weight).toBe(3);
    let seen = 0;
    for (const one of answer.ranked) {
      const sum = one.distances.reduce((s, d) => s + d.wanted.weight * d.distance, 0);
      expect(one.farness).toBeCloseTo(sum, 12);
      one.distances.forEach((d, i) => {
        const verdict = one.assessment.verdicts[i]!;
        expect(verdict.property).toBe(d.wanted.property);
        expect(verdict.met).toBe(d.distance <= 1 + 1e-9);
        expect(verdict.chance).not.toBeNull();
        const { min, max } = toleranceWindow(d.wanted);
        expect([verdict.min, verdict.max]).toEqual([min ?? null, max ?? null]);
        seen++;
      });
    }
    expect(seen).toBeGreaterThan(6);
    const far = answer.ranked.map((one) => Math.round(10 * one.farness));
    expect(far).toEqual([...far].sort((a, b) => a - b));
  });

  it('ranks by the figure that is told, and of those alike in it by the chance that is told', () => {
    const media = [
      { 'demould-time': '45 min', hardness: 'hard' },
      { 'demould-time': '6 h', hardness: 'medium', 'working-time': '20 min' },
      { 'demould-time': '2 h', hardness: 'very-hard', targets: { 'dry-weight': { max: '385 g' } } },
      { 'working-time': '15 min' },
      { hardness: 'hard' },
      { 'demould-time': '30 min' },
      { 'demould-time': '24 h' },
    ];
    let compared = 0;
    let alike = 0;
    for (const more of media) {
      const { medium: read, answer } = found({
        mix: { powder: '100 g', liquid: '45 g' },
        sample: { volume: '250 mL', demoulded: '450 g', dry: '385 g' },
        service: 'dry-indoor',
        ...more,
      });
      const told = standInResult(read, answer, shelf, mediumSchema.parse({})).candidates;
      for (const [i, next] of told.slice(1).entries()) {
        const one = told[i]!;
        // What misses a target comes last, however close, and is said to miss it.
        expect(offWords({ wanted: [] }, next)).toMatch(next.holds ? /^all/ : /^misses a target/);
        if (one.holds !== next.holds) {
          expect(one.holds).toBe(true);
          continue;
        }
        const [a, b] = [farnessWords(one), farnessWords(next)];
        expect(Number(a), `${one.name} before ${next.name}`).toBeLessThanOrEqual(Number(b));
        compared++;
        if (a !== b) continue;
        expect(one.jointChance).toBeGreaterThanOrEqual(next.jointChance!);
        alike++;
      }
    }
    expect(compared).toBeGreaterThan(4);
    expect(alike).toBeGreaterThan(0);
  });

  it('comes no closer with fewer ingredients, and keeps to them', () => {
    const written = {
      mix: { powder: '100 g', liquid: '38 g' },
      sample: { volume: '250 mL', demoulded: '440 g', dry: '375 g' },
      'working-time': '12 min',
      'demould-time': { min: '60 min', max: '60 min' },
      service: 'dry-indoor',
    };
    const free = found(written).answer.ranked[0]!;
    let last = free.farness;
    for (const ingredients of [4, 2]) {
      const { answer } = found({ ...written, limits: { ingredients } });
      const best = answer.ranked[0]!;
      const dry = best.ingredients.filter((i) => i.material !== 'water' && shelf.find(i.material).solids === undefined);
      expect(dry.length).toBeLessThanOrEqual(ingredients);
      expect(best.farness).toBeGreaterThan(last - 0.3);
      last = best.farness;
    }
  });

  it('keeps the targets of the file whatever the medium was', () => {
    const { answer } = found({
      mix: { powder: '100 g', liquid: '38 g' },
      sample: { volume: '250 mL', demoulded: '462 g', dry: '398 g' },
      targets: { 'dry-weight': { max: '350 g' } },
      service: 'dry-indoor',
    });
    const best = answer.ranked[0]!;
    expect(best.holds).toBe(true);
    const dry = best.assessment.properties.find((p) => p.property === 'dry-weight')!.value!;
    expect(dry).toBeLessThanOrEqual(350);
    // 398 g were wanted, with 3 % of tolerance.
    expect(best.distances.find((d) => d.wanted.property === 'dry-weight')!.distance).toBeGreaterThan(2);
  });
});

/**
 * Published rows of gypsum plasters: water to plaster, wet and dry density [kg/m³]. Supplier use-consistency sheet, brands
 * removed, seen as facts/binders.md a6 (looked up; URL withheld).
 */
const SHEET = [
  ['beta, 0.70', 0.7, 1586, 1105],
  ['alpha, 0.45', 0.45, 1772, 1442],
  ['alpha, 0.32', 0.32, 1913, 1741],
  ['alpha, 0.22', 0.22, 2066, 2036],
] as const;

describe('plasters of a published sheet', () => {
  it.each(SHEET)('%s: its weights tell that the powder is plaster', (_name, ratio, wet, dry) => {
    const { tells } = medium({
      kind: 'gypsum-cement',
      mix: { powder: '100 g', liquid: `${100 * ratio} g` },
      sample: { volume: '1 L', demoulded: `${wet} g`, dry: `${dry} g` },
    });
    // Stoichiometry: 0.1862 g/g; the sheet's rounded densities leave it within a tenth.
    expect(Math.abs(tells.plaster! - 1)).toBeLessThan(0.1);
    // Hemihydrate 2.6 to 2.76 g/cm³ (Ullmann, from memory).
    expect(tells.powderDensity!).toBeGreaterThan(2.45);
    expect(tells.powderDensity!).toBeLessThan(2.85);
  });

  it.each(SHEET.slice(0, 3))('%s: a stand-in weighs the same, wet and dry', (_name, ratio, wet, dry) => {
    const { answer } = found({
      kind: 'gypsum-cement',
      mix: { powder: '100 g', liquid: `${100 * ratio} g` },
      sample: { volume: '250 mL', demoulded: `${wet / 4} g`, dry: `${dry / 4} g` },
      service: 'dry-indoor',
      pour: 'vibrated',
    });
    const best = answer.ranked[0]!;
    for (const id of ['demould-weight', 'dry-weight']) {
      const { wanted, value } = best.distances.find((d) => d.wanted.property === id)!;
      expect(Math.abs(value! / wanted.low! - 1), id).toBeLessThan(0.03);
    }
  });
});
