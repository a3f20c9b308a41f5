import { pigmentVerdict, WHITE_BINDER_ADVICE } from '../science/pigment.js';
import { gramsOf, percent, percentAbove, type RiskCase, type Screen, tagged } from './risk.js';

const isPigment = (p: RiskCase['parts'][number]): boolean => p.material.kind === 'pigment';

/** All pigments together against the smallest of their limits. */
export const overPigmented: Screen = (mix) => {
  const pigments = mix.parts.filter((p) => isPigment(p) && p.grams > 0);
  if (pigments.length === 0) return null;
  const verdict = pigmentVerdict(
    mix.state.amounts.binder,
    pigments.map(({ grams, material }) => ({
      grams: grams * (material.solids?.value ?? 1),
      ...(material.dose === undefined ? {} : { limit: material.dose.most.value }),
    })),
  );
  if (verdict.ok) return null;
  const why = pigments.length > 1 ? ', the smallest limit among the pigments in it' : '';
  return {
    id: 'pigment',
    level: 'high',
    text: `Pigment makes ${percentAbove(verdict.percent, verdict.limit)} of the binder; the most is ${percent(verdict.limit)}${why}. More weakens it and hardly deepens the colour.`,
    models: ['pigment-limit'],
    source: 'ASTM C979 (looked up); limits under 10 % are the table’s',
  };
};

/** What a pigment's id says of its colour, in the words of WHITE_BINDER_ADVICE. */
const COLOURS: readonly (readonly [RegExp, string])[] = [
  [/white/, 'white'],
  [/yellow|ochre/, 'yellow'],
  [/green/, 'green'],
  [/blue|ultramarine/, 'blue'],
];

/** A colour that grey cement spoils. */
export const dulled: Screen = (mix) => {
  const grey = gramsOf(mix, (p) => p.material.kind === 'cement' && !tagged('white')(p));
  if (grey < 0.1 * mix.state.amounts.binder) return null;
  const spoiled = mix.parts
    .filter((p) => isPigment(p) && p.grams > 0)
    .flatMap((p) => COLOURS.filter(([pattern]) => pattern.test(p.material.id)).map(([, colour]) => colour));
  const advice = WHITE_BINDER_ADVICE.find((a) => a.binder === 'white' && spoiled.includes(a.colour));
  if (advice === undefined) return null;
  return {
    id: 'dull-colour',
    level: 'some',
    text: `${advice.why} White cement or plaster, and a pale sand, give the ${advice.colour} its due.`,
    models: ['pigment-limit'],
    source: 'common practice, no source',
  };
};
