import { defineConfig } from 'vitest/config';

// The tests of one package, which Stryker runs against mutants of its sources.
const name = process.env['FINIAL_PACKAGE'] ?? 'units';
const conditions = ['@finial/source', 'module', 'development|production'];

export default defineConfig({
  resolve: { conditions: [...conditions, 'browser'] },
  ssr: { resolve: { conditions: [...conditions, 'node'] } },
  test: {
    name,
    include: [`packages/${name}/test/**/*.test.ts`],
    setupFiles: ['tests/support/randomSeed.ts'],
    testTimeout: 30_000,
  },
});
