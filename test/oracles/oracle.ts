import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { REGISTRY } from './registry.js';
import { factorOf } from './units.js';

export const CASES = fileURLToPath(new URL('./cases/', import.meta.url));
export const CALIBRATION = fileURLToPath(new URL('./calibration/', import.meta.url));

/** A number as the source prints it. */
export interface Quantity {
  readonly value: number;
  readonly unit: string;
}

export type GivenValue = number | string | Quantity | readonly (number | Quantity)[];
export type Given = Readonly<Record<string, GivenValue>>;

/** One printed result: a number with its digits, a range, or a word. */
export interface Printed {
  readonly value?: number | string;
  readonly low?: number;
  readonly high?: number;
  readonly unit?: string;
  /** Decimals printed: 2 for 3.29, 0 for 1735, -1 when rounded to tens. */
  readonly digits?: number;
  /** Multiplies half a unit of the last digit. */
  readonly slack?: number;
  /** Tolerance the source or the issue states, as a fraction of the value, or in the printed unit. */
  readonly relative?: number;
  readonly absolute?: number;
  /** Why anything but half a unit of the last digit is allowed. */
  readonly because?: string;
}

/** A published figure that is wrong: we must miss it by more than `within`. */
export interface Trap {
  readonly value: number | string;
  readonly unit?: string;
  readonly within?: number;
  readonly because: string;
}

export interface OracleFile {
  readonly name: string;
  readonly source: string;
  readonly where: string;
  readonly seen: 'looked-up' | 'from-memory';
  readonly model: string;
  readonly run: string;
  readonly given: Given;
  readonly printed: Readonly<Record<string, Printed>>;
  /** Our own full-precision values in core units, against silent change. */
  readonly exact?: Readonly<Record<string, number>>;
  readonly mustNotMatch?: Readonly<Record<string, Trap>>;
  readonly note?: string;
}

export interface Row {
  readonly file: string;
  readonly model: string;
  readonly key: string;
  readonly kind: 'printed' | 'exact' | 'trap';
  readonly predicted: number | string;
  readonly published: string;
  readonly unit: string;
  /** Error as a fraction of the printed value; null for words and ranges. */
  readonly error: number | null;
  readonly ok: boolean;
}

export function oracleNames(folder = CASES): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((name) => name.replace(/\.json$/, ''))
    .sort();
}

export const readOracle = (name: string, folder = CASES): OracleFile =>
  JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as OracleFile;

/** Half a unit of the last printed digit, times slack; or the stated tolerance. In the printed unit. */
function allowance(printed: Printed): number {
  if (printed.absolute !== undefined) return printed.absolute;
  if (printed.relative !== undefined) return printed.relative * Math.abs(printed.value as number);
  if (printed.digits === undefined) throw new RangeError('a printed number needs digits or a stated tolerance');
  return 0.5 * 10 ** -printed.digits * (printed.slack ?? 1);
}

/** A hair for sums in binary, so that a value exactly half a unit off still counts. */
const hair = (value: number): number => 1e-9 * Math.max(1, Math.abs(value));

function printedRow(key: string, printed: Printed, result: number | string): Omit<Row, 'file' | 'model'> {
  const unit = printed.unit ?? '';
  const base = { key, kind: 'printed', unit } as const;
  if (typeof printed.value === 'string') {
    return { ...base, predicted: result, published: printed.value, error: null, ok: result === printed.value };
  }
  if (typeof result !== 'number') throw new RangeError(`"${key}" gave a word where a number is printed`);
  const predicted = result / factorOf(unit);
  if (printed.value === undefined) {
    const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = printed;
    return { ...base, predicted, published: `${low}..${high}`, error: null, ok: predicted >= low && predicted <= high };
  }
  const miss = Math.abs(predicted - printed.value);
  return {
    ...base,
    predicted,
    published: printed.value.toFixed(Math.max(0, Math.min(printed.digits ?? 6, 15))),
    error: printed.value === 0 ? null : (predicted - printed.value) / Math.abs(printed.value),
    ok: miss <= allowance(printed) + hair(printed.value),
  };
}

function trapRow(key: string, trap: Trap, result: number | string): Omit<Row, 'file' | 'model'> {
  const unit = trap.unit ?? '';
  const base = { key, kind: 'trap', unit, error: null } as const;
  if (typeof trap.value === 'string') {
    return { ...base, predicted: result, published: `not ${trap.value}`, ok: result !== trap.value };
  }
  const predicted = (result as number) / factorOf(unit);
  const ok = Math.abs(predicted - trap.value) > (trap.within ?? 0);
  return { ...base, predicted, published: `not ${trap.value}`, ok };
}

/** Runs one example and compares every figure it prints. */
export function rowsOf(name: string, oracle: OracleFile): Row[] {
  const run = REGISTRY[oracle.run];
  if (run === undefined) throw new RangeError(`${name}: no run "${oracle.run}" in the registry`);
  const results = run(oracle.given);
  const result = (key: string): number | string => {
    const value = results[key];
    if (value === undefined) throw new RangeError(`${name}: the run gives no "${key}", only ${Object.keys(results)}`);
    return value;
  };
  const rows = [
    ...Object.entries(oracle.printed).map(([key, printed]) => printedRow(key, printed, result(key))),
    ...Object.entries(oracle.exact ?? {}).map(([key, exact]) => {
      const predicted = result(key) as number;
      const ok = Math.abs(predicted - exact) <= 1e-9 * Math.abs(exact);
      return { key, kind: 'exact', predicted, published: String(exact), unit: 'core', error: null, ok } as const;
    }),
    ...Object.entries(oracle.mustNotMatch ?? {}).map(([key, trap]) => trapRow(key, trap, result(key))),
  ];
  return rows.map((row) => ({ file: name, model: oracle.model, ...row }));
}
