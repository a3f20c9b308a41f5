import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv2020, { type ValidateFunction } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { PROPERTIES } from '../../src/core/index.js';
import { said } from '../support/cli.js';

/**
 * The JSON Schemas as they ship, held by an independent validator (Ajv, draft 2020-12) against the shipped examples and
 * against what the command really prints with --json.
 */
const root = new URL('../..', import.meta.url).pathname;
const EXAMPLES = join(root, 'examples', 'garden-stall');
const folder = join(root, 'dist', 'schemas');
const names = readdirSync(folder).map((file) => file.replace('.schema.json', ''));
const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true });
const schemas = new Map<string, ValidateFunction>(
  names.map((name) => [name, ajv.compile(JSON.parse(readFileSync(join(folder, `${name}.schema.json`), 'utf8')))]),
);

function faults(name: string, data: unknown): string[] {
  const validate = schemas.get(name)!;
  return validate(data) ? [] : (validate.errors ?? []).map((e) => `${e.instancePath} ${e.message}`);
}

/** Which schema an example names in its first line, as an editor would find it. */
const yamls = readdirSync(EXAMPLES, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.yaml'));
const named = yamls.flatMap((file): [string, string, unknown][] => {
  const text = readFileSync(join(EXAMPLES, file), 'utf8');
  const schema = /\$schema=\S*?schemas\/(\S+)\.schema\.json/.exec(text)?.[1];
  return schema === undefined ? [] : [[file, schema, parse(text)]];
});

describe('the schemas of the files', () => {
  it('are named by nearly every example', () => {
    expect(named.length).toBeGreaterThan(8);
    expect(named.length).toBeGreaterThanOrEqual(yamls.length - 2);
  });

  it.each(named)('%s is what %s says', (_, schema, data) => {
    expect(faults(schema, data)).toEqual([]);
    // And says so of something: a field that is not there, and a value of another sort.
    expect(faults(schema, { ...(data as object), 'no-such-field': 1 })).not.toEqual([]);
    expect(faults(schema, [])).not.toEqual([]);
  });
});

describe('the targets of a brief', () => {
  const withTarget = (id: string) => ({
    mould: { water: 300 },
    objective: 'lightest',
    targets: { [id]: { max: '1 kg' } },
  });

  it.each(['dry-weight', 'weight-day-1', 'weight-day-5', 'weight-day-365'])('may name %s', (id) => {
    expect(faults('brief', withTarget(id))).toEqual([]);
  });

  it.each(['dry-wieght', 'weight-day-0', 'weight-day-366', 'weight-day-', 'xweight-day-5'])('may not name %s', (id) => {
    expect(faults('brief', withTarget(id))).not.toEqual([]);
  });

  it('are names that an editor can complete', () => {
    const { properties } = JSON.parse(readFileSync(join(folder, 'brief.schema.json'), 'utf8'));
    expect(Object.keys(properties.targets.properties)).toEqual(PROPERTIES.map((p) => p.id));
  });
});

const brief = join(EXAMPLES, 'herb-planter.yaml');
const recipe = join(EXAMPLES, 'recipes', 'old-planter.yaml');

describe('the schemas of the results', () => {
  it.each<[string, readonly string[]]>([
    ['proposal-result', ['propose', brief]],
    ['proposal-result', ['propose', join(EXAMPLES, 'impossible-planter.yaml')]],
    ['assessment-result', ['assess', recipe]],
    ['assessment-result', ['assess', recipe, '--why']],
    ['price-result', ['price', recipe, '--at', '9.50']],
    ['card-result', ['card', recipe, '--pieces', '2']],
    ['order-result', ['order', join(EXAMPLES, 'spring-market.yaml')]],
    ['shop-check-result', ['shop', 'check', join(EXAMPLES, 'shop.yaml')]],
    ['shop-prices-result', ['shop', 'prices', join(EXAMPLES, 'shop.yaml')]],
    ['shelf-result', ['shelf', '--kind', 'sand']],
    ['material-result', ['shelf', 'casting-plaster']],
    ['why-result', ['why', 'strength']],
    ['why-list-result', ['why']],
    ['problems', ['propose', join(EXAMPLES, 'prices.csv')]],
  ])(
    '%s holds for what “%s” prints',
    async (schema, argv) => {
      const { out } = await said([...argv, '--json']);
      const data = JSON.parse(out) as Record<string, unknown>;
      expect(faults(schema, data)).toEqual([]);
      const { format: _, ...without } = data;
      expect(faults(schema, without)).not.toEqual([]);
      expect(faults(schema, { ...data, 'no-such-field': 1 })).not.toEqual([]);
    },
    180_000,
  );
});
