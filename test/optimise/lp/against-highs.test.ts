import { expect, test } from 'vitest';
import { highsReference } from '../../support/highs-reference.js';
import { anyMixedProgram, anyProgram, blendProgram, flaggedBlend, packedBlend } from '../../support/random-programs.js';
import { emptyReport, trustLp, trustMilp } from '../../support/trust.js';

/** The sample that runs with every change; `npm run trust` is the long run over fresh seeds. */
const SEED = 50_000;

test('600 random linear programs: certified, rechecked, and the same as HiGHS', async () => {
  const reference = await highsReference();
  const report = emptyReport();
  for (let k = 0; k < 300; k++) trustLp(report, `blend g ${SEED + k}`, blendProgram(SEED + k).program, reference);
  for (const unit of ['kg', 'si'] as const) {
    for (let k = 0; k < 75; k++) {
      const seed = SEED + 300 + k;
      trustLp(report, `blend ${unit} ${seed}`, blendProgram(seed, { unit }).program, reference);
    }
  }
  for (let k = 0; k < 150; k++) trustLp(report, `any ${SEED + k}`, anyProgram(SEED + k), reference);
  expect(report.wrong).toEqual([]);
  expect(report.solved).toBe(600);
  expect(report.rechecked).toBe(600);
  expect(report.compared).toBeGreaterThan(350);
  expect(report.statuses['infeasible/infeasible']).toBeGreaterThan(90);
  expect(report.statuses['unbounded/unbounded']).toBeGreaterThan(30);
  expect(report.worstDifference).toBeLessThan(1e-6);
});

test('60 random mixed-integer programs: exhausted trees, and the same as HiGHS', async () => {
  const reference = await highsReference();
  const report = emptyReport();
  for (let k = 0; k < 20; k++) {
    trustMilp(report, `flags ${SEED + k}`, flaggedBlend(SEED + k), reference);
    trustMilp(report, `packs ${SEED + k}`, packedBlend(SEED + k), reference);
    trustMilp(report, `any mixed ${SEED + k}`, anyMixedProgram(SEED + k), reference);
  }
  expect(report.wrong).toEqual([]);
  expect(report.solved).toBe(60);
  expect(report.stopped).toBe(0);
  expect(report.rechecked).toBeGreaterThan(35);
  expect(report.compared).toBeGreaterThan(30);
  expect(report.worstDifference).toBeLessThan(1e-4);
});
