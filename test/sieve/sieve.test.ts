import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { overlay } from '../../src/core/materials/overlay.js';
import { materialTable } from '../../src/core/materials/table.js';
import { gradingSvg } from '../../src/core/report/grading-svg.js';
import { c33Verdict, passingAt } from '../../src/core/science/grading.js';
import { idOf, materialRow, nearestQuartzSand } from '../../src/core/sieve/material-row.js';
import { readSieve, readSieveCsv, type WrittenSieve } from '../../src/core/sieve/read-sieve.js';
import { sandOfMaterial, sandOfSample } from '../../src/core/sieve/sand.js';
import { sieveResult } from '../../src/core/sieve/sieve-result.js';
import { passingOfCurve } from '../../src/core/sieve/target.js';
import { missWords } from '../../src/core/sieve/words.js';
import { between, property } from '../science/counting.js';
import { grading } from '../science/gradings.js';
import { codesOf, problemsOf } from '../support/problems.js';
import { material, materials, sources } from '../support/shipped-table.js';

const at = (path: string) => ({ path });
const read = (written: WrittenSieve) => readSieve(written, 'a.yaml', at);

/** Invented: cumulative retained 0 4 21 46 74 89 95 as CRD-C 104 prints it, 500 g. */
const CRD: WrittenSieve = {
  sand: 'printed sand',
  sieves: {
    '9.5 mm': 0,
    '4.75 mm': '20 g',
    '2.36 mm': '85 g',
    '1.18 mm': '125 g',
    '600 um': '140 g',
    'No. 50': '75 g',
    '0.15 mm': '30 g',
    pan: '25 g',
  },
};

describe('sieve weights', () => {
  it('give the fineness modulus that CRD-C 104 prints for them: 3.29', () => {
    const result = sieveResult([sandOfSample(read(CRD))], {}, false);
    expect(result.sands[0]!.finenessModulus).toBeCloseTo(3.29, 2);
    expect(result.mix).toBeNull();
  });

  it('read the same from CSV as from YAML, in any order and unit', () => {
    const csv = `sand;sieve;grams\nprinted sand;pan;25\nprinted sand;0.15;30\nprinted sand;#50;75\nprinted sand;0.6;140\nprinted sand;1.18;125\nprinted sand;2.36;85\nprinted sand;4.75;0,02 kg\nprinted sand;9.5;0\n`;
    const [sample] = readSieveCsv(csv, 'a.csv');
    expect(sandOfSample(sample!).grading).toEqual(sandOfSample(read(CRD)).grading);
  });

  it('read sieves by number where the number stands first, and remarks apart from them', () => {
    const csv =
      '# 4 scoops, dried, sieved by hand\nsieve,grams\n9.5 mm,0\n#4,20\n#8,85\n# 16,125\n"#30",140\n#50,75\n#100,30\npan,25\n';
    const [sample] = readSieveCsv(csv, 'a.csv');
    expect(sandOfSample(sample!).grading).toEqual(sandOfSample(read(CRD)).grading);
    expect(codesOf(() => readSieveCsv('sieve,grams\n#4,20\n#9,85\n#16,125\n', 'a.csv'))).toContain(
      'field-out-of-range',
    );
  });

  it('tell the loss, and judge no sieve finer than the finest used', () => {
    const sand = sandOfSample(read({ ...CRD, sample: '505 g' }));
    expect(sand.loss).toBeCloseTo(5 / 505, 6);
    expect(c33Verdict(sand.grading).sieves.find((s) => s.sieve === 0.075)).toMatchObject({ judged: false, ok: true });
    const judged = c33Verdict([...sand.grading, { sieve: 0.075, passing: 4 }]).sieves.find((s) => s.sieve === 0.075);
    expect(judged).toMatchObject({ judged: true, ok: false });
  });

  it('name every sieve that leaves the envelope, and the modulus', () => {
    const words = missWords(c33Verdict(sandOfSample(read(CRD)).grading), 'metric');
    expect(words.join(' ')).toContain('fineness modulus 3.29');
    const fine = missWords(
      c33Verdict([
        { sieve: 0.6, passing: 100 },
        { sieve: 0.3, passing: 90 },
        { sieve: 0.15, passing: 5 },
      ]),
      'metric',
    );
    expect(fine.join('; ')).toMatch(/0\.3 mm: 90 % passes, at most 30 % asked/);
    expect(fine.join('; ')).toMatch(/85 % lies between two sieves/);
  });

  it('refuse a sample of nothing, of which no share can be lost', () => {
    expect(codesOf(() => read({ sample: '-0 g', sieves: { '2 mm': 1, '1 mm': 2, '0.5 mm': 4, pan: 3 } }))).toEqual([
      'amount-not-positive',
    ]);
  });

  it('refuse what cannot be read, all at once', () => {
    const bad: WrittenSieve = {
      sieves: { '0.6 mm': '1 mL', 'No. 7': 2, '0.6': 3, '200 mm': 4 },
      density: '1.2 g/cm3',
      'bulk-density': '1.5 g/cm3',
    };
    expect(codesOf(() => read(bad))).toEqual([
      'unit-wrong-kind',
      'field-out-of-range',
      'field-out-of-range',
      'field-out-of-range',
      'field-missing',
    ]);
    expect(codesOf(() => read({ sieves: { 1: 0, 2: 0, 3: 0 } }))).toEqual(['amount-not-positive']);
    expect(problemsOf(() => read({ sieves: { '1 mm': 1, '1000 um': 1, '2 mm': 1, '3 mm': 1 } }))[0]).toMatchObject({
      code: 'field-duplicate',
      found: '1 mm',
    });
    expect(codesOf(() => readSieveCsv('sieve,grams\n', 'e.csv'))).toEqual(['file-empty']);
  });
});

describe('a mix of sands', () => {
  const coarse = sandOfMaterial(material('silica-sand-coarse'));
  const fine = sandOfMaterial(material('silica-sand-fine'));

  it('finds the shares a mixture was made of, when the target is that mixture', () => {
    // The Andreasen target stands in for a known answer by being a sand of its own grading.
    const sieves = [4.75, 2.36, 1.18, 0.6, 0.3, 0.15, 0.075];
    const asked = { smallest: 0.063, largest: 4.75 };
    const target = { curve: 'andreasen', q: 0.37, ...asked } as const;
    const onCurve = { ...coarse, grading: sieves.map((s) => ({ sieve: s, passing: passingOfCurve(target, s) })) };
    const { mix } = sieveResult([coarse, onCurve, fine], asked, false);
    expect(mix!.byVolume[1]).toBeCloseTo(1, 6);
    expect(mix!.miss).toBeLessThan(1e-6);
  });

  it('never misses the curve by more than the best sand alone, and never has more holes than the worst', () => {
    property(
      fc.tuple(grading, grading, grading, between(0.35, 0.48), between(0.35, 0.48)),
      ([a, b, c, voids, other]) => {
        const sands = [a, b, c].map((g, i) => ({ ...coarse, grading: g, voids: i === 0 ? voids : other }));
        const all = sieveResult(sands, {}, false).mix!;
        const each = sands.map((sand) => sieveResult([sand, sand], all.target, false).mix!);
        expect(all.miss).toBeLessThanOrEqual(Math.min(...each.map((m) => m.miss)) + 1e-6);
        expect(all.byMass.reduce((x, y) => x + y, 0)).toBeCloseTo(1, 9);
        expect(all.voids).toBeLessThanOrEqual(Math.max(voids, other) + 0.01);
        return true;
      },
      60,
    );
  });

  it('packs a fine sand into a coarse one: fewer holes than either', () => {
    const { mix } = sieveResult([coarse, fine], {}, false);
    expect(mix!.byMass.every((s) => s > 0.05)).toBe(true);
    expect(mix!.voids).toBeLessThan(mix!.leastAlone);
  });

  it('turns volume shares into mass shares by density', () => {
    const heavy = { ...coarse, density: 2 * fine.density };
    const { mix } = sieveResult([heavy, fine], {}, false);
    const [v] = mix!.byVolume;
    expect(mix!.byMass[0]).toBeCloseTo((2 * v!) / (2 * v! + (1 - v!)), 9);
  });
});

describe('a row for the maker’s own table', () => {
  const sample = read({ ...CRD, density: '2.60 g/cm3', 'bulk-density': '1.50 g/cm3' });
  const sand = sandOfSample(sample);
  const like = nearestQuartzSand(sand, materials)!;

  it('is read back by the overlay with the sieved grading, the told densities and the hazards of quartz', () => {
    const table = overlay(materialTable({ materials, sources }), materialRow(sand, like, idOf(sand.name)), 'row.yaml');
    const own = table.get('printed-sand');
    expect(own.density.value).toBe(2.6);
    expect(own.bulkDensity!.value).toBeCloseTo(1.5, 3);
    const back = own.grading!.map((p) => ({ sieve: p.sieve, passing: p.passing.value }));
    for (const { sieve, passing } of sand.grading) expect(passingAt(back, sieve)).toBeCloseTo(passing, 2);
    expect(own.hazards).toEqual(like.hazards);
    expect(own.tags).toContain('silica-sand');
    expect(own.moisture).toEqual(like.moisture);
  });

  it('leaves densities that were not told to the sand it is like', () => {
    const lean = sandOfSample(read(CRD));
    const table = overlay(materialTable({ materials, sources }), materialRow(lean, like, 'x'), 'row.yaml');
    expect(table.get('x').density).toEqual(like.density);
  });

  it('takes an unknown sand for quartz, whatever else lies nearer', () => {
    for (const m of materials.filter((x) => x.grading !== undefined)) {
      expect(nearestQuartzSand(sandOfMaterial(m), materials)!.tags).toContain('silica-sand');
    }
  });

  it('makes an id of any name', () => {
    expect(idOf('Müller’s sand, 0–2 mm.csv')).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(idOf('砂')).toBe('my-sand');
  });
});

describe('the picture', () => {
  it('escapes names, and draws every sand, the mix and the target', () => {
    const sands = [{ ...sandOfSample(read(CRD)), name: '<b>"&' }, sandOfMaterial(material('silica-sand-fine'))];
    const { html } = gradingSvg(sieveResult(sands, {}, false), 'metric');
    expect(html).not.toContain('<b>');
    expect(html.match(/<polyline /g)).toHaveLength(4);
    expect(html.match(/<circle /g)).toHaveLength(sands.reduce((n, s) => n + s.grading.length, 0));
  });
});
