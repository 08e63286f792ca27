import { defineConfig } from 'vitest/config';

// The packages are tested from their sources, so that no test runs against a stale build.
const resolve = { conditions: ['wedgebook-source'] };
const ssr = { resolve };
// Core and charts hold no state between modules: one thread may run test after test.
// Generated studies take seconds where other work runs beside them.
const together = { pool: 'threads', isolate: false, testTimeout: 120_000 } as const;

export default defineConfig({
  test: {
    projects: [
      {
        resolve,
        ssr,
        test: {
          name: 'unit',
          ...together,
          include: [
            'packages/*/src/**/*.test.ts',
            'data/**/*.test.ts',
            'apps/web/src/**/*.test.ts',
          ],
        },
      },
      {
        resolve,
        ssr,
        test: { name: 'published', ...together, include: ['test/published/**/*.test.ts'] },
      },
      {
        resolve,
        ssr,
        test: { name: 'command', include: ['test/command/**/*.test.ts'], testTimeout: 120_000 },
      },
      {
        resolve,
        ssr,
        test: {
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          globalSetup: ['test/browser/build-app.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 20_000 } },
          maxWorkers: 2,
          // After the others: two browsers leave no processor to spare.
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
