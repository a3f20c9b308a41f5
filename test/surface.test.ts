import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/**
 * What the library promises. A name that goes, or comes, shows here: it is a promise to whoever imports it, so change
 * the list on purpose (and the changelog with it).
 */
const ROOT = join(import.meta.dirname, '..');
const INDEX = readFileSync(join(ROOT, 'src', 'core', 'index.ts'), 'utf8');

/** "propose" or "type Proposal", sorted as biome sorts. */
const exported = [...INDEX.matchAll(/^export (type )?\{([^}]*)\}/gm)].flatMap(([, type, names]) =>
  names!
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '')
    .map((name) => `${type ?? ''}${name}`),
);
const values = exported.filter((name) => !name.startsWith('type '));

describe('the public list', () => {
  it('is the pinned one (changed on purpose: npx vitest run test/surface.test.ts -u)', async () => {
    await expect(`${[...exported].sort().join('\n')}\n`).toMatchFileSnapshot('./surface.txt');
  });

  it('holds nothing but named exports, each once', () => {
    expect(INDEX).not.toMatch(/export default|export \*/);
    expect(new Set(exported).size).toBe(exported.length);
    expect(INDEX.replace(/export (?:type )?\{[^}]*\} from '[^']+';\n/g, '')).toBe('');
  });

  it('has what the README imports', () => {
    const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
    const imported = [...readme.matchAll(/import \{([^}]+)\} from 'pourwright'/g)].flatMap((m) =>
      m[1]!.split(',').map((name) => name.trim()),
    );
    expect(imported.length).toBeGreaterThan(0);
    for (const name of imported) expect(values).toContain(name);
  });
});

describe('the built library', () => {
  const library = join(ROOT, 'dist', 'index.js');

  it('exports just these names, and needs nothing of Node', () => {
    const script = `const l = await import(${JSON.stringify(library)}); console.log(JSON.stringify(Object.keys(l)));`;
    const names = JSON.parse(
      execFileSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' }),
    );
    expect((names as string[]).sort()).toEqual([...values].sort());
    expect(readFileSync(library, 'utf8')).not.toMatch(/\bfrom\s*["'](?:node:|fs|path|os|child_process|stream)/);
  });

  it('proposes and assesses with the shipped table, as the README says it can', () => {
    const script = `
      import { assess, propose } from ${JSON.stringify(library)};
      import { readFileSync } from 'node:fs';
      const table = JSON.parse(readFileSync(${JSON.stringify(join(ROOT, 'dist', 'materials.json'))}, 'utf8'));
      const materials = ['water', 'casting-plaster'].map((id) => table.materials.find((m) => m.id === id));
      const conditions = { volume: 300, wall: 1.2, service: 'dry-indoor', pour: 'poured', temperature: 20, humidity: 0.5, coverDays: null, strengthAge: 28, waste: 0 };
      const question = { objective: 'strongest', targets: [], conditions, materials, doses: [], figures: table.model, prices: new Map(), stock: new Map(), batch: { pieces: 1, step: 1, fine: null } };
      const proposal = propose(question, { draws: 0 });
      const again = assess(question, materials.map((m) => proposal.ingredients.find((i) => i.material === m.id).pieceGrams), [], { draws: 0 });
      console.log(JSON.stringify([proposal.status, proposal.objective.weighed, again.properties.find((p) => p.property === 'strength').value]));
    `;
    const [status, weighed, strength] = JSON.parse(
      execFileSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' }),
    ) as [string, number, number];
    expect(status).toBe('met');
    expect(strength).toBeCloseTo(weighed, 9);
    expect(strength).toBeGreaterThan(10);
  });

  it('runs as DEVELOPERS.md shows it', () => {
    const page = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
    const script = /```js\n([\s\S]*?)```/.exec(page)![1]!;
    const run = (text: string) => {
      const { status, stdout, stderr } = spawnSync(process.execPath, ['--input-type=module', '-e', text], {
        cwd: ROOT,
        encoding: 'utf8',
      });
      return { status, out: stdout, err: stderr };
    };
    const { status, out, err } = run(script);
    expect(err).toBe('');
    expect(status).toBe(0);
    expect(out).toMatch(/^beta casting plaster \d+$/m);
    expect(out).toMatch(/^met dry weight \d{3}\./m);
    expect(out).toMatch(/^warn Plaster heats as it sets/m);
    expect(out).toMatch(/^true \d+ MPa$/m);
    expect(out).not.toMatch(/undefined|NaN|\[object/);
    expect(run(script.replace('casting-plaster, silica', 'casting-plastre, silica')).err).toBe(
      'brief.yaml line 5, materials.only[0]: there is no such material: found “casting-plastre”. Did you mean “casting-plaster”?\n',
    );
    // An object of one's own, as the comment has it: what is misspelt or missing is refused, each with its place.
    const own = (brief: string) =>
      run(script.replace("readYaml(text, 'brief.yaml')", `pourwright.unlined(${brief}, 'my brief')`));
    const slips = own(
      "{ mould: { water: '300 mL' }, objective: 'cheepest', service: 'outdoors', target: {}, targets: { strenght: { min: '8 MPa' } } }",
    );
    for (const words of [
      'my brief objective: found “cheepest”, expected one of cheapest, lightest, heaviest, strongest, quickest. Did you mean “cheapest”?',
      'my brief service: found “outdoors”',
      'my brief target: there is no such field here: found “target”. Did you mean “targets”?',
      'my brief targets.strenght: there is no such field here: found “strenght”',
    ])
      expect(slips.err.replace(/my brief, /g, 'my brief ')).toContain(words);
    expect(own("{ objective: 'lightest' }").err).toMatch(/^my brief, mould: this field is missing/);
    expect(
      own("{ mould: { water: '300 mL' }, objective: 'strongest', materials: { only: ['casting-plaster'] } }"),
    ).toMatchObject({
      status: 0,
      err: '',
    });
  });

  it('is typed, and its package names files that are there', () => {
    const { exports, bin } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
      exports: Record<string, string | Record<string, string>>;
      bin: Record<string, string>;
    };
    const named = [
      ...Object.values(bin),
      ...Object.values(exports).flatMap((e) => (typeof e === 'string' ? [e] : Object.values(e))),
    ];
    for (const path of named) expect(existsSync(join(ROOT, path.replace('/*', ''))), path).toBe(true);
  });
});
