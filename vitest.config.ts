import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    globalSetup: ['test/support/build-once.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: '100%',
  },
});
