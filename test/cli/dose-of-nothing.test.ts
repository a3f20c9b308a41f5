import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { assessmentResultSchema, proposalResultSchema } from '../../src/core/report/result-schema.js';
import { folderOf, spawned } from '../support/cli.js';

/** A dose of what is not in the blend, by the built command. */

const folders: string[] = [];
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});
const brief = (dose: string, only: string) =>
  `mould: { water: 250 mL }\nobjective: strongest\nmaterials: { only: [${only}] }\n${dose}`;
const where = folderOf({
  'recipe.yaml': 'amounts: { casting-plaster: 200 g, water: 130 g, sodium-gluconate: 0.2 g }\n',
  'lost.yaml': brief('doses: { citric-acid: 0.1 % of gypsum }\n', 'portland-cement-grey, citric-acid'),
  'kept.yaml': brief('doses: { citric-acid: 0.2 % of portland }\n', 'portland-cement-grey, citric-acid'),
  'shop.yaml': 'currency: EUR\nscale: { step: 5 g }\n',
  'pale.yaml': brief(
    'shop: shop.yaml\ncolour: { pigment: iron-oxide-red, share: 0.2 % }\n',
    'portland-cement-grey, silica-sand-fine, iron-oxide-red',
  ),
  'offered.yaml': brief(
    '',
    'portland-cement-grey, protein-retarder, potassium-sulfate, ground-gypsum, silica-sand-fine',
  ),
});
folders.push(where);
const json = (argv: readonly string[]) => JSON.parse(spawned([...argv, '--json'], where).out);

describe('a dose of what is not in the blend', () => {
  it('is warned of in a recipe', () => {
    const { warnings } = assessmentResultSchema.parse(json(['assess', 'recipe.yaml']));
    expect(warnings.map((w) => [w.severity, w.message])).toEqual([
      [
        'warning',
        expect.stringContaining('Sodium gluconate is dosed as a share of the cement, and this blend has none'),
      ],
    ]);
    const { out } = spawned(['assess', 'recipe.yaml'], where);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'WARNING This recipe lies outside what the model has been checked for. Sodium',
    );
  });

  it('asked for in a brief is said to be none', () => {
    const { warnings, blend } = proposalResultSchema.parse(json(['propose', 'lost.yaml']));
    expect(blend.map((b) => b.material)).not.toContain('citric-acid');
    expect(warnings.map((w) => [w.severity, w.path, w.message])).toEqual([
      [
        'warning',
        'doses.citric-acid',
        expect.stringContaining('found “0.1 % of gypsum”. This blend has none of the plaster, and so no citric-acid'),
      ],
    ]);
    const kept = proposalResultSchema.parse(json(['propose', 'kept.yaml']));
    expect(kept.blend.map((b) => b.material)).toContain('citric-acid');
    expect(kept.warnings.filter((w) => w.code === 'brief-contradicts')).toEqual([]);
  });

  it('asked for, but less than the scale can tell, is said to be none', () => {
    const { warnings, blend } = proposalResultSchema.parse(json(['propose', 'pale.yaml']));
    expect(blend.map((b) => b.material)).not.toContain('iron-oxide-red');
    const [cement] = blend.filter((b) => b.material === 'portland-cement-grey');
    expect(warnings.map((w) => [w.code, w.message])).toEqual([
      [
        'too-fine-to-weigh',
        `This scale cannot tell so little: found “red iron oxide: ${0.002 * cement!.batchGrams} g, weighed as 0 g”. Use a finer scale, or more pieces at once.`,
      ],
    ]);
  });

  it('is never put in by a proposal', () => {
    const { blend, warnings } = proposalResultSchema.parse(json(['propose', 'offered.yaml']));
    const put = blend.map((b) => b.material);
    for (const id of ['protein-retarder', 'potassium-sulfate', 'ground-gypsum']) expect(put).not.toContain(id);
    // That two of them are named and cannot go in is told, and nothing else.
    expect(warnings.map((w) => [w.severity, w.path])).toEqual([
      ['note', 'materials.only[2]'],
      ['note', 'materials.only[3]'],
    ]);
  });
});
