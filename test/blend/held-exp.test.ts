import { expect, it } from 'vitest';
import { heldExp } from '../../src/core/blend/held-exp.js';

it('is exp as far as anything goes, and stays a number beyond', () => {
  for (const x of [-800, -1, 0, 5, 500]) expect(heldExp(x)).toBe(Math.exp(x));
  expect(Number.isFinite(1000 * heldExp(1e6))).toBe(true);
  expect(heldExp(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
});
