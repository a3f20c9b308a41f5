import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gather } from '../../src/core/problems/gather.js';
import { nearestWord } from '../../src/core/problems/nearest.js';
import { InputProblems, refuse } from '../../src/core/problems/problem.js';
import { explain, leadOf, PROBLEM_CODES, placeOf } from '../../src/core/problems/words.js';

describe('the words of a problem', () => {
  it('stand for every code of problem.ts', () => {
    const source = readFileSync('src/core/problems/problem.ts', 'utf8');
    const union = source.slice(source.indexOf('export type ProblemCode'), source.indexOf('/** Thrown when'));
    const codes = [...union.matchAll(/\| '([a-z-]+)'/g)].map((match) => match[1]);
    expect(codes.length).toBeGreaterThan(35);
    expect([...PROBLEM_CODES].sort()).toEqual(codes.sort());
    for (const code of PROBLEM_CODES) expect(leadOf(code)).toMatch(/^[a-z].{8,}[^.]$/);
  });

  it('say where, what was found, what is expected, the nearest word and what to do', () => {
    expect(
      explain({
        code: 'material-unknown',
        severity: 'error',
        where: { file: 'prices.csv', line: 3, path: 'material' },
        found: 'silca fume',
        nearest: 'silica-fume',
      }),
    ).toBe('prices.csv line 3, material: there is no such material: found “silca fume”. Did you mean “silica-fume”?');
    expect(explain({ code: 'file-empty', severity: 'error', where: { file: 'a.yaml' } })).toBe(
      'a.yaml: the file is empty.',
    );
    expect(explain({ code: 'price-missing', severity: 'error', found: 'perlite', hint: 'add it to the list' })).toBe(
      'A cost is asked for, and this material has no price: found “perlite”. Add it to the list.',
    );
    expect(
      explain({
        code: 'yaml-malformed',
        severity: 'error',
        where: { file: 'a.yaml', line: 3, column: 7 },
        hint: 'indent with spaces',
      }),
    ).toBe('a.yaml line 3:7: this is not valid YAML. Indent with spaces.');
    expect(placeOf(undefined)).toBe('');
    expect(placeOf({ path: 'targets' })).toBe('targets');
  });

  it('let no control character, no direction mark and no endless text through', () => {
    const evil = `\u001b[31mred\u0007\n\r\u202egnp.exe${'x'.repeat(5000)}`;
    const message = explain({
      code: 'unit-unknown',
      severity: 'error',
      where: { file: evil, path: evil },
      found: evil,
      nearest: evil,
      expected: evil,
      hint: evil,
    });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that none is left is what is tested
    expect(message).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e]/);
    expect(message.length).toBeLessThan(3000);
  });

  it('make one line of any problem', () => {
    let cases = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...PROBLEM_CODES),
        fc.string({ unit: 'grapheme' }),
        fc.string(),
        (code, found, expected) => {
          const message = explain({
            code,
            severity: 'error',
            found,
            expected: `one of ${expected.replace(/\s/g, '')}`,
          });
          expect(message.split('\n')).toHaveLength(1);
          expect(message).not.toMatch(/undefined|\[object/);
          cases += 1;
        },
      ),
      { numRuns: 1000, seed: 7 },
    );
    expect(cases).toBe(1000);
  });
});

describe('the nearest word', () => {
  const allowed = [
    'silica-fume',
    'silica-sand-fine',
    'silica-sand-coarse',
    'metakaolin',
    'perlite',
    'hydrated-lime',
    'g',
    'mg',
  ];
  it.each([
    ['silca-fume', 'silica-fume'],
    ['Silica Fume', 'silica-fume'],
    ['SILICA_FUME', 'silica-fume'],
    ['fume', 'silica-fume'],
    ['sand silica fine', 'silica-sand-fine'],
    ['coarse silica sand', 'silica-sand-coarse'],
    ['metakoalin', 'metakaolin'],
    ['pearlite', 'perlite'],
    ['lime', 'hydrated-lime'],
    ['constructor', undefined],
    ['__proto__', undefined],
    ['sand', undefined],
    ['x', undefined],
    ['', undefined],
    ['concrete', undefined],
    ['perlite'.repeat(100_000), undefined],
  ])('%.30s: %s', (word, expected) => {
    expect(nearestWord(word, allowed)).toBe(expected);
  });

  it('of a short word lets two letters change places, but no two others', () => {
    expect(nearestWord('snad', ['gypsum', 'sand'])).toBe('sand');
    expect(nearestWord('saxy', ['gypsum', 'sand'])).toBeUndefined();
  });

  it('of a word of two letters lets none be another, but a letter left out or two that change places', () => {
    expect(nearestWord('UK', ['EU', 'US'])).toBeUndefined();
    expect(nearestWord('SU', ['EU', 'US'])).toBe('US');
    expect(nearestWord('kg', ['kgs', 'lbs'])).toBe('kgs');
  });

  it('of a word with one slip is that word, when no other is as near', () => {
    let cases = 0;
    fc.assert(
      fc.property(
        fc.constantFrom('metakaolin', 'perlite', 'silica-fume'),
        fc.nat(),
        fc.constantFrom('drop', 'double', 'swap'),
        (word, at, slip) => {
          const i = at % (word.length - 1);
          const wrong = {
            drop: word.slice(0, i) + word.slice(i + 1),
            double: word.slice(0, i + 1) + word.slice(i),
            swap: word.slice(0, i) + word[i + 1] + word[i] + word.slice(i + 2),
          }[slip];
          expect(nearestWord(wrong, allowed)).toBe(word);
          cases += 1;
        },
      ),
      { numRuns: 300, seed: 8 },
    );
    expect(cases).toBe(300);
  });
});

describe('gathering', () => {
  it('keeps every problem and throws once', () => {
    const noted = gather();
    expect(noted.attempt(() => 5)).toBe(5);
    expect(noted.attempt(() => refuse({ code: 'unit-unknown', found: 'x' }))).toBeUndefined();
    noted.add({ code: 'field-unknown', severity: 'warning', found: 'y' });
    expect(() => noted.finish()).toThrow(InputProblems);
    expect(noted.problems.map((problem) => problem.code)).toEqual(['unit-unknown', 'field-unknown']);
  });
  it('returns warnings when there is no error, and lets other exceptions through', () => {
    const noted = gather();
    noted.add({ code: 'field-unknown', severity: 'warning' });
    expect(noted.finish()).toHaveLength(1);
    expect(() =>
      noted.attempt(() => {
        throw new TypeError('a bug');
      }),
    ).toThrow(TypeError);
  });
});
