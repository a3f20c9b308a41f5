import { unmarked } from './marks.js';
import type { Problem, ProblemCode, Where } from './problem.js';

/**
 * What each code means to a maker, in a few plain words. `selfEvident` marks those where "found …, expected …" already
 * says it all, so that the lead is dropped when both are known.
 */
interface Lead {
  readonly lead: string;
  readonly selfEvident?: boolean;
}

const LEADS: Readonly<Record<ProblemCode, Lead>> = {
  'file-missing': { lead: 'there is no such file' },
  'file-empty': { lead: 'the file is empty' },
  'file-too-large': { lead: 'the file is too large' },
  'file-binary': { lead: 'this is not a text file' },
  'file-unreadable': { lead: 'the file cannot be read' },
  'file-not-written': { lead: 'the file could not be written' },
  'yaml-malformed': { lead: 'this is not valid YAML' },
  'csv-malformed': { lead: 'this row of the table cannot be read' },
  'json-malformed': { lead: 'this is not valid JSON' },
  'field-missing': { lead: 'this field is missing' },
  'field-unknown': { lead: 'there is no such field here' },
  'field-duplicate': { lead: 'this field stands here twice' },
  'field-wrong-type': { lead: 'the wrong sort of value', selfEvident: true },
  'field-out-of-range': { lead: 'the value is out of range' },
  usage: { lead: 'the command line cannot be understood' },
  'option-unknown': { lead: 'there is no such option' },
  'option-invalid': { lead: 'the option cannot take this value', selfEvident: true },
  'quantity-unreadable': { lead: 'this quantity cannot be read', selfEvident: true },
  'quantity-ambiguous': { lead: 'this number can be read in two ways' },
  'unit-unknown': { lead: 'this unit is not known' },
  'unit-wrong-kind': { lead: 'the unit is of the wrong kind', selfEvident: true },
  'currency-mixed': { lead: 'prices in more than one currency' },
  'material-unknown': { lead: 'there is no such material' },
  'material-ambiguous': { lead: 'more than one material goes by this name' },
  'material-duplicate': { lead: 'this material stands here twice' },
  'material-density-missing': { lead: 'the density of this material is needed and not given' },
  'material-figure-missing': { lead: 'a figure of this material is needed and not given' },
  'source-unknown': { lead: 'the source named here is not in the list of sources' },
  'price-unlisted': { lead: 'your price list does not name all of this' },
  'price-list-missing': { lead: 'a cost is asked for, and there are no prices to reckon it by' },
  'price-missing': { lead: 'a cost is asked for, and this material has no price' },
  'price-duplicate': { lead: 'this material has two prices for the same pack' },
  'price-free': { lead: 'what has a price of zero counts as free' },
  'amount-not-positive': { lead: 'the amount must be more than zero' },
  'basis-missing': { lead: 'it is not said whether the parts are by mass or by volume' },
  'mould-impossible': { lead: 'no mould can have this shape' },
  'property-unknown': { lead: 'there is no such property' },
  'target-contradicts': { lead: 'these limits contradict each other' },
  'target-unreachable': { lead: 'no blend can reach this target' },
  'target-missed': { lead: 'the blend misses what is asked of it' },
  'brief-contradicts': { lead: 'this does not fit together' },
  'recipe-water-equals-mould': { lead: 'the water alone would fill the mould' },
  'recipe-cement-water-by-volume': { lead: 'cement and water in equal volumes is far too wet' },
  'mould-unfilled': { lead: 'what can be weighed out does not fill the mould just so' },
  'bowls-joined': { lead: 'one mould is filled from several bowls' },
  'recipe-implausible': { lead: 'this is an unlikely mix' },
  'recipe-runny': { lead: 'there may be more water in this than it needs' },
  'recipe-never-sets': { lead: 'no piece comes of this' },
  'recipe-outside-model': { lead: 'this recipe lies outside what the model has been checked for' },
  'recipe-overdosed': { lead: 'there is more of this in it than the table advises' },
  'recipe-hurried': { lead: 'this mix stiffens very soon' },
  'too-fine-to-weigh': { lead: 'this scale cannot tell so little' },
  'dose-as-solids': { lead: 'a dose counts solids' },
  'figures-outdated': { lead: 'figures from your own pours rest on an older table' },
  'pour-implausible': { lead: 'this is unlikely to be what was meant' },
  other: { lead: 'something is wrong' },
};

/** Every code there is, in the order of the list above. */
export const PROBLEM_CODES = Object.keys(LEADS) as readonly ProblemCode[];

/** The plain words of one code. */
export const leadOf = (code: ProblemCode): string => LEADS[code].lead;

const LONGEST_QUOTE = 80;
const LONGEST_PLACE = 160;
/** Of what is expected, and of a hint: the program's own words as a rule, but both may quote the maker's. */
const LONGEST_WORDS = 1000;

/**
 * The maker's own words, safe to print: one line, no terminal controls, no endless text. The text-direction marks are
 * dropped too, because they can make a line read as something else; and the marks of quantities.
 */
function printable(text: string, longest: number): string {
  const oneLine = unmarked(text)
    .slice(0, longest * 4)
    .replace(/[\u200b-\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g, '')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out here
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ')
    .trim();
  const letters = [...oneLine];
  return letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : oneLine;
}

export const quoted = (text: string): string => `“${printable(text, LONGEST_QUOTE)}”`;

/** "brief.yaml line 12, targets.dry-weight.max"; empty when nothing is known. */
export function placeOf(where: Where | undefined): string {
  if (!where) return '';
  const column = where.column === undefined ? '' : `:${where.column}`;
  const line = where.line === undefined ? '' : `line ${where.line}${column}`;
  const spot = [where.file, line].filter((part) => part).join(' ');
  return printable([spot, where.path].filter((part) => part).join(', '), LONGEST_PLACE);
}

const sentence = (text: string): string => (/[.!?…]["”]?$/.test(text) ? text : `${text}.`);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "“a”, “b” or “c”". */
function choice(words: readonly string[]): string {
  const each = words.map(quoted);
  return [each.slice(0, -1).join(', '), each.at(-1)].filter((part) => part).join(' or ');
}

/**
 * One clear message for one problem: where, what was found, what is expected, the nearest right word, what to do.
 * Example: brief.yaml line 12, targets.dry-weight.max: found “200 mL”, expected a mass such as “200 g”.
 */
export function explain(problem: Problem): string {
  const { lead, selfEvident } = LEADS[problem.code];
  const found = problem.found === undefined ? undefined : `found ${quoted(problem.found)}`;
  const expected =
    problem.expected === undefined ? undefined : `expected ${printable(problem.expected, LONGEST_WORDS)}`;
  const leadNeeded = !(selfEvident && found && expected);
  const facts = [found, expected].filter((part) => part !== undefined).join(', ');
  const first = leadNeeded ? [lead, facts].filter((part) => part).join(': ') : facts;
  const place = placeOf(problem.where);
  const opening = place ? `${place}: ${first}` : capital(first);
  return [
    sentence(opening),
    problem.nearest === undefined ? '' : `Did you mean ${choice([problem.nearest].flat())}?`,
    problem.hint === undefined ? '' : sentence(capital(printable(problem.hint, LONGEST_WORDS))),
  ]
    .filter((part) => part)
    .join(' ');
}
