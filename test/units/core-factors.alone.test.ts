import { Decimal } from 'decimal.js';
import * as mathjs from 'mathjs';
import { describe, expect, it, vi } from 'vitest';
import { coreFactors } from '../../src/core/units/core-factors.js';

/** A fresh engine, as a command starts with. */
async function fresh() {
  vi.resetModules();
  const made = vi.fn();
  vi.doMock('mathjs', async (importOriginal) => {
    const real = await importOriginal<typeof import('mathjs')>();
    return {
      ...real,
      createUnitClass: (...dependencies: Parameters<typeof real.createUnitClass>) => {
        made();
        return real.createUnitClass(...dependencies);
      },
    };
  });
  const [engine, print] = [import('../../src/core/units/engine.js'), import('../../src/core/units/print.js')];
  return { made, engine: await engine, print: await print };
}

describe('factors worked out ahead', () => {
  const factors = coreFactors();

  it('hold the defined ones to the digit', () => {
    // NIST Handbook 44, Appendix C: 1 lb = 453.59237 g, 1 in = 2.54 cm, 1 gal = 231 cubic inches.
    expect(factors['poundmass g']).toBe('453.59237');
    expect(factors['inch cm']).toBe('2.54');
    expect(factors['L cm3']).toBe('1000');
    expect(factors['minute hour']).toMatch(/^0\.01666666666666666666666666666666666666/);
  });

  it('undo each other', () => {
    const pairs = Object.entries(factors);
    expect(pairs.length).toBeGreaterThan(60);
    for (const [pair, factor] of pairs) {
      const back = factors[pair.split(' ').reverse().join(' ')]!;
      expect(new Decimal(factor).times(back).minus(1).abs().toNumber(), pair).toBeLessThan(1e-18);
    }
  });

  it('are taken without building the engine, and give what it gives', async () => {
    const built = await fresh();
    const told = await fresh();
    told.engine.foresee(factors);
    for (const pair of Object.keys(factors)) {
      const [from, to] = pair.split(' ') as [string, string];
      const value = new Decimal('27.3');
      const expected = built.engine.convertExact(value, from, to).toString();
      expect(told.engine.convertExact(value, from, to).toString(), pair).toBe(expected);
    }
    for (const [from, to] of [
      ['degC', 'degF'],
      ['degF', 'degC'],
      ['degC', 'K'],
      ['K', 'degF'],
    ] as const) {
      // The engine's own factory, asked with nothing of ours between.
      const own = mathjs.unit(27.3, from).toNumber(to);
      expect(told.engine.convertExact(27.3, from, to).toNumber(), `${from} ${to}`).toBeCloseTo(own, 10);
    }
    expect(built.made).toHaveBeenCalledTimes(1);
    expect(told.made).not.toHaveBeenCalled();
    // What was not worked out ahead still has the engine behind it.
    expect(told.engine.convertExact(1, 'imperialPint', 'imperialOunce').toString()).toBe('20');
    expect(told.made).toHaveBeenCalledTimes(1);
  });

  it('are all that a printed sheet asks for', async () => {
    const { made, engine, print } = await fresh();
    engine.foresee(factors);
    const kinds = [
      'mass',
      'volume',
      'length',
      'time',
      'setTime',
      'temperature',
      'fraction',
      'density',
      'pressure',
    ] as const;
    const printed = kinds.flatMap((kind) =>
      [0.5, 30, 400, 5000, 60_000, 500_000].flatMap((value) =>
        (['metric', 'us'] as const).map((system) => print.printQuantity(value, kind, { system })),
      ),
    );
    expect(printed).toEqual(expect.arrayContaining(['500 kg', '60 L', '30 mL', '11 lb']));
    expect(print.printQuantity(5000, 'mass', { system: 'us', step: 1 })).toBe('11 lb 0.37 oz');
    expect(made).not.toHaveBeenCalled();
  });
});
