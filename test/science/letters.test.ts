import { describe, expect, it } from 'vitest';
import { MODELS } from '../../src/core/science/provenance.js';

/** Units in equations, and the sign of multiplication. */
const PLAIN = new Set(['x', 'd', 'e', 'g', 'h', 'L', 'C']);

/** Letters that stand alone or carry an index, such as W in "W/B" and t_e; words and formulas of compounds are neither. */
const lettersOf = (equation: string): string[] => [
  ...new Set(equation.match(/(?<![\w%°])(?:[A-Za-z]|[A-Za-z]{1,3}_[A-Za-z]+)(?!\w)/g) ?? []),
];

const explained = (symbols: Readonly<Record<string, string>>): Set<string> =>
  new Set(Object.keys(symbols).flatMap((key) => [key, ...key.split(/, |\//)]));

describe('the equation of a model', () => {
  const models = MODELS.filter((m) => lettersOf(m.equation).length > 0);

  it.each(models.map((m) => [m.id, m] as const))('of %s leaves no letter unexplained', (_id, { equation, symbols }) => {
    const known = explained(symbols);
    expect(
      lettersOf(equation).filter((letter) => !known.has(letter) && !PLAIN.has(letter) && !letter.startsWith('sum_')),
    ).toEqual([]);
  });

  it('has letters in most models, and none that the equation lacks', () => {
    expect(models.length).toBeGreaterThan(40);
    const idle = MODELS.flatMap(({ id, equation, symbols }) =>
      Object.keys(symbols)
        .flatMap((key) => key.split(/, |\/|-/))
        .filter((letter) => !equation.includes(letter) && !Object.values(symbols).some((s) => s.includes(letter)))
        .map((letter) => `${id}: ${letter}`),
    );
    expect(idle).toEqual([]);
  });
});
