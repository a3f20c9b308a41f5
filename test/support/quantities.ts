/** Reads quantities out of words, by factors of its own: NIST Handbook 44, Appendix C. Nothing of the program's is used. */
export interface Quantity {
  readonly kind: string;
  /** g, cm3, cm, °C, MPa, g/cm3. */
  readonly value: number;
  /** Half of the last printed place, in the same unit. */
  readonly half: number;
}

/** Kind, factor to the unit above, and offset before it. */
const UNITS: Readonly<Record<string, readonly [string, number, number?]>> = {
  kg: ['mass', 1000],
  g: ['mass', 1],
  lb: ['mass', 453.59237],
  oz: ['mass', 28.349523125],
  mL: ['volume', 1],
  'fl oz': ['volume', 29.5735295625],
  gal: ['volume', 3785.411784],
  mm: ['length', 0.1],
  cm: ['length', 1],
  in: ['length', 2.54],
  '°C': ['temperature', 1],
  '°F': ['temperature', 5 / 9, -32],
  MPa: ['pressure', 1],
  psi: ['pressure', 0.006894757293168361],
  'g/cm3': ['density', 1],
  'lb/ft3': ['density', 0.01601846337396014],
};

const FIGURE = '-?\\d+(?:\\.\\d+)?';
const WORD = Object.keys(UNITS)
  .sort((a, b) => b.length - a.length)
  .map((unit) => unit.replace('/', '\\/'))
  .join('|');
const PATTERN = new RegExp(
  `(?<![\\w.])(${FIGURE})((?:(?: to | or | and )${FIGURE})*) (${WORD})(?: (${FIGURE}) (oz))?(?![\\w/])`,
  'g',
);

function one(figure: string, unit: string): Quantity {
  const [kind, factor, offset = 0] = UNITS[unit]!;
  const half = (0.5 * factor) / 10 ** (figure.split('.')[1]?.length ?? 0);
  return { kind, value: (Number(figure) + offset) * factor, half };
}

/** The words with `#` for each quantity, and the quantities in their order. */
export function quantitiesOf(text: string): { readonly words: string; readonly quantities: readonly Quantity[] } {
  const quantities: Quantity[] = [];
  const words = text.replace(PATTERN, (_all, first: string, more: string, unit: string, ounces?: string) => {
    const figures = [first, ...(more.match(new RegExp(FIGURE, 'g')) ?? [])].map((f) => one(f, unit));
    if (ounces !== undefined) {
      const last = figures.pop()!;
      const rest = one(ounces, 'oz');
      figures.push({ ...last, value: last.value + rest.value, half: rest.half });
    } else if (unit === 'lb' && !/\./.test(first)) {
      // Whole pounds without ounces stand for a sum of both.
      figures.push({ ...figures.pop()!, half: 28.35 / 20 });
    }
    quantities.push(...figures);
    return more.replace(new RegExp(FIGURE, 'g'), '#').replace(/^/, '#');
  });
  return { words, quantities };
}
