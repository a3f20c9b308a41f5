import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ProposalResult } from '../../src/core/report/result-schema.js';
import { folderOf, said } from '../support/cli.js';

const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

async function told(verb: string, file: string, ...more: string[]) {
  const folder = folderOf({ 'file.yaml': file });
  const { code, out, err } = await said([verb, join(folder, 'file.yaml'), ...more]);
  return { code, out, text: oneLine(out + err) };
}

describe('what cannot be read', () => {
  it('says of scoops and parts in a recipe that they are bare numbers with a basis', async () => {
    const scoop = await told('assess', 'amounts: { casting plaster: 1 scoop, water: 1 cup }\n');
    expect(scoop.code).toBe(2);
    expect(scoop.text).toContain('“1 scoop”');
    expect(scoop.text).toContain('bare numbers with “basis: scoop”');
    const parts = await told('assess', 'amounts: { casting plaster: 2 parts, water: 1 cup }\n');
    expect(parts.text).toContain('“basis: mass” or “basis: scoop”');
    // A unit that only sounds like one is still no unit.
    expect((await told('assess', 'amounts: { casting plaster: 1 scope, water: 1 cup }\n')).text).not.toContain('basis');
  });

  it('says of a dose of water that water is not dosed', async () => {
    const { code, text } = await told(
      'propose',
      'mould: { water: 300 mL }\nobjective: strongest\ndoses: { water: 5 % of binder }\n',
    );
    expect(code).toBe(2);
    expect(text).toContain('doses.water');
    expect(text).toContain('a material other than water');
    expect(text).toContain('water-to-binder');
    expect(text).not.toContain('scale');
  });

  it('suggests nothing for a pigment that is near none', async () => {
    const of = (pigment: string) =>
      told('propose', `mould: { water: 300 mL }\nobjective: strongest\ncolour: { pigment: ${pigment}, share: 3 % }\n`);
    expect((await of('rust')).text).toContain('there is no such material: found “rust”.');
    expect((await of('rust')).text).not.toContain('Did you mean');
    expect((await of('iron-oxide-rde')).text).toContain('Did you mean “iron-oxide-red”');
  });
});

describe('a dose of an emulsion', () => {
  const brief = (doses: string) =>
    `mould: { water: 300 mL }\nservice: damp\nobjective: strongest\nmaterials: { only: [portland-cement-grey, masonry-sand] }\ndoses: { ${doses} }\n`;

  it('tells that its solids count, and how much of them is weighed out', async () => {
    const { out } = await told('propose', brief('acrylic-emulsion: 8 % of binder'), '--json');
    const { blend, warnings } = JSON.parse(out) as ProposalResult;
    const part = (id: string) => blend.find((i) => i.material === id)!.batchGrams;
    const note = warnings.find((w) => w.code === 'dose-as-solids')!;
    expect(note).toMatchObject({ severity: 'note', path: 'doses.acrylic-emulsion' });
    const [, share, weighed, solids] = /is (\d+) % solids: the (\d+) g weighed out hold ([\d.]+) g/.exec(note.message)!;
    expect(Number(weighed)).toBeCloseTo(part('acrylic-emulsion'), 6);
    expect(Number(solids)).toBeCloseTo((Number(weighed) * Number(share)) / 100, 0);
    // 8 % of the cement and the polymer together, or of the cement: to a step of the scale.
    expect(Number(solids) / part('portland-cement-grey')).toBeCloseTo(0.08, 1);
    expect(note.us?.message).toMatch(/ oz weighed out hold [\d.]+ oz/);
  });

  it('tells nothing of what is dry', async () => {
    const { out } = await told('propose', brief('citric-acid: 0.2 % of binder'), '--json');
    expect((JSON.parse(out) as ProposalResult).warnings.some((w) => w.code === 'dose-as-solids')).toBe(false);
  });
});

describe('the sulfate of a blend', () => {
  it('is named by what it is a share of, as no pozzolan counts', async () => {
    const { out } = await said(['why', 'sulfate']);
    expect(oneLine(out)).toContain('sulfate of cement and plaster (SO3)');
    expect(oneLine(out)).toContain('pozzolan not counted');
  });
});

describe('a material that has to be named and has no price', () => {
  it('is told to lack both', async () => {
    const folder = folderOf({
      'shop.yaml': 'currency: EUR\nprices: prices.csv\n',
      // Invented prices.
      'prices.csv': 'material,pack,price\ncasting-plaster,25 kg,31.00\nacrylic-emulsion,1 L,13.50\n',
      'brief.yaml': 'shop: shop.yaml\nmould: { water: 300 mL }\nobjective: cheapest\n',
    });
    const { leftOut } = JSON.parse(
      (await said(['propose', join(folder, 'brief.yaml'), '--json'])).out,
    ) as ProposalResult;
    const why = (id: string) => leftOut.find((l) => l.material === id)!.why;
    expect(why('styrene-butadiene-emulsion')).toBe('a polymer only when it is named; no price in the list');
    expect(why('acrylic-emulsion')).toBe('a polymer only when it is named');
    expect(why('perlite')).toBe('no price in the list');
  });
});
