import { describe, expect, it } from 'vitest';
import { DEFAULT_CONDITIONS } from '../../src/core/blend/conditions.js';
import { riskProblems } from '../../src/core/risks/problems.js';
import { risksOf } from '../../src/core/risks/risks.js';
import { material, materials, model } from '../support/shipped-table.js';

const all = (parts: Readonly<Record<string, number>>) =>
  risksOf(
    { materials: Object.keys(parts).map(material), figures: model, conditions: DEFAULT_CONDITIONS },
    Object.values(parts),
  );
const doses = (parts: Readonly<Record<string, number>>) => all(parts).filter((r) => r.id === 'dose');
const severities = (parts: Readonly<Record<string, number>>) => riskProblems(doses(parts)).map((p) => p.severity);

const PLASTER = { 'casting-plaster': 1000, water: 680 };
const CEMENT = { 'portland-cement-grey': 1000, water: 400 };

describe('a dose above the most of the table', () => {
  // Grams on 1000 g of base, so that 10 g are one percent; what the table allows beside it.
  it.each([
    ['borax', { ...PLASTER, borax: 30 }, 'Borax is at 3 % of the binder; the most the table allows is 1 %.'],
    [
      'sodium gluconate',
      { ...CEMENT, 'sodium-gluconate': 6.5 },
      'Sodium gluconate is at 0.65 % of the cement; the most the table allows is 0.2 %.',
    ],
    [
      'protein retarder',
      { ...PLASTER, 'protein-retarder': 33 },
      'Protein retarder is at 3.3 % of the plaster; the most the table allows is 0.5 %.',
    ],
    [
      'lithium carbonate',
      { 'calcium-aluminate-cement': 1000, water: 400, 'lithium-carbonate': 6.5 },
      'Lithium carbonate is at 0.65 % of the cement; the most the table allows is 0.2 %.',
    ],
    [
      'plasticiser powder',
      { ...CEMENT, 'plasticiser-powder': 9 },
      'Superplasticiser powder (polycarboxylate) is at 0.9 % of the binder; the most the table allows is 0.4 %.',
    ],
  ] as const)('%s: one plain warning', (_name, parts, words) => {
    const [problem, ...others] = riskProblems(doses(parts));
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ code: 'recipe-overdosed', severity: 'warning' });
    expect(problem!.hint).toContain(words);
    expect(doses(parts)[0]!.level).toBe('high');
  });

  it('is told in figures that are above the limit they are told with', () => {
    const just = { 'calcium-aluminate-cement': 1000, water: 400, 'lithium-carbonate': 2.004 };
    expect(doses(just)[0]!.text).toContain('is at 0.2004 % of the cement; the most the table allows is 0.2 %.');
    const pigment = all({ ...CEMENT, 'iron-oxide-red': 100.3 }).find((r) => r.id === 'pigment');
    expect(pigment!.text).toContain('Pigment makes 10.03 % of the binder; the most is 10 %');
    const acid = all({ ...PLASTER, 'citric-acid': 1.004 }).find((r) => r.id === 'over-retarded');
    expect(acid!.text).toMatch(/^Citric acid at 0\.1004 % of the plaster: above 0\.1 % /);
  });

  it('silica fume and metakaolin as well: of all binder, itself included', () => {
    const fumed = (percent: number) => ({ ...CEMENT, 'silica-fume': (1000 * percent) / (100 - percent) });
    expect(severities(fumed(14))).toEqual([]);
    expect(severities(fumed(20))).toEqual(['note']);
    expect(severities(fumed(37.5))).toEqual(['warning']);
    // As much as quietens glass: a quarter of the portland.
    expect(severities({ ...CEMENT, metakaolin: 250 })).toEqual([]);
    expect(severities({ ...CEMENT, metakaolin: 300 })).toEqual(['warning']);
  });

  it('is told of each material by itself', () => {
    const mix = { ...PLASTER, borax: 30, 'protein-retarder': 33, 'plasticiser-powder': 9 };
    expect(severities(mix)).toEqual(['warning', 'warning', 'warning']);
  });

  it('is told of two that work by the same together, where neither is too much alone', () => {
    const both = doses({ ...CEMENT, 'plasticiser-powder': 2.5, 'plasticiser-liquid': 10 });
    expect(both.map((r) => [r.level, r.text])).toEqual([
      [
        'high',
        'Superplasticiser powder (polycarboxylate) and liquid superplasticiser (polycarboxylate) work by the same (polycarboxylate), and together they make up 133 % of the most the table allows of one.',
      ],
    ]);
    expect(doses({ ...CEMENT, 'plasticiser-powder': 2.5 })).toEqual([]);
    expect(doses({ ...CEMENT, 'plasticiser-liquid': 10 })).toEqual([]);
    expect(doses({ ...CEMENT, 'plasticiser-powder': 2, 'plasticiser-liquid': 6 }).map((r) => r.level)).toEqual([
      'some',
    ]);
    expect(doses({ ...CEMENT, 'plasticiser-powder': 1, 'plasticiser-liquid': 3 })).toEqual([]);
    // What is told alone is not told again.
    expect(doses({ ...CEMENT, 'plasticiser-powder': 9, 'plasticiser-liquid': 10 })).toHaveLength(1);
  });

  it('is told with what the table says it does in this binder, and with its remarks', () => {
    const [gluconate] = doses({ ...CEMENT, 'sodium-gluconate': 6.5 });
    expect(gluconate!.text).toMatch(/It holds back the set\. The table remarks: .*0\.05-0\.3 % of cement\.$/);
    // It sparks aluminate cement, and does nothing to portland that the table knows of.
    const lithium = (cement: string) => doses({ [cement]: 1000, water: 400, 'lithium-carbonate': 6.5 })[0]!.text;
    expect(lithium('calcium-aluminate-cement')).toContain('It hurries the set.');
    expect(lithium('portland-cement-grey')).not.toContain('It hurries');
    const [air] = doses({ ...CEMENT, 'plasticiser-powder': 9 });
    expect(air!.text).toContain('It holds back the set and traps air.');
  });

  it('counts the solids of a liquid: 13 g of 35 % are 0.455 %, 15 g are 0.525 %', () => {
    expect(severities({ ...CEMENT, 'plasticiser-liquid': 13 })).toEqual(['note']);
    expect(severities({ ...CEMENT, 'plasticiser-liquid': 15 })).toEqual(['warning']);
    expect(doses({ ...CEMENT, 'plasticiser-liquid': 15 })[0]!.text).toContain('by its solids, is at 0.53 %');
  });

  it('says nothing where there is nothing that it is a percent of', () => {
    expect(doses({ ...PLASTER, 'sodium-gluconate': 6.5 })).toEqual([]);
  });
});

describe('a dose above the one the table warns of', () => {
  it('is a note, and none just at it', () => {
    // Table: gluconate warns above 0.1 % and allows 0.2 %.
    expect(severities({ ...CEMENT, 'sodium-gluconate': 1 })).toEqual([]);
    expect(severities({ ...CEMENT, 'sodium-gluconate': 1.004 })).toEqual([]);
    expect(severities({ ...CEMENT, 'sodium-gluconate': 1.01 })).toEqual(['note']);
    expect(severities({ ...CEMENT, 'sodium-gluconate': 2 })).toEqual(['note']);
    expect(severities({ ...CEMENT, 'sodium-gluconate': 2.01 })).toEqual(['warning']);
    const [risk] = doses({ ...CEMENT, 'sodium-gluconate': 1.5 });
    expect(risk!.level).toBe('some');
    expect(risk!.text).toContain('0.15 % of the cement; the table warns above 0.1 %, and the most is 0.2 %.');
  });
});

describe('what has a screen of its own is not told twice', () => {
  it('pigment above its ceiling', () => {
    const red = (grams: number) => all({ ...CEMENT, 'iron-oxide-red': grams }).map((r) => r.id);
    expect(red(70)).toContain('dose');
    expect(red(70)).not.toContain('pigment');
    expect(red(110)).toContain('pigment');
    expect(red(110)).not.toContain('dose');
  });

  it('citric acid on plaster', () => {
    expect(doses({ ...PLASTER, 'citric-acid': 2.5 })).toEqual([]);
    expect(severities({ ...CEMENT, 'citric-acid': 2.5 })).toEqual(['warning']);
  });
});

describe('the most that a proposal may hold', () => {
  it('is never warned of, whatever the material', () => {
    const dosed = materials.filter((m) => m.dose !== undefined);
    expect(dosed.length).toBeGreaterThan(20);
    for (const { id, kind, dose, solids } of dosed) {
      const most = Math.min(dose!.most.value, dose!.warn?.value ?? Number.POSITIVE_INFINITY) / 100;
      const binder = dose!.of === 'gypsum' ? 'casting-plaster' : 'portland-cement-grey';
      // Of a share of all that is dry the dose itself is a part.
      const grams = (1000 * (dose!.of === 'dry-blend' ? most / (1 - most) : most)) / (solids?.value ?? 1);
      const mix = { [binder]: 1000, water: 400 };
      expect([id, doses({ ...mix, [id]: grams })]).toEqual([id, []]);
      if (kind !== 'pigment') expect([id, doses({ ...mix, [id]: 3 * grams }).length]).toEqual([id, 1]);
    }
  });
});

describe('a dose of nothing', () => {
  const groundless = (parts: Readonly<Record<string, number>>) => all(parts).filter((r) => r.id === 'dose-of-nothing');
  const told = (parts: Readonly<Record<string, number>>) =>
    riskProblems(groundless(parts)).map((p) => [p.severity, p.hint]);

  it('is warned of: what it counts from is not in the blend', () => {
    expect(told({ ...PLASTER, 'sodium-gluconate': 1 })).toEqual([
      [
        'warning',
        'Sodium gluconate is dosed as a share of the cement, and this blend has none of that: how much of it is right here cannot be told, and nothing is counted of what it does.',
      ],
    ]);
    expect(told({ ...CEMENT, 'protein-retarder': 1, 'calcium-formate': 5 })).toEqual([
      [
        'warning',
        expect.stringContaining('Protein retarder is dosed as a share of the plaster, and this blend has none'),
      ],
    ]);
  });

  it('is noted where nothing of it counts, though what it counts from is there', () => {
    expect(told({ ...CEMENT, 'lithium-carbonate': 1 })).toEqual([
      [
        'note',
        'Of lithium carbonate nothing is counted: the table knows of nothing that it does to the binders of this blend.',
      ],
    ]);
    expect(told({ 'hydrated-lime': 1000, water: 900, 'citric-acid': 1 })).toEqual([['note', expect.any(String)]]);
  });

  it('is none where its base is there, where it has no dose, and where nothing sets at all', () => {
    expect(told({ ...CEMENT, 'sodium-gluconate': 1, 'plasticiser-powder': 2, 'iron-oxide-red': 20 })).toEqual([]);
    expect(told({ ...PLASTER, 'protein-retarder': 1, 'citric-acid': 0.5, 'acrylic-emulsion': 50 })).toEqual([]);
    expect(told({ 'silica-sand-fine': 1000, water: 100, 'sodium-gluconate': 1 })).toEqual([]);
  });
});
