/**
 * Prints, for every published figure under test/oracles, what the models predict beside what is printed, then mean and
 * worst error of each model. `npm run accuracy`; `--markdown` prints the table of models for the docs.
 * Rows marked * were used to set a constant of the law (test/oracles/calibration): their error is a residual, not a check.
 */
import { MODELS } from '../../src/core/science/provenance.js';
import { CALIBRATION, CASES, oracleNames, type Row, readOracle, rowsOf } from '../oracles/oracle.js';

interface ShownRow extends Row {
  readonly fitted: boolean;
  readonly seen: string;
  readonly source: string;
}

const rows: ShownRow[] = [CASES, CALIBRATION].flatMap((folder) =>
  oracleNames(folder).flatMap((name) => {
    const oracle = readOracle(name, folder);
    return rowsOf(name, oracle)
      .filter((row) => row.kind !== 'exact')
      .map((row) => ({ ...row, fitted: folder === CALIBRATION, seen: oracle.seen, source: oracle.source }));
  }),
);

const shown = (value: number | string): string =>
  typeof value === 'string' ? value : String(Number(value.toPrecision(7)));
const percent = (error: number | null): string =>
  error === null ? '' : `${error >= 0 ? '+' : ''}${(100 * error).toFixed(2)} %`;

interface Summary {
  readonly checks: number;
  readonly fitted: number;
  readonly numbers: number;
  readonly mean: number;
  readonly worst: ShownRow | null;
  readonly failed: number;
}

function summary(model: string): Summary {
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

function printText(): void {
  for (const model of MODELS) {
    const own = rows.filter((row) => row.model === model.id);
    console.log(`\n${model.title} (${model.id}, ${model.standing})`);
    if (own.length === 0) console.log('  no published figure found to check it against');
    for (const row of own) {
      const mark = row.fitted ? '*' : row.seen === 'from-memory' ? 'm' : ' ';
      const verdict = row.ok ? '' : '  FAILS';
      const left = `${mark} ${row.file} ${row.key}`.padEnd(58);
      console.log(
        `${left} ${shown(row.predicted).padStart(14)}  printed ${row.published} ${row.unit}  ${percent(row.error)}${verdict}`,
      );
    }
    const s = summary(model.id);
    if (s.numbers > 0) {
      console.log(
        `  mean error ${(100 * s.mean).toFixed(2)} %, worst ${percent(s.worst!.error)} (${s.worst!.file}), ${s.numbers} numbers`,
      );
    }
  }
  const independent = rows.filter((row) => !row.fitted);
  console.log(
    `\n${independent.length} published checks in ${new Set(independent.map((row) => row.file)).size} files, from ` +
      `${new Set(independent.map((row) => row.source)).size} sources; ` +
      `${independent.filter((row) => row.seen === 'from-memory').length} recalled (m); ` +
      `${rows.length - independent.length} fitted rows (*); ${rows.filter((row) => !row.ok).length} outside their tolerance`,
  );
}

function printMarkdown(): void {
  console.log('| Model | Standing | Sources | Published checks | Mean error | Worst error |');
  console.log('|---|---|---|---|---|---|');
  for (const model of MODELS) {
    const s = summary(model.id);
    const mean = s.numbers === 0 ? '' : `${(100 * s.mean).toFixed(2)} %`;
    const worst = s.worst === null ? '' : `${percent(s.worst.error)} (${s.worst.file})`;
    const checks = s.checks === 0 ? 'none found' : `${s.checks}`;
    console.log(
      `| ${model.title} | ${model.standing} | ${model.sources.join(', ')} | ${checks} | ${mean} | ${worst} |`,
    );
  }
}

if (process.argv.includes('--markdown')) printMarkdown();
else printText();
process.exitCode = rows.some((row) => !row.ok) ? 1 : 0;
