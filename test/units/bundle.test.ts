import { build } from 'esbuild';
import { expect, it } from 'vitest';

it('bundled, the unit engine brings only the unit tables of mathjs along', async () => {
  const { metafile } = await build({
    entryPoints: ['src/core/units/engine.ts'],
    bundle: true,
    minify: true,
    write: false,
    metafile: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'silent',
  });
  const inputs = Object.entries(Object.values(metafile.outputs)[0]!.inputs);
  const mathjs = inputs.filter(([path]) => path.includes('/mathjs/'));
  const bytes = mathjs.reduce((sum, [, { bytesInOutput }]) => sum + bytesInOutput, 0);
  expect(bytes).toBeGreaterThan(20_000);
  // All of mathjs is over 600 kB.
  expect(bytes).toBeLessThan(60_000);
});
