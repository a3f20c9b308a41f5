import { describe, expect, it } from 'vitest';
import { mediumSchema } from '../../src/core/brief/medium-schema.js';
import { readMedium } from '../../src/core/brief/read-medium.js';
import { propose } from '../../src/core/optimise/propose.js';
import { waysOutResult } from '../../src/core/report/reasons-result.js';
import { proposalResult } from '../../src/core/report/result.js';
import { cautionsFor } from '../../src/core/safety/cautions.js';
import { blendFacts, USES } from '../../src/core/safety/facts.js';
import { stopsOf } from '../../src/core/safety/stops.js';
import { brief, SHELF, said, told } from '../support/written.js';

/** A proposal holds nothing that its own cautions would stop, unless the maker names it. */

const HEAD = 'mould: { water: 300 mL }\nobjective: quickest\n';
const PLASTERS = ['alpha-gypsum-cement', 'alpha-gypsum-high-strength', 'casting-plaster'];
const CEMENTS =
  'portland-cement-grey, portland-cement-white, slag-blend-cement, masonry-cement, csa-rapid-cement, ' +
  'calcium-aluminate-cement, hydrated-lime, natural-hydraulic-lime';
const inPlay = (text: string): string[] => brief(`${HEAD}${text}`).question.materials.map((m) => m.id);
const without = (text: string): string[] => {
  const play = inPlay(text);
  return inPlay('').filter((id) => !play.includes(id));
};

describe('what a caution would stop in this use', () => {
  it.each(['outdoor', 'planter'])('is left out of a piece for %s, and why', (use) => {
    const gypsums = [...PLASTERS, 'ground-gypsum'];
    expect(without(`uses: [${use}]`).sort()).toEqual(gypsums);
    const { leftOut } = brief(`${HEAD}uses: [${use}]`);
    for (const id of gypsums) {
      const { why } = leftOut.find((l) => l.material === id)!;
      expect(why).toBe('its caution says stop: Gypsum does not stand water');
    }
  });

  it('is left out of a vessel for wax, not of a holder round a candle in its cup', () => {
    expect(without('service: warm\nuses: [wax]').sort()).toEqual([...PLASTERS, 'ground-gypsum']);
    const { leftOut } = brief(`${HEAD}service: warm\nuses: [wax]`);
    expect(leftOut.find((l) => l.material === 'casting-plaster')!.why).toBe(
      'its caution says stop: Gypsum loses its water with heat',
    );
    expect(without('service: warm\nuses: [candle]')).toEqual([]);
  });

  it.each(USES)('is in no proposal for %s, unless the use itself is stopped', (use) => {
    const read = brief(`${HEAD}uses: [${use}]`);
    const { cautions } = proposalResult(read, propose(read.question, { draws: 0 }), SHELF, true).cautions;
    const stops = cautions.filter((c) => c.severity === 'stop').map((c) => c.title);
    const always = stopsOf(blendFacts([], { service: 'dry-indoor', uses: [use] }), SHELF.shop.region);
    if (always.length === 0) expect(stops).toEqual([]);
    else for (const title of always) expect(stops).toContain(title);
  });

  it.each(['fire', 'body-cast'])('is nothing by itself where the use is stopped whatever it is made of: %s', (use) => {
    expect(without(`uses: [${use}]`)).toEqual([]);
  });

  it.each(['fire', 'body-cast'])('is left out for another use beside one that is stopped: %s', (use) => {
    expect(without(`uses: [${use}, outdoor]`).sort()).toEqual([...PLASTERS, 'ground-gypsum']);
    const read = brief(`${HEAD}service: warm\nuses: [${use}, outdoor]`);
    const { cautions } = proposalResult(read, propose(read.question, { draws: 0 }), SHELF, true).cautions;
    expect(cautions.filter((c) => c.severity === 'stop').map((c) => c.id)).toEqual([
      { fire: 'no-fire', 'body-cast': 'body-cast' }[use],
    ]);
  });

  it('gives way to a binder named beside it that is not stopped, unless the maker insists', () => {
    const only = 'only: [casting-plaster, portland-cement-grey, ground-gypsum, masonry-sand]';
    const play = (materials: string, use = 'outdoor') => inPlay(`uses: [${use}]\nmaterials: { ${materials} }`);
    // Its share decides of ground gypsum: no binder, it stays where it is named.
    expect(play(only).sort()).toEqual(['ground-gypsum', 'masonry-sand', 'portland-cement-grey', 'water']);
    expect(play(only, 'wall-hung')).toContain('casting-plaster');
    expect(play(`${only}, also: [casting-plaster]`)).toContain('casting-plaster');
    expect(play(only.replace('portland-cement-grey, ', ''))).toContain('casting-plaster');
    const read = brief(`${HEAD}uses: [outdoor]\nmaterials: { ${only} }`);
    const { warnings } = proposalResult(read, propose(read.question, { draws: 0 }), SHELF, true);
    const [note] = warnings.filter((w) => w.message.includes('“beta casting plaster”'));
    expect(note).toMatchObject({ code: 'brief-contradicts', severity: 'note', line: 4 });
    expect(note!.message).toMatch(/Its caution says stop: Gypsum does not stand water; .*“materials: also”/);
  });

  it('is used all the same when the maker names it', () => {
    for (const named of [
      'materials: { also: [casting-plaster] }',
      'materials: { only: [casting-plaster, masonry-sand] }',
      'doses: { casting-plaster: 20 % of dry blend }',
    ]) {
      expect(inPlay(`uses: [outdoor]\n${named}`), named).toContain('casting-plaster');
    }
  });

  it('is told where nothing else at hand sets', () => {
    const text = `${HEAD}uses: [outdoor]\nmaterials: { never: [${CEMENTS}] }`;
    expect(told(() => brief(text))).toEqual(['brief-contradicts 3 uses']);
    expect(said(() => brief(text))[0]).toContain('“materials: also”');
    expect(() => brief(text.replace('outdoor', 'wall-hung'))).not.toThrow();
  });

  it('is no way out of a brief that nothing meets', () => {
    const ways = (uses: string) => {
      const read = brief(
        `${HEAD}uses: [${uses}]\nmaterials: { never: [csa-rapid-cement, ${PLASTERS.join(', ')}] }\ntargets: { demould-time: { max: 2 h } }`,
      );
      return waysOutResult(read, SHELF, 'portland')!.materials.map((m) => m.material);
    };
    expect(ways('wall-hung')).toEqual(expect.arrayContaining(['csa-rapid-cement', 'casting-plaster']));
    expect(ways('outdoor')).toEqual(['csa-rapid-cement']);
  });

  it('stands in for no medium', () => {
    const written = { 'demould-time': '45 min', hardness: 'hard', mould: { water: '500 mL' }, uses: ['outdoor'] };
    const { question } = readMedium(mediumSchema.parse(written), SHELF, (path) => ({ path }));
    for (const id of PLASTERS) expect(question.materials.map((m) => m.id)).not.toContain(id);
  });
});

describe('the stops of a blend', () => {
  it('are the cautions that say so', () => {
    const { materials } = SHELF;
    for (const use of USES) {
      for (const material of materials) {
        const facts = blendFacts([{ material, grams: 100 }], { service: 'damp', uses: [use] });
        const { cautions } = cautionsFor(facts, { region: 'US' });
        const said = cautions.filter((c) => c.severity === 'stop').map((c) => c.title);
        expect(stopsOf(facts, 'US').sort(), `${material.id} ${use}`).toEqual(said.sort());
      }
    }
  });
});
