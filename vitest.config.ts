import { defineConfig } from 'vitest/config';

/** Tests of pure functions: they leave nothing behind in a process, so files share the modules that they load. */
const pure = ['claims', 'diagnostics', 'harmony', 'lesson', 'output', 'player', 'score', 'sound', 'timeline'];
const pureFiles = pure.map(folder => `tests/${folder}/**/*.test.ts`);

export default defineConfig({
  test: {
    globalSetup: 'tests/temporary-folder.ts',
    passWithNoTests: false,
    allowOnly: false,
    // The browser tests run in real time; on a machine that is busy with other work one may need a second try.
    retry: process.env['CI'] === undefined ? 0 : 2,
    // Much of the time is spent waiting for pages that play; one of two cores would idle.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
    projects: [
      { extends: true, test: { name: 'pure', include: pureFiles, isolate: false } },
      { extends: true, test: { name: 'whole', include: ['tests/**/*.test.ts'], exclude: pureFiles } },
    ],
  },
});
