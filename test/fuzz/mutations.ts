import fc from 'fast-check';
import { parse, stringify } from 'yaml';

/**
 * Ways to spoil a good text. Each is plain data, so that fast-check can shrink a list of them and print it; `at` and `to`
 * are shares of the text's length (or of its lines, or of its values).
 */
export type Mutation =
  | { readonly do: 'insert'; readonly at: number; readonly text: string }
  | { readonly do: 'cut'; readonly at: number; readonly length: number }
  | { readonly do: 'flip'; readonly at: number; readonly bit: number }
  | { readonly do: 'repeat'; readonly at: number; readonly length: number; readonly times: number }
  | { readonly do: 'line-off'; readonly at: number }
  | { readonly do: 'line-twice'; readonly at: number }
  | { readonly do: 'line-moved'; readonly at: number; readonly to: number }
  | { readonly do: 'number'; readonly at: number; readonly text: string }
  | { readonly do: 'word'; readonly at: number; readonly text: string }
  | { readonly do: 'value'; readonly at: number; readonly value: unknown }
  | { readonly do: 'key'; readonly at: number; readonly text: string };

/** What has broken readers elsewhere: syntax, names that reach into the language, odd numbers, odd letters. */
const NASTY = [
  ...[
    '__proto__',
    'constructor',
    'prototype',
    'toString',
    'hasOwnProperty',
    '__defineGetter__',
    'valueOf',
    'null',
    '~',
  ],
  ...[
    'NaN',
    '.nan',
    '.inf',
    '-.inf',
    '1e999',
    '-1e999',
    '1e-999',
    '-0',
    '0',
    '-1',
    '0x10',
    '0o17',
    '1_000',
    '١٢',
    '½',
    '1/0',
  ],
  ...[
    '9007199254740993',
    '99999999999999999999999',
    '1e308',
    '5e-324',
    '1,2,3',
    '1.2.3',
    '1 000',
    '--5',
    '5 5',
    '1/2/3',
  ],
  ...[
    ': ',
    '- ',
    '&a ',
    '*a',
    '*b',
    '!!binary ',
    '!!js/function ',
    '<<: ',
    '? ',
    '| ',
    '> ',
    '---\n',
    '...\n',
    '%YAML 9.9\n',
  ],
  ...[
    '"',
    "'",
    '""',
    '[',
    ']',
    '{',
    '}',
    ',',
    ';',
    '\t',
    '\r',
    '\r\n',
    '\n',
    '\n\n',
    '#',
    '@',
    '`',
    '\\',
    '"\n',
    '=1+1',
  ],
  ...['\u0000', '\u0007', '\ufeff', '\u202e', '\u200b', '\u2028', '\ud800', '😀', 'é', 'ß', '\u00a0', '\u001b[31m'],
  ...['true', 'yes', 'off', '2026-02-30', '25:61', 'g', 'kg', ' oz', ' fl oz', ' % of binder', ' EUR', ' °C', 'µ'],
  ...['a.b.c', 'x'.repeat(300), '.'.repeat(60), '['.repeat(60), '{a: '.repeat(45), '- '.repeat(60), 'a.'.repeat(400)],
] as const;

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const nasty = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...NASTY) },
  { weight: 1, arbitrary: fc.string({ maxLength: 12 }) },
);
const odd = fc.oneof(
  nasty,
  fc.double(),
  fc.integer(),
  fc.constantFrom(0, -1, 1e12, 1e-12, 1e308, Number.NaN, Number.POSITIVE_INFINITY, null, true, '', [], {}),
  fc.array(nasty, { maxLength: 3 }),
  fc.dictionary(nasty, nasty, { maxKeys: 3 }),
);

const mutation: fc.Arbitrary<Mutation> = fc.oneof(
  fc.record({ do: fc.constant('insert' as const), at: share, text: nasty }),
  fc.record({ do: fc.constant('cut' as const), at: share, length: fc.integer({ min: 1, max: 40 }) }),
  fc.record({ do: fc.constant('flip' as const), at: share, bit: fc.integer({ min: 0, max: 7 }) }),
  fc.record({
    do: fc.constant('repeat' as const),
    at: share,
    length: fc.integer({ min: 1, max: 30 }),
    times: fc.integer({ min: 1, max: 200 }),
  }),
  fc.record({ do: fc.constant('line-off' as const), at: share }),
  fc.record({ do: fc.constant('line-twice' as const), at: share }),
  fc.record({ do: fc.constant('line-moved' as const), at: share, to: share }),
  fc.record({ do: fc.constant('number' as const), at: share, text: nasty }),
  fc.record({ do: fc.constant('word' as const), at: share, text: nasty }),
  fc.record({ do: fc.constant('value' as const), at: share, value: odd }),
  fc.record({ do: fc.constant('value' as const), at: share, value: odd }),
  fc.record({ do: fc.constant('key' as const), at: share, text: nasty }),
);

export const mutations = fc.array(mutation, { minLength: 1, maxLength: 3 });

export const mutated = (text: string, list: readonly Mutation[]): string => list.reduce(apply, text);

function apply(text: string, m: Mutation): string {
  const at = Math.floor(m.at * text.length);
  switch (m.do) {
    case 'insert':
      return text.slice(0, at) + m.text + text.slice(at);
    case 'cut':
      return text.slice(0, at) + text.slice(at + m.length);
    case 'flip': {
      const bytes = Buffer.from(text, 'utf8');
      const byte = Math.floor(m.at * bytes.length);
      if (byte < bytes.length) bytes[byte] = bytes[byte]! ^ (1 << m.bit);
      return bytes.toString('utf8');
    }
    case 'repeat':
      return text.slice(0, at) + text.slice(at, at + m.length).repeat(m.times) + text.slice(at + m.length);
    case 'line-off':
    case 'line-twice':
    case 'line-moved': {
      const lines = text.split('\n');
      const [line] = lines.splice(Math.floor(m.at * lines.length), 1);
      const to = Math.floor((m.do === 'line-moved' ? m.to : m.at) * lines.length);
      if (m.do !== 'line-off') lines.splice(to, 0, line!, ...(m.do === 'line-twice' ? [line!] : []));
      return lines.join('\n');
    }
    case 'number':
      return swapped(text, /[-+]?\d+(?:[.,]\d+)*/g, m.at, m.text);
    case 'word':
      return swapped(text, /[\p{L}][\p{L}-]*/gu, m.at, m.text);
    case 'value':
    case 'key':
      return grafted(text, m);
  }
}

function swapped(text: string, pattern: RegExp, at: number, by: string): string {
  const found = [...text.matchAll(pattern)];
  const one = found[Math.floor(at * found.length)];
  return one === undefined ? text : text.slice(0, one.index) + by + text.slice(one.index + one[0].length);
}

/** Puts another value, or another name, somewhere in the data of a YAML text, so that the text stays well formed. */
function grafted(text: string, m: Extract<Mutation, { do: 'value' | 'key' }>): string {
  let data: unknown;
  try {
    data = parse(text, { maxAliasCount: 10, logLevel: 'error' });
  } catch {
    return text;
  }
  const spots = [...spotsOf(data)];
  const spot = spots[Math.floor(m.at * spots.length)];
  if (spot === undefined) return text;
  const { inside, key } = spot;
  if (m.do === 'value') put(inside, key, m.value);
  else if (!Array.isArray(inside)) {
    const old = inside[key];
    delete inside[key];
    put(inside, m.text, old);
  }
  return stringify(data, { aliasDuplicateObjects: false });
}

type Inside = Record<string | number, unknown>;

/** Defined, not assigned: "__proto__" is to end up in the text as a name like any other. */
const put = (inside: Inside, key: string | number, value: unknown): void => {
  Object.defineProperty(inside, key, { value, enumerable: true, configurable: true, writable: true });
};

function* spotsOf(data: unknown): Generator<{ inside: Inside; key: string | number }> {
  // "!!binary" gives bytes, which have no parts to put something in.
  if (typeof data !== 'object' || data === null || data instanceof Uint8Array) return;
  for (const key of Object.keys(data)) {
    const step = Array.isArray(data) ? Number(key) : key;
    yield { inside: data as Inside, key: step };
    yield* spotsOf((data as Inside)[step]);
  }
}
