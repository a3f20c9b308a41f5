import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { cardResultSchema } from '../../src/core/report/card-schema.js';
import { orderResultSchema } from '../../src/core/report/order-schema.js';
import { poursResultSchema } from '../../src/core/report/pours-schema.js';
import { assessmentResultSchema, proposalResultSchema } from '../../src/core/report/result-schema.js';
import { folderOf, spawned } from '../support/cli.js';

/**
 * A plaster drowned in retarder never sets: by the law of doses after more years than there have been. Every verb says so
 * in the same words, its JSON has no number for it, and targets are judged all the same.
 */

const folders: string[] = [];
afterAll(() => {
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

const where = folderOf({
  'drowned.yaml': `mould: { water: 250 mL }
amounts: { casting-plaster: 200 g, water: 130 g, protein-retarder: 30 g }
targets:
  initial-set: { max: 30 min }
  demould-time: { min: 20 min }
  working-time: { min: 5 min, max: 10 min }
`,
  'slow.yaml': `amounts: { casting-plaster: 200 g, water: 130 g, protein-retarder: 11 g }
mould: { water: 250 mL }
`,
  'brief.yaml': `mould: { water: 250 mL }
objective: quickest
materials: { only: [casting-plaster, protein-retarder] }
doses: { protein-retarder: 15 % of gypsum }
targets: { initial-set: { max: 30 min } }
`,
  'sour.yaml': `mould: { water: 110 mL }
objective: strongest
doses: { citric-acid: 5 % of binder }
`,
  'plain.yaml': `mould: { water: 250 mL }
amounts: { casting-plaster: 200 g, water: 130 g, protein-retarder: 30 g }
`,
  'sand.yaml': `amounts: { silica-sand-fine: 200 g, water: 40 g }
`,
  'dry.yaml': `amounts: { casting-plaster: 200 g, silica-sand-fine: 200 g }
`,
  'order.yaml': `start: 2026-03-02
due: 2026-05-02
items: [{ recipe: drowned.yaml, pieces: 2, moulds: 1 }]
`,
  'thick.yaml': `mould: { water: 20 L }
wall: 20 cm
amounts: { casting-plaster: 20 kg, water: 13 kg }
`,
  'pours.csv': 'pour,brief,room C,room %,weights\n1,thick.yaml,12,90,1 h: 32000; 24 h: 31990\n',
});
folders.push(where);

const text = (...argv: string[]) => {
  const { out, err } = spawned(argv, where);
  return { out: out.replace(/\s+/g, ' '), err };
};
/** The output, once no number in it has thirteen digits or more. */
const json = (...argv: string[]) => {
  const { out, err } = spawned([...argv, '--json'], where);
  expect(err).toBe('');
  expect(out).not.toMatch(/\de\+\d|(?<![.\d])\d{13}/);
  return JSON.parse(out);
};

describe('a mix that never sets', () => {
  it('has no number in what assess tells, with the reason, and its targets are judged', () => {
    const { properties, targets, met } = assessmentResultSchema.parse(json('assess', 'drowned.yaml'));
    for (const id of ['working-time', 'initial-set', 'final-set', 'demould-time'])
      expect(properties.find((p) => p.property === id)).toMatchObject({
        value: null,
        low: null,
        high: null,
        why: 'over a year',
      });
    const verdicts = targets.map((t) => [t.property, t.met, t.value, t.margin, t.chance]);
    expect(verdicts).toEqual([
      ['working-time', false, null, null, 0],
      ['initial-set', false, null, null, 0],
      ['demould-time', true, null, null, 1],
    ]);
    expect(met).toBe(false);
    const { out } = text('assess', 'drowned.yaml', '--why');
    expect(out).toMatch(
      /MISSED initial set at most 30 min over a year no chance met time to demoulding at least 20 min over a year sure/,
    );
    expect(out).toMatch(/ initial set over a year final set over a year time to demoulding over a year /);
    expect(out).toContain('initial set: when the mix stops moving. Rests on');
  });

  it('a range that runs past a year is open at that end', () => {
    const { properties } = assessmentResultSchema.parse(json('assess', 'slow.yaml'));
    const set = properties.find((p) => p.property === 'initial-set')!;
    expect(set.low).toBeGreaterThan(0);
    expect(set.high).toBeNull();
    expect(text('assess', 'slow.yaml').out).toMatch(/initial set [^l]*likely [\w. ]+ to over a year/);
  });

  it('has no number in a proposal that is asked for it, its conflict and its ways out', () => {
    const result = proposalResultSchema.parse(json('propose', 'brief.yaml'));
    expect(result.objective).toMatchObject({ property: 'demould-time', exact: null, weighed: null });
    expect(result.conflict!.missed[0]).toMatchObject({ property: 'initial-set', nearest: null, missedBy: null });
    expect(result.waysOut!.colliding).toMatchObject([{ property: 'initial-set', reachable: null, why: 'over a year' }]);
    const { out } = text('propose', 'brief.yaml');
    expect(out).toContain('initial set at most 30 min: nothing but over a year can be had (gypsum plaster)');
    expect(out).toContain('misses: initial set: over a year');
    expect(out).toContain('quickest: time to demoulding over a year by what is weighed out');
  });

  it('on a card has clocks that say so', () => {
    const { timers, targets } = cardResultSchema.parse(json('card', 'drowned.yaml'));
    expect(targets.find((t) => t.property === 'initial-set')).toMatchObject({ met: false, value: null, margin: null });
    const late = timers.filter((t) => t.why === 'over a year').map((t) => [t.id, t.value]);
    expect(late).toEqual([
      ['pour', null],
      ['left', null],
      ['demould', null],
      ['dry', null],
    ]);
    expect(text('card', 'drowned.yaml').out).toContain('pour by over a year time left to pour over a year');
    expect(text('card', 'slow.yaml').out).toMatch(/out of the mould [\w. ]+ likely [\w. ]+ to over a year/);
  });

  it('cannot be ordered', () => {
    const { items, met, lastReady } = orderResultSchema.parse(json('order', 'order.yaml'));
    expect({ met, lastReady }).toEqual({ met: false, lastReady: null });
    expect(items[0]).toMatchObject({
      impossible: 'it stays in its mould for over a year',
      workingMinutes: { likely: null, careful: null, why: 'over a year' },
      demouldMinutes: { likely: null, careful: null, why: 'over a year' },
      dryDays: { likely: null, careful: null, why: 'over a year' },
    });
    expect(spawned(['order', 'order.yaml'], where).code).toBe(1);
  });
});

describe('a mix that never sets is refused beside its blend, with exit code 1', () => {
  const NEVER = /^DO NOT CAST THIS No piece comes of this\. It will not set: .* is over a year\./;

  it.each([
    ['propose', 'sour.yaml', 'BLEND for one piece'],
    ['assess', 'plain.yaml', 'BLEND, fills'],
    ['card', 'plain.yaml', 'WEIGH OUT'],
    ['order', 'order.yaml', 'CAN IT BE MET?'],
  ])('%s %s', (verb, file, blend) => {
    const { code, out } = spawned([verb, file], where);
    expect(code).toBe(1);
    const told = out.slice(out.indexOf('DO NOT CAST THIS'), out.indexOf(blend));
    expect(told.replace(/\s+/g, ' ')).toMatch(NEVER);
    const { warnings } = json(verb, file);
    expect(warnings.filter((w: { severity: string }) => w.severity === 'error')).toMatchObject([
      { code: 'recipe-never-sets' },
    ]);
  });

  it('nor does one without binder, or without water', () => {
    for (const [file, found] of [
      ['sand.yaml', 'no binder'],
      ['dry.yaml', 'no water'],
    ]) {
      const { code, out } = spawned(['assess', file!], where);
      expect(code).toBe(1);
      expect(out).toContain('DO NOT CAST THIS');
      expect(out).toContain(`found “${found}”`);
    }
  });
});

describe('a pour that takes more than a year to dry', () => {
  it('is said to, and its curve is drawn no further', () => {
    const { pours } = poursResultSchema.parse(json('pours', 'show', '1', '--file', 'pours.csv'));
    expect(pours[0]!.curve).toMatchObject({ dryAfterHours: null, why: 'over a year' });
    const hours = pours[0]!.curve!.points.map((p) => p.hours);
    expect(Math.max(...hours)).toBeLessThanOrEqual(24 * 365);
    const { out } = text('pours', 'show', '1', '--file', 'pours.csv');
    expect(out).toMatch(/By this curve it comes to constant weight, [\d. ]+kg, over a year after the water went in\./);
  });
});
