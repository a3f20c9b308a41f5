/**
 * `npm run truth [briefs] [first seed]`: random briefs over random shelves, each proposal held against what it says of
 * itself and each final program against HiGHS. Prints as it goes; ends with exit code 1 if anything is wrong.
 */
import { highsReference } from '../support/highs-reference.js';
import { emptyTruth, type TruthReport, truthOf } from '../support/truth.js';

const briefs = Number(process.argv[2] ?? 10_000);
const first = Number(process.argv[3] ?? 1_000_000);
const EVERY = 250;

const quantile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

function print(report: TruthReport): void {
  const ms = report.milliseconds;
  console.log(`\n${report.briefs} briefs from seed ${first}, ${report.targets} targets`);
  console.log(`  proposals     ${JSON.stringify(report.statuses)}; ${report.still} of the met stood still`);
  console.log(`  systems       ${JSON.stringify(report.systems)}`);
  console.log(
    `  final rows    ours/HiGHS ${JSON.stringify(report.programs)}, unclear ${report.referenceUnclear}, flat ${report.flat}, largest relative difference ${report.worstDifference.toExponential(1)}`,
  );
  console.log(
    `  time          median ${quantile(ms, 0.5).toFixed(0)}, 95 % ${quantile(ms, 0.95).toFixed(0)}, longest ${report.slowest.ms.toFixed(0)} ms (brief ${report.slowest.seed})`,
  );
  console.log(`  wrong         ${report.wrong.length}`);
  for (const line of report.wrong.slice(0, 40)) console.log(`    ${line}`);
}

const reference = await highsReference();
const report = emptyTruth();
for (let k = 0; k < briefs; k++) {
  truthOf(report, first + k, reference);
  if ((k + 1) % EVERY === 0 && k + 1 < briefs) print(report);
}
print(report);
process.exitCode = report.wrong.length === 0 ? 0 : 1;
