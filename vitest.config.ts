import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/temporary-folder.ts',
    passWithNoTests: false,
    allowOnly: false,
    // The browser tests run in real time; on a machine that is busy with other work one may need a second try.
    retry: process.env['CI'] === undefined ? 0 : 2,
    // Much of the time is spent waiting for pages that play; one of two cores would idle.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
