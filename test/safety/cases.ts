import type { Region } from '../../src/core/safety/caution.js';
import { cautionsFor } from '../../src/core/safety/cautions.js';
import { type BlendFacts, blendFacts, type SafetyConditions } from '../../src/core/safety/facts.js';
import { sulfateScreen } from '../../src/core/science/sulfate.js';
import { row, SHELF } from '../support/material-rows.js';

export type Grams = Partial<Record<keyof typeof SHELF, number>>;

/** Grams of shelf rows to facts; dry-indoor unless said otherwise. */
export const facts = (grams: Grams, conditions: Partial<SafetyConditions> = {}): BlendFacts =>
  blendFacts(
    Object.entries(grams).map(([key, g]) => ({ material: SHELF[key as keyof typeof SHELF], grams: g })),
    { service: 'dry-indoor', ...conditions },
  );

export const severities = (f: BlendFacts, region: Region): Readonly<Record<string, string>> =>
  Object.fromEntries(cautionsFor(f, { region }).cautions.map((c) => [c.id, c.severity]));

export interface BlendCase {
  readonly name: string;
  readonly facts: BlendFacts;
  readonly region?: Region;
  /** Ids that must be raised, each with its severity. */
  readonly raises: Readonly<Record<string, string>>;
  readonly lacks: readonly string[];
}

const ALWAYS = {
  'work-place': 'caution',
  'no-slurry-in-drains': 'caution',
  'open-container': 'info',
  'not-for-food': 'info',
  'not-structural': 'info',
} as const;

/** Blends and the cautions they must and must not raise. Draft rules S01 to S36 of the safety facts, one or more each. */
export const BLENDS: readonly BlendCase[] = [
  {
    name: 'pure plaster, small, indoors (S04, S06 below its size, S31, S32)',
    facts: facts({ plaster: 250, water: 150 }, { waterToPlaster: 0.6, wall: 1.2 }),
    raises: {
      ...ALWAYS,
      'plaster-heat-never-body': 'warn',
      'binder-dust': 'caution',
      'gypsum-and-water': 'info',
      'gypsum-scrap': 'info',
      'no-dry-sweeping': 'caution',
    },
    lacks: [
      'alkali-burn',
      'eye-damage',
      'chromate-allergy',
      'silica-while-mixing',
      'silica-from-finishing',
      'body-cast',
      'hot-pour',
      'dense-plaster',
      'gypsum-with-portland',
      'flame-test-first',
      'plants-and-lime',
      'unknown-hazards',
      'pigment-limit',
      'efflorescence',
      'dry-sanding',
      'aluminium-and-alkali',
    ],
  },
  {
    name: 'large dense plaster pour (S06, S08)',
    facts: facts({ plaster: 2000, water: 700 }, { waterToPlaster: 0.35, wall: 4, peakTemperature: 80 }),
    raises: { 'hot-pour': 'warn', 'dense-plaster': 'caution', 'plaster-heat-never-body': 'warn' },
    lacks: ['alkali-burn'],
  },
  {
    name: 'hand cast in plaster (S07)',
    facts: facts({ plaster: 800, water: 500 }, { uses: ['body-cast'] }),
    raises: { 'plaster-heat-never-body': 'stop', 'body-cast': 'stop' },
    lacks: ['alkali-burn'],
  },
  {
    name: 'hand cast in cement (S07)',
    facts: facts({ portland: 800, water: 350 }, { uses: ['body-cast'] }),
    raises: { 'body-cast': 'stop', 'alkali-burn': 'warn' },
    lacks: ['plaster-heat-never-body'],
  },
  {
    name: 'Portland planter with sand, EU (S01 to S04, S09, S26)',
    facts: facts({ portland: 300, sand: 600, water: 150 }, { service: 'damp', uses: ['planter', 'outdoor'] }),
    raises: {
      ...ALWAYS,
      'alkali-burn': 'warn',
      'eye-damage': 'warn',
      'chromate-allergy': 'caution',
      'airway-irritation': 'caution',
      'binder-dust': 'caution',
      'silica-from-finishing': 'caution',
      'silica-while-mixing': 'caution',
      'no-dry-sweeping': 'warn',
      'plants-and-lime': 'caution',
      efflorescence: 'info',
      'aluminium-and-alkali': 'info',
    },
    lacks: [
      'gypsum-and-water',
      'plaster-heat-never-body',
      'skin-irritation',
      'skin-corrosion',
      'cancer-risk',
      'thaumasite',
    ],
  },
  {
    name: 'CSA, US (S01, S02)',
    facts: facts({ csa: 280, ironOxide: 14, water: 70 }),
    region: 'US',
    raises: { 'alkali-burn': 'warn', 'eye-damage': 'warn', 'pigment-limit': 'info', 'fine-powder-dust': 'info' },
    lacks: ['chromate-allergy', 'silica-from-finishing', 'plaster-heat-never-body', 'csa-mixed'],
  },
  {
    name: 'lime in an aluminium tray (S02, S05, S30)',
    facts: facts({ lime: 200, limestone: 600, water: 250 }, { mouldStuff: 'aluminium' }),
    raises: { 'alkali-burn': 'warn', 'eye-damage': 'warn', 'aluminium-and-alkali': 'warn' },
    lacks: ['chromate-allergy', 'silica-from-finishing'],
  },
  {
    name: 'aluminium cup cast into cement (S30)',
    facts: facts({ portland: 200, water: 90 }, { aluminiumParts: true }),
    raises: { 'aluminium-and-alkali': 'warn' },
    lacks: [],
  },
  {
    name: 'dry sanding a sanded cast (S09)',
    facts: facts({ csa: 300, sand: 300, water: 120 }, { finishing: 'dry-sanding' }),
    raises: { 'silica-from-finishing': 'warn', 'dry-sanding': 'warn' },
    lacks: [],
  },
  {
    name: 'silica flour and fume (S10, S11)',
    facts: facts({ portland: 500, silicaFlour: 300, silicaFume: 40, water: 250 }),
    raises: { 'silica-while-mixing': 'warn', 'silica-fume-dust': 'caution' },
    lacks: ['organ-damage', 'fine-powder-dust'],
  },
  {
    name: 'lithium in aluminate cement with Portland, plaster and lime (S13, flash set)',
    facts: facts({ aluminate: 300, portland: 100, lithium: 2, water: 150 }),
    raises: { 'lithium-reproductive': 'warn', 'aluminate-flash-set': 'warn', 'harmful-swallowed': 'info' },
    lacks: ['borate-reproductive', 'reproductive-harm'],
  },
  {
    name: 'citric acid in CSA (S14)',
    facts: facts({ csa: 500, citric: 2, water: 180 }),
    raises: { 'acid-powder': 'caution', 'eye-irritation': 'info' },
    lacks: [],
  },
  {
    name: 'citric acid in plaster (S14)',
    facts: facts({ plaster: 500, citric: 1, water: 300 }),
    raises: { 'acid-powder': 'info' },
    lacks: ['aluminate-flash-set'],
  },
  {
    name: 'glass fibre, perlite, emulsion, potassium sulfate (S15, S16, S17)',
    facts: facts(
      { csa: 300, glassFibre: 9, perlite: 40, emulsion: 30, potassiumSulfate: 2, water: 120 },
      { service: 'damp' },
    ),
    raises: {
      'fibre-itch': 'caution',
      'light-aggregate-dust': 'info',
      'preservative-allergy': 'info',
      efflorescence: 'info',
    },
    lacks: ['skin-allergy', 'plants-and-lime'],
  },
  {
    name: 'plastic fibre',
    facts: facts({ csa: 300, plasticFibre: 3, water: 110 }),
    raises: { 'fibre-itch': 'info' },
    lacks: ['light-aggregate-dust'],
  },
  {
    name: 'too much pigment, carbon black and chromium green, US (S18, S20, S21)',
    facts: facts({ csa: 300, carbonBlack: 20, chromeGreen: 16, water: 110 }),
    region: 'US',
    raises: { 'pigment-limit': 'warn', 'fine-powder-dust': 'caution', 'metal-pigment': 'info', 'cancer-risk': 'warn' },
    lacks: ['poisonous-pigment'],
  },
  {
    name: 'cadmium red (S19)',
    facts: facts({ plaster: 300, cadmiumRed: 3, water: 150 }),
    raises: { 'poisonous-pigment': 'stop', 'cancer-risk': 'warn' },
    lacks: [],
  },
  {
    name: 'candle holder of plaster, still damp, US (S22, S23, S25)',
    facts: facts(
      { plaster: 300, water: 150 },
      { uses: ['candle'], service: 'warm', dryness: { ageDays: 2, dryAfterDays: 9 } },
    ),
    region: 'US',
    raises: { 'flame-test-first': 'warn', 'gypsum-near-flame': 'warn', 'dry-before-heat': 'warn' },
    lacks: ['wax-vessel', 'no-fire'],
  },
  {
    name: 'wax vessel of CSA, dry (S22)',
    facts: facts({ csa: 300, water: 110 }, { uses: ['wax'], dryness: { ageDays: 20, dryAfterDays: 9 } }),
    raises: {
      'flame-test-first': 'warn',
      'wax-vessel': 'warn',
      'dry-before-heat': 'caution',
      'csa-near-flame': 'warn',
    },
    lacks: ['gypsum-near-flame'],
  },
  {
    name: 'candle holder of CSA',
    facts: facts({ csa: 300, water: 110 }, { uses: ['candle'] }),
    raises: { 'csa-near-flame': 'warn' },
    lacks: ['gypsum-near-flame', 'wax-vessel'],
  },
  {
    name: 'a little CSA in much sand by a lamp',
    facts: facts({ csa: 100, sand: 900, water: 60 }, { service: 'warm' }),
    raises: { 'csa-near-flame': 'caution' },
    lacks: ['gypsum-near-flame'],
  },
  {
    name: 'CSA in a dry room',
    facts: facts({ csa: 300, water: 110 }),
    raises: ALWAYS,
    lacks: ['csa-near-flame'],
  },
  {
    name: 'Portland by a flame',
    facts: facts({ portland: 300, water: 130 }, { uses: ['candle'] }),
    raises: { 'flame-test-first': 'warn' },
    lacks: ['csa-near-flame', 'gypsum-near-flame'],
  },
  {
    name: 'fire bowl (S24)',
    facts: facts({ portland: 2000, perlite: 500, water: 1000 }, { uses: ['fire'] }),
    raises: { 'no-fire': 'stop' },
    lacks: ['flame-test-first'],
  },
  {
    name: 'plaster outdoors (S27)',
    facts: facts({ plaster: 300, water: 150 }, { uses: ['outdoor'] }),
    raises: { 'gypsum-and-water': 'stop' },
    lacks: ['plants-and-lime'],
  },
  {
    name: 'plaster planter (S27)',
    facts: facts({ plaster: 300, water: 150 }, { service: 'damp', uses: ['planter'] }),
    raises: { 'gypsum-and-water': 'stop' },
    lacks: ['plants-and-lime'],
  },
  {
    name: 'plaster soap dish (S27)',
    facts: facts({ plaster: 300, water: 150 }, { service: 'wet' }),
    raises: { 'gypsum-and-water': 'warn' },
    lacks: [],
  },
  {
    name: 'plate (S28)',
    facts: facts({ csa: 300, water: 110 }, { uses: ['food'] }),
    raises: { 'not-for-food': 'warn' },
    lacks: [],
  },
  {
    name: 'sand, Portland and plaster, screen not run (S29)',
    facts: facts({ sand: 150, portland: 75, plaster: 75, ironOxide: 15, water: 75 }, { waterToPlaster: 1 }),
    raises: { 'gypsum-with-portland': 'warn' },
    lacks: ['thaumasite', 'dense-plaster'],
  },
  {
    name: 'the same with limestone, damp, refused by the screen (S29, thaumasite)',
    facts: facts(
      { limestone: 150, portland: 75, plaster: 75, water: 75 },
      { service: 'damp', sulfate: sulfateScreen({ portland: 75, hemihydrate: 75, carbonate: true, service: 'damp' }) },
    ),
    raises: { 'gypsum-with-portland': 'stop', thaumasite: 'warn', 'gypsum-and-water': 'warn' },
    lacks: [],
  },
  {
    name: 'Portland with ground gypsum outdoors, screen not run (S27, S29)',
    facts: facts({ portland: 500, setGypsum: 60, limestone: 100, water: 250 }, { uses: ['outdoor'] }),
    raises: { 'gypsum-with-portland': 'warn', 'gypsum-and-water': 'warn', thaumasite: 'warn' },
    lacks: ['plaster-heat-never-body', 'gypsum-near-flame'],
  },
  {
    name: 'Portland with potassium sulfate, screen not run (S29)',
    facts: facts({ portland: 500, potassiumSulfate: 50, water: 250 }, { service: 'wet' }),
    raises: { 'gypsum-with-portland': 'warn' },
    lacks: ['gypsum-and-water', 'thaumasite'],
  },
  {
    name: 'CSA with plaster and lime',
    facts: facts({ csa: 300, plaster: 200, lime: 80, water: 300 }),
    raises: { 'csa-mixed': 'warn' },
    lacks: ['aluminate-flash-set', 'gypsum-with-portland'],
  },
  {
    name: 'CSA with Portland, US',
    facts: facts({ csa: 300, portland: 200, water: 200 }),
    region: 'US',
    raises: { 'csa-mixed': 'warn' },
    lacks: ['aluminate-flash-set'],
  },
  {
    name: 'CSA with a trace of ground gypsum',
    facts: facts({ csa: 300, setGypsum: 1, water: 120 }),
    raises: { 'csa-mixed': 'info', 'gypsum-and-water': 'info' },
    lacks: [],
  },
  {
    name: 'wax vessel of plaster (S23)',
    facts: facts({ plaster: 300, water: 150 }, { uses: ['wax'] }),
    raises: { 'gypsum-near-flame': 'stop', 'wax-vessel': 'warn' },
    lacks: [],
  },
  {
    name: 'heavy wall piece (S33)',
    facts: facts({ csa: 5000, water: 1800 }, { pieceGrams: 6500, uses: ['wall-hung'] }),
    raises: { 'not-structural': 'caution' },
    lacks: [],
  },
  {
    name: 'a material of unknown hazards (S36)',
    facts: facts({ plaster: 300, blank: 3, water: 150 }),
    raises: { 'unknown-hazards': 'warn' },
    lacks: ['other-statements'],
  },
  {
    name: 'rows with the rarer statements, and one not made for this service',
    facts: blendFacts(
      [
        { material: row('corrosive-salt', 'admixture', { hazards: ['H314', 'H290'] }), grams: 1 },
        { material: row('irritant', 'admixture', { hazards: ['H315'] }), grams: 10 },
        { material: row('sensitiser', 'admixture', { hazards: ['H317', 'H334'] }), grams: 1 },
        { material: row('organ-poison', 'admixture', { hazards: ['H373'] }), grams: 1 },
        { material: row('reprotoxic', 'admixture', { hazards: ['H361d'] }), grams: 1 },
        { material: row('mutagen', 'admixture', { hazards: ['H341'] }), grams: 1 },
        { material: row('poison', 'admixture', { hazards: ['H301'] }), grams: 1 },
        { material: row('indoor-filler', 'filler', { notFor: ['wet'] }), grams: 84 },
      ],
      { service: 'wet' },
    ),
    raises: {
      'skin-corrosion': 'caution',
      'skin-irritation': 'caution',
      'skin-allergy': 'caution',
      'airway-allergy': 'warn',
      'organ-damage': 'warn',
      'reproductive-harm': 'warn',
      'genetic-damage': 'warn',
      poison: 'warn',
      'other-statements': 'info',
      'not-for-this-service': 'warn',
    },
    lacks: ['alkali-burn', 'binder-dust'],
  },
  {
    name: 'everyone at risk is in the room (S35)',
    facts: facts({ csa: 500, water: 150 }, { who: ['child-present', 'pregnant', 'asthma'] }),
    raises: { 'child-in-the-room': 'warn', pregnancy: 'warn', asthma: 'warn', 'alkali-burn': 'stop' },
    lacks: [],
  },
  {
    name: 'pigments named like poisons, but not poisonous',
    facts: blendFacts(
      [
        { material: row('cadmium-free-red', 'pigment', { name: 'cadmium-free red' }), grams: 5 },
        { material: row('low-chromate-cement', 'cement', { family: 'portland' }), grams: 300 },
      ],
      { service: 'dry-indoor' },
    ),
    raises: { 'chromate-allergy': 'caution' },
    lacks: ['poisonous-pigment'],
  },
  {
    name: 'a lead pigment known by another word',
    facts: blendFacts([{ material: row('flake-white', 'pigment', { name: 'lead white' }), grams: 5 }], {
      service: 'dry-indoor',
    }),
    raises: { 'poisonous-pigment': 'stop' },
    lacks: [],
  },
  {
    name: 'a cement labelled for cancer because of quartz nobody measured, US',
    facts: blendFacts([{ material: row('a-cement', 'cement', { family: 'csa', hazards: ['H350:US'] }), grams: 500 }], {
      service: 'dry-indoor',
    }),
    region: 'US',
    raises: { 'silica-while-mixing': 'caution', 'silica-from-finishing': 'caution' },
    lacks: ['cancer-risk'],
  },
  {
    name: 'borax at 0.2 %, EU, below its limit (S12)',
    facts: facts({ plaster: 998, borax: 2, water: 500 }),
    raises: { 'borate-reproductive': 'info' },
    lacks: ['lithium-reproductive', 'reproductive-harm'],
  },
];
