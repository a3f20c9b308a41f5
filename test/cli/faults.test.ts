import { describe, expect, it } from 'vitest';
import { fullDisk, fullQuota, killSaves, readOnlyFolder } from '../support/faults.js';

/** A small sample of `npm run faults`. */
describe('when the system fails', () => {
  it('a save that is killed leaves the last whole version', async () => {
    const { faults, counted } = await killSaves(8, 21);
    expect(faults).toEqual([]);
    expect(counted['killed']).toBeGreaterThan(4);
    expect(counted['saved']).toBeGreaterThan(4);
  });

  it('a folder that may only be read is said to be so, and stays as it is', async () => {
    expect((await readOnlyFolder()).faults).toEqual([]);
  });

  it('a write that is cut short leaves every acknowledged line, and no torn one', async () => {
    const { faults, counted } = await fullQuota();
    expect(faults).toEqual([]);
    expect(counted['lines called written']).toBeGreaterThan(10);
    expect(counted['saves called done']).toBeGreaterThan(2);
  });

  it('a full disk is told, and nothing that was there is lost', async ({ skip }) => {
    const { faults, skipped } = await fullDisk();
    if (skipped !== undefined) skip(skipped);
    expect(faults).toEqual([]);
  });
});
