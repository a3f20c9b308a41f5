import { bogue } from '../../../src/core/science/bogue.js';
import {
  evaporationRate,
  fourierForLoss,
  fourierNumber,
  sheetCore,
  sheetLoss,
} from '../../../src/core/science/drying.js';
import {
  cementBoundWater,
  degreeOfHydration,
  GEL_SPACE_POWERS,
  gelSpaceRatio,
  imbibedWater,
  ultimateDegree,
} from '../../../src/core/science/hydration.js';
import { capillaryPoresPerGram, capillaryPorosity, pasteVolumes } from '../../../src/core/science/paste-structure.js';
import { heldByCement } from '../../../src/core/science/sorption.js';
import { c150So3Limit, type SulfateService, sulfateScreen } from '../../../src/core/science/sulfate.js';
import { number, numberOr, numbers, type Run, word } from './given.js';

export const hydrationRuns: Readonly<Record<string, Run>> = {
  'gel-space': (given) => ({
    ratio: gelSpaceRatio(number(given, 'degree'), number(given, 'waterToCement'), GEL_SPACE_POWERS),
  }),

  'paste-from-degree': (given) => {
    const degree = number(given, 'degree');
    const ratio = number(given, 'waterToCement');
    return {
      gelSpace: gelSpaceRatio(degree, ratio),
      capillary: capillaryPoresPerGram(degree, ratio),
      capillaryPorosity: capillaryPorosity(degree, ratio),
    };
  },

  'ultimate-degree': (given) => ({ degree: ultimateDegree(number(given, 'waterToCement')) }),

  'degree-by-age': (given) => {
    const end = ultimateDegree(number(given, 'waterToCement'));
    return Object.fromEntries(numbers(given, 'days').map((d) => [String(d), degreeOfHydration(24 * d, end)]));
  },

  'gel-porosity': (given) => {
    const { gelWater, gelSolid } = pasteVolumes(number(given, 'degree'), number(given, 'waterToCement'));
    return { porosity: gelWater / (gelWater + gelSolid) };
  },

  'imbibed-water': (given) => ({ imbibed: imbibedWater(number(given, 'bound')) }),

  // Equilibrium moisture of a mortar as a share of its dry mass.
  'mortar-moisture': (given) => {
    const cement = number(given, 'cement');
    const bound = cementBoundWater(cement, ultimateDegree(number(given, 'water') / cement));
    return { moisture: heldByCement(bound, number(given, 'humidity')) / (cement + number(given, 'sand') + bound) };
  },

  'plane-sheet': (given) => {
    const cm = 100;
    const toCm2PerHour = 1e4 * 3600;
    const fo = fourierNumber(
      number(given, 'diffusivity') * toCm2PerHour,
      number(given, 'seconds') / 3600,
      number(given, 'half') * cm,
    );
    return { loss: sheetLoss(fo), middleGone: 1 - sheetCore(fo) };
  },

  'half-time': () => ({ overThicknessSquared: fourierForLoss(0.5) / 4 }),

  evaporation: (given) => ({
    rate: evaporationRate(
      { celsius: number(given, 'air'), humidity: number(given, 'humidity'), wind: number(given, 'wind') },
      number(given, 'surface'),
    ),
  }),

  bogue: (given) => {
    const { c3s, c2s, c3a, c4af } = bogue({
      cao: number(given, 'cao'),
      sio2: number(given, 'sio2'),
      al2o3: number(given, 'al2o3'),
      fe2o3: number(given, 'fe2o3'),
      so3: number(given, 'so3'),
      freeLime: numberOr(given, 'freeLime', 0),
    });
    return { c3s, c2s, c3a, c4af };
  },

  'so3-limit': (given) => ({ limit: c150So3Limit(number(given, 'c3a')) }),

  'sulfate-screen': (given) => {
    const screen = sulfateScreen({
      portland: number(given, 'portland'),
      hemihydrate: number(given, 'plaster'),
      pozzolans: [{ grams: numberOr(given, 'pozzolan', 0), activity: 1, natural: given.pozzolanKind === 'natural' }],
      cementSo3: numberOr(given, 'cementSo3', 2.8),
      c3a: numberOr(given, 'c3a', 0),
      carbonate: given.carbonate === 'yes',
      cold: given.cold === 'yes',
      service: word(given, 'service') as SulfateService,
    });
    return {
      verdict: screen.verdict,
      thaumasite: screen.reasons.includes('thaumasite') ? 'flagged' : 'not-flagged',
      ratio: screen.pozzolanRatio,
    };
  },
};
