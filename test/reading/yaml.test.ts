import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { dottedPlaces, pathText, unlined, valueAt } from '../../src/core/reading/located.js';
import { readYaml } from '../../src/core/reading/yaml.js';
import { codesOf, problemsOf } from '../support/problems.js';

const read = (text: string) => readYaml(text, 'brief.yaml');

describe('reading YAML', () => {
  const text = [
    '# a brief',
    'mould:',
    '  water: 200 mL',
    'targets:',
    '  dry-weight: {max: 250 g}',
    'allow:',
    '  - perlite',
    '  - lime',
    '',
  ].join('\n');

  it('gives plain data and the line of every field', () => {
    const brief = read(text);
    expect(brief.data).toEqual({
      mould: { water: '200 mL' },
      targets: { 'dry-weight': { max: '250 g' } },
      allow: ['perlite', 'lime'],
    });
    expect(brief.where(['mould', 'water'])).toEqual({ file: 'brief.yaml', line: 3, path: 'mould.water' });
    expect(brief.where(['targets', 'dry-weight', 'max'])).toEqual({
      file: 'brief.yaml',
      line: 5,
      path: 'targets.dry-weight.max',
    });
    expect(brief.where(['allow', 1])).toEqual({ file: 'brief.yaml', line: 8, path: 'allow[1]' });
  });

  it.each([
    ['{ max: 0,60 EUR }', '“0.60 EUR” or in quotes, "0,60 EUR"'],
    ['{ max: 0,60 }', '“0.60” or in quotes, "0,60"'],
    ['{max: 1,250 g, min: 3 g}', '“1.250 g” or “1250 g”'],
  ])('says what a comma does to a number between braces: %s', (window, expected) => {
    const found = /max: ([^ ,}]+,[^,}]+?) ?[,}]/.exec(window)![1]!;
    expect(problemsOf(() => read(`targets:\n  cost: ${window}\n`))).toEqual([
      {
        code: 'quantity-unreadable',
        severity: 'error',
        where: { file: 'brief.yaml', line: 2, column: window.indexOf('max') + 9, path: 'targets.cost.max' },
        found,
        expected,
        hint: 'between braces a comma begins the next field',
      },
    ]);
  });

  it.each([
    '{ max: "0,60 EUR" }',
    '{ max: 0.60 EUR, 60: 3 }',
    '{ a,60 }',
    '{ max: 0, 60: 3 }',
    '[0,60]',
    '{ max: g,60 }',
  ])('takes no other comma for one: %s', (window) => {
    expect(() => read(`cost: ${window}\n`)).not.toThrow();
  });

  it('places what is missing at the nearest part that is there', () => {
    const brief = read(text);
    expect(brief.where(['targets', 'cost', 'max'])).toEqual({ file: 'brief.yaml', line: 4, path: 'targets.cost.max' });
    expect(brief.where(['service'])).toEqual({ file: 'brief.yaml', path: 'service' });
    expect(brief.where([])).toEqual({ file: 'brief.yaml' });
  });

  it('finds places by dotted text too, with points inside keys', () => {
    const brief = read('amounts:\n  sand 0.5 mm: 200 g\nlist:\n  - a: 1\n');
    const at = dottedPlaces(brief);
    expect(at('amounts.sand 0.5 mm')).toMatchObject({ line: 2, path: 'amounts.sand 0.5 mm' });
    expect(at('list[0].a')).toMatchObject({ line: 4 });
    expect(at('list.0.a')).toMatchObject({ line: 4 });
    expect(at('')).toEqual({ file: 'brief.yaml' });
  });

  it('reads JSON, because YAML holds it', () => {
    expect(read('{"a": [1, 2.5, null, true, "x"]}').data).toEqual({ a: [1, 2.5, null, true, 'x'] });
  });

  it('unfolds a few aliases', () => {
    expect(read('a: &x {g: 1}\nb: *x\nc: [*x, *x]').data).toEqual({
      a: { g: 1 },
      b: { g: 1 },
      c: [{ g: 1 }, { g: 1 }],
    });
  });

  it('gives back what was written, for any plain data', () => {
    const plain = fc.letrec((tie) => ({
      value: fc.oneof(
        { maxDepth: 4 },
        fc.string(),
        fc.integer(),
        fc.boolean(),
        fc.constant(null),
        tie('list'),
        tie('map'),
      ),
      list: fc.array(tie('value'), { maxLength: 4 }),
      map: fc.dictionary(
        fc.string({ minLength: 1 }).filter((key) => !/^(__proto__|constructor|prototype)$/.test(key)),
        tie('value'),
        { maxKeys: 4 },
      ),
    }));
    let cases = 0;
    fc.assert(
      fc.property(plain.map, (data) => {
        expect(read(stringify({ data })).data).toEqual({ data });
        cases += 1;
      }),
      { numRuns: 500, seed: 9 },
    );
    expect(cases).toBe(500);
  });
});

describe('what is refused', () => {
  it.each([
    ['a:\n\tb: 1', 'yaml-malformed', 2],
    ['a: "x', 'yaml-malformed', 1],
    ['x: 1\na: b: c', 'yaml-malformed', 2],
    ['a: [1, 2', 'yaml-malformed', 1],
    ['a: 1\n---\nb: 2', 'yaml-malformed', 2],
    ['a: !!js/function "x"', 'yaml-malformed', 1],
    ['a: 1\nb: *nothing', 'yaml-malformed', 2],
    ['a: &a [*a]', 'yaml-malformed', 1],
    ['a: 1\nb: 2\na: 3', 'field-duplicate', 3],
    ['a: 1\n__proto__: {polluted: true}', 'field-unknown', 2],
    ['m:\n  constructor: {prototype: {polluted: true}}', 'field-unknown', 2],
    ['? [a, b]\n: 1', 'field-unknown', 1],
    ['? {a: b}\n: 1', 'field-unknown', 1],
  ])('%j', (text, code, line) => {
    const [problem] = problemsOf(() => read(text));
    expect(problem).toMatchObject({ code, where: { file: 'brief.yaml', line } });
    expect(problem!.where!.column).toBeGreaterThan(0);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it.each(['', '   \n', '# only a remark\n', '~', '---\n'])('an empty file: %j', (text) => {
    expect(codesOf(() => read(text))).toEqual(['file-empty']);
  });

  it('every repeated and reserved key at once', () => {
    expect(codesOf(() => read('a: 1\na: 2\nb: 1\nb: 2\n__proto__: 1'))).toEqual([
      'field-duplicate',
      'field-duplicate',
      'field-unknown',
    ]);
  });
});

describe('files meant to hurt', () => {
  const nine = (name: string): string => `[${Array(9).fill(`*${name}`).join(', ')}]`;
  const bomb = [
    'a0: &a0 [x, x, x, x, x, x, x, x, x]',
    ...Array.from({ length: 9 }, (_, i) => `a${i + 1}: &a${i + 1} ${nine(`a${i}`)}`),
  ].join('\n');

  it.each([
    ['aliases that unfold to 9^10 values', bomb, 'yaml-malformed'],
    ['merge keys that do', `${bomb}\nz:\n  <<: *a9`, 'yaml-malformed'],
    ['a hundred thousand opening brackets', '['.repeat(100_000), 'yaml-malformed'],
    ['the same with braces', '{a: '.repeat(50_000), 'yaml-malformed'],
    ['nested dashes', `${'- '.repeat(50_000)}a`, 'yaml-malformed'],
    ['nested question marks', '? '.repeat(50_000), 'yaml-malformed'],
    ['a map 60 deep', Array.from({ length: 60 }, (_, i) => `${' '.repeat(i)}k:`).join('\n'), 'yaml-malformed'],
    ['sixty thousand values', `[${'1,'.repeat(60_000)}]`, 'yaml-malformed'],
    ['fifty megabytes', 'a: 1\n'.repeat(10_000_000), 'file-too-large'],
  ])('%s', (_, text, code) => {
    expect(codesOf(() => read(text))[0]).toBe(code);
  });

  it('many different keys are read, not compared pair by pair', () => {
    const keys = Array.from({ length: 20_000 }, (_, i) => `k${i}: 1`).join('\n');
    expect(Object.keys(read(keys).data as object)).toHaveLength(20_000);
  });

  it('any text is read or refused', () => {
    const pieces = fc.constantFrom(
      'a',
      ': ',
      '- ',
      '\n',
      '  ',
      '[',
      ']',
      '{',
      '}',
      ', ',
      '&x ',
      '*x ',
      '!t ',
      '"',
      "'",
      '|',
      '>',
      '#',
      '? ',
      '---',
      '\t',
      '<<',
      '%',
      '@',
      '`',
      '1',
      '~',
    );
    let refused = 0;
    let accepted = 0;
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(pieces, { maxLength: 40 }).map((parts) => parts.join('')),
        ),
        (text) => {
          try {
            read(text);
            accepted += 1;
          } catch (error) {
            expect((error as Error).name).toBe('InputProblems');
            refused += 1;
          }
        },
      ),
      { numRuns: 3000, seed: 10 },
    );
    expect(refused).toBeGreaterThan(300);
    expect(accepted).toBeGreaterThan(300);
  });
});

describe('paths', () => {
  it('print and resolve', () => {
    expect(pathText(['materials', 2, 'density'])).toBe('materials[2].density');
    expect(valueAt({ a: [{ b: 5 }] }, ['a', 0, 'b'])).toBe(5);
    expect(valueAt({ a: 1 }, ['constructor', 'name'])).toBeUndefined();
    expect(unlined({ a: 1 }, 'form').where(['a'])).toEqual({ file: 'form', path: 'a' });
  });
});
