import {
  bulkDensityFromVoids,
  bulking,
  leanMortarPacks,
  massRatioByVolume,
  scoopVolume,
  voidContent,
  voidContentByFlooding,
} from '../../../src/core/science/bulk.js';
import { cementBoundWater, ultimateDegree } from '../../../src/core/science/hydration.js';
import { correctForMoisture, freeWater, saturatedMass, stockMass } from '../../../src/core/science/moisture.js';
import { absoluteVolume, freshVolume, massToFill, measuredDensity } from '../../../src/core/science/volume.js';
import { countedAddition, equivalentBinder, K_VALUES, waterToBinder } from '../../../src/core/science/water-binder.js';
import { waterDensity } from '../../../src/core/science/water-density.js';
import { number, numberOr, numbers, type Run } from './given.js';

/** Absolute volume design with cement from w/c, coarse aggregate given, sand filling the rest. */
const absoluteVolumeDesign: Run = (given) => {
  const unit = number(given, 'waterUnitDensity');
  const water = number(given, 'water');
  const cement = water / number(given, 'waterToCement');
  const coarse = number(given, 'coarse');
  const admixture = numberOr(given, 'admixture', 0);
  const parts = [
    { grams: water, density: unit },
    { grams: cement, density: unit * number(given, 'cementGravity') },
    { grams: coarse, density: unit * number(given, 'coarseGravity') },
    ...(admixture > 0 ? [{ grams: admixture, density: unit * number(given, 'admixtureGravity') }] : []),
  ];
  const volume = number(given, 'volume');
  const air = number(given, 'air');
  const sandDensity = unit * number(given, 'fineGravity');
  const fine = massToFill(volume, air, parts, sandDensity);
  const filled = absoluteVolume(parts) + air * volume;
  return { cement, coarse, fine, filled, fineVolume: fine / sandDensity, water };
};

export const mixRuns: Readonly<Record<string, Run>> = {
  'water-density': (given) => Object.fromEntries(numbers(given, 'celsius').map((t) => [String(t), waterDensity(t)])),

  'absolute-volume-design': absoluteVolumeDesign,

  // Coarse and fine share the aggregate volume; paste and admixture fill the rest.
  'aggregate-by-share': (given) => {
    const unit = number(given, 'waterUnitDensity');
    const water = number(given, 'tabulatedWater') * (1 - number(given, 'waterCut'));
    const cement = number(given, 'cementUsed');
    const share = number(given, 'fineShare');
    const paste = [
      { grams: cement, density: unit * number(given, 'cementGravity') },
      { grams: water, density: unit },
      { grams: number(given, 'admixture'), density: unit * number(given, 'admixtureGravity') },
    ];
    const volume = number(given, 'volume');
    const pasteVolume = absoluteVolume(paste);
    const open = massToFill(volume, 0, paste, 1);
    const fine = share * open * unit * number(given, 'fineGravity');
    const coarse = (1 - share) * open * unit * number(given, 'coarseGravity');
    const scale = 1 + number(given, 'trialIncrease');
    return {
      water,
      cement: water / number(given, 'waterToCement'),
      cementVolume: absoluteVolume(paste.slice(0, 1)),
      pasteVolume,
      aggregateVolume: open,
      fine,
      coarse,
      trialCement: cement * scale,
      trialWater: water * scale,
    };
  },

  'absolute-volume': (given) => ({
    volume: absoluteVolume([
      { grams: number(given, 'mass'), density: number(given, 'gravity') * number(given, 'waterUnitDensity') },
    ]),
  }),

  // The handout's own convention beside rigorous bookkeeping.
  'wet-batch': (given) => {
    const fine = number(given, 'fineSaturated');
    const coarseDry = number(given, 'coarseOvenDry');
    const coarse = saturatedMass(coarseDry, number(given, 'coarseAbsorption'));
    const corrected = correctForMoisture(number(given, 'water'), [
      { saturated: fine, surfaceMoisture: number(given, 'fineSurface') },
      { saturated: coarse, surfaceMoisture: number(given, 'coarseSurface') },
    ]);
    const handout = number(given, 'fineAbsorption') + number(given, 'fineSurface');
    return {
      wetFine: corrected.weighOut[0]!,
      wetCoarse: corrected.weighOut[1]!,
      water: corrected.waterToAdd,
      handoutFine: stockMass(fine, handout),
    };
  },

  'free-moisture': (given) => {
    const saturated = numbers(given, 'aggregates');
    const moisture = numbers(given, 'freeMoisture');
    const corrected = correctForMoisture(
      number(given, 'water'),
      saturated.map((s, i) => ({ saturated: s, surfaceMoisture: moisture[i]! })),
    );
    return {
      ...Object.fromEntries(saturated.map((s, i) => [`carried${i + 1}`, corrected.weighOut[i]! - s])),
      ...Object.fromEntries(corrected.weighOut.map((w, i) => [`weighOut${i + 1}`, w])),
      carried: corrected.carried,
      waterToAdd: corrected.waterToAdd,
    };
  },

  'free-water-dry-basis': (given) => {
    const dry = numbers(given, 'aggregates');
    const moisture = numbers(given, 'moisture');
    const absorption = numbers(given, 'absorption');
    const carried = dry.reduce((sum, d, i) => sum + freeWater(d, moisture[i]!, absorption[i]!), 0);
    const water = number(given, 'cement') * number(given, 'waterToCement');
    return { water, freeWater: carried, toAdd: water - carried };
  },

  'fresh-density': (given) => ({
    net: number(given, 'full') - number(given, 'tare'),
    density: measuredDensity(number(given, 'full'), number(given, 'tare'), number(given, 'measure')),
  }),

  'air-and-yield': (given) => {
    const volume = number(given, 'volume');
    const absolute = volume * (1 - number(given, 'air'));
    return { gain: freshVolume(absolute, number(given, 'air')) - freshVolume(absolute, 0) };
  },

  'lean-mortar': (given) => ({
    packs: leanMortarPacks(number(given, 'volume'), number(given, 'parts'), number(given, 'pack')),
  }),

  'mass-ratio-by-volume': (given) => {
    const { sand, parts } = massRatioByVolume(
      number(given, 'ratio'),
      number(given, 'pack'),
      number(given, 'packVolume'),
      number(given, 'sandBulk'),
    );
    return { sand, parts };
  },

  'voids-from-bulk': (given) => {
    const tare = numberOr(given, 'tare', 0);
    const bulk = measuredDensity(number(given, 'full'), tare, numberOr(given, 'measure', 1));
    const voids = voidContent(bulk, number(given, 'particle') * numberOr(given, 'waterUnitDensity', 1));
    return { bulk, voids, solids: 1 - voids };
  },

  'bulk-from-voids': (given) => ({
    bulk: bulkDensityFromVoids(number(given, 'gravity') * number(given, 'waterUnitDensity'), number(given, 'voids')),
  }),

  'voids-by-flooding': (given) => ({
    voids: voidContentByFlooding(
      number(given, 'dry'),
      number(given, 'flooded'),
      number(given, 'measure'),
      number(given, 'waterUnitDensity'),
    ),
  }),

  bulking: (given) => ({ bulking: bulking(number(given, 'damp'), number(given, 'flooded')) }),

  'k-value': (given) => {
    const cement = number(given, 'cement');
    const addition = { grams: number(given, 'addition'), k: number(given, 'k'), cap: number(given, 'cap') };
    return {
      counted: countedAddition(cement, addition),
      binder: equivalentBinder(cement, [addition]),
      waterToBinder: waterToBinder(numberOr(given, 'water', 0), cement, [addition]),
      mostCounted: countedAddition(cement, { ...addition, grams: 10 * cement }) / addition.k,
    };
  },

  'k-table': () =>
    Object.fromEntries(
      Object.entries(K_VALUES).flatMap(([region, additions]) =>
        Object.entries(additions).flatMap(([name, rule]) => [
          [`${region} ${name} k`, rule.k],
          [`${region} ${name} cap`, rule.cap],
        ]),
      ),
    ),

  // Cement with loose perlite: the wet balance, then the oven-dry density from bound water.
  'perlite-concrete': (given) => {
    const volume = number(given, 'volume');
    const cement = number(given, 'cement');
    const perlite = number(given, 'perliteBulk') * number(given, 'perlite');
    const water = number(given, 'water') * waterDensity(20);
    const bound = cementBoundWater(cement, ultimateDegree(water / cement));
    return {
      wet: measuredDensity(cement + perlite + water, 0, volume),
      ovenDry: measuredDensity(cement + perlite + bound, 0, volume),
      perliteScooped: scoopVolume(perlite, number(given, 'perliteBulk')),
    };
  },
};
