import { afterAll, describe, expect, it } from 'vitest';
import { CALIBRATION, CASES, type OracleFile, oracleNames, readOracle, rowsOf } from './oracle.js';

const names = oracleNames();
const oracles = new Map<string, OracleFile>(names.map((name) => [name, readOracle(name)]));

describe('published examples', () => {
  const executed = new Set<string>();
  let independent = 0;

  it.each(names)('%s', (name) => {
    const oracle = oracles.get(name)!;
    const rows = rowsOf(name, oracle);
    executed.add(name);
    independent += rows.filter((row) => row.kind === 'printed' || row.kind === 'trap').length;
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.filter((row) => !row.ok)).toEqual([]);
  });

  // Runs last: a file that is in the folder and was not executed is a hole in the checks.
  afterAll(() => {
    expect([...executed].sort()).toEqual(oracleNames());
    expect(executed.size).toBeGreaterThanOrEqual(100);
    expect(independent).toBeGreaterThanOrEqual(180);
  });
});

describe('rows a law was fitted to (not independent)', () => {
  it.each(oracleNames(CALIBRATION))('%s', (name) => {
    expect(rowsOf(name, readOracle(name, CALIBRATION)).filter((row) => !row.ok)).toEqual([]);
  });
});

describe('the example files themselves', () => {
  it.each(names)('%s says why it allows more than half a unit of the last digit', (name) => {
    const oracle = oracles.get(name)!;
    const results = Object.values(oracle.printed);
    expect(results.length + Object.keys(oracle.mustNotMatch ?? {}).length).toBeGreaterThan(0);
    for (const printed of results) {
      const loose = (printed.slack ?? 1) > 1 || printed.relative !== undefined || printed.absolute !== undefined;
      if (loose) expect(printed.because, 'a looser check needs `because`').toMatch(/\w{3}/);
      if (typeof printed.value === 'number') expect(printed.unit, 'a number needs its unit').toBeTypeOf('string');
    }
    expect(oracle.where.length).toBeGreaterThan(3);
    expect(['looked-up', 'from-memory']).toContain(oracle.seen);
  });

  it('fails when a printed figure is changed: the comparison is alive', () => {
    const oracle = oracles.get('fm-crd-fine')!;
    const wrong: OracleFile = { ...oracle, printed: { modulus: { ...oracle.printed.modulus!, value: 3.31 } } };
    expect(rowsOf('fm-crd-fine', wrong).map((row) => row.ok)).toEqual([false]);
    const trap: OracleFile = {
      ...oracle,
      mustNotMatch: { modulus: { value: 3.29, unit: '-', within: 0.005, because: 'test' } },
    };
    expect(rowsOf('fm-crd-fine', trap).map((row) => row.ok)).toEqual([true, false]);
  });

  it('never repeats a file between the two folders', () => {
    expect(oracleNames(CASES).filter((name) => oracleNames(CALIBRATION).includes(name))).toEqual([]);
  });
});
