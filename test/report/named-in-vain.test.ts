import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { propose } from '../../src/core/optimise/propose.js';
import { proposalResult } from '../../src/core/report/result.js';
import { folderOf, said } from '../support/cli.js';
import { brief, SHELF } from '../support/written.js';

/** A material that the maker names and the blend cannot have is told of, with what would let it in. Materials are invented. */

const HEAD = 'mould: { water: 300 mL }\nobjective: strongest\n';
const notes = (text: string) => {
  const read = brief(`${HEAD}${text}`);
  const { warnings, system, blend } = proposalResult(read, propose(read.question, { draws: 0 }), SHELF, true);
  return { system, blend: blend.map((b) => b.material), told: warnings.filter((w) => w.code === 'brief-contradicts') };
};

describe('a sulfate that is named beside cement', () => {
  const CEMENT = 'portland-cement-grey, silica-sand-fine';

  it.each(['only', 'also'])('is told of where it stands, under “%s”', (list) => {
    const others = list === 'only' ? `${CEMENT}, ` : '';
    const { told, blend, system } = notes(`service: wet\nmaterials: { ${list}: [${others}ground-gypsum] }\n`);
    expect(['portland', 'csa']).toContain(system);
    expect(blend).not.toContain('ground-gypsum');
    expect(told).toHaveLength(1);
    expect(told[0]).toMatchObject({
      severity: 'note',
      path: `materials.${list}[${list === 'only' ? 2 : 0}]`,
    });
    expect(told[0]!.message).toContain('“ground set gypsum”');
    expect(told[0]!.message).toContain('“doses: { ground-gypsum: 1 % of binder }”');
  });

  it('goes in when its share is asked for, and then nothing is told', () => {
    const text = `materials: { only: [${CEMENT}, ground-gypsum] }\ndoses: { ground-gypsum: 1 % of binder }\n`;
    const { told, blend } = notes(text);
    expect(blend).toContain('ground-gypsum');
    expect(told).toEqual([]);
  });

  it('is not told of in plaster, nor where the maker did not name it', () => {
    expect(notes('materials: { only: [casting-plaster, silica-sand-fine, ground-gypsum] }\n').told).toEqual([]);
    expect(notes('service: wet\n').told).toEqual([]);
  });
});

describe('a material of the maker’s own', () => {
  const figure = (value: number, unit: string) =>
    `{ value: ${value}, low: ${value}, high: ${value}, unit: ${unit}, source: none, status: ours }`;
  const folder = folderOf({
    'mine.yaml': `materials:
  - id: anhydrite-powder
    name: anhydrite from the shed
    kind: filler
    density: ${figure(2.95, 'g/cm3')}
    so3: ${figure(57, 'percent')}
    hazards: { unknown: "an invented row of a test" }
  - id: soft-powder
    name: soft powder
    kind: filler
    density: ${figure(2.7, 'g/cm3')}
    notFor: [damp]
    hazards: { unknown: "an invented row of a test" }
`,
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const proposed = (text: string) => said(['propose', '-', '--materials', `${folder}/mine.yaml`], `${HEAD}${text}`);

  it('that brings sulfate says in print why cement goes without it', async () => {
    const text = 'materials: { only: [portland-cement-grey, silica-sand-fine], also: [anhydrite-powder] }\n';
    const { out } = await proposed(text);
    const words = out.replace(/\s+/g, ' ');
    expect(words).toContain('line 3, materials.also[0]');
    expect(words).toContain('“anhydrite from the shed”. It brings sulfate');
  });

  it('that its row bans from the service says so', async () => {
    const text = 'materials: { only: [portland-cement-grey, silica-sand-fine], also: [soft-powder] }\n';
    expect((await proposed(`service: damp\n${text}`)).out.replace(/\s+/g, ' ')).toContain(
      '“soft powder”. Its row in the table bans it from damp service.',
    );
    expect((await proposed(text)).out).not.toContain('bans it');
  });
});
