import type { Check } from '../../src/core/science/provenance/check.js';
import { MODELS } from '../../src/core/science/provenance.js';
import { CALIBRATION, CASES, oracleNames, type Row, readOracle, rowsOf } from './oracle.js';

/** A published figure beside what the model gives, with what the file says of itself. */
export interface CheckedRow extends Row {
  readonly fitted: boolean;
  readonly seen: string;
  readonly source: string;
  readonly where: string;
  readonly name: string;
}

/** Every published figure but the exact ones, which are our own, against silent change. */
export const checkedRows = (): CheckedRow[] =>
  [CASES, CALIBRATION].flatMap((folder) =>
    oracleNames(folder).flatMap((file) => {
      const { name, seen, source, where, ...oracle } = readOracle(file, folder);
      return rowsOf(file, { name, seen, source, where, ...oracle })
        .filter((row) => row.kind !== 'exact')
        .map((row) => ({ ...row, fitted: folder === CALIBRATION, seen, source, where, name }));
    }),
  );

export interface Summary {
  readonly checks: number;
  readonly fitted: number;
  readonly numbers: number;
  readonly mean: number;
  readonly worst: CheckedRow | null;
  readonly failed: number;
}

export function summaryOf(model: string, rows: readonly CheckedRow[]): Summary {
  const own = rows.filter((row) => row.model === model);
  const independent = own.filter((row) => !row.fitted);
  const measured = independent.filter((row) => row.error !== null);
  const sizes = measured.map((row) => Math.abs(row.error!));
  const largest = Math.max(...sizes);
  return {
    checks: independent.length,
    fitted: own.length - independent.length,
    numbers: measured.length,
    mean: sizes.reduce((a, b) => a + b, 0) / sizes.length,
    worst: measured.find((row) => Math.abs(row.error!) === largest) ?? null,
    failed: own.filter((row) => !row.ok).length,
  };
}

/** A check a line, so that a change shows as one. */
export const checksText = (checks: Readonly<Record<string, readonly Check[]>>): string => {
  const models = Object.entries(checks).map(([id, own]) => {
    const lines = own.map((check) => `  ${JSON.stringify(check)}`).join(',\n');
    return `${JSON.stringify(id)}: [${lines === '' ? '' : `\n${lines}\n`}]`;
  });
  return `{\n${models.join(',\n')}\n}\n`;
};

const FIGURES = 6;

/** The checks of every model as the program carries them, so that `why` can print them without the tests. */
export const checksByModel = (rows: readonly CheckedRow[]): Record<string, Check[]> =>
  Object.fromEntries(
    MODELS.map((m) => [
      m.id,
      rows
        .filter((row) => row.model === m.id)
        .map(
          ({ name, key, published, predicted, unit, error, fitted, seen, source, where, kind }): Check => ({
            name: `${name}${key === 'value' ? '' : `, ${key}`}`,
            source,
            where,
            printed: published,
            ours: typeof predicted === 'number' ? Number(predicted.toPrecision(FIGURES)) : predicted,
            unit,
            error: error === null ? null : Number(error.toPrecision(5)),
            standing: fitted ? 'fitted' : seen === 'from-memory' ? 'from-memory' : 'looked-up',
            ...(kind === 'trap' ? { trap: true as const } : {}),
          }),
        ),
    ]),
  );
