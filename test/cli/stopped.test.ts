import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { folderOf, said } from '../support/cli.js';

/** A blend that a caution stops is no success, whatever targets it meets, and every verb says so at the top. Invented. */

const SHOP = `currency: EUR
prices: prices.csv
`;
const PRICES = `material,pack,price
casting-plaster,25 kg,31.00
portland-cement-grey,25 kg,8.90
silica-sand-fine,25 kg,7.90
`;
const brief = (uses: string) => `title: Garden sign
shop: shop.yaml
mould: { water: 420 mL }
uses: [${uses}]
objective: cheapest
materials: { only: [casting-plaster, silica-sand-fine] }
`;
const recipe = (uses: string) => `title: Garden sign
shop: shop.yaml
mould: { water: 420 mL }
uses: [${uses}]
amounts: { casting-plaster: 300 g, water: 200 g }
`;
const order = (file: string) => `title: Market
shop: shop.yaml
start: 2026-03-02
due: 2026-05-02
hours: 5 h
items: [{ brief: ${file}, pieces: 4, moulds: 2, mould-price: 5 EUR }]
`;
const medium = (uses: string) => `title: A plaster
shop: shop.yaml
kind: gypsum-cement
mix: { powder: 100 g, liquid: 70 g }
demould-time: { max: 2 h }
mould: { water: 420 mL }
uses: [${uses}]
materials: { only: [casting-plaster] }
`;
const where = folderOf({
  'shop.yaml': SHOP,
  'prices.csv': PRICES,
  'wet.yaml': brief('outdoor'),
  'dry.yaml': brief('wall-hung'),
  'wet-recipe.yaml': recipe('outdoor'),
  'dry-recipe.yaml': recipe('wall-hung'),
  'wet-order.yaml': order('wet.yaml'),
  'dry-order.yaml': order('dry.yaml'),
  'wet-medium.yaml': medium('outdoor'),
  'dry-medium.yaml': medium('wall-hung'),
});
afterAll(() => rmSync(where, { recursive: true, force: true }));

const VERBS: readonly (readonly [string, string, ...string[]])[] = [
  ['propose', '.yaml'],
  ['propose', '.yaml', '--alternatives', '2'],
  ['assess', '-recipe.yaml'],
  ['card', '.yaml'],
  ['card', '-recipe.yaml'],
  ['price', '.yaml'],
  ['order', '-order.yaml'],
  ['frontier', '.yaml', '--of', 'cost', '--against', 'dry-weight', '--points', '3'],
  ['stand-in', '-medium.yaml'],
];
const STOP = /^STOP Plaster softens and dissolves in water/m;

describe.each(VERBS)('%s of what a caution stops (%s)', (verb, file, ...more) => {
  it('ends with 1 and says so before the blend; the same for a dry room ends with 0', async () => {
    const stopped = await said([verb, `${where}/wet${file}`, ...more], '', { columns: 100 });
    expect(stopped.code, stopped.err).toBe(1);
    const at = stopped.out.search(STOP);
    expect(at).toBeGreaterThan(0);
    // Under the title and its line of facts: before any heading, figure or drawing.
    expect(stopped.out.slice(0, at).split('\n').length).toBeLessThanOrEqual(4);
    const { code, out, err } = await said([verb, `${where}/dry${file}`, ...more], '', { columns: 100 });
    expect(code, err).toBe(0);
    expect(out).not.toMatch(/\bSTOP\b/);
  });

  it('leaves it to the cautions of the JSON, where the targets are met all the same', async () => {
    const { code, out } = await said([verb, `${where}/wet${file}`, ...more, '--json']);
    expect(code).toBe(1);
    expect(out).toContain('"severity": "stop"');
  });
});

it('the page of a card says it under the title', async () => {
  const html = `${where}/card.html`;
  await said(['card', `${where}/wet.yaml`, '--html', html]);
  const head = /<header>.*?<\/header>/s.exec(readFileSync(html, 'utf8'))![0];
  expect(head).toContain('<b>STOP</b> Plaster softens and dissolves in water');
});

it('the help says what the exit codes are', async () => {
  const { out } = await said(['--help']);
  const help = out.replace(/\s+/g, ' ');
  expect(help).toContain('1 done, but a target is missed, no blend exists or a caution says stop');
  // What the README says of it too: price, order and pours fit end with 1 as well.
  const readme = readFileSync(join(import.meta.dirname, '..', '..', 'README.md'), 'utf8').replace(/\s+/g, ' ');
  for (const words of [
    'a price that leaves something out',
    'an order that comes late',
    'a fit that cannot be trusted',
  ]) {
    expect(help).toContain(words);
    expect(readme).toContain(words);
  }
});
