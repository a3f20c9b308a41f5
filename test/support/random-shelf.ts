import { type Conditions, DEFAULT_CONDITIONS, POURS } from '../../src/core/blend/conditions.js';
import type { Target } from '../../src/core/blend/target.js';
import { leftOut } from '../../src/core/brief/play.js';
import type { Figure } from '../../src/core/materials/figure.js';
import { isGap } from '../../src/core/materials/gap.js';
import type { Material } from '../../src/core/materials/schema.js';
import { type Kind, SERVICES } from '../../src/core/materials/words.js';
import { type AskedDose, OBJECTIVES, type Question } from '../../src/core/optimise/question.js';
import { type Random, seededRandom } from './random-programs.js';
import { materials, model } from './shipped-table.js';

/**
 * Seeded random shelves and briefs. The materials are the shipped ones with their figures moved about, so that no two
 * shelves hold the same numbers; prices, stock, rooms, moulds and targets are invented.
 */

const usable = materials.filter((m) => !isGap(m.density));
const ofKind = (kind: Kind): Material[] => usable.filter((m) => m.kind === kind);

/** A figure moved by a factor, range and all, never past its hard ends. */
function moved(figure: Figure, factor: number): Figure {
  const most = figure.unit === 'fraction' || figure.unit === 'g/g' ? 1 : Number.POSITIVE_INFINITY;
  const at = (x: number): number => Math.min(most, x * factor);
  return { ...figure, value: at(figure.value), low: at(figure.low), high: at(figure.high) };
}

/** A material whose density, water demand and set times are not quite those of the shipped one. */
export function varied(material: Material, random: Random): Material {
  const factor = (): number => random.between(0.92, 1.08);
  const binder = material.binder;
  const set = random.between(0.7, 1.4);
  return {
    ...material,
    density: isGap(material.density) ? material.density : moved(material.density, factor()),
    ...(material.waterDemand === undefined || isGap(material.waterDemand)
      ? {}
      : { waterDemand: moved(material.waterDemand, factor()) }),
    ...(binder === undefined
      ? {}
      : {
          binder: {
            ...binder,
            ...Object.fromEntries(
              (['initialSet', 'finalSet', 'demould'] as const).flatMap((event) => {
                const figure = binder[event];
                return figure === undefined || isGap(figure) ? [] : [[event, moved(figure, set)]];
              }),
            ),
          },
        }),
  };
}

function some<T>(from: readonly T[], least: number, most: number, random: Random): T[] {
  const left = [...from];
  const taken: T[] = [];
  for (let n = Math.min(left.length, random.whole(least, most)); n > 0; n--) {
    taken.push(...left.splice(random.whole(0, left.length - 1), 1));
  }
  return taken;
}

/** Water, one to four binders, and a few of everything that is in play by itself. */
export function randomMaterials(random: Random): Material[] {
  const binders = usable.filter((m) => m.binder !== undefined);
  const inPlay = (kind: Kind): Material[] => ofKind(kind).filter((m) => leftOut(m) === null);
  return [
    ...ofKind('water'),
    ...some(binders, 1, 4, random),
    ...some(inPlay('pozzolan'), 0, 2, random),
    ...some(inPlay('filler'), 0, 2, random),
    ...some(inPlay('sand'), 0, 3, random),
    ...some(inPlay('light-aggregate'), 0, 2, random),
    ...some(inPlay('admixture'), 0, 4, random),
  ].map((m) => varied(m, random));
}

/** Invented prices per gram: powders by the sack, doses by the pound. */
export function randomPrices(shelf: readonly Material[], random: Random): Map<string, number> {
  const dear = new Set<Kind>(['admixture', 'pigment', 'polymer', 'fibre']);
  return new Map(
    shelf
      .filter((m) => m.kind !== 'water')
      .map((m) => [m.id, dear.has(m.kind) ? random.between(0.005, 0.05) : random.between(0.0001, 0.004)]),
  );
}

export function randomConditions(random: Random): Conditions & { readonly volume: number } {
  return {
    ...DEFAULT_CONDITIONS,
    volume: Math.exp(random.between(Math.log(30), Math.log(3000))),
    wall: random.between(0.4, 5),
    service: random.pick(SERVICES),
    pour: random.pick(POURS),
    temperature: random.between(8, 32),
    humidity: random.between(0.2, 0.9),
    coverDays: random.chance(0.3) ? random.between(0, 7) : null,
    strengthAge: random.chance(0.3) ? random.between(1, 90) : 28,
    waste: random.chance(0.5) ? random.between(0, 0.12) : 0,
  };
}

/** What a maker might ask, from easy to out of reach. */
function randomTarget(property: string, volume: number, random: Random): Target {
  const max = (from: number, to: number): Target => ({ property, max: random.between(from, to) });
  const min = (from: number, to: number): Target => ({ property, min: random.between(from, to) });
  switch (property) {
    case 'dry-weight':
      return random.chance(0.7) ? max(0.6 * volume, 2.2 * volume) : min(0.8 * volume, 2 * volume);
    case 'weight-day-3':
      return max(0.8 * volume, 2.2 * volume);
    case 'demould-weight':
      return max(volume, 2.3 * volume);
    case 'fresh-density':
      return random.chance(0.5) ? max(1.1, 2.2) : min(1.1, 2.2);
    case 'strength':
      return random.chance(0.8) ? min(2, 55) : max(10, 40);
    case 'demould-time':
      return max(25, 2400);
    case 'working-time':
      return min(4, 60);
    case 'final-set':
      return max(15, 500);
    case 'water-to-binder':
      return max(0.3, 0.9);
    case 'water-to-binder-k':
      return max(0.35, 0.9);
    case 'peak-temperature':
      return max(40, 100);
    case 'cost':
      return max(0.0004 * volume, 0.006 * volume);
    case 'sand-to-binder':
      return random.chance(0.5) ? max(0.5, 3) : min(0.2, 2);
    case 'paste-to-voids':
      return min(1, 2);
    case 'flow': {
      const low = random.between(0.85, 1.05);
      return { property, min: low, max: low + random.between(0.03, 0.3) };
    }
    case 'pozzolan-to-cement':
      return min(0.05, 0.5);
    default:
      throw new Error(`no random target for ${property}`);
  }
}

export const ASKABLE = [
  'dry-weight',
  'weight-day-3',
  'demould-weight',
  'fresh-density',
  'strength',
  'demould-time',
  'working-time',
  'final-set',
  'water-to-binder',
  'water-to-binder-k',
  'peak-temperature',
  'cost',
  'sand-to-binder',
  'paste-to-voids',
  'flow',
  'pozzolan-to-cement',
] as const;

/** A whole invented brief against an invented shelf. */
export function randomQuestion(seed: number): Question {
  const random = seededRandom(seed);
  const shelf = randomMaterials(random);
  const conditions = randomConditions(random);
  const doses: AskedDose[] = [];
  const dosed = (kind: Kind, low: number, high: number): void => {
    const material = random.pick(ofKind(kind));
    shelf.push(varied(material, random));
    doses.push({ material: material.id, percent: random.between(low, high), of: 'binder' });
  };
  if (random.chance(0.25)) dosed('pigment', 0.5, 6);
  if (random.chance(0.15)) dosed('fibre', 0.1, 1.5);
  const prices = randomPrices(shelf, random);
  const stock = new Map(
    shelf.filter((m) => m.kind !== 'water' && random.chance(0.1)).map((m) => [m.id, random.between(20, 5000)]),
  );
  return {
    objective: random.pick(OBJECTIVES),
    targets: some(ASKABLE, 0, 4, random).map((property) => randomTarget(property, conditions.volume, random)),
    conditions,
    materials: shelf,
    doses,
    figures: model,
    prices,
    stock,
    batch: {
      pieces: random.whole(1, 8),
      step: random.pick([0.1, 0.5, 1, 1, 5]),
      fine: random.chance(0.5) ? { step: 0.01, most: 200 } : null,
    },
  };
}
