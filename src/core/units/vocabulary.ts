/** What a maker may mean by a quantity. `time` is counted in hours, `setTime` in minutes; both read the same words. */
export type QuantityKind =
  | 'mass'
  | 'volume'
  | 'length'
  | 'time'
  | 'setTime'
  | 'temperature'
  | 'fraction'
  | 'density'
  | 'pressure';

/** What a unit word measures. */
export type Dimension = 'mass' | 'volume' | 'length' | 'time' | 'temperature' | 'fraction' | 'pressure' | 'density';

interface KindInfo {
  readonly dimension: Dimension;
  /** Unit inside the core, as a word of this vocabulary. */
  readonly core: string;
  /** What to tell a maker who wrote something else. */
  readonly expected: string;
}

export const KIND_INFO: Readonly<Record<QuantityKind, KindInfo>> = {
  mass: { dimension: 'mass', core: 'g', expected: 'a mass such as “200 g” or “7 oz”' },
  volume: { dimension: 'volume', core: 'cm3', expected: 'a volume such as “200 mL” or “7 fl oz”' },
  length: { dimension: 'length', core: 'cm', expected: 'a length such as “8 cm” or “3 1/4 in”' },
  time: { dimension: 'time', core: 'h', expected: 'a time such as “24 h” or “3 days”' },
  setTime: { dimension: 'time', core: 'min', expected: 'a time such as “45 min” or “1 h 30 min”' },
  temperature: { dimension: 'temperature', core: '°C', expected: 'a temperature such as “20 °C” or “68 °F”' },
  fraction: { dimension: 'fraction', core: 'fraction', expected: 'a share such as “5 %”' },
  density: { dimension: 'density', core: 'g/cm3', expected: 'a density such as “1.6 g/cm3” or “100 lb/ft3”' },
  pressure: { dimension: 'pressure', core: 'MPa', expected: 'a strength such as “10 MPa” or “1500 psi”' },
};

export interface UnitWord {
  readonly dimension: Dimension;
  /** Name in the unit engine, or for a density the two names. Shares need none. */
  readonly engine: string;
  /** Spelling used when the program prints the unit. */
  readonly print: string;
}

/** dimension, engine name, printed spelling, then every other spelling. Case counts only where a word says so. */
type Row = readonly [Dimension, string, string, ...string[]];

const ROWS: readonly Row[] = [
  ['mass', 'mg', 'mg', 'milligram', 'milligrams'],
  ['mass', 'g', 'g', 'gram', 'grams', 'gramme', 'grammes', 'gm', 'gms'],
  ['mass', 'kg', 'kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms', 'kilogramme', 'kilogrammes'],
  ['mass', 'tonne', 't', 'tonne', 'tonnes', 'metric ton', 'metric tons'],
  ['mass', 'ounce', 'oz', 'ounce', 'ounces', 'ozs'],
  ['mass', 'poundmass', 'lb', 'lbs', 'pound', 'pounds', '#'],
  ['mass', 'stone', 'stone', 'stones'],
  ['mass', 'shortTon', 'short ton', 'short tons', 'us ton', 'us tons'],
  ['mass', 'longTon', 'long ton', 'long tons', 'imperial ton', 'imperial tons'],

  ['volume', 'mL', 'mL', 'milliliter', 'milliliters', 'millilitre', 'millilitres', 'mls'],
  ['volume', 'cL', 'cL', 'centiliter', 'centiliters', 'centilitre', 'centilitres'],
  ['volume', 'dL', 'dL', 'deciliter', 'deciliters', 'decilitre', 'decilitres'],
  ['volume', 'L', 'L', 'liter', 'liters', 'litre', 'litres', 'ltr', 'ltrs'],
  ['volume', 'mm3', 'mm3', 'cubic millimetre', 'cubic millimetres', 'cubic millimeter', 'cubic millimeters'],
  [
    'volume',
    'cm3',
    'cm3',
    'cc',
    'ccm',
    'cubic centimetre',
    'cubic centimetres',
    'cubic centimeter',
    'cubic centimeters',
  ],
  ['volume', 'dm3', 'dm3', 'cubic decimetre', 'cubic decimetres', 'cubic decimeter', 'cubic decimeters'],
  ['volume', 'm3', 'm3', 'cubic metre', 'cubic metres', 'cubic meter', 'cubic meters'],
  ['volume', 'spoonTea', 'tsp', 'tsps', 'teaspoon', 'teaspoons', 'teaspoonful', 'teaspoonfuls'],
  ['volume', 'spoonTable', 'tbsp', 'tbsps', 'tbs', 'tablespoon', 'tablespoons', 'tablespoonful', 'tablespoonfuls'],
  [
    'volume',
    'fluidounce',
    'fl oz',
    'floz',
    'fluid ounce',
    'fluid ounces',
    'us fl oz',
    'us fluid ounce',
    'us fluid ounces',
  ],
  ['volume', 'cup', 'cup', 'cups', 'us cup', 'us cups'],
  ['volume', 'pint', 'pint', 'pints', 'pt', 'pts', 'us pint', 'us pints'],
  ['volume', 'quart', 'qt', 'qts', 'quart', 'quarts', 'us quart', 'us quarts'],
  ['volume', 'gallon', 'gal', 'gals', 'gallon', 'gallons', 'us gal', 'us gallon', 'us gallons'],
  [
    'volume',
    'imperialOunce',
    'imp fl oz',
    'uk fl oz',
    'imperial fl oz',
    'imperial fluid ounce',
    'imperial fluid ounces',
  ],
  ['volume', 'imperialPint', 'imp pint', 'imp pints', 'uk pint', 'uk pints', 'imperial pint', 'imperial pints'],
  ['volume', 'imperialQuart', 'imp qt', 'imp quart', 'uk quart', 'imperial quart', 'imperial quarts'],
  [
    'volume',
    'imperialGallon',
    'imp gal',
    'imp gallon',
    'uk gal',
    'uk gallon',
    'uk gallons',
    'imperial gallon',
    'imperial gallons',
  ],
  ['volume', 'cuin', 'in3', 'cu in', 'cuin', 'cubic inch', 'cubic inches'],
  ['volume', 'cuft', 'ft3', 'cu ft', 'cuft', 'cubic foot', 'cubic feet'],
  ['volume', 'cuyd', 'yd3', 'cu yd', 'cuyd', 'cubic yard', 'cubic yards'],

  ['length', 'um', 'µm', 'μm', 'um', 'micron', 'microns', 'micrometre', 'micrometres', 'micrometer', 'micrometers'],
  ['length', 'mm', 'mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
  ['length', 'cm', 'cm', 'cms', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
  ['length', 'm', 'm', 'metre', 'metres', 'meter', 'meters'],
  ['length', 'inch', 'in', 'ins', 'inch', 'inches', '"', '″', '”', "''", '′′', '’’'],
  ['length', 'foot', 'ft', 'foot', 'feet', "'", '′', '’'],
  ['length', 'yard', 'yd', 'yds', 'yard', 'yards'],

  ['time', 's', 's', 'sec', 'secs', 'second', 'seconds'],
  ['time', 'minute', 'min', 'mins', 'minute', 'minutes'],
  ['time', 'hour', 'h', 'hr', 'hrs', 'hour', 'hours'],
  ['time', 'day', 'days', 'd', 'day'],
  ['time', 'week', 'weeks', 'week', 'wk', 'wks'],

  ['temperature', 'degC', '°C', 'C', 'degC', 'deg C', 'degrees C', 'celsius', 'degrees celsius', 'centigrade'],
  ['temperature', 'degF', '°F', 'F', 'degF', 'deg F', 'degrees F', 'fahrenheit', 'degrees fahrenheit'],
  ['temperature', 'K', 'K', 'kelvin', 'kelvins'],

  ['fraction', 'percent', '%', 'percent', 'per cent', 'pct'],
  ['fraction', 'one', 'fraction'],

  ['pressure', 'Pa', 'Pa', 'pascal', 'pascals'],
  ['pressure', 'kPa', 'kPa', 'kilopascal', 'kilopascals'],
  ['pressure', 'MPa', 'MPa', 'megapascal', 'megapascals', 'N/mm2'],
  ['pressure', 'psi', 'psi', 'lb/in2', 'lbf/in2', 'pounds per square inch'],
];

/** Shares have no unit in mathjs: `percent` and `one` of the list above. */
export const SHARE_FACTOR: Readonly<Record<string, number>> = { percent: 0.01, one: 1 };

/** Words that mean two things to two makers. They are refused with the choice spelled out. */
const TWO_MEANINGS: ReadonlyMap<string, string> = new Map([
  ['ton', 'write “tonne” (1000 kg), “short ton” (2000 lb) or “long ton” (2240 lb)'],
  ['tons', 'write “tonne” (1000 kg), “short ton” (2000 lb) or “long ton” (2240 lb)'],
  ['T', 'write “tbsp” for tablespoons or “tonne” for 1000 kg'],
  ['gr', 'write “g” for grams; a grain is 0.065 g'],
  ['c', 'write “cup” for cups or “°C” for a temperature'],
  ['M', 'write “min” for minutes or “m” for metres'],
  ['month', 'write it in days'],
  ['months', 'write it in days'],
]);

/** Other single letters keep their case: M, T, C and K mean something else, or nothing, in the other case. */
const CASELESS_LETTERS: ReadonlySet<string> = new Set(['g', 'l', 'h', 's', 'd', 'f']);

const exactWords = new Map<string, UnitWord>();
const anyCaseWords = new Map<string, UnitWord>();
for (const [dimension, engine, print, ...others] of ROWS) {
  const unit: UnitWord = { dimension, engine, print };
  for (const word of [print, ...others]) {
    exactWords.set(word, unit);
    if (word.length > 1 || CASELESS_LETTERS.has(word.toLowerCase())) anyCaseWords.set(word.toLowerCase(), unit);
  }
}

/** Brings spellings such as "fl. oz.", "ft^3", "in³", "cu-in" to the one in the table. */
function tidy(word: string): string {
  return word
    .trim()
    .replace(/\.(?=\s|$)/g, '')
    .replace(/([a-zA-Z])\s*\^\s*([23])/g, '$1$2')
    .replace(/([a-zA-Z])²/g, '$12')
    .replace(/([a-zA-Z])³/g, '$13')
    .replace(/^°\s+/, '°')
    .replace(/(?<=[a-zA-Z])-(?=[a-zA-Z])/g, ' ')
    .replace(/\s+/g, ' ');
}

function simpleUnit(word: string): UnitWord | undefined {
  const tidied = tidy(word);
  if (TWO_MEANINGS.has(tidied)) return undefined;
  return exactWords.get(tidied) ?? anyCaseWords.get(tidied.toLowerCase());
}

/** A density's engine name holds both parts, `mass/volume`. */
export function densityParts(unit: UnitWord): readonly [string, string] {
  const [mass = '', volume = ''] = unit.engine.split('/');
  return [mass, volume];
}

/** The unit a maker's word means, or undefined. Case and plural do not matter where they cannot confuse. */
export function unitOf(word: string): UnitWord | undefined {
  if (/^\s*pcf\s*$/i.test(word)) return unitOf('lb/ft3');
  const simple = simpleUnit(word);
  if (simple) return simple;
  const parts = word.split(/\/|\bper\b/);
  if (parts.length !== 2) return undefined;
  const [mass, volume] = parts.map((part) => simpleUnit(part));
  if (mass?.dimension !== 'mass' || volume?.dimension !== 'volume') return undefined;
  return { dimension: 'density', engine: `${mass.engine}/${volume.engine}`, print: `${mass.print}/${volume.print}` };
}

/** Why a word is refused although it looks like a unit. */
export const twoMeanings = (word: string): string | undefined => TWO_MEANINGS.get(tidy(word));

/** Every spelling that may stand for a dimension, for suggestions and help. */
export function spellings(dimension: Dimension): readonly string[] {
  if (dimension === 'density') return ['g/cm3', 'kg/m3', 'kg/L', 'g/mL', 'lb/ft3', 'lb/gal'];
  return ROWS.filter((row) => row[0] === dimension).flatMap(([, , ...words]) => words);
}
