import { defineConfig } from 'vitest/config';

// Tests read the packages' sources through a private export condition, so that no build is needed to run one test.
const conditions = ['@finial/source', 'module', 'development|production'];

export default defineConfig({
  test: {
    coverage: {
      include: ['packages/*/src/**/*.ts'],
      reporter: ['text-summary', 'json-summary'],
      reportOnFailure: true,
      thresholds: { branches: 95 },
    },
    projects: [
      {
        resolve: { conditions: [...conditions, 'browser'] },
        ssr: { resolve: { conditions: [...conditions, 'node'] } },
        test: {
          name: 'unit',
          include: ['packages/*/test/**/*.test.ts', 'tests/**/*.test.ts'],
          benchmark: { include: ['packages/*/bench/**/*.bench.ts'] },
          setupFiles: ['tests/support/randomSeed.ts'],
          testTimeout: 30_000,
        },
      },
    ],
  },
});
