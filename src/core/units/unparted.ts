/** The space that no line ends at. */
export const NO_BREAK = '\u00a0';

/** What may stand behind a figure as its unit, in a text; a currency has three letters. */
const UNIT = '(?:%|°[CF]|(?:mg|kg|g|mL|L|µm|mm|cm|m|min|h|s|d|days?|MPa|psi|oz|lb|gal|in|[A-Z]{3})(?:/[a-z]+[3³]?)?)';
const PARTED = new RegExp(`(?<=\\d) (?=${UNIT}(?![\\w/]))`, 'g');
const FLUID = /(?<=\d) fl oz\b/g;

/** A text whose figures keep their units on the same line: “661 g” with a space that does not break. */
export const unparted = (text: string): string =>
  text.replace(FLUID, `${NO_BREAK}fl${NO_BREAK}oz`).replace(PARTED, NO_BREAK);
