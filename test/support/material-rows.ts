import { type Material, materialSchema } from '../../src/core/materials/schema.js';

/** Invented rows for tests, made through the real schema so that they cannot drift from it. */

const figure = (value: number, unit: string) => ({
  value,
  low: value,
  high: value,
  unit,
  source: 'none',
  status: 'ours',
});

export interface RowExtra {
  readonly name?: string;
  readonly family?: string;
  /** H and EUH codes; a region may follow after a colon: `H314:US`. Absent: none. `null`: unknown. */
  readonly hazards?: readonly string[] | null;
  readonly tags?: readonly string[];
  readonly crystalline?: number | null;
  readonly respirable?: number | null;
  /** g solids per g; makes the row a liquid. */
  readonly solids?: number;
  readonly notFor?: readonly string[];
}

const silica = (value: number | null | undefined) =>
  value === undefined
    ? undefined
    : value === null
      ? { value: null, reason: 'invented gap' }
      : figure(value, 'fraction');

const without = (row: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined));

/** One schema-checked row; figures not asked for are left out. */
export function row(id: string, kind: Material['kind'], extra: RowExtra = {}): Material {
  const { hazards = [] } = extra;
  return materialSchema.parse(
    without({
      id,
      name: extra.name ?? id.replaceAll('-', ' '),
      kind,
      density: figure(2.5, 'g/cm3'),
      binder: extra.family === undefined ? undefined : { family: extra.family },
      solids: extra.solids === undefined ? undefined : figure(extra.solids, 'g/g'),
      crystallineSilica: silica(extra.crystalline),
      respirableSilica: silica(extra.respirable),
      tags: extra.tags,
      notFor: extra.notFor,
      hazards:
        hazards === null
          ? { unknown: 'invented row without data' }
          : hazards.map((h) => {
              const [code, region = 'both'] = h.split(':');
              return { code, region, source: 'none', status: 'ours' };
            }),
    }),
  );
}

/** A small invented shelf that carries one of everything the caution rules ask about. */
export const SHELF = {
  water: row('water', 'water'),
  portland: row('grey-portland', 'cement', {
    family: 'portland',
    hazards: ['H315:EU', 'H314:US', 'H318', 'H317', 'H335', 'H350:US'],
    tags: ['portland-alkali', 'chromate'],
    crystalline: 0.001,
  }),
  csa: row('csa-cement', 'cement', { family: 'csa', hazards: ['H315', 'H318', 'H335'] }),
  aluminate: row('aluminate-cement', 'cement', { family: 'aluminate' }),
  plaster: row('casting-plaster', 'gypsum', { family: 'gypsum', tags: ['gypsum-heat'] }),
  lime: row('hydrated-lime', 'lime', { family: 'lime', hazards: ['H315', 'H318', 'H335'] }),
  silicaFume: row('silica-fume', 'pozzolan', { tags: ['silica-fume', 'dusty'] }),
  sand: row('silica-sand', 'sand', { hazards: ['H372:US', 'H350:US'], crystalline: 0.95, respirable: 0.001 }),
  silicaFlour: row('silica-flour', 'filler', {
    hazards: ['H372'],
    crystalline: 0.98,
    respirable: 0.3,
    tags: ['silica-flour'],
  }),
  limestone: row('limestone-flour', 'filler', { tags: ['carbonate'] }),
  glassSand: row('glass-sand', 'sand', { tags: ['glass'] }),
  perlite: row('perlite', 'light-aggregate', { tags: ['light-dust'] }),
  glassFibre: row('glass-fibre', 'fibre', { tags: ['fibre-glass'] }),
  plasticFibre: row('plastic-fibre', 'fibre'),
  borax: row('borax', 'admixture', { hazards: ['H360FD', 'H319'], tags: ['borate'] }),
  lithium: row('lithium-carbonate', 'admixture', { hazards: ['H302', 'H319', 'H360D'], tags: ['lithium'] }),
  citric: row('citric-acid', 'admixture', { hazards: ['H319', 'H335'], tags: ['acid'] }),
  potassiumSulfate: row('potassium-sulfate', 'admixture', { tags: ['soluble-sulfate'] }),
  setGypsum: row('ground-set-gypsum', 'admixture', { tags: ['soluble-sulfate', 'set-gypsum'] }),
  emulsion: row('acrylic-emulsion', 'polymer', { solids: 0.5, hazards: ['EUH208:EU'], tags: ['preservative'] }),
  ironOxide: row('red-iron-oxide', 'pigment'),
  carbonBlack: row('carbon-black', 'pigment', { hazards: ['H351:US'], tags: ['dusty'] }),
  chromeGreen: row('chromium-oxide-green', 'pigment', { tags: ['pigment-metal'] }),
  cadmiumRed: row('cadmium-red', 'pigment', { hazards: ['H350'] }),
  blank: row('stranger', 'admixture', { hazards: null }),
} as const satisfies Readonly<Record<string, Material>>;
