import { describe, expect, it } from 'vitest';
import type * as z from 'zod/mini';
import { briefSchema, recipeSchema, shopSchema } from '../../src/core/brief/schema.js';
import { explain } from '../../src/core/problems/words.js';
import { checkShape } from '../../src/core/reading/shape.js';
import { readYaml } from '../../src/core/reading/yaml.js';
import { problemsOf } from '../support/problems.js';

/** What a maker is told of one line in a file that is right but for it. */
function told(schema: z.ZodMiniType, line: string, rest: string): string[] {
  return problemsOf(() => checkShape(schema, readYaml(`${line}\n${rest}`, 'mine.yaml')))
    .map(explain)
    .map((words) => words.replace(/^.*?: /, ''));
}
const inBrief = (line: string) => told(briefSchema, line, 'objective: cheapest\nmould: { water: 200 mL }');
const inMould = (mould: string) => told(briefSchema, `mould: ${mould}`, 'objective: cheapest');

describe('a field in the wrong place', () => {
  it.each([
    ['strength: { min: 5 MPa }', 'found “strength”. It belongs under “targets”.'],
    ['pieces: 4', 'found “pieces”. It belongs under “batch”.'],
    ['Least Dose: 1 g', 'found “Least Dose”. It belongs under “limits”.'],
  ])('%s is told where it belongs', (line, words) => {
    expect(inBrief(line)).toEqual([`there is no such field here: ${words}`]);
  });

  it('is told so sooner than what it is a slip of, and not where it is one but for its capitals', () => {
    expect(inMould('{ water: 200 mL, service: damp }')).toEqual([
      'there is no such field here: found “service”. It belongs at the top of the file.',
    ]);
    expect(inMould('{ Water: 200 mL }')).toEqual(['there is no such field here: found “Water”. Did you mean “water”?']);
  });

  it('that is a shape is told the field that takes it', () => {
    expect(inMould('{ box: { length: 9 cm } }')).toEqual([
      'there is no such field here: found “box”. It is a word for “mould.solid.shape” or “mould.core.shape”.',
    ]);
  });

  it('that the shop file has is told so, in a brief and a recipe, after near misses', () => {
    const words = 'there is no such field here: found “scale”. It belongs in the shop file, which “shop” names.';
    expect(inBrief('scale: { step: 1 g }')).toEqual([words]);
    expect(told(recipeSchema, 'scale: { step: 1 g }', 'amounts: { water: 9 g }')).toEqual([words]);
    expect(inBrief('pours: tapped')).toEqual(['there is no such field here: found “pours”. Did you mean “pour”?']);
  });

  it('of which several fields here are sorts is told them', () => {
    expect(inBrief('targets: { demould: { max: 2 h } }')).toEqual([
      'there is no such field here: found “demould”, expected one of demould-weight, demould-time, strength-at-demould.',
    ]);
    expect(inBrief('targets: { weight: { max: 2 kg } }')[0]).toMatch(/expected one of fresh-weight, .*dry-weight/);
  });

  it('that another shape has is not offered for this one', () => {
    expect(inMould('{ solid: { shape: cylinder, diameter: 9 cm, height: 3 cm, length: 3 cm } }')).toEqual([
      'there is no such field here: found “length”, expected one of shape, diameter, height.',
    ]);
  });

  it('that is nowhere, or in many places, is told all that may stand here', () => {
    for (const line of ['max: 3', 'speed: 3', 'weight: 300 g'])
      expect(inBrief(line)).toEqual([
        expect.stringMatching(/^there is no such field here: found “\w+”, expected one of title, .*…$/),
      ]);
    expect(told(shopSchema, 'service: damp', 'waste: 5 %')[0]).toMatch(/expected one of title, .*…$/);
  });
});

describe('a word in the wrong place', () => {
  it('is told the field that takes it', () => {
    expect(inBrief('service: planter')).toEqual([
      'found “planter”, expected one of dry-indoor, damp, wet, warm. It is a word for “uses”.',
    ]);
  });

  it('is first of all a near miss', () => {
    expect(inBrief('service: Damp')).toEqual([
      'found “Damp”, expected one of dry-indoor, damp, wet, warm. Did you mean “damp”?',
    ]);
    expect(inBrief('service: sunny')).toEqual(['found “sunny”, expected one of dry-indoor, damp, wet, warm.']);
  });
});
