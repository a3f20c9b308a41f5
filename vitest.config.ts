import { defineConfig } from 'vitest/config';

// What takes a module's place, or loads it anew, has a process of its own; all else shares one a core, and loads once.
const ALONE = 'test/**/*.alone.test.ts';

export default defineConfig({
  test: {
    globalSetup: ['test/support/build-once.ts'],
    maxWorkers: '100%',
    projects: [
      { extends: true, test: { name: 'shared', include: ['test/**/*.test.ts'], exclude: [ALONE], isolate: false } },
      { extends: true, test: { name: 'alone', include: [ALONE] } },
    ],
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
