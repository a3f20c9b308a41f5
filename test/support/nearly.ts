import { expect } from 'vitest';

/**
 * Node and the browser differ in the last digits of logarithms and powers; linear programs near a corner, and shares of
 * draws, widen that. What is weighed out and every word must be the same; what is computed, to a thousandth.
 */
const NEARLY = 1e-3;
/** Shares of the spread rest on the order of draws, and one draw that changes places moves them by more. */
const SHARES = 5e-3;
const EXACT: ReadonlySet<string> = new Set(['batchGrams', 'pieceGrams', 'pieces', 'step', 'min', 'max', 'limit']);

/** Expects the same data, numbers nearly so. */
export function expectSameData(got: unknown, wanted: unknown): void {
  expect(aligned(got, wanted, '')).toEqual(wanted);
}

/** `got` with every number that is nearly the wanted one replaced by it. */
function aligned(got: unknown, wanted: unknown, name: string): unknown {
  if (typeof got === 'number' && typeof wanted === 'number') {
    const slack = EXACT.has(name) ? 1e-9 : name === 'share' ? SHARES : NEARLY;
    return Math.abs(got - wanted) <= slack * Math.max(1, Math.abs(wanted)) ? wanted : got;
  }
  if (Array.isArray(got) && Array.isArray(wanted)) return got.map((g, i) => aligned(g, wanted[i], name));
  if (typeof got === 'object' && got !== null && typeof wanted === 'object' && wanted !== null) {
    return Object.fromEntries(
      Object.entries(got).map(([key, value]) => [key, aligned(value, (wanted as Record<string, unknown>)[key], key)]),
    );
  }
  return got;
}
