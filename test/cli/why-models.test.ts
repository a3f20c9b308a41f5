import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { assessmentResultSchema, proposalResultSchema } from '../../src/core/report/result-schema.js';
import { standInResultSchema } from '../../src/core/report/stand-in-schema.js';
import { modelById } from '../../src/core/science/provenance.js';
import { said } from '../support/cli.js';

const example = (name: string) => fileURLToPath(new URL(`../../examples/garden-stall/${name}`, import.meta.url));
const RECIPE = example('recipes/old-planter.yaml');
const ASKED: readonly [string, readonly string[]][] = [
  ['assess', ['assess', RECIPE]],
  ['propose', ['propose', example('wall-pocket.yaml')]],
  ['stand-in', ['stand-in', example('stand-in-gypsum.yaml')]],
];
const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('--why', () => {
  it.each(ASKED)('of %s prints equation, unit and source of every model it names, each once', async (_, argv) => {
    const { out } = await said([...argv, '--why'], '', { columns: 90 });
    const [figures, models] = flat(out).split('THE MODELS');
    const named = new Set([...figures!.matchAll(/Models: ([a-z0-9, -]+)\./g)].flatMap((m) => m[1]!.split(', ')));
    expect(named.size).toBeGreaterThan(20);
    for (const id of named) {
      const { equation, unit } = modelById(id);
      expect(models!.split(`${flat(`${id}: ${equation} [${unit}]`)} Source (`), id).toHaveLength(2);
    }
    expect(models!.match(/\] Source \((published|made)/g)).toHaveLength(named.size);
    expect(models).toContain('pourwright why MODEL');
    for (const line of out.split('\n')) expect([...line].length).toBeLessThanOrEqual(90);
  });

  it('says of a source that was only recalled that it was', async () => {
    const models = flat((await said(['assess', RECIPE, '--why'])).out).split('THE MODELS')[1]!;
    expect(models).toMatch(/drying-shrinkage: [^\]]+\] Source \(published; [^)]+\): Pickett, [^;]+ \(from memory\)\./);
  });

  it.each(ASKED)(
    'of %s with --json has every model that is named, with equation, unit and sources',
    async (_, argv) => {
      const data = JSON.parse((await said([...argv, '--json', '--why'])).out);
      const { models, ...rest } = data;
      for (const schema of [assessmentResultSchema, proposalResultSchema, standInResultSchema]) {
        if (schema.shape.format.safeParse(data.format).success) schema.parse(data);
      }
      const blends = rest.candidates ?? [rest];
      const named = new Set<string>(
        // biome-ignore lint/suspicious/noExplicitAny: three results alike in this
        blends.flatMap((b: any) => [
          ...b.properties
            .filter((p: { value: number | null }) => p.value !== null)
            .flatMap((p: { models: string[] }) => p.models),
          ...b.risks.flatMap((r: { models: string[] }) => r.models),
        ]),
      );
      const ids = models.map((m: { id: string }) => m.id);
      expect([...ids].sort()).toEqual([...named].sort());
      for (const { id, equation, unit, sources } of models) {
        const model = modelById(id);
        expect([equation, unit]).toEqual([model.equation, model.unit]);
        expect(sources.map((s: { key: string }) => s.key)).toEqual(model.sources);
        for (const { title } of sources) expect(title.length).toBeGreaterThan(3);
      }
    },
  );

  it('adds that alone: all else stays, and without it there is no word of models', async () => {
    const { models, ...rest } = JSON.parse((await said(['assess', RECIPE, '--json', '--why'])).out);
    expect(models.length).toBeGreaterThan(20);
    expect(JSON.parse((await said(['assess', RECIPE, '--json'])).out)).toEqual(rest);
    expect((await said(['assess', RECIPE])).out).not.toMatch(/THE MODELS|absolute-volume/);
  });
});
