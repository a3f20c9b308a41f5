import type * as z from 'zod/mini';
import { holdingWord, nearestWord } from '../problems/nearest.js';
import { InputProblems, type Problem, type ProblemCode } from '../problems/problem.js';
import { fieldElsewhere, fieldOfCompanion, wordElsewhere } from './elsewhere.js';
import { type Located, type Path, valueAt } from './located.js';
import { descriptionAt, fieldFormsAt, fieldsAt, namesAt, neededAt, sortOf, sortsAt, wordsAt } from './schema-walk.js';

type Issue = z.core.$ZodIssue;

const MOST_PROBLEMS = 100;
const MOST_WORDS_LISTED = 12;
const LONGEST_FOUND = 200;

/**
 * The data in the shape the schema describes, or InputProblems with every misfit at once: path, line, what stands there,
 * what may stand there, and the nearest allowed field or word.
 *
 * A schema's own check may name its code: `ctx.addIssue({ code: 'custom', message, params: { problem: 'target-contradicts' } })`.
 */
export function checkShape<S extends z.ZodMiniType>(schema: S, located: Located): z.output<S> {
  // Compiling a reader of its own for each shape takes longer than it saves in files read once; and a strict page forbids it.
  const result = schema.safeParse(located.data, { jitless: true });
  if (result.success) return result.data;
  const problems = result.error.issues
    .slice(0, MOST_PROBLEMS)
    .flatMap((issue) => toProblems(issue, [], schema, located))
    .sort((a, b) => (a.where?.line ?? 0) - (b.where?.line ?? 0))
    .slice(0, MOST_PROBLEMS);
  throw new InputProblems(problems);
}

function toProblems(issue: Issue, base: Path, schema: z.core.$ZodType, located: Located): readonly Problem[] {
  const path = [...base, ...(issue.path as Path)];
  const value = valueAt(located.data, path);
  const make = (code: ProblemCode, parts: Partial<Problem> = {}, at: Path = path): Problem => {
    const found = parts.found ?? shown(value);
    return { code, severity: 'error', where: located.where(at), ...parts, ...(found !== undefined && { found }) };
  };

  switch (issue.code) {
    case 'unrecognized_keys': {
      return issue.keys.slice(0, MOST_PROBLEMS).map((key) => {
        const at = [...path, key];
        return make('field-unknown', { found: key, ...keyAdvice(at, schema, valueAt(located.data, path)) }, at);
      });
    }
    case 'invalid_type': {
      if (value === undefined) return [missing(path, schema, located)];
      const expected = fieldsMeant(path, value, schema) ?? fieldsOfFile(path, schema) ?? sortOf(issue.expected);
      return [make('field-wrong-type', { expected, ...quoteHint(issue.expected, value) })];
    }
    case 'invalid_value': {
      if (value === undefined) return [missing(path, schema, located)];
      return [badWord(value, wordsAt(schema, path), issue.values, schema, make)];
    }
    case 'invalid_union': {
      if (value === undefined) return [missing(path, schema, located)];
      const choice = bestBranch(issue.errors, value);
      if (choice) return choice.flatMap((inner) => toProblems(inner, path, schema, located));
      return [unionMisfit(issue, path, schema, located, make)];
    }
    case 'too_small':
    case 'too_big':
      return [make('field-out-of-range', { expected: limitText(issue) })];
    case 'not_multiple_of':
      return [make('field-out-of-range', { expected: `a multiple of ${issue.divisor}` })];
    case 'invalid_format':
      return [make('field-wrong-type', { expected: descriptionAt(schema, path) ?? formatText(issue) })];
    case 'invalid_key':
      return [make('field-unknown', { found: String(path.at(-1) ?? ''), ...keyAdvice(path, schema) })];
    case 'custom': {
      const code = (issue.params as { problem?: ProblemCode } | undefined)?.problem ?? 'field-out-of-range';
      const simple = value === undefined || typeof value === 'object' ? {} : { found: shown(value)! };
      return [{ code, severity: 'error', where: located.where(path), ...simple, hint: issue.message }];
    }
    default:
      return [make('field-wrong-type', { hint: issue.message })];
  }
}

/** YAML reads 12 as a number and true as a truth value where a text was meant. */
const quoteHint = (expected: string, value: unknown): Partial<Problem> =>
  expected === 'string' && (typeof value === 'number' || typeof value === 'boolean')
    ? { hint: `put it in quotes: "${value}"` }
    : {};

const SHORT = 40;

/** Where a value stands and fields are meant, the first of which could hold it: "min or max, such as strength: { min: 5 MPa }". */
function fieldsMeant(path: Path, value: unknown, schema: z.core.$ZodType): string | undefined {
  if (typeof value !== 'string' && typeof value !== 'number') return undefined;
  // A file of one word has no field's name to go with it.
  if (path.length === 0) return undefined;
  const [first, ...others] = fieldsAt(schema, path);
  if (first === undefined || String(value).length > SHORT) return undefined;
  const sort = sortOf(typeof value);
  if (!sortsAt(schema, [...path, first]).includes(sort)) return undefined;
  const names = others.length === 0 ? first : `${[first, ...others.slice(0, -1)].join(', ')} or ${others.at(-1)}`;
  return `${names}, such as ${String(path.at(-1))}: { ${first}: ${value} }`;
}

/** What a file of fields begins with, where it has none: the fields it must have, or the first of those it may. */
function fieldsOfFile(path: Path, schema: z.core.$ZodType): string | undefined {
  const [needed, fields] = [neededAt(schema, path), fieldsAt(schema, path)];
  if (path.length > 0 || fields.length === 0) return undefined;
  const [first, second] = needed.length > 0 ? needed : fields;
  const lines = [first, second].filter((name) => name !== undefined).map((name) => `“${name}: …”`);
  return `named fields, one a line, such as ${lines.join(' and ')}`;
}

type Make = (code: ProblemCode, parts?: Partial<Problem>, at?: Path) => Problem;

function missing(path: Path, schema: z.core.$ZodType, located: Located): Problem {
  const words = wordsAt(schema, path);
  const sorts = sortsAt(schema, path);
  // Of fields the schema's own words say which; a text or a number says enough by itself.
  const said = sorts.includes(sortOf('object')) ? descriptionAt(schema, path) : undefined;
  const expected = words.length > 0 ? oneOf(words) : (said ?? sorts.join(' or '));
  return { code: 'field-missing', severity: 'error', where: located.where(path), ...(expected && { expected }) };
}

function badWord(
  value: unknown,
  atPath: readonly string[],
  values: readonly unknown[],
  schema: z.core.$ZodType,
  make: Make,
): Problem {
  const allowed = atPath.length > 0 ? atPath : values.map(String);
  const nearest = typeof value === 'string' ? nearestWord(value, allowed) : undefined;
  const hint = typeof value === 'string' && nearest === undefined ? wordElsewhere(value, schema) : undefined;
  const expected = oneOf(allowed);
  return make('field-wrong-type', {
    ...(expected && { expected }),
    ...(nearest !== undefined && { nearest }),
    ...(hint !== undefined && { hint }),
  });
}

/**
 * Of a name that is no field here: the fields that hold it, where several do; where it is a field in this file; the near
 * word; the file in which it is a field; or all fields there are. `beside`: the value that has the name.
 */
function keyAdvice(path: Path, schema: z.core.$ZodType, beside?: unknown): Partial<Problem> {
  const key = String(path.at(-1) ?? '');
  const parent = path.slice(0, -1);
  const allowed = fieldsAt(schema, parent, beside);
  const { names, listed } = namesAt(schema, parent);
  const holding = holdingWord(key, allowed);
  const elsewhere = holding.length > 1 ? undefined : fieldElsewhere(key, parent, schema);
  if (elsewhere !== undefined) return { hint: elsewhere };
  const near = nearestWord(key, [...allowed, ...names.keys()], (name) => names.get(name) ?? name);
  const nearest = near === undefined ? undefined : (names.get(near) ?? near);
  const form = fieldFormsAt(schema, parent).find(({ pattern }) => nearest !== undefined && pattern.test(nearest));
  // A name of a form is not a slip of another one of the same form: say the form.
  if (form !== undefined) return { expected: form.description };
  if (nearest !== undefined) return { nearest };
  const there = fieldOfCompanion(key, schema);
  if (there !== undefined) return { hint: there };
  const offered = holding.length > 0 ? holding : allowed;
  const expected = oneOf(offered);
  const isCut = offered.length > MOST_WORDS_LISTED;
  return { ...(expected && { expected }), ...(isCut && listed !== undefined && { hint: listed }) };
}

function unionMisfit(issue: Issue, path: Path, schema: z.core.$ZodType, located: Located, make: Make): Problem {
  // A union told apart by one field: that field is what is wrong.
  const key = (issue as { discriminator?: string }).discriminator;
  if (key !== undefined) {
    const at = path.at(-1) === key ? path : [...path, key];
    const value = valueAt(located.data, at);
    if (value === undefined) return missing(at, schema, located);
    const found = shown(value);
    return badWord(value, wordsAt(schema, at), [], schema, (code, parts) =>
      make(code, { ...parts, ...(found && { found }) }, at),
    );
  }
  const words = wordsAt(schema, path);
  const value = valueAt(located.data, path);
  const nearest = typeof value === 'string' ? nearestWord(value, words) : undefined;
  const expected = [...sortsAt(schema, path), ...(words.length > 0 ? [oneOf(words)] : [])]
    .filter((part) => part)
    .join(' or ');
  return make('field-wrong-type', { ...(expected && { expected }), ...(nearest !== undefined && { nearest }) });
}

/**
 * The branch of a union the maker meant: the one that fails only inside the value (fields missing or wrong deeper
 * down), not at the value itself. Fields that are there and misfit weigh more than fields not yet written, and than those
 * of the right sort that go too far.
 */
function bestBranch(errors: readonly (readonly Issue[])[], value: unknown): readonly Issue[] | undefined {
  const weight = (issue: Issue): number => {
    if (issue.code === 'unrecognized_keys') return 10 * issue.keys.length;
    return isLimit(issue) || valueAt(value, issue.path as Path) === undefined ? 1 : 10;
  };
  const inside = errors.filter((issues) =>
    issues.every((issue) => issue.path.length > 0 || issue.code === 'unrecognized_keys' || issue.code === 'custom'),
  );
  const candidates = inside.length > 0 ? inside : errors.filter((issues) => issues.every((issue) => isLimit(issue)));
  const weights = candidates.map((issues) => issues.reduce((total, issue) => total + weight(issue), 0));
  return candidates[weights.indexOf(Math.min(...weights))];
}

const isLimit = (issue: Issue): boolean =>
  issue.code === 'too_small' ||
  issue.code === 'too_big' ||
  issue.code === 'not_multiple_of' ||
  issue.code === 'invalid_format';

/** What a schema says of a limit in its own words, and not zod in its, with its English loaded or without. */
const ownWords = ({ message }: Issue): string | undefined =>
  /^(Invalid|Too (small|big):)/.test(message) ? undefined : message;

function limitText(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const own = ownWords(issue);
  if (own !== undefined) return own;
  const [limit, word] = issue.code === 'too_small' ? [issue.minimum, 'least'] : [issue.maximum, 'most'];
  const strict = word === 'least' ? 'more than' : 'less than';
  const bound = issue.inclusive === false ? `${strict} ${limit}` : `at ${word} ${limit}`;
  if (issue.origin === 'array' || issue.origin === 'set')
    return `${bound} ${Number(limit) === 1 ? 'entry' : 'entries'}`;
  if (issue.origin === 'string') return `${bound} ${Number(limit) === 1 ? 'letter' : 'letters'}`;
  return bound;
}

function formatText(issue: z.core.$ZodIssueInvalidStringFormat): string {
  const pattern = (issue as { pattern?: string }).pattern;
  if (issue.format === 'regex') return ownWords(issue) ?? `a text of the form ${pattern}`;
  return `a text of the form ${issue.format}`;
}

const oneOf = (words: readonly string[]): string => {
  if (words.length === 0) return '';
  const listed = words.slice(0, MOST_WORDS_LISTED).join(', ');
  const more = words.length > MOST_WORDS_LISTED ? ', …' : '';
  return words.length === 1 ? listed : `one of ${listed}${more}`;
};

/** What stands there, in a few of the maker's own words. */
function shown(value: unknown): string | undefined {
  if (value === undefined) return undefined;
  if (value === null) return 'nothing';
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  if (typeof value === 'object') return 'named fields';
  return String(value).slice(0, LONGEST_FOUND);
}
