import { describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { userFileSchema } from '../../src/core/materials/schema.js';
import { explain } from '../../src/core/problems/words.js';
import { checkShape } from '../../src/core/reading/shape.js';
import { alsoNamed } from '../../src/core/reading/told.js';
import { readYaml } from '../../src/core/reading/yaml.js';
import { problemsOf } from '../support/problems.js';

const schema = z.strictObject({
  service: z.enum(['dry-indoor', 'damp', 'wet', 'warm']),
  mould: z.discriminatedUnion('shape', [
    z.strictObject({ shape: z.literal('box'), length: z.union([z.string(), z.number()]) }),
    z.strictObject({ shape: z.literal('cylinder'), diameter: z.string() }),
  ]),
  pieces: z.optional(z.int().check(z.positive(), z.maximum(1000))),
  name: z.optional(z.string()),
  step: z.optional(z.number().check(z.multipleOf(0.5))),
  targets: z.optional(
    z.partialRecord(
      z.enum(['dry-weight', 'cost']),
      z.strictObject({ min: z.optional(z.number()), max: z.optional(z.number()) }).check((ctx) => {
        if ((ctx.value.min ?? 0) > (ctx.value.max ?? Number.POSITIVE_INFINITY))
          ctx.issues.push({
            code: 'custom',
            input: ctx.value,
            message: 'min is above max',
            params: { problem: 'target-contradicts' },
          });
      }),
    ),
  ),
  list: z.optional(z.array(z.string()).check(z.minLength(1))),
});

const misfits = (text: string, shape: z.ZodMiniType = schema) =>
  problemsOf(() => checkShape(shape, readYaml(text, 'brief.yaml')));
const words = (text: string, shape?: z.ZodMiniType) => misfits(text, shape).map(explain);

describe('data against a shape', () => {
  it('passes typed data through', () => {
    expect(checkShape(schema, readYaml('service: damp\nmould: {shape: box, length: 5 cm}', 'brief.yaml'))).toEqual({
      service: 'damp',
      mould: { shape: 'box', length: '5 cm' },
    });
  });

  it('reports every misfit at once, each with its line and the nearest allowed word', () => {
    const text = [
      'servce: damp',
      'service: dmp',
      'mould: {shape: boxx, length: 5}',
      'pieces: -1',
      'targets:',
      '  dry-wieght: {max: 2}',
      '  cost: {maxx: 1, min: b}',
      'list: []',
      'name: 12',
      'step: 0.3',
    ].join('\n');
    expect(words(text)).toEqual([
      'brief.yaml line 1, servce: there is no such field here: found “servce”. Did you mean “service”?',
      'brief.yaml line 2, service: found “dmp”, expected one of dry-indoor, damp, wet, warm. Did you mean “damp”?',
      'brief.yaml line 3, mould.shape: found “boxx”, expected one of box, cylinder. Did you mean “box”?',
      'brief.yaml line 4, pieces: the value is out of range: found “-1”, expected more than 0.',
      'brief.yaml line 6, targets.dry-wieght: there is no such field here: found “dry-wieght”. Did you mean “dry-weight”?',
      'brief.yaml line 7, targets.cost.min: found “b”, expected a number.',
      'brief.yaml line 7, targets.cost.maxx: there is no such field here: found “maxx”. Did you mean “max”?',
      'brief.yaml line 8, list: the value is out of range: found “an empty list”, expected at least 1 entry.',
      'brief.yaml line 9, name: found “12”, expected a text. Put it in quotes: "12".',
      'brief.yaml line 10, step: the value is out of range: found “0.3”, expected a multiple of 0.5.',
    ]);
  });

  it('says what is missing and what may stand there', () => {
    expect(words('mould: {}')).toEqual([
      'brief.yaml, service: this field is missing: expected one of dry-indoor, damp, wet, warm.',
      'brief.yaml line 1, mould.shape: this field is missing: expected one of box, cylinder.',
    ]);
    expect(words('- a')).toEqual([
      'brief.yaml: found “a list”, expected named fields, one a line, such as “service: …” and “mould: …”',
    ]);
    expect(words('service: damp\nmould: {shape: box, length: [1]}')).toEqual([
      'brief.yaml line 2, mould.length: found “a list”, expected a text or a number.',
    ]);
  });

  it('says of a file of one word, or of one list, how a file begins', () => {
    const shape = z.strictObject({ title: z.optional(z.string()), sand: z.optional(z.string()) });
    expect(words('hello')).toEqual([
      'brief.yaml: found “hello”, expected named fields, one a line, such as “service: …” and “mould: …”',
    ]);
    expect(words('- hello', shape)).toEqual([
      'brief.yaml: found “a list”, expected named fields, one a line, such as “title: …” and “sand: …”',
    ]);
    expect(words('hello', z.record(z.string(), z.string()))).toEqual([
      'brief.yaml: found “hello”, expected named fields.',
    ]);
  });

  it('knows the other names of a field, and tells where a long list stands whole', () => {
    const ids = Array.from({ length: 13 }, (_, i) => `field-${'abcdefghijklm'[i]}`);
    const long = z.partialRecord(
      alsoNamed(z.enum(ids), {
        names: new Map([['weight of sand SiO2', 'field-c']]),
        listed: 'the list has them all',
      }),
      z.string(),
    );
    expect(words('weight-of-sand-si02: x', long)[0]).toMatch(/found “weight-of-sand-si02”\. Did you mean “field-c”\?$/);
    expect(words('sio2: x', long)[0]).toContain('Did you mean “field-c”?');
    expect(words('quite another: x', long)[0]).toMatch(/field-l, … The list has them all\.$/);
  });

  it('takes the branch of a union that knows the fields that are there', () => {
    const either = z.strictObject({
      pot: z.union([
        z.strictObject({ water: z.number() }),
        z.strictObject({ top: z.number(), foot: z.number(), height: z.number() }),
      ]),
    });
    expect(words('pot: {top: 5}', either)).toEqual([
      'brief.yaml line 1, pot.foot: this field is missing: expected a number.',
      'brief.yaml line 1, pot.height: this field is missing: expected a number.',
    ]);
  });

  it('lets a schema’s own check name its code', () => {
    const [problem] = misfits(
      'service: damp\nmould: {shape: cylinder, diameter: 5 cm}\ntargets:\n  cost: {min: 5, max: 1}',
    );
    expect(problem).toMatchObject({
      code: 'target-contradicts',
      where: { line: 4, path: 'targets.cost' },
      hint: 'min is above max',
    });
  });
});

describe('a maker’s materials file', () => {
  it('a figure half written is judged as a figure, a gap as a gap', () => {
    const text = `materials:
  - id: my-sand
    name: River sand
    kind: snad
    density: {value: 2.65, unit: g/cm3}
    hazards: []
  - id: My Sand
    name: Other sand
    kind: sand
    density: {value: null}
    hazards: []
    notFor: [Wet, outdoors]
`;
    const found = misfits(text, userFileSchema).map(({ code, where, nearest }) => [
      code,
      where?.line,
      where?.path,
      nearest,
    ]);
    expect(found).toEqual([
      ['field-wrong-type', 4, 'materials[0].kind', 'sand'],
      ['field-missing', 5, 'materials[0].density.low', undefined],
      ['field-missing', 5, 'materials[0].density.high', undefined],
      ['field-missing', 5, 'materials[0].density.source', undefined],
      ['field-missing', 5, 'materials[0].density.status', undefined],
      ['field-wrong-type', 7, 'materials[1].id', undefined],
      ['field-missing', 10, 'materials[1].density.reason', undefined],
      ['field-wrong-type', 12, 'materials[1].notFor[0]', 'wet'],
      ['field-wrong-type', 12, 'materials[1].notFor[1]', undefined],
    ]);
  });
});
