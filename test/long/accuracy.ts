/**
 * Prints, for every published figure under test/oracles, what the models predict beside what is printed, then mean and
 * worst error of each model. `npm run accuracy`; the table of models for the docs is `npm run models`.
 * Rows marked * were used to set a constant of the law (test/oracles/calibration): their error is a residual, not a check.
 */
import { MODELS } from '../../src/core/science/provenance.js';
import { checkedRows, summaryOf } from '../oracles/summary.js';

const rows = checkedRows();

const shown = (value: number | string): string =>
  typeof value === 'string' ? value : String(Number(value.toPrecision(7)));
const percent = (error: number | null): string =>
  error === null ? '' : `${error >= 0 ? '+' : ''}${(100 * error).toFixed(2)} %`;

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
    const s = summaryOf(model.id, rows);
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

printText();
process.exitCode = rows.some((row) => !row.ok) ? 1 : 0;
