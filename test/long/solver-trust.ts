/**
 * `npm run trust [linear programs] [mixed-integer programs] [first seed]`: the long run of our solver beside HiGHS on
 * fresh seeds (none of them was looked at while the ladder was made), every certificate rechecked in the tests' own arithmetic;
 * then the times beside HiGHS and YALPS. Ends with exit code 1 if anything is wrong.
 */
import { solve as yalps } from 'yalps';
import { solveLp } from '../../src/core/optimise/lp/solve.js';
import type { LinearProgram } from '../../src/core/optimise/lp/types.js';
import { highsReference, type ReferenceSolver } from '../support/highs-reference.js';
import {
  anyMixedProgram,
  anyProgram,
  blendProgram,
  flaggedBlend,
  packedBlend,
  type UnitForm,
} from '../support/random-programs.js';
import { emptyReport, type TrustReport, trustLp, trustMilp } from '../support/trust.js';
import { yalpsModel } from '../support/yalps-model.js';

const linear = Number(process.argv[2] ?? 12_000);
const mixed = Number(process.argv[3] ?? 1_200);
const SEED = Number(process.argv[4] ?? 1_000_000);

const quantile = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};
const times = (values: readonly number[]): string =>
  `median ${quantile(values, 0.5).toFixed(2)}, 95 % ${quantile(values, 0.95).toFixed(1)}, longest ${quantile(values, 1).toFixed(0)} ms`;

function print(title: string, report: TrustReport): void {
  console.log(`\n${title}: ${report.solved} programs`);
  console.log(`  ours/HiGHS         ${JSON.stringify(report.statuses)}`);
  console.log(
    `  objectives         ${report.compared} compared, largest relative difference ${report.worstDifference.toExponential(1)}`,
  );
  console.log(`  rechecked          ${report.rechecked} certificates`);
  if (Object.keys(report.rungs).length > 0) {
    console.log(
      `  first answer       failed its certificate ${report.firstFailed} times, looped ${report.capped} times`,
    );
    console.log(`  certified at       ${JSON.stringify(report.rungs)}`);
  } else {
    console.log(
      `  search             ${report.nodes} boxes, ${report.programs} linear programs, ${report.mended} of them mended; ${report.stopped} stopped`,
    );
  }
  console.log(
    `  HiGHS              unclear ${report.referenceUnclear}, changed its mind without presolve ${report.referenceChangedItsMind}`,
  );
  console.log(`  our time           ${times(report.milliseconds)}`);
  console.log(`  HiGHS' time        ${times(report.referenceMilliseconds)}`);
  console.log(`  wrong              ${report.wrong.length}`);
  for (const line of report.wrong.slice(0, 20)) console.log(`    ${line}`);
}

function linearRun(reference: ReferenceSolver): TrustReport[] {
  const families: [string, number, (seed: number) => LinearProgram][] = [
    ...(['g', 'kg', 'si'] as const).map((unit: UnitForm): [string, number, (seed: number) => LinearProgram] => [
      `blend, ${unit}`,
      unit === 'g' ? 0.5 : 0.125,
      (seed) => blendProgram(seed, { unit }).program,
    ]),
    ['blend, 200 materials', 0.05, (seed) => blendProgram(seed, { size: 200 }).program],
    ['any', 0.2, anyProgram],
  ];
  return families.map(([name, share, make]) => {
    const report = emptyReport();
    for (let k = 0; k < share * linear; k++) trustLp(report, `${name} ${SEED + k}`, make(SEED + k), reference);
    print(`Linear, ${name}`, report);
    return report;
  });
}

function mixedRun(reference: ReferenceSolver): TrustReport[] {
  const families: [string, (seed: number) => LinearProgram][] = [
    ['use flags', flaggedBlend],
    ['whole packs', packedBlend],
    ['any', anyMixedProgram],
  ];
  return families.map(([name, make]) => {
    const report = emptyReport();
    for (let k = 0; k < mixed / 3; k++) trustMilp(report, `${name} ${SEED + k}`, make(SEED + k), reference);
    print(`Mixed-integer, ${name}`, report);
    return report;
  });
}

/** Times of one linear program each, in ms. YALPS has no upper bounds: its programs have the few stock bounds left out. */
function timesBeside(reference: ReferenceSolver): void {
  console.log('\nTimes (median, 95 %; ms a program)');
  console.log('materials  rows        ours          HiGHS         YALPS');
  for (const size of [10, 30, 60, 200, 1000]) {
    const programs = Array.from(
      { length: size === 1000 ? 20 : 200 },
      (_, k) => blendProgram(SEED + k, { size }).program,
    );
    const models = programs.map(yalpsModel);
    const run = (work: (k: number) => unknown): string => {
      const spent = programs.map((_, k) => {
        const start = performance.now();
        work(k);
        return performance.now() - start;
      });
      return `${quantile(spent, 0.5).toFixed(2)} (${quantile(spent, 0.95).toFixed(1)})`.padEnd(14);
    };
    const ours = run((k) => solveLp(programs[k]!));
    const highs = run((k) => reference(programs[k]!));
    const other = run((k) => yalps(models[k]!));
    console.log(`${String(size).padEnd(11)}${String(programs[0]!.rows.length).padEnd(12)}${ours}${highs}${other}`);
  }
}

const reference = await highsReference();
const reports = [...linearRun(reference), ...mixedRun(reference)];
timesBeside(reference);
const wrong = reports.reduce((sum, report) => sum + report.wrong.length, 0);
console.log(`\n${reports.reduce((sum, report) => sum + report.solved, 0)} programs, ${wrong} wrong`);
process.exitCode = wrong === 0 ? 0 : 1;
