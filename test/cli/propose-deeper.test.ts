import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { reachableLimit } from '../../src/core/report/gain-words.js';
import { type ProposalResult, proposalResultSchema } from '../../src/core/report/result-schema.js';
import { folderOf, said, spawned } from '../support/cli.js';

const root = new URL('../..', import.meta.url).pathname;
const STALL = join(root, 'examples', 'garden-stall');
const SHOP = join(STALL, 'shop.yaml');

/** Invented: a slab that only what the brief bars would let out of its mould in an hour, and one asked for too much. */
const BARRED = `title: Quick slab
invented: true
shop: ${SHOP}
mould: { water: 400 mL }
service: dry-indoor
objective: cheapest
materials: { never: [casting-plaster, alpha-gypsum-cement, alpha-gypsum-high-strength, csa-rapid-cement] }
targets:
  demould-time: { max: 60 min }
  strength: { min: 5 MPa }
  dry-weight: { max: 700 g }
`;
const COLLIDES = `title: Strong feather
invented: true
shop: ${SHOP}
mould: { water: 640 mL }
service: damp
objective: cheapest
targets:
  dry-weight: { max: 500 g }
  strength: { min: 40 MPa }
`;
const MORTAR = `title: Mortar block
invented: true
shop: ${SHOP}
mould: { water: 500 mL }
service: damp
objective: cheapest
targets:
  strength: { min: 15 MPa }
  dry-weight: { max: 800 g }
`;
const where = folderOf({ 'barred.yaml': BARRED, 'collides.yaml': COLLIDES, 'mortar.yaml': MORTAR });
afterAll(() => rmSync(where, { recursive: true, force: true }));
const file = (name: string): string => join(where, name);

const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
  JSON.parse(readFileSync(join(root, 'dist', 'schemas', 'proposal-result.schema.json'), 'utf8')),
);
/** What the built command prints with --json, held by the shipped schema. */
function printed(argv: readonly string[], code: number): ProposalResult {
  const ran = spawned(['propose', ...argv, '--json'], where);
  expect(ran.code, ran.err).toBe(code);
  const data = JSON.parse(ran.out);
  expect(validate(data) ? [] : validate.errors).toEqual([]);
  return proposalResultSchema.parse(data);
}
/** ms: these run the command again and again. */
const LONG = 180_000;
const widest = (text: string): number => Math.max(...text.split('\n').map((line) => [...line].length));

describe('propose --alternatives 3', () => {
  const brief = join(STALL, 'wall-pocket.yaml');

  it('prints two more blends that meet the brief, each made of something else', async () => {
    const result = printed([brief, '--alternatives', '3'], 0);
    expect(result.alternatives!.length).toBe(2);
    const sets = [result.blend, ...result.alternatives!.map((a) => a.blend)].map((blend) =>
      blend
        .filter((i) => i.kind !== 'water' && i.kind !== 'admixture')
        .map((i) => i.material)
        .sort()
        .join(),
    );
    expect(new Set(sets).size).toBe(3);
    for (const [k, { blend }] of result.alternatives!.entries()) {
      // Assessed anew as a recipe of the maker's own.
      const amounts = blend.map((i) => `  ${i.material}: ${i.pieceGrams} g`).join('\n');
      const kept = readFileSync(brief, 'utf8')
        .replace(/^(objective|batch):.*$/gm, '')
        .replace('shop: shop.yaml', `shop: ${SHOP}`);
      writeFileSync(file(`other-${k}.yaml`), `${kept}\namounts:\n${amounts}\n`);
      const { code, out } = await said(['assess', file(`other-${k}.yaml`), '--json']);
      expect(JSON.parse(out).met, out).toBe(true);
      expect(code).toBe(0);
    }
  });

  it('prints the cautions of all three, each once, and of which blend where not of all', async () => {
    const result = printed([brief, '--alternatives', '3'], 0);
    const sets = [result, ...result.alternatives!].map((b) => b.cautions.cautions);
    const { out } = await said(['propose', brief, '--alternatives', '3']);
    const told = out.replace(/\s+/g, ' ').split('CAUTIONS of this blend (1) and its alternatives (2 to 3)')[1]!;
    let marked = 0;
    for (const { id, short } of sets.flat()) {
      const having = sets.flatMap((set, i) => (set.some((c) => c.id === id) ? [i + 1] : []));
      const words = ['', `(blend ${having[0]} only)`, `(blends ${having.join(' and ')} only)`, ''][having.length]!;
      const [, after, ...more] = told.split(short);
      expect(more, short).toEqual([]);
      if (words === '') expect(after, short).not.toMatch(/^ \(/);
      else expect(after!.slice(1, 1 + words.length), short).toBe(words);
      if (words !== '') marked++;
    }
    expect(marked).toBeGreaterThan(0);
    const own = await said(['propose', brief]);
    expect(own.out).toMatch(/^CAUTIONS$/m);
    expect(own.out).not.toMatch(/blends? \d.* only\)/);
  });

  it('in words says what each gives up and gains, and fits the terminal', async () => {
    const { out, code } = await said(['propose', brief, '--alternatives', '3'], '', { columns: 40 });
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(40);
    const told = out.slice(out.indexOf('ALTERNATIVES'));
    expect(told).toMatch(/^ALTERNATIVES\n {2}2 {2}\S/);
    expect(told).toMatch(/\n {2}3 {2}\S/);
    expect(told.match(/gives up:/g)).toHaveLength(2);
  });
});

describe('propose --reasons', () => {
  it(
    'prints gains that hold when the brief itself is changed and proposed anew',
    () => {
      const result = printed(['mortar.yaml', '--reasons'], 0);
      const { heldBack } = result.reasons!;
      const own = heldBack.filter((h) => h.kind === 'target');
      expect(own.map((h) => h.property)).toContain('strength');
      for (const { property, limit, movedTo, settledGain } of own) {
        const [before, after] = property === 'strength' ? ['15 MPa', `${movedTo} MPa`] : ['800 g', `${movedTo} g`];
        expect(MORTAR).toContain(before);
        writeFileSync(file('moved.yaml'), MORTAR.replace(before, after));
        const moved = printed(['moved.yaml'], 0);
        const gained = (result.objective.exact! - moved.objective.exact!) / Math.abs(movedTo - limit);
        expect(gained / settledGain!, property).toBeGreaterThan(0.9);
        expect(gained / settledGain!, property).toBeLessThan(1.1);
      }
      const entries = result.reasons!.entries.filter((e) => e.entersAt !== null && e.checked === true);
      expect(entries.length).toBeGreaterThan(2);
      for (const e of entries) if (e.price !== null) expect(e.entersAt!).toBeLessThan(e.price * (1 + 1e-6));
    },
    LONG,
  );

  it('in words names the limits, what a step of each gains, and what would come in', async () => {
    const { out, code } = await said(['propose', file('mortar.yaml'), '--reasons'], '', { columns: 60 });
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(60);
    expect(out).toMatch(/WHAT HOLDS IT BACK\n(.*\n)*? *strength/);
    expect(out).toMatch(/1 MPa less: .*% *cheaper|1 MPa less: .*\n? *.*cheaper/);
    expect(out).toMatch(/WHAT IT DOES WITHOUT\n(.*\n)*?.*comes in below/);
  });
});

describe('propose --sure 0.9', () => {
  it('ends with 0 where a blend is so sure, and costs more than the one that only just meets the brief', () => {
    const plain = printed(['mortar.yaml'], 0);
    const result = printed(['mortar.yaml', '--sure', '0.9'], 0);
    expect(result.sureness!.reached).toBe(true);
    expect(result.sureness!.chance!).toBeGreaterThanOrEqual(0.9);
    expect(result.jointChance).toBe(result.sureness!.chance);
    expect(result.sureness!.unsure).toBeCloseTo(plain.objective.exact!, 9);
    expect(result.objective.exact!).toBeGreaterThan(plain.objective.exact!);
    expect(plain.jointChance!).toBeLessThan(0.7);
    expect(result.sureness!.held.length).toBeGreaterThan(0);
  });

  it(
    'ends with 1 where none is, and says how sure the surest is',
    async () => {
      const { code, out } = await said(['propose', join(STALL, 'wall-pocket.yaml'), '--sure', '90 %']);
      expect(code).toBe(1);
      expect(out).toMatch(
        /ALL TARGETS AT ONCE, 90 % SURE\n +No blend found is so sure\. The surest holds all targets together in \d+ % of/,
      );
    },
    LONG,
  );

  it.each<[readonly string[], RegExp]>([
    [['--sure', '2'], /--sure.*0\.01 to 0\.99/],
    [['--sure', 'very'], /--sure/],
    [['--sure', '0.9', '--reasons'], /--reasons with --sure/],
    [['--sure', '0.9', '--alternatives', '3'], /--alternatives with --sure/],
    [['--alternatives', '0'], /--alternatives.*1 to 10/],
  ])('refuses %j with 2', (options, told) => {
    const { code, out, err } = spawned(['propose', 'mortar.yaml', ...options], where);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(err).toMatch(told);
  });
});

describe('the ways out of a brief that nothing meets', () => {
  it(
    'are limits that can be had: the brief with any one of them moved so far is met',
    () => {
      const { waysOut } = printed(['collides.yaml'], 1);
      const { colliding } = waysOut!;
      expect(colliding.map((c) => c.property).sort()).toEqual(['dry-weight', 'strength']);
      for (const { property, side, limit, reachable, change } of colliding) {
        const to = reachableLimit(side, reachable!);
        expect(change!).toBeCloseTo(Math.abs(reachable! - limit), 9);
        const [before, after] = property === 'strength' ? ['40 MPa', `${to} MPa`] : ['500 g', `${to} g`];
        writeFileSync(file('given.yaml'), COLLIDES.replace(before, after));
        expect(printed(['given.yaml'], 0).status, property).toBe('met');
        // And half as far is not enough.
        const half = `${limit + 0.5 * (to - limit)} ${after.split(' ')[1]}`;
        writeFileSync(file('half.yaml'), COLLIDES.replace(before, half));
        expect(printed(['half.yaml'], 1).status, property).toBe('nearest');
      }
    },
    LONG,
  );

  it('name the limit of every blend that stands against the target', async () => {
    writeFileSync(
      file('hasty.yaml'),
      'mould: { water: 420 mL }\nobjective: quickest\nmaterials: { only: [alpha-gypsum-high-strength, ground-gypsum, silica-sand-fine] }\ntargets: { initial-set: { max: 6 min } }\n',
    );
    const { out, code } = await said(['propose', file('hasty.yaml')]);
    expect(code).toBe(1);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'Every blend keeps working time at least 5 min, unless the brief sets a limit of its own on it.',
    );
    expect((await said(['propose', join(STALL, 'impossible-planter.yaml')])).out).not.toContain('Every blend keeps');
  });

  it(
    'are materials that were barred: the brief with any one of them let in is met',
    () => {
      const { waysOut } = printed(['barred.yaml'], 1);
      const barred = /never: \[(.*)\]/.exec(BARRED)![1]!.split(', ');
      expect(waysOut!.materials.length).toBeGreaterThan(1);
      for (const { material, why } of waysOut!.materials) {
        expect(barred).toContain(material);
        expect(why).toBe('barred by the brief');
        writeFileSync(
          file('let.yaml'),
          BARRED.replace(/never: \[.*\]/, `never: [${barred.filter((b) => b !== material).join(', ')}]`),
        );
        const met = printed(['let.yaml'], 0);
        expect(met.blend.map((i) => i.material)).toContain(material);
      }
    },
    LONG,
  );

  it('are told in words at 40 and 80 columns', async () => {
    for (const columns of [40, 80]) {
      const { out, code } = await said(['propose', file('barred.yaml')], '', { columns });
      expect(code).toBe(1);
      expect(widest(out)).toBeLessThanOrEqual(columns);
      const flat = out.replace(/\s+/g, ' ');
      expect(flat).toMatch(/time to demoulding at most 60 min: at most .* can be had/);
      expect(flat).toContain('Or take one of these in, with which it can be met as it is:');
      expect(flat).toContain('beta casting plaster: barred by the brief');
    }
  });
});
