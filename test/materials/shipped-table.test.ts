import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { overlay } from '../../src/core/materials/overlay.js';
import { userFileSchema } from '../../src/core/materials/schema.js';
import { materialTable } from '../../src/core/materials/table.js';
import { KINDS } from '../../src/core/materials/words.js';
import {
  cited,
  families,
  familyFiles,
  gaps,
  MATERIALS,
  material,
  materials,
  model,
  numberOf,
  sources,
} from '../support/shipped-table.js';

const readme = readFileSync(join(MATERIALS, 'README.md'), 'utf8');

describe('the shipped table as a whole', () => {
  it('has one file a family, and each row in its own family', () => {
    const kindOf: Record<string, string> = {
      'admixtures.yaml': 'admixture',
      'cements.yaml': 'cement',
      'fibres.yaml': 'fibre',
      'fillers.yaml': 'filler',
      'gypsums.yaml': 'gypsum',
      'light-aggregates.yaml': 'light-aggregate',
      'limes.yaml': 'lime',
      'pigments.yaml': 'pigment',
      'polymers.yaml': 'polymer',
      'pozzolans.yaml': 'pozzolan',
      'sands.yaml': 'sand',
      'water.yaml': 'water',
    };
    expect(familyFiles).toEqual(Object.keys(kindOf));
    for (const [file, rows] of families)
      expect(new Set(rows.map((m) => m.kind)), file).toEqual(new Set([kindOf[file]]));
    expect(new Set(Object.values(kindOf))).toEqual(new Set(KINDS));
  });

  it('has no id, name or other word twice, so that a word finds one material', () => {
    const words = new Map<string, string>();
    for (const m of materials) {
      for (const word of new Set([m.id, m.name, ...(m.also ?? [])].map((w) => w.toLowerCase()))) {
        expect(words.get(word), `"${word}" of ${m.id}`).toBeUndefined();
        words.set(word, m.id);
      }
    }
    expect(words.size).toBeGreaterThan(200);
  });

  it('holds the materials the project promises', () => {
    const promised =
      `portland-cement-grey portland-cement-white slag-blend-cement csa-rapid-cement calcium-aluminate-cement
      casting-plaster alpha-gypsum-cement alpha-gypsum-high-strength hydrated-lime natural-hydraulic-lime
      silica-fume metakaolin fly-ash ground-slag natural-pozzolan limestone-flour marble-flour glass-powder silica-flour
      silica-sand-coarse silica-sand-medium silica-sand-fine masonry-sand marble-sand recycled-glass-sand
      perlite vermiculite pumice expanded-glass hollow-glass-spheres
      plasticiser-powder plasticiser-liquid citric-acid sodium-citrate borax protein-retarder potassium-sulfate
      ground-gypsum calcium-formate lithium-carbonate methyl-cellulose defoamer
      acrylic-emulsion vinyl-acetate-emulsion redispersible-powder
      iron-oxide-red iron-oxide-yellow iron-oxide-black chromium-oxide-green ultramarine titanium-white carbon-black
      ar-glass-fibre pva-fibre polypropylene-fibre water`.split(/\s+/);
    const ids = new Set(materials.map((m) => m.id));
    expect(promised.filter((id) => !ids.has(id))).toEqual([]);
    expect(materials.length).toBeGreaterThanOrEqual(60);
  });

  it('has not been edited by accident: rows and sums of density by family', () => {
    const tally = Object.fromEntries(
      KINDS.map((kind) => {
        const rows = materials.filter((m) => m.kind === kind);
        const sum = rows.reduce((total, m) => total + numberOf(m.density), 0);
        return [kind, `${rows.length} rows, ${sum.toFixed(4)}`];
      }),
    );
    expect(tally).toEqual({
      cement: '6 rows, 18.2750',
      gypsum: '3 rows, 8.1300',
      lime: '2 rows, 4.8900',
      pozzolan: '5 rows, 12.4400',
      filler: '5 rows, 13.3500',
      sand: '7 rows, 18.4200',
      'light-aggregate': '5 rows, 2.1900',
      admixture: '13 rows, 21.9750',
      polymer: '4 rows, 4.3500',
      pigment: '8 rows, 32.0900',
      fibre: '3 rows, 4.9000',
      water: '1 rows, 0.9982',
    });
    const sum = (part: 'value' | 'low' | 'high') =>
      cited.reduce((total, [, n]) => total + (typeof n[part] === 'number' ? (n[part] as number) : 0), 0).toFixed(3);
    expect([cited.length, sum('low'), sum('value'), sum('high')]).toEqual([
      695,
      '47807.130',
      '70335.258',
      '114566.399',
    ]);
  });
});

describe('provenance', () => {
  const keys = new Set(Object.keys(sources));
  const used = [
    ...cited.map(([path, n]) => [path, n.source] as const),
    ...Object.entries(model).map(([id, f]) => [`model.${id}`, f.source] as const),
  ];

  it('cites only what the bibliography holds', () => {
    expect(used.filter(([, key]) => key !== 'none' && !keys.has(String(key)))).toEqual([]);
  });

  it('holds no entry that nothing cites', () => {
    const cited = new Set(used.map(([, key]) => key));
    expect([...keys].filter((key) => !cited.has(key))).toEqual([]);
  });

  it('says where each looked-up figure and hazard was seen, and never in a source that was not opened', () => {
    const looked = cited.filter(([, n]) => n.status === 'looked-up');
    expect(looked.length).toBeGreaterThan(90);
    for (const [path, n] of looked) {
      expect(String(n.where ?? '').length, path).toBeGreaterThan(3);
      const source = sources[String(n.source)]!;
      expect(['memory', 'project'], path).not.toContain(source.kind);
      expect(source.note ?? '', path).not.toContain('not opened');
    }
  });

  it('gives an address or says why there is none', () => {
    for (const [key, s] of Object.entries(sources)) {
      if (s.kind === 'memory' || s.kind === 'project') continue;
      expect(s.url !== undefined || /withheld|not kept|not opened|mirror|from memory/.test(s.note ?? ''), key).toBe(
        true,
      );
    }
  });

  it('gives each gap a reason and no number', () => {
    expect(gaps.length).toBeGreaterThan(4);
    for (const [path, gap] of gaps) {
      expect(Object.keys(gap).sort(), path).toEqual(['reason', 'value']);
      expect(String(gap.reason).length, path).toBeGreaterThan(15);
    }
  });
});

describe('rows agree with themselves', () => {
  it('keeps low <= value <= high, in conflicting sources too', () => {
    const figures = cited.filter(([, n]) => typeof n.value === 'number');
    expect(figures.length).toBeGreaterThan(500);
    for (const [path, n] of figures) {
      expect(n.low, path).toBeLessThanOrEqual(n.value as number);
      expect(n.high, path).toBeGreaterThanOrEqual(n.value as number);
    }
  });

  it('packs no powder denser than its grains', () => {
    let seen = 0;
    for (const m of materials) {
      if (m.bulkDensity?.value == null || m.density.value === null) continue;
      seen++;
      expect(m.bulkDensity.value, m.id).toBeLessThan(0.75 * m.density.value);
      expect(m.bulkDensity.low, m.id).toBeLessThan(m.density.low);
      expect(m.bulkDensity.high, m.id).toBeLessThan(m.density.high);
    }
    expect(seen).toBeGreaterThan(50);
  });

  it('grades every sand on the sieves of ASTM C33, passing less on each finer one', () => {
    const sands = materials.filter((m) => m.kind === 'sand');
    for (const m of sands) {
      const grading = m.grading ?? [];
      expect(
        grading.map((g) => g.sieve),
        m.id,
      ).toEqual([9.5, 4.75, 2.36, 1.18, 0.6, 0.3, 0.15, 0.075]);
      for (const part of ['low', 'value', 'high'] as const) {
        const passing = grading.map((g) => g.passing[part]);
        expect(passing, `${m.id} ${part}`).toEqual([...passing].sort((a, b) => b - a));
        expect(Math.max(...passing, 100), m.id).toBe(100);
      }
    }
  });

  it('orders every dose window and stops no effect below the usual dose', () => {
    const dosed = materials.filter((m) => m.dose !== undefined);
    expect(dosed.length).toBeGreaterThanOrEqual(25);
    for (const { id, dose, effects } of dosed) {
      const steps = [dose?.least, dose?.usual, dose?.warn, dose?.most]
        .filter((f) => f !== undefined)
        .map((f) => f.value);
      expect(steps, id).toEqual([...steps].sort((a, b) => a - b));
      for (const e of effects ?? []) expect(e.limit?.value ?? Infinity, id).toBeGreaterThanOrEqual(dose!.usual.value);
    }
  });

  it('gives every admixture, polymer, pigment and fibre a dose window, every binder its family and demould time', () => {
    for (const m of materials) {
      if (['admixture', 'polymer', 'pigment', 'fibre'].includes(m.kind)) expect(m.dose, m.id).toBeDefined();
      if (['cement', 'gypsum', 'lime'].includes(m.kind)) expect(numberOf(m.binder?.demould), m.id).toBeGreaterThan(0);
      if (m.kind === 'pozzolan') expect(m.pozzolan, m.id).toBeDefined();
      if (m.binder?.family === 'gypsum') expect(m.notFor, m.id).toContain('wet');
      if (!['water', 'admixture', 'polymer'].includes(m.kind)) expect(numberOf(m.waterDemand), m.id).toBeGreaterThan(0);
    }
  });
});

describe('materials/README.md', () => {
  it('lists the tags in use, no more and no fewer', () => {
    const section = readme.slice(readme.indexOf('## Tags'), readme.indexOf('## Your own'));
    const listed = [...section.matchAll(/^\| `([a-z-]+)` \|/gm)].map((m) => m[1]).sort();
    expect(listed).toEqual([...new Set(materials.flatMap((m) => m.tags ?? []))].sort());
  });

  it('names every column', () => {
    const columns = new Set(materials.flatMap((m) => Object.keys(m)));
    columns.delete('kind');
    columns.delete('notes');
    for (const column of columns) expect(readme, column).toContain(`\`${column}\``);
  });

  it('shows an own file that passes and a figure that is in the table', () => {
    const blocks = [...readme.matchAll(/```yaml\n([\s\S]*?)```/g)].map((m) => parse(m[1]!));
    expect(blocks).toHaveLength(2);
    expect(userFileSchema.safeParse(blocks[1]).error).toBeUndefined();
    const laid = overlay(materialTable({ materials, sources }), stringify(blocks[1]), 'own.yaml');
    expect(laid.notes).toEqual([]);
    expect(blocks[0].density).toEqual(material('portland-cement-grey').density);
  });
});
