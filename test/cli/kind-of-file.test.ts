import { describe, expect, it } from 'vitest';
import { said } from '../support/cli.js';

const example = (name: string): string => `examples/garden-stall/${name}`;

describe('a file of another kind', () => {
  it.each([
    ['assess', 'herb-planter.yaml', 'a brief', 'a recipe', 'propose'],
    ['propose', 'recipes/old-planter.yaml', 'a recipe', 'a brief', 'assess'],
    ['propose', 'stand-in-gypsum.yaml', 'a medium', 'a brief', 'stand-in'],
    ['order', 'shop.yaml', 'a shop file', 'an order', 'shop check'],
    ['stand-in', 'spring-market.yaml', 'an order', 'a medium', 'order'],
  ])('pourwright %s %s says that it is %s', async (verb, file, found, expected, try_) => {
    const { code, err, out } = await said([verb, example(file)]);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(`found “${found}”, expected ${expected}`);
    expect(err).toContain(`try pourwright ${try_}.`);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
